"""Messages about finished builds: the findings and outputs of each, and a summary."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from gesturesmith.cli.check import status_of
from gesturesmith.cli.console import clean, complain, say
from gesturesmith.cli.status import Status, worst

if TYPE_CHECKING:
    from gesturesmith.batch import BuildResult
    from gesturesmith.diagnostics import FileReport, GestureReport, PassageReport
    from gesturesmith.lilypond import Failure

type _Result = Literal["made", "unchanged", "refused", "failed"]
_SEEN: tuple[_Result, ...] = ("refused", "failed")  # named at the end


def reported(report: FileReport, *, colour: bool) -> Status:
    """Print errors and refusals in full, and count what is playable."""
    from gesturesmith.diagnostics import Report, Verdict, render_text

    everything: tuple[GestureReport | PassageReport, ...] = (*report.gestures, *report.passages)
    if not report.readable:
        say(render_text(Report(files=(report,)), colour=colour).rstrip("\n"))
        complain(f"{clean(report.source.name)} has errors; {_missing(report)}")
        return status_of(report)
    brief = replace(
        report,
        gestures=tuple(
            g if g.verdict is Verdict.NOT_AS_WRITTEN else replace(g, findings=()) for g in report.gestures
        ),
        passages=tuple(
            p if p.verdict is Verdict.NOT_AS_WRITTEN else replace(p, findings=()) for p in report.passages
        ),
    )
    say(render_text(Report(files=(brief,)), colour=colour).rstrip("\n"))
    if any(r.verdict is Verdict.WITH_CARE for r in everything):
        say("  for the cautions: gesturesmith check")
    return status_of(report)


def _missing(report: FileReport) -> str:
    """Name what is not engraved because of errors in a file."""
    if not report.usable or not (report.gestures or report.passages):
        return "nothing was engraved"
    names = ", ".join(clean(name) for name, _ in report.unread)
    return f"left out: {names}" if names else "no gesture is left out"


def delivered(done: BuildResult, folder: Path) -> Status:
    """Print which files were written, which were unchanged, and what failed."""
    status = Status.GOOD
    for failure in done.failures:
        complain(f"{done.build.name}: {_broken(failure, alone=not done.outputs)}")
        status = Status.MACHINE
    if done.blocked is not None:
        complain(done.blocked.reason)
        return worst(status, Status.MACHINE if done.blocked.machine else Status.INPUT)
    for line in _made(folder, done.written, named=done.build.kinds == ("page",)):
        say(clean(line))
    unchanged = len(done.outputs) - len(done.written)
    if unchanged:
        say(f"  unchanged: {'all ' if not done.written else ''}{unchanged} {'file' if unchanged == 1 else 'files'}")
    return worst(status, Status.MACHINE if done.lacking else Status.GOOD)


def lost(finished: Sequence[BuildResult]) -> Iterator[str]:
    """What the formats of a run have no place for, each once, and the formats that had nothing to hold."""
    lacks: dict[str, None] = {}
    for done in finished:
        for made in done.outputs:
            lacks |= dict.fromkeys(f"{made.place.suffix[1:]}: {name}" for name in made.lacks)
    by_format: dict[str, list[str]] = {}
    for one in lacks:
        kind, name = one.split(": ", 1)
        by_format.setdefault(kind, []).append(name)
    for kind, names in sorted(by_format.items()):
        yield f"{kind} cannot hold: {'; '.join(sorted(names))}"
    every = {kind for done in finished for kind in done.unmade}
    made_in = {made.place.suffix[1:] for done in finished for made in done.outputs}
    for kind in sorted(every - made_in):
        yield f"nothing here can be made as {kind}"


class BatchSummary:
    """Counts builds by result, and keeps the names of those that a copyist has to see to."""

    def __init__(self, unread: Sequence[str] = ()) -> None:
        """`unread`: names of files that could not be read at all."""
        self._count: Counter[_Result] = Counter({"failed": len(unread)})
        self._names: dict[_Result, list[str]] = {"failed": [*map(clean, unread)]}
        self._left_out: dict[str, None] = {}
        self._incomplete = 0
        self._unread = 0
        self._with_care = 0

    def add(self, done: BuildResult, said: Status) -> None:
        """`said`: the status of its reports. A build with nothing to make and nothing wrong is not counted."""
        unread = any(not report.readable for report in done.reports)
        if not done.whole or (not done.outputs and (unread or said is Status.INPUT)):
            kind: _Result = "failed"
        elif done.outputs:
            kind = "made" if done.written else "unchanged"
        elif said is Status.GOOD:
            return
        else:
            kind = "refused"
        # What is refused is so on every paper and in every language.
        of = done.build.sources[0].name if len(done.build.sources) == 1 and kind != "failed" else done.build.name
        name = clean(of)
        self._count[kind] += 1
        names = self._names.setdefault(kind, [])
        names += [name] if name not in names else []
        if kind in ("made", "unchanged"):
            missing = tuple(dict.fromkeys(clean(one) for one in _left_out(done)))
            self._left_out |= {f"{name} ({', '.join(missing)})": None} if missing else {}
            self._incomplete += bool(missing)
            self._unread += unread
            self._with_care += any(report.with_care for report in done.reports)

    @property
    def several(self) -> bool:
        return self._count.total() > 1

    @property
    def words(self) -> str:
        """`total: 30 made, 5 unchanged, 1 refused, 4 failed; 6 with care; 7 written without their refused
        gestures`, and below it the names of those refused, failed and incomplete."""
        counts = ", ".join(f"{self._count[kind]} {kind}" for kind in ("made", "unchanged", "refused", "failed"))
        care = f"; {self._with_care} with care" if self._with_care else ""
        left = f"; {self._incomplete} written without their refused gestures" if self._incomplete else ""
        unread = f"; {self._unread} written without their unreadable gestures" if self._unread else ""
        named = (
            ("without refused gestures", self._left_out),
            *((kind, self._names.get(kind, [])) for kind in _SEEN),
        )
        lines = [f"  {what}: {name}" for what, names in named for name in names]
        return "\n".join([f"total: {counts}{care}{left}{unread}", *lines])


def _left_out(done: BuildResult) -> Iterator[str]:
    """The names of what is refused and on no page: in a draft it is."""
    from gesturesmith.diagnostics import Verdict

    shown = {name for made in done.outputs for name in made.excerpts}
    for report in done.reports:
        everything: tuple[GestureReport | PassageReport, ...] = (*report.gestures, *report.passages)
        yield from (s.name for s in everything if s.verdict is Verdict.NOT_AS_WRITTEN and s.name not in shown)


def _broken(failure: Failure, *, alone: bool) -> str:
    whose = f'"{failure.gesture}" could not be engraved' if failure.gesture else "the page could not be engraved"
    return f"{whose}{', nothing was written' if alone else ''}: {failure.summary}"


def _made(folder: Path, written: tuple[Path, ...], *, named: bool) -> list[str]:
    """The pages by name, the snippets counted by folder and format; all by name if they are `named`."""
    groups: dict[Path, dict[str, int]] = {}
    lines = []
    for path in written:
        if named or path.with_suffix("").is_dir() or path.parent == folder:
            lines.append(f"  {path}")
        else:
            kinds = groups.setdefault(path.parent, {})
            kinds[path.suffix[1:]] = kinds.get(path.suffix[1:], 0) + 1
    for place, kinds in groups.items():
        lines.append(f"  {place}/  " + ", ".join(f"{count} {kind}" for kind, count in sorted(kinds.items())))
    return lines
