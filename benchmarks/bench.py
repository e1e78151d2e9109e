"""How fast, as ratios within one run: what the clock says of one machine says little of another.

python benchmarks/bench.py [ROUNDS]
"""

from __future__ import annotations

import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from gesturesmith import sheets
from gesturesmith.lilypond import PNG_DPI, LilyPond, find
from gesturesmith.paths import templates
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

DEMO = Path(__file__).parent.parent / "docs" / "demo" / "fog-signals.gesture"
PROGRAM = [sys.executable, "-m", "gesturesmith.cli.main"]
ONE = """instrument: horn
pitches: written
tempo: 66

gesture beacon "Beacon"
  technique: half-valve
  band: G4..F5
  contour: xG4 ~~ xD5@2 ~~ xB4@3 ~~ xF5@4
  lasts: 4 beats
  dynamics: p < f@3 > p
"""


def seconds(work: Callable[[], object], rounds: int) -> float:
    """The median of several rounds."""
    times = []
    for _ in range(rounds):
        started = time.perf_counter()
        work()
        times.append(time.perf_counter() - started)
    return statistics.median(times)


def program(*command: str | Path, cwd: Path) -> Callable[[], object]:
    """Running a program, from its start to its end; once before it is timed, so that its bytecode is there."""
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    environment["PYTHONPYCACHEPREFIX"] = str(cwd / "bytecode")
    environment["GESTURESMITH_CACHE"] = str(cwd / "cache")

    def work() -> None:
        subprocess.run(
            command,
            cwd=cwd,
            env=environment,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            check=True,
        )

    work()
    return work


def line(what: str, ratio: float, most: float, unit: str, figures: str) -> None:
    """One figure beside its limit."""
    verdict = "ok" if ratio <= most else "ABOVE"
    print(f"{what:<52} {ratio:6.2f} {unit:<2} at most {most:<4} {verdict:<6} ({figures})")


def many_gestures(count: int) -> str:
    """The demo's gestures over and over, each under a name of its own."""
    head, *blocks = DEMO.read_text("utf-8").split("\ngesture ")
    blocks[-1] = blocks[-1].split("\npassage ")[0]
    some = [block.partition("\n") for block in blocks]
    made = [f"gesture g{n}\n{some[n % len(some)][2]}" for n in range(count)]
    return head + "\n" + "\n".join(made)


def bench_start(folder: Path, rounds: int) -> None:
    """What a command costs before it does anything, against importing click."""
    base = seconds(program(sys.executable, "-c", "import click", cwd=folder), 2 * rounds)
    for what, arguments, most in (
        ("gesturesmith --version", ["--version"], 3.5),
        ("gesturesmith --help", ["--help"], 3.5),
        ("gesturesmith check DEMO", ["check", DEMO], 3.5),
    ):
        took = seconds(program(*PROGRAM, *arguments, cwd=folder), 2 * rounds)
        line(f"{what} / import click", took / base, most, "x", f"{took * 1000:.0f} / {base * 1000:.0f} ms")


def bench_check(rounds: int) -> None:
    """A thousand gestures, in a process that is already there."""
    source = Source("many.gesture", many_gestures(1000))
    options = Options(only_check=True)
    report = compile_text(source, options).report
    assert report.readable
    assert len(report.gestures) == 1000
    took = seconds(lambda: compile_text(source, options), rounds)
    line("check of 1,000 gestures", took, 1.0, "s", f"{took:.3f} s")


def bench_engrave(folder: Path, rounds: int, lilypond: LilyPond, formats: str) -> None:
    """One gesture, from the command to its files, against LilyPond on the document that is made of it."""
    (folder / "one.gesture").write_text(ONE, "utf-8")
    kinds = tuple(formats.split(","))
    only = None if kinds == ("pdf",) else "beacon"  # one document holds all that is made
    options = Options(formats=kinds, stem="one", only=only)
    items = compile_text(Source("one.gesture", ONE), options).items
    document = folder / "document.ly"
    document.write_text(sheets.document(tuple(i.book for i in items)), "utf-8")
    alone = program(
        lilypond.path,
        f"-I{templates()}",
        f"-dbackend={'cairo' if lilypond.cairo else 'ps'}",
        "-dno-point-and-click",
        f"-dresolution={PNG_DPI}",
        "--loglevel=WARNING",
        *(f"--{kind}" for kind in kinds),
        document,
        cwd=folder,
    )
    chosen = ["--only", only] if only else []
    made = program(*PROGRAM, "engrave", "--as", formats, *chosen, "one.gesture", cwd=folder)

    def ours() -> None:
        shutil.rmtree(folder / "cache" / "results")  # nothing is made already
        made()

    pairs = [(seconds(alone, 1), seconds(ours, 1)) for _ in range(2 * rounds)]
    base, took = (statistics.median(times) for times in zip(*pairs, strict=True))
    what = f"engrave one gesture ({formats}) / LilyPond alone"
    line(what, took / base, 1.9, "x", f"{took * 1000:.0f} / {base * 1000:.0f} ms")


def main() -> int:
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    lilypond = find()
    if not isinstance(lilypond, LilyPond):
        print(lilypond.reason, file=sys.stderr)
        return 3
    version = ".".join(map(str, lilypond.version))
    print(f"Python {sys.version.split()[0]}, LilyPond {version}, {os.cpu_count()} cores, medians")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        bench_start(folder, rounds)
        bench_check(rounds)
        bench_engrave(folder, rounds, lilypond, "pdf")
        if lilypond.cairo:
            bench_engrave(folder, rounds, lilypond, "pdf,png,svg")
    return 0


if __name__ == "__main__":
    sys.exit(main())
