"""What would work: edits to a gesture's own lines, each read and judged again before anyone sees it."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from gesturesmith.check.judge import Judged, judge
from gesturesmith.check.where import point_at
from gesturesmith.diagnostics import Edit, Finding, Severity, Suggestion, Verdict
from gesturesmith.lang import parse
from gesturesmith.lang.nodes import Block, Contour, Entry, File
from gesturesmith.model.piece import Settings
from gesturesmith.model.resolve import resolve
from gesturesmith.rules import _tries
from gesturesmith.rules.base import Case
from gesturesmith.source import Source, Span
from gesturesmith.units import Spelling
from gesturesmith.values import frozen

MOST = 3  # suggestions for one finding
TRIES = 40  # edits judged for one gesture: one of many faults must not hold up the rest
POINTS = 400  # points judged again for one gesture, over all its edits: nor must one of many points
_NOTE = re.compile(r"(?<![A-Za-z0-9])(x?)([A-G])(##|bb|[#b]?[v^]?)([0-9])(?![A-Za-z0-9])")
_ALTER = {
    "": 0, "#": 2, "b": -2, "##": 4, "bb": -4, "^": 1, "v": -1, "#^": 3, "#v": 1, "b^": -1, "bv": -3
}  # fmt: skip
_PARTS = re.compile(r"(point|line) ([0-9]+)\Z")
type Changes = tuple[tuple[str, str], ...]


def apply_edits(lines: Sequence[str], edits: Iterable[Edit], first_line: int = 1) -> tuple[str, ...]:
    """The lines with the edits made; `first_line` is the number of the first of them."""
    changed = list(lines)
    added: dict[int, list[str]] = {}
    for edit in edits:
        index = edit.line - first_line
        if edit.old == "":
            added.setdefault(index, []).append(edit.new)
        else:
            changed[index] = changed[index].replace(edit.old, edit.new, 1)
    return tuple(text for i, line in enumerate(changed) for text in (line, *added.get(i, ())))


class Bench:
    """The gestures of one file with their text, on which edits are tried out."""

    def __init__(self, tree: File, settings: Settings, lines: Sequence[str]) -> None:
        self._tree = tree
        self._settings = settings
        self._lines = lines
        self._blocks = {b.name.text.casefold(): b for b in tree.blocks if b.kind == "gesture"}

    def with_suggestions(self, judged: Judged) -> tuple[Finding, ...]:
        """The findings of a gesture, each with up to three edits that were checked and pass."""
        block = self._blocks.get(judged.case.gesture.name.casefold())
        wanted = any(f.try_values or f.severity is Severity.REFUSED for f in judged.findings)
        if block is None or not wanted:
            return judged.findings
        trial = _Trial(self, block, judged)
        return tuple(replace(f, suggestions=trial.suggestions(f), try_values=()) for f in judged.findings)

    def edits(self, block: Block, changes: Changes) -> tuple[Edit, ...] | None:
        """Changes of keys as edits of lines, or None where they change nothing or cannot be written."""
        parts: dict[str, str] = {}
        rows: list[Edit] = []
        for key, value in changes:
            text = self._as_read(value)
            match = _PARTS.match(key)
            if match:
                parts[key] = text
                continue
            entry = block.get(key)
            if entry is None:
                indent = block.indent or "  "
                rows.append(Edit(block.span.line, "", f"{indent}{key}: {text}"))
            else:
                rows += self._rewritten(block, entry, text)
        if parts:
            contour = self._contour_edits(block, parts)
            if contour is None:
                return None
            rows += contour
        return tuple(rows) or None

    def read_again(self, block: Block, edits: Iterable[Edit]) -> Judged | None:
        """The gesture of a block with edits made, judged; None where it can no longer be read."""
        lines = self._lines[block.span.line - 1 : block.last_line]
        text = "\n".join(apply_edits(lines, edits, block.span.line))
        tree, errors = parse(Source("edited", text))
        if errors or len(tree.blocks) != 1:
            return None
        alone = File(self._tree.settings, tree.blocks)
        piece, errors = resolve(alone, instrument=self._settings.instrument)
        if errors or piece is None or len(piece.gestures) != 1:
            return None
        return judge(piece.gestures[0])

    def _as_read(self, value: str) -> str:
        """A value with written pitches, turned to sounding ones where the file is read so."""
        if self._settings.pitches == "written" or '"' in value:
            return value
        return _NOTE.sub(lambda m: m[1] + self._settings.instrument.heard(_spelling(m)).name, value)

    def _rewritten(self, block: Block, entry: Entry, text: str) -> Iterator[Edit]:
        line = entry.key.span.line
        start, end = entry.key.span.column - 1, entry.span.end_column - 1
        old, new = self._lines[line - 1][start:end], f"{entry.key.text}: {text}"
        if old != new:
            yield Edit(line, old, new)
        for further in self._continued(block, entry):
            yield Edit(further, self._lines[further - 1].strip(), "")

    def _continued(self, block: Block, entry: Entry) -> Iterator[int]:
        """The lines after its first on which a value goes on: deeper than its key."""
        depth = entry.key.span.column - 1
        for number in range(entry.key.span.line + 1, block.last_line + 1):
            line = self._lines[number - 1]
            if not line.strip():
                continue
            if len(line) - len(line.lstrip()) <= depth:
                return
            yield number

    def _contour_edits(self, block: Block, parts: dict[str, str]) -> tuple[Edit, ...] | None:
        entry = block.get("contour")
        if entry is None or not isinstance(entry.value, Contour):
            return None
        by_line: dict[int, list[tuple[int, int, str]]] = {}
        for key, text in parts.items():
            kind, _, number = key.partition(" ")
            row = entry.value.points if kind == "point" else entry.value.lines
            if int(number) >= len(row):
                return None
            part = row[int(number)]
            span = entry.value.points[int(number)].height.span if kind == "point" else part.span
            by_line.setdefault(span.line, []).append((span.column - 1, span.end_column - 1, text))
        edits = []
        for row_number, changes in sorted(by_line.items()):
            line = self._lines[row_number - 1]
            new = line
            for start, end, text in sorted(changes, reverse=True):
                new = new[:start] + text + new[end:]
            if new != line:
                edits.append(_shortest(row_number, line, new, entry))
        return tuple(edits) or None


def _shortest(number: int, line: str, new: str, entry: Entry) -> Edit:
    """The change of a line as an edit of its value and key, without what stands around it."""
    start = len(line) - len(line.lstrip())
    end = entry.span.end_column - 1 if number == entry.key.span.line else len(line.rstrip())
    return Edit(number, line[start:end], new[start : len(new) - (len(line) - end)])


def _spelling(match: re.Match[str]) -> Spelling:
    return Spelling(match[2], Fraction(_ALTER[match[3]], 2), int(match[4]))


@frozen
class _Seen:
    """What counts of a judged gesture when edits are weighed."""

    verdict: Verdict
    places: Counter[tuple[str, int | None]]  # how often each rule found something at each point
    graver: tuple[Counter[str], ...]  # how often each rule found something at least as grave, by rank

    @classmethod
    def of(cls, judged: Judged) -> _Seen:
        places, graver = Counter[tuple[str, int | None]](), tuple(Counter[str]() for _ in Severity)
        spots = {p.span: i for i, p in enumerate(judged.case.gesture.points)}
        for finding in judged.findings:
            places[_place(judged, finding, spots)] += 1
            for rank in range((finding.severity or Severity.CAUTION).rank + 1):
                graver[rank][finding.rule] += 1
        return cls(judged.verdict, places, graver)


def _place(judged: Judged, finding: Finding, spots: dict[Span, int]) -> tuple[str, int | None]:
    index = spots.get(finding.span)
    return finding.rule, point_at(judged.case.gesture, finding.span) if index is None else index


class _Trial:
    """The suggestions for one gesture: every edit is judged once, however many findings propose it."""

    def __init__(self, bench: Bench, block: Block, judged: Judged) -> None:
        self._bench = bench
        self._block = block
        self._judged = judged
        self._before = _Seen.of(judged)
        self._spots = {p.span: i for i, p in enumerate(judged.case.gesture.points)}
        self._tries = max(4, min(TRIES, POINTS // len(judged.case.gesture.points)))
        self._general: tuple[Changes, ...] | None = None
        self._seen: dict[tuple[Edit, ...], _Seen | None] = {}

    def suggestions(self, finding: Finding) -> tuple[Suggestion, ...]:
        """Up to three edits that remove the finding, are not refused and cause nothing as bad."""
        if len(self._seen) >= self._tries:
            return ()
        good = self._passing(finding, finding.try_values)
        if good or finding.severity is not Severity.REFUSED:
            return good
        if self._general is None:
            self._general = tuple(general(self._judged.case))
        return self._passing(finding, self._general)

    def _passing(self, finding: Finding, proposals: tuple[Changes, ...]) -> tuple[Suggestion, ...]:
        good: list[Suggestion] = []
        for changes in proposals:
            edits = self._bench.edits(self._block, changes)
            if edits is None or any(s.edits == edits for s in good):
                continue
            again = self._again(edits)
            if again is None or not self._answers(finding, again):
                continue
            good.append(Suggestion(edits=edits, verdict=again.verdict, changes_music=_changes_music(changes)))
            if len(good) == MOST:
                break
        return tuple(good)

    def _again(self, edits: tuple[Edit, ...]) -> _Seen | None:
        if edits not in self._seen:
            if len(self._seen) >= self._tries:
                return None
            judged = self._bench.read_again(self._block, edits)
            self._seen[edits] = None if judged is None else _Seen.of(judged)
        return self._seen[edits]

    def _answers(self, finding: Finding, again: _Seen) -> bool:
        """Whether it is gone, nothing is refused, and no other rule finds more that is as grave."""
        if again.verdict is Verdict.REFUSED:
            return False
        place = _place(self._judged, finding, self._spots)
        if again.places[place] >= self._before.places[place]:
            return False
        rank = (finding.severity or Severity.CAUTION).rank
        before, after = self._before.graver[rank], again.graver[rank]
        return all(n <= before[rule] for rule, n in after.items() if rule != finding.rule)


def general(case: Case) -> Iterator[Changes]:
    """Edits that may help whatever is wrong, in the order of what a composer gives up most easily."""
    gesture = case.gesture
    if gesture.fingering.mode != "auto":
        yield (("fingering", "auto"),)
    if gesture.dynamics:
        yield from _tries.levels(gesture, "mf")
    for factor in (1.5, 2.0, 3.0):
        yield from _tries.slower(gesture, factor)
    if len(gesture.techniques) > 1:
        for technique in gesture.techniques:
            yield from _tries.without(case, technique.key)
    for semitones in (-2, 2, -5, 5, -12, 12):
        yield from _tries.moved(case, semitones)
    yield from _tries.about(gesture, *_tries.exact_points(gesture))


def _changes_music(changes: Changes) -> bool:
    """Whether other pitches are asked for, or exact ones become approximate."""
    return any(key in ("contour", "band", "sing") or key.startswith("point ") for key, _ in changes)
