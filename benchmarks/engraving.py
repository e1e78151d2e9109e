"""What LilyPond takes for a gesture in a book of many, against plain notes without anything of ours.

python benchmarks/engraving.py [GESTURES]
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from bench import line, many_gestures

from gesturesmith import sheets
from gesturesmith.lilypond import LilyPond, find
from gesturesmith.paths import templates
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

MOST_MS = 30  # a gesture in a book, with the cairo backend
MOST_ALONE_MS = 50  # a gesture with a file of its own
ROUNDS = 3
PLAIN = "\\score { \\new Staff { \\cadenzaOn c''4 e'' d'' g' } \\layout { indent = 36\\mm } }\n"
EMPTY = '\\version "2.24.0"\n\\include "gesturesmith.ily"\n\\paper { tagline = ##f }\n\\score { { c\'\'1 } }\n'


def took(lilypond: LilyPond, text: str, folder: Path) -> float:
    """The shortest of a few runs to a PDF, in processor seconds: LilyPond uses one core."""
    (folder / "book.ly").write_text(text, "utf-8")
    backend = "cairo" if lilypond.cairo else "ps"
    command = [lilypond.path, f"-I{templates()}", f"-dbackend={backend}", "-dno-point-and-click", "-s", "--pdf"]
    times = []
    for _ in range(ROUNDS):
        before = os.times()
        subprocess.run([*command, "book.ly"], cwd=folder, check=True)
        after = os.times()
        spent = after.children_user + after.children_system - before.children_user - before.children_system
        times.append(spent)
    return min(times)


def main() -> int:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    lilypond = find()
    if not isinstance(lilypond, LilyPond):
        print(lilypond.reason, file=sys.stderr)
        return 3
    started = time.process_time()
    items = compile_text(Source("many.gesture", many_gestures(count)), Options(stem="many")).items
    ours = 1000 * (time.process_time() - started) / count
    page = next(item for item in items if item.kind == "page")
    pictures = tuple(item.book for item in items if item.kind == "snippet")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        empty = took(lilypond, EMPTY, folder)
        plain = took(lilypond, '\\version "2.24.0"\n' + PLAIN * count, folder)
        together = took(lilypond, sheets.document((page.book,)), folder)
        apart = took(lilypond, sheets.document(pictures), folder)
    per = [1000 * (t - empty) / count for t in (plain, together, apart)]
    print(f"{count} gestures, LilyPond {'.'.join(map(str, lilypond.version))}, cairo: {lilypond.cairo}")
    for what, ms, most in (
        ("a gesture in a book", per[1], MOST_MS),
        ("a gesture as a picture of its own", per[2], MOST_ALONE_MS),
    ):
        line(what, ms, most, "ms", f"plain notes {per[0]:.1f} ms: {ms / per[0]:.1f} x")
    print(f"checked and engraved before LilyPond: {ours:.1f} ms a gesture")
    return 0


if __name__ == "__main__":
    sys.exit(main())
