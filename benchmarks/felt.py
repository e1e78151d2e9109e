"""What a user waits for, each row beside its goal, in processor time; then how time and memory grow.

python benchmarks/felt.py [ROW...]     rows named by one of these words, or all; exit status 1 if a goal is missed

The goals in seconds are for a quiet machine of 2026; ratios hold anywhere. The sandbox is off: what runs in it is
not counted as ours.
"""

from __future__ import annotations

import contextlib
import os
import random
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path, PurePosixPath

import check as checking
from batches import with_footnotes
from bench import ONE, PROGRAM, many_gestures

from gesturesmith import sheets, techniques
from gesturesmith.checker import check_text
from gesturesmith.lilypond import PNG_DPI, LilyPond, find
from gesturesmith.paths import templates
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

ROUNDS = 3
PLAIN = "\\new Staff { \\cadenzaOn c''4 e'' d'' g' }"
GROWS = 1.35  # how much more time or memory per gesture counts as more than linear


class Bench:
    """A folder to work in, its cache, and the rows printed so far."""

    def __init__(self, folder: Path, lilypond: LilyPond) -> None:
        self.folder = folder
        self.lilypond = lilypond
        self.missed = 0

    def row(self, what: str, value: float, goal: float, unit: str, more: str = "") -> None:
        good = value <= goal
        self.missed += not good
        print(
            f"{what:<58} {value:8.2f} {unit:<2} goal {goal:<6g} {'ok' if good else 'MISSED':<7}{more}", flush=True
        )

    def run(self, *command: str | Path, cached: bool = True) -> float:
        """Processor seconds of a program and all it starts."""
        environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
        environment["PYTHONPYCACHEPREFIX"] = str(self.folder / "bytecode")
        environment["GESTURESMITH_CACHE"] = str(self.folder / "cache")
        before = os.times()
        subprocess.run(
            [*command, *([] if cached else ["--no-cache"])],
            cwd=self.folder,
            env=environment,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            check=False,  # files with refused gestures are not a failure here
        )
        after = os.times()
        return after.children_user + after.children_system - before.children_user - before.children_system

    def ours(self, *arguments: str | Path, cached: bool = True) -> float:
        made = ["--sandbox", "never"] if arguments[0] in ("engrave", "notes", "sheet", "chart") else []
        return self.run(*PROGRAM, *arguments, *made, cached=cached)

    def alone(self, document: str, formats: tuple[str, ...]) -> float:
        """LilyPond alone on a document."""
        (self.folder / "document.ly").write_text(document, "utf-8")
        return self.run(
            self.lilypond.path.absolute(),
            f"-I{templates()}",
            f"-dbackend={'cairo' if self.lilypond.cairo else 'ps'}",
            "-dno-point-and-click",
            f"-dresolution={PNG_DPI}",
            "--loglevel=WARNING",
            *(f"--{kind}" for kind in formats),
            "document.ly",
        )


def least(work: Callable[[], float], rounds: int = ROUNDS) -> float:
    return min(work() for _ in range(rounds))


def spent(work: Callable[[], object]) -> float:
    """Processor seconds of this process."""
    started = time.process_time()
    work()
    return time.process_time() - started


def start(bench: Bench) -> None:
    click = [sys.executable, "-c", "import click"]
    bench.ours("check", "one.gesture")  # its bytecode is there
    base = least(lambda: bench.run(*click), 7)
    took = least(lambda: bench.ours("check", "one.gesture"), 7)
    bench.row("check of one gesture / import click", took / base, 2.3, "x", f"({took:.3f} / {base:.3f} s)")


def check(bench: Bench) -> None:
    good, bad = checking.bodies()
    for what, kinds, goal in (("", [], 2.0), (" with suggestions", bad, 5.0)):
        texts = list(checking.files(2000, good, kinds))
        ask = partial(checking.checked, suggestions=bool(kinds))
        took = sum(spent(partial(ask, text)) for text in texts)
        bench.row(f"check of 10,000 gestures{what}", 5 * took, goal, "s", "(five times 2,000)")


def json(bench: Bench, count: int = 500) -> None:
    """Random techniques on random lines: most are refused, and much is tried for them."""
    chance = random.Random(1)
    blocks: list[str] = []
    while len(blocks) < count:
        notes = [f"{chance.choice('CDEFGAB')}{chance.randint(3, 5)}" for _ in range(chance.randint(2, 5))]
        line = chance.choice((", ", " ~~ ", " -- ")).join(notes)
        body = f"  technique: {chance.choice(techniques.names())}\n  contour: {line}\n  dynamics: mf\n"
        text = f"{checking.HEAD}\ngesture a\n{body}"
        if not check_text(Source("a", text), suggestions=False).report.errors:
            blocks.append(f"\ngesture g{len(blocks)}\n{body}")
    (bench.folder / "random.gesture").write_text(checking.HEAD + "".join(blocks), "utf-8")
    took = (bench.ours("check", "--json", "random.gesture") - bench.ours("check", "one.gesture")) * 2000 / count
    bench.row("check --json of 2,000 random horn gestures", took, 4.0, "s", f"({2000 // count} times {count})")


def one(bench: Bench) -> None:
    kinds = ("pdf", "svg", "png")
    items = compile_text(Source("one.gesture", ONE), Options(formats=kinds, stem="one", only="beacon")).items
    document = sheets.document(tuple(i.book for i in items))
    base = least(lambda: bench.alone(document, kinds))
    ratios = []
    for tempo in range(60, 60 + ROUNDS + 2):  # the first two compile the stencils
        (bench.folder / "one.gesture").write_text(ONE.replace("66", str(tempo)), "utf-8")
        ratios.append(bench.ours("engrave", "--as", ",".join(kinds), "--only", "beacon", "one.gesture") / base)
    bench.row(
        "one gesture to PDF, SVG and PNG / LilyPond alone", min(ratios[2:]), 1.2, "x", f"(LilyPond {base:.2f} s)"
    )


def notes(bench: Bench, count: int = 500) -> None:
    from gesturesmith.pipeline.notes import compile_notes
    from gesturesmith.pipeline.types import NotesOptions

    text = with_footnotes(many_gestures(count))
    (bench.folder / "notes.gesture").write_text(text, "utf-8")
    options = NotesOptions(folders=(None,), stem="notes")
    items = compile_notes((Source("notes.gesture", text),), options).items
    document = sheets.document(tuple(item.book for item in items))
    base, took = bench.alone(document, ("pdf",)), bench.ours("notes", "notes.gesture")
    bench.row(
        f"notes of {count} / LilyPond alone on the same book", took / base, 1.0, "x", f"({took:.1f} / {base:.1f} s)"
    )


def snippets(bench: Bench, count: int = 500) -> None:
    text = many_gestures(count)
    path = bench.folder / "many.gesture"
    path.write_text(text, "utf-8")
    items = compile_text(Source("many.gesture", text), Options(pages=False)).items
    some = [item.document for item in items[:: count // 10]][:10]
    each = statistics.mean(bench.alone(one, ("pdf", "svg")) for one in some)
    command = ["engrave", "--snippets", "--as", "pdf,svg", path.name]
    took = bench.ours(*command)
    figures = f"({took:.1f} / {each * count:.0f} s)"
    bench.row(f"{count} snippets to PDF and SVG / a LilyPond each", took / each / count, 0.09, "x", figures)
    bench.ours(*command)
    bench.row(f"the same, nothing changed of {count}", least(lambda: bench.ours(*command)), 0.1, "s")
    changes = []
    for number in range(ROUNDS):
        head, first, rest = text.partition("lasts: 4 beats")
        path.write_text(f"{head}{first.replace('4', str(5 + number))}{rest}", "utf-8")
        changes.append(bench.ours(*command))
    bench.row(f"the same, one of {count} changed", min(changes), 0.3, "s")


def sheet(bench: Bench) -> None:
    command = ("sheet", "--technique", "half-valve", "--instrument", "horn")
    bench.row("sheets, five levels of a technique", bench.ours(*command, cached=False), 3.0, "s")


def warm(bench: Bench, count: int = 20) -> None:
    from gesturesmith import writers
    from gesturesmith.cache import Store
    from gesturesmith.lilypond import Job, LilyPondPool

    def kids(pid: int) -> float:
        found = Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()
        return sum(int(n) for n in found[11:15]) / os.sysconf("SC_CLK_TCK")

    with LilyPondPool(bench.lilypond, keeper=Store(bench.folder / "warm")) as pool:
        if not pool.stays:
            print("no LilyPond stays here: a change to SVG is not measured")
            return
        pool.compile(at_once=True)
        pool.ready(("svg",))
        pid = pool._warm[("svg",)]._run.process.pid

        def picture(tempo: int) -> bytes:
            text = ONE.replace("66", str(tempo))
            options = Options(formats=("svg",), stem="one", only="beacon", place=PurePosixPath("x"))
            (item,) = compile_text(Source("one.gesture", text), options).items
            run = pool.one(("svg",), Job(document=item.document))
            return writers.get("svg").finish(item, run.file(item.output, "svg") or b"")

        picture(60)
        before = kids(pid)
        own = spent(lambda: [picture(61 + n) for n in range(count)])
        theirs = kids(pid) - before
    figures = f"({1000 * own / count:.0f} ms ours, {1000 * theirs / count:.0f} ms LilyPond's)"
    bench.row(
        "a change, from text to SVG, by a LilyPond that stays", 1000 * (own + theirs) / count, 50, "ms", figures
    )


def chart(bench: Bench) -> None:
    command = ("chart", "horn", "--kind", "map")
    bench.ours("chart", "--help")
    bench.row("map of an instrument", bench.ours(*command), 0.5, "s", "(with LilyPond)")
    bench.row("the same again", bench.ours(*command), 0.1, "s")


def passage_of(count: int) -> str:
    """A passage of gestures, of which one in five is refused."""
    good, bad = checking.bodies()
    blocks = [
        f"\ngesture g{n}\n{(bad[n // 5 % len(bad)] if n % 5 == 0 else good[n % len(good)]).rstrip()}\n"
        for n in range(count)
    ]
    play = ", ".join(f"g{n}" for n in range(count))
    return f"{checking.HEAD}{''.join(blocks)}\npassage all\n  play: {play}\n"


def passages(bench: Bench) -> None:
    """Also that twice the length takes twice the time."""
    took = {}
    for count in (50, 100, 200, 400):
        source = Source("p.gesture", passage_of(count))
        took[count] = spent(partial(check_text, source))
    figures = ", ".join(f"{n}: {t:.2f}" for n, t in took.items())
    bench.row("a passage of 400, a fifth refused, with suggestions", took[400], 2.0, "s", f"({figures})")
    bench.row("  400 / 100, a gesture", took[400] / 4 / took[100], GROWS, "x")


def points(bench: Bench) -> None:
    line = ", ".join(f"{'CDEFG'[n % 5]}{5 + n % 2}@{n}" for n in range(500))
    text = (
        f"{checking.HEAD}\ngesture a\n  technique: growl\n  contour: {line}\n  lasts: 500 beats\n  dynamics: fff\n"
    )
    bench.row("a gesture of 500 points, with suggestions", spent(lambda: check_text(Source("a", text))), 1.0, "s")


def peak_mb() -> float:
    return resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024


def growth(bench: Bench) -> None:
    """Time and memory of check, and of notes and snippets, a gesture: no more for many than for some."""
    for command, sizes in (
        (("check",), (100, 1000, 5000)),
        (("engrave", "--snippets", "--as", "svg"), (50, 500)),
        (("notes",), (50, 500)),
    ):
        per = []
        for count in sizes:
            path = bench.folder / f"grown{count}.gesture"
            text = many_gestures(count)
            path.write_text(with_footnotes(text) if command == ("notes",) else text, "utf-8")
            extra = bench.ours(command[0], "--help")
            per.append((bench.ours(*command, path.name) - extra) / count)
        bench.row(f"{command[0]}: {sizes[-1]} / {sizes[-2]} gestures, a gesture", per[-1] / per[-2], GROWS, "x")
    bench.row("the most memory of any of them", peak_mb(), 600, "MB")


def catalogue(bench: Bench) -> None:
    """Files of three gestures each, checked."""
    per = []
    for count in (100, 1000):
        folder = bench.folder / f"catalogue{count}"
        folder.mkdir(exist_ok=True)
        for number in range(count):
            (folder / f"f{number}.gesture").write_text(
                many_gestures(3).replace("gesture g", f"gesture n{number}-"), "utf-8"
            )
        per.append((bench.ours("check", folder.name) - bench.ours("check", "--help")) / count)
    bench.row(
        "catalogue: 1,000 / 100 files, a file", per[1] / per[0], GROWS, "x", f"({1000 * per[1]:.1f} ms a file)"
    )


ROWS = (start, check, json, passages, points, one, warm, sheet, chart, snippets, notes, growth, catalogue)


@contextlib.contextmanager
def workplace() -> Iterator[Path]:
    with tempfile.TemporaryDirectory() as name:
        yield Path(name)


def main() -> int:
    lilypond = find(sandbox="never")
    if not isinstance(lilypond, LilyPond):
        print(lilypond.reason, file=sys.stderr)
        return 3
    wanted = sys.argv[1:]
    with workplace() as folder:
        bench = Bench(folder, lilypond)
        (folder / "one.gesture").write_text(ONE, "utf-8")
        for row in ROWS:
            if not wanted or any(word in row.__name__ for word in wanted):
                row(bench)
    return 1 if bench.missed else 0


if __name__ == "__main__":
    sys.exit(main())
