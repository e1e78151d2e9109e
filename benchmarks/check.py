"""How fast the checker is: processor seconds on one core, and what memory it keeps.

python benchmarks/check.py [GESTURES]     10,000 unless another number is said; exit status 1 above a limit
"""

from __future__ import annotations

import gc
import statistics
import sys
import time
from collections.abc import Iterator
from pathlib import Path

from gesturesmith.checker import check_text
from gesturesmith.diagnostics import FileReport, Verdict
from gesturesmith.rules import all_rules
from gesturesmith.rules.shared.doc import sections
from gesturesmith.source import Source
from gesturesmith.units import spell

DEMO = Path(__file__).parent.parent / "docs" / "demo" / "fog-signals.gesture"
HEAD = "instrument: horn\npitches: written\ntempo: 72\n"
REFUSED = 5  # one gesture in so many
PER_FILE = 1000
STARTS = tuple(range(6000, 7300, 100))  # written C4 to C5, so that no two files hold the same pitches in a row
LIMITS = {"check": 5.0, "suggest": 30.0, "one": 0.050, "memory": 4.0}
COUNT = 10_000  # the gestures the first two limits are for


def bodies() -> tuple[list[str], list[str]]:
    """Blocks that can be played, those of the demo, and blocks that are refused, from the examples of the rules."""
    demo = DEMO.read_text("utf-8").split("\npassage ")[0].split("\ngesture ")[1:]
    good = [block.partition("\n")[2] for block in demo]
    bad = []
    for rule in all_rules():
        text = sections(rule.doc)["Fires"]
        head, one, rest = text.partition("gesture a\n")
        if (
            one
            and "instrument: horn\n" in head
            and "written" in head
            and "\ngesture " not in rest
            and "\npassage" not in rest
        ):
            report = checked(HEAD + f"gesture a\n{rest}\n", suggestions=False)
            if report.gestures[0].verdict is Verdict.NOT_AS_WRITTEN:
                bad.append(rest)
    return good, bad


def checked(text: str, *, suggestions: bool) -> FileReport:
    source = Source("bench.gesture", text)
    report = check_text(source, suggestions=suggestions).report
    assert not report.errors
    return report


def files(count: int, good: list[str], bad: list[str]) -> Iterator[str]:
    """Files of a thousand gestures with notes that vary: of five, four can be played and one is refused."""
    for start in range(0, count, PER_FILE):
        blocks = []
        for n in range(start, min(count, start + PER_FILE)):
            body = bad[n // REFUSED % len(bad)] if bad and n % REFUSED == 0 else _varied(good, n)
            blocks.append(f"\ngesture g{n}\n{body.rstrip()}\n")
        yield HEAD + "".join(blocks)


def _varied(good: list[str], n: int) -> str:
    """Every third is a line of plain notes of its own, the others are the demo's gestures in turn."""
    if n % 3:
        return good[n % len(good)]
    notes = [spell(STARTS[(n * step) % len(STARTS)]).name for step in (1, 5, 7, 11)]
    return f"  contour: {', '.join(notes)}\n  dynamics: {('p', 'mf', 'f')[n % 7 % 3]}\n"


def resident_mb() -> float:
    """Memory that this process holds, in MB; 0 where the system does not tell."""
    status = Path("/proc/self/status")
    if not status.is_file():
        return 0.0
    line = next(row for row in status.read_text().splitlines() if row.startswith("VmRSS"))
    return int(line.split()[1]) / 1024


def line(what: str, value: float, most: float, unit: str, more: str = "") -> bool:
    good = value <= most
    print(f"{what:<58} {value:7.2f} {unit:<2} at most {most:<5g} {'ok' if good else 'ABOVE':<6}{more}")
    return good


def bench_many(count: int, good: list[str], bad: list[str], *, suggestions: bool) -> bool:
    """All gestures, from text to report, file after file; and the memory that grows from the first to the last."""
    share, seconds, refused, memory = count / COUNT, 0.0, 0, []
    for text in files(count, good, bad):
        started = time.process_time()
        report = checked(text, suggestions=suggestions)
        seconds += time.process_time() - started
        refused += sum(g.verdict is Verdict.NOT_AS_WRITTEN for g in report.gestures)
        del report
        gc.collect()
        memory.append(resident_mb())
    what = f"{count} gestures" + (
        f" with suggestions, {refused} refused" if suggestions else ", from text to report"
    )
    limit = LIMITS["suggest" if suggestions else "check"] * share
    fine = line(what, seconds, limit, "s", f"({1000 * seconds / count:.2f} ms a gesture)")
    if len(memory) >= 4:
        grown = memory[-1] - memory[1]  # the first two files fill the caches
        fine &= line(
            "  memory, from the second file to the last", grown, LIMITS["memory"], "MB", f"({memory[-1]:.0f} MB)"
        )
    return fine


def bench_one(bad: list[str]) -> bool:
    """One refused gesture with its suggestions: the slowest of the examples, at its median."""
    worst, which = 0.0, ""
    for body in bad:
        text = f"{HEAD}\ngesture a\n{body}\n"
        times = []
        for _ in range(5):
            started = time.process_time()
            checked(text, suggestions=True)
            times.append(time.process_time() - started)
        if statistics.median(times) > worst:
            worst, which = statistics.median(times), " ".join(body.split())[:60]
    return line(
        "one refused gesture with suggestions, the slowest", 1000 * worst, 1000 * LIMITS["one"], "ms", f"({which})"
    )


def main() -> int:
    gc.set_threshold(100_000)  # as the program has it (cli/main.py)
    count = int(sys.argv[1]) if len(sys.argv) > 1 else COUNT
    good, bad = bodies()
    print(f"Python {sys.version.split()[0]}, processor time; {len(good)} and {len(bad)} kinds of gestures")
    fine = [
        bench_many(count, good, [], suggestions=False),
        bench_many(count, good, bad, suggestions=True),
        bench_one(bad),
    ]
    return 0 if all(fine) else 1


if __name__ == "__main__":
    sys.exit(main())
