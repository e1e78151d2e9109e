"""How fast batches are, as ratios within one run, and how much memory they take.

python benchmarks/batches.py [GESTURES]
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from bench import PROGRAM, line, many_gestures, program

from gesturesmith import sheets
from gesturesmith.lilypond import LilyPond, find
from gesturesmith.paths import templates
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.pipeline.notes import compile_notes
from gesturesmith.pipeline.types import NotesOptions
from gesturesmith.source import Source

CORES = 2
ALONE = 8  # snippets with a LilyPond of their own, from which the time of all is told
ROUNDS = 3
MOST_MB = 600


def timed(work: Callable[[], object]) -> float:
    started = time.perf_counter()
    work()
    return time.perf_counter() - started


def with_footnotes(text: str) -> str:
    """Every gesture with words of its own, so that it has an entry of its own in the notes."""
    head, *blocks = text.split("\ngesture ")
    noted = []
    for number, block in enumerate(blocks):
        lines = [one for one in block.rstrip("\n").split("\n") if not one.startswith("  footnote:")]
        noted.append("\n".join([*lines, f'  footnote: "The way of the {number}th: follow the shape."', ""]))
    return "\ngesture ".join([head, *noted])


def alone(lilypond: LilyPond, folder: Path, formats: tuple[str, ...]) -> Callable[[str], None]:
    """A function that has LilyPond make a document by itself."""

    def make(document: str) -> None:
        with tempfile.TemporaryDirectory(dir=folder) as name:
            (Path(name) / "document.ly").write_text(document, "utf-8")
            backend = "cairo" if lilypond.cairo else "ps"
            command = [lilypond.path, f"-I{templates()}", f"-dbackend={backend}", "-dno-point-and-click", "-s"]
            subprocess.run(
                [*command, *(f"--{f}" for f in formats), "document.ly"],
                cwd=name,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
                check=True,
            )

    return make


def forget(folder: Path) -> None:
    """Nothing is made already."""
    for place in (folder / "cache" / "results", folder / "out"):
        shutil.rmtree(place, ignore_errors=True)


class Memory:
    """The most memory that this process's children have had together, in MB; looked at ten times a second."""

    def __init__(self) -> None:
        self.most = 0.0
        self._over = threading.Event()
        self._looking = threading.Thread(target=self._look)

    def __enter__(self) -> Memory:
        self._looking.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._over.set()
        self._looking.join()

    def _look(self) -> None:
        while not self._over.wait(0.1):
            self.most = max(self.most, sum(_resident(pid) for pid in _below(os.getpid())) / 1e6)


def _below(pid: int) -> list[int]:
    """The processes a process has started, and those they have; Linux tells."""
    found: list[int] = []
    for task in Path(f"/proc/{pid}/task").glob("*/children"):
        try:
            children = [int(child) for child in task.read_text().split()]
        except OSError:  # it has ended
            continue
        found += [*children, *(one for child in children for one in _below(child))]
    return found


def _resident(pid: int) -> int:
    """The memory of a process, in bytes; what several share is divided among them."""
    try:
        lines = Path(f"/proc/{pid}/smaps_rollup").read_text().splitlines()
    except OSError:  # it has ended
        return 0
    return sum(1024 * int(one.split()[1]) for one in lines if one.startswith("Pss:"))


def bench_notes(folder: Path, lilypond: LilyPond, text: str) -> float:
    """Notes for all gestures on a cold cache, against LilyPond alone on the same document; MB of memory."""
    (folder / "notes.gesture").write_text(text, "utf-8")
    options = NotesOptions(folders=(None,), stem="notes")
    items = compile_notes((Source("notes.gesture", text),), options).items
    document = sheets.document(tuple(item.book for item in items))
    make = alone(lilypond, folder, ("pdf",))
    command = program(*PROGRAM, "notes", "notes.gesture", cwd=folder)
    pairs = []
    for _ in range(ROUNDS):
        forget(folder)
        base = timed(lambda: make(document))
        with Memory() as memory:
            pairs.append((base, timed(command)))
    base, took = min(p[0] for p in pairs), min(p[1] for p in pairs)
    entries = document.count("\\score")
    line(f"notes, {entries} pictures, / LilyPond alone", took / base, 1.3, "x", f"{took:.1f} / {base:.1f} s")
    return memory.most


def bench_snippets(folder: Path, lilypond: LilyPond, text: str, count: int) -> float:
    """Snippets to PDF and SVG: all, then one changed, then nothing changed; MB of memory for all."""
    path = folder / "many.gesture"
    path.write_text(text, "utf-8")
    items = compile_text(Source("many.gesture", text), Options(pages=False)).items
    some = [item.document for item in items[:: max(1, count // ALONE)]][:ALONE]
    make = alone(lilypond, folder, ("pdf", "svg"))
    with ThreadPoolExecutor(CORES) as executor:
        each = timed(lambda: list(executor.map(make, some))) / len(some)
    common = [*PROGRAM, "engrave", "--snippets", "--as", "pdf,svg"]
    program(*common, "--only", "g1", path.name, cwd=folder)  # its bytecode is there
    command = [*common, "--jobs", str(CORES), path.name]
    forget(folder)
    with Memory() as memory:
        took = timed(lambda: run(command, folder))
    figures = f"{took:.1f} / {each * count:.1f} s"
    line(f"{count} snippets to pdf,svg / a LilyPond each", took / (each * count), 0.2, "x", figures)
    changes = []
    for number in range(ROUNDS):
        head, first, rest = text.partition("lasts: 4 beats")
        path.write_text(f"{head}{first.replace('4', str(5 + number))}{rest}", "utf-8")
        changes.append(timed(lambda: run(command, folder)))
    line(f"the same, one of {count} changed", min(changes), 1.0, "s", f"{min(changes):.2f} s")
    same = min(timed(lambda: run(command, folder)) for _ in range(ROUNDS))
    line("the same, nothing changed", same, 0.5, "s", f"{same:.2f} s")
    return memory.most


def run(command: list[str], folder: Path) -> None:
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    environment |= {"PYTHONPYCACHEPREFIX": str(folder / "bytecode"), "GESTURESMITH_CACHE": str(folder / "cache")}
    subprocess.run(command, cwd=folder, env=environment, stdout=subprocess.DEVNULL, check=True)


def main() -> int:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    lilypond = find()
    if not isinstance(lilypond, LilyPond):
        print(lilypond.reason, file=sys.stderr)
        return 3
    text = many_gestures(count)
    with tempfile.TemporaryDirectory() as name:
        most = bench_notes(Path(name), lilypond, with_footnotes(text))
        most = max(most, bench_snippets(Path(name), lilypond, text, count))
    line("memory of it all", most, MOST_MB, "MB", f"{most:.0f} MB")
    return 0


if __name__ == "__main__":
    sys.exit(main())
