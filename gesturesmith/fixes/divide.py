"""Divides a gesture in two, with the passages that play it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from gesturesmith.diagnostics import Edit
from gesturesmith.fixes.edits import EditWriter
from gesturesmith.judge.places import ordinal
from gesturesmith.lang.nodes import Block, Contour, Height, Note, Play, PlayItem, PointNode
from gesturesmith.lang.words import SIGNS
from gesturesmith.model.context import spelled
from gesturesmith.model.gesture import AskedFingering, DynamicMark, Gesture
from gesturesmith.model.graces import has_graces
from gesturesmith.model.levels import level_at
from gesturesmith.model.messages import amount
from gesturesmith.model.times import spread
from gesturesmith.rules.base import Case
from gesturesmith.techniques.base import Technique
from gesturesmith.values import frozen

_MAX_CUTS = 2  # places tried in one gesture
_COPIED = (
    "mute",
    "trill",
    "tremolo",
    "speed",
    "width",
    "band",
    "fallback",
    "footnote",
    "note",
    "notehead",
    "allow",
)


@frozen(kw_only=True)
class Cut:
    """A place to divide a gesture.

    first    index of the first point of the second half
    last     index of the last point of the first half: the same if a line leads to it, one less if notes are
             detached or a line is removed, two less if a silence between them is removed
    in_line  whether a line is cut or removed
    """

    first: int
    last: int
    in_line: bool = False


def cuts(case: Case) -> tuple[Cut, ...]:
    """The best places to divide a gesture: a silence, a breath, a break of the slide, a change of technique; else
    between the detached notes nearest to the middle; else at the turning point nearest to it."""
    gesture = case.gesture
    points, count = gesture.points, len(gesture.points)
    middle = gesture.beats / 2
    ranked: list[tuple[int, Fraction, Cut]] = []
    for index in range(1, count):
        before, point = points[index - 1], points[index]
        slides = gesture.segments[index - 1].slides
        away = abs(point.at - middle)
        if before.kind == "silence" and index >= 2 and point.kind != "silence":
            ranked.append((0, away, Cut(first=index, last=index - 2)))
        elif "silence" in (before.kind, point.kind) or gesture.segments[index - 1].kind == "slur":
            continue
        elif not slides:
            rank = 0 if "breath" in before.marks else 2 if point.turns_to or point.ends else 3
            ranked.append((rank, away, Cut(first=index, last=index - 1)))
        elif index in case.realisation.breaks:  # the slide is reset there: the line to it was never played
            ranked.append((1, away, Cut(first=index, last=index - 1, in_line=True)))
        elif index < count - 1:
            ranked.append(
                (2 if point.turns_to or point.ends else 4, away, Cut(first=index, last=index, in_line=True))
            )
    ranked.sort(key=lambda r: (r[0], r[1], r[2].first))
    return tuple(cut for _, _, cut in ranked[:_MAX_CUTS])


@frozen
class Divided:
    """The edits that divide a gesture, those in other blocks by block name, and what they do in words."""

    edits: tuple[Edit, ...]
    others: Mapping[str, tuple[Edit, ...]]
    words: str


class Divider:
    """Divides the gestures of one file."""

    def __init__(self, writer: EditWriter, blocks: Sequence[Block]) -> None:
        self._writer = writer
        self._blocks = blocks
        self._names = {b.name.text.casefold() for b in blocks}

    def divided(self, block: Block, gesture: Gesture, cut: Cut) -> Divided | None:
        """The two halves, or None if it cannot be divided there or something else would have to change."""
        contour = block.get("contour")
        names = tuple(f"{block.name.text}-{n}" for n in (1, 2))
        if contour is None or not isinstance(contour.value, Contour) or not self._free(names, block):
            return None
        if gesture.sing is not None or gesture.attacks is not None or has_graces(gesture):
            return None
        if len(gesture.speed) > 1 or len(gesture.width) > 1:
            return None  # a course from slow to fast is one for the whole
        halves = [_Half(gesture, contour.value, self._writer.lines, cut, part) for part in (0, 1)]
        edits = [self._heading(block, names[0], 1)]
        for key, text in halves[0].changed(block):
            edits += self._writer.of_key(block, key, text)
        rows = ["", self._heading(block, names[1], 2).new, *self._second(block, halves[1])]
        edits += [Edit(block.last_line, "", row) for row in rows]
        rest = _rest(gesture, cut)
        others = {b.name.text: made for b in self._blocks if (made := self._plays(b, block.name.text, names, rest))}
        number = sum(p.kind != "silence" for p in gesture.points[: cut.first + 1])
        words = f"two gestures, divided at the {ordinal(number)} note"
        return Divided(tuple(edits), others, words)

    def _free(self, names: tuple[str, ...], block: Block) -> bool:
        """Whether both names are free, and only passages use the gesture."""
        if any(n.casefold() in self._names for n in names):
            return False
        wanted = block.name.text.casefold()
        for other in self._blocks:
            origin = other.get("from") if other.kind == "exercises" else None
            named = getattr(origin.value, "text", "") if origin is not None else ""
            if named.casefold() == wanted:
                return False
        return True

    def _heading(self, block: Block, name: str, number: int) -> Edit:
        line = self._writer.lines[block.span.line - 1]
        start, end = block.span.column - 1, block.span.end_column - 1
        title = ""
        if block.title is not None:
            quoted = line[block.title.span.column - 1 : block.title.span.end_column - 1]
            title = f" {quoted[:-1]} {number}{quoted[-1]}"
        return Edit(block.span.line, line[start:end], f"{block.kind} {name}{title}")

    def _second(self, block: Block, half: _Half) -> Iterator[str]:
        """The lines of the second block, with its keys in the order of the first."""
        indent = block.indent or "  "
        changed = dict(half.changed(block))
        for entry in block.entries:
            key = entry.key.text
            if key in changed:
                yield f"{indent}{key}: {changed.pop(key)}"
            elif key in _COPIED:
                line = entry.key.span.line
                yield indent + self._writer.lines[line - 1][entry.key.span.column - 1 : entry.span.end_column - 1]
                yield from (self._writer.lines[n - 1] for n in self._writer.continued(block, entry))
        yield from (f"{indent}{key}: {text}" for key, text in changed.items())

    def _plays(self, block: Block, name: str, names: tuple[str, ...], rest: str) -> tuple[Edit, ...]:
        """The edits that make a passage play both halves."""
        entry = block.get("play") if block.kind == "passage" else None
        if entry is None or not isinstance(entry.value, Play):
            return ()
        by_line: dict[int, list[tuple[int, int, str]]] = {}
        for item in entry.value.items:
            if item.name is None or item.name.text.casefold() != name.casefold():
                continue
            first, second = (self._item(item, n) for n in names)
            text = ", ".join(filter(None, (first, rest, second)))
            by_line.setdefault(item.span.line, []).append((item.span.column - 1, item.span.end_column - 1, text))
        return self._writer.replaced(entry, by_line)

    def _item(self, item: PlayItem, name: str) -> str:
        assert item.name is not None
        line = self._writer.lines[item.span.line - 1]
        return name + line[item.name.span.end_column - 1 : item.span.end_column - 1]


def _rest(gesture: Gesture, cut: Cut) -> str:
    """The rest between the halves in a passage, if a silence was removed."""
    if cut.first - cut.last < 2:
        return ""
    return f"rest {amount((gesture.points[cut.first].at - gesture.points[cut.last].until) / gesture.beat)}"


class _Half:
    """One half of a divided gesture, key by key."""

    def __init__(self, gesture: Gesture, contour: Contour, lines: Sequence[str], cut: Cut, part: int) -> None:
        self._gesture, self._contour, self._lines = gesture, contour, lines
        self._range = range(cut.last + 1) if part == 0 else range(cut.first, len(gesture.points))
        self._start = gesture.points[cut.first].at if part else Fraction(0)
        self._end = gesture.beats if part else self._first_end(cut)
        self._part = part

    def _first_end(self, cut: Cut) -> Fraction:
        points = self._gesture.points
        return points[cut.first].at if cut.first - cut.last < 2 else points[cut.last].until

    def changed(self, block: Block) -> Iterator[tuple[str, str]]:
        """The keys that differ from those of the whole gesture, with their values."""
        gesture = self._gesture
        own = tuple(t.key for t in self._techniques())
        if own != tuple(t.key for t in gesture.techniques) or (self._part and block.get("technique") is not None):
            yield "technique", " + ".join(own) or "ordinary"
        yield "contour", self._contour_text()
        yield "lasts", self._amount(self._end - self._start, unit=True)
        if gesture.dynamics and not any(p.dynamic for p in gesture.points):
            yield "dynamics", self._dynamics()
        if len(gesture.fingering.tubes) > 1 and block.get("fingering") is not None:
            before = sum(p.kind != "silence" for p in gesture.points[: self._range[0]])
            mine = sum(gesture.points[i].kind != "silence" for i in self._range)
            yield "fingering", ", ".join(_fingers(gesture.fingering)[before : before + mine])

    def _techniques(self) -> Iterator[Technique]:
        """The techniques in force where the half begins, except any that its points and lines leave without
        effect."""
        points, segments = self._gesture.points, self._gesture.segments
        count = sum(points[i].kind != "silence" for i in self._range)
        slides = any(segments[i].slides for i in self._range[:-1])
        for technique in points[self._range[0]].techniques if self._part else self._gesture.techniques:
            if count >= technique.points[0] and (slides or not technique.needs_line):
                yield technique

    def _amount(self, beats: Fraction, *, unit: bool = False) -> str:
        if self._gesture.in_seconds:
            return f"{amount(beats * 60 / self._gesture.tempo)}{' s' if unit else ''}"
        beats /= self._gesture.beat
        return amount(beats) + (f" beat{'' if beats == 1 else 's'}" if unit else "")

    def _contour_text(self) -> str:
        indices = list(self._range)
        times = [self._gesture.points[i].at - self._start for i in indices]
        length = self._end - self._start
        last = indices[-1]
        kind = self._gesture.segments[last - 1].kind if len(indices) > 1 else "none"
        detached = kind in ("none", "slur")
        plain = spread([None] * len(indices), detached=detached, length=length)
        uneven = tuple(times) != plain
        text = ""
        for i, at, usual in zip(indices, times, plain, strict=True):
            if text:
                line = self._contour.lines[i - 1]
                sign = SIGNS[line.kind] + (f" {line.growth}" if line.growth else "")
                text += ", " if line.kind == "none" else f" {sign} "
            timed = uneven and at != 0 and at != (None if detached or i != last else length)
            text += self._point(i, f"@{self._amount(at)}" if timed or at != usual else "")
        return text

    def _point(self, index: int, at: str) -> str:
        node: PointNode = self._contour.points[index]
        span = node.height.span
        own = self._lines[span.line - 1][span.column - 1 : span.end_column - 1]
        words = [(_drawn(node.height) if node.drawn else own) + at]
        first, last = index == self._range[0], index == self._range[-1]
        if not (self._part and first):
            words += [w for ended in node.without for w in ("without", ended.text)]
            words += ["as", " + ".join(word.text for word in node.as_)] if node.as_ else []
        words += [m.text for m in node.marks if m.text != "breath" or not (last and not self._part)]
        words += map(str, node.texts)
        point = self._gesture.points[index]
        if self._part and first and not point.dynamic and any(p.dynamic for p in self._gesture.points):
            words.append(level_at(self._gesture, point.at))
        return " ".join(words)

    def _dynamics(self) -> str:
        """The levels of this half; a hairpin that is cut ends at the level it has there."""
        marks = self._gesture.dynamics
        text = ""
        join = ""
        inside = [m for m in marks if self._start <= m.at < self._end or (self._part and m.at == self._end)]
        if not inside or (self._part and inside[0].at > self._start):
            text, join = level_at(self._gesture, self._start), _join_at(marks, self._start)
        for mark in inside:
            at = mark.at - self._start
            text += f"{f' {join}' if join else ''}{' ' if text else ''}{mark.level}"
            text += f"@{self._amount(at)}" if at and mark.at != self._gesture.beats else ""
            join = mark.join
        if join and not self._part:
            text += f" {join} {level_at(self._gesture, self._end)}"
        return text


def _fingers(asked: AskedFingering) -> list[str]:
    """The fingerings of a gesture as written, both of a trill."""
    others = asked.others or ("",) * len(asked.tubes)
    return [
        f"{tube or 'auto'} / {other}" if other else tube or "auto"
        for tube, other in zip(asked.tubes, others, strict=False)
    ]


def _join_at(marks: Sequence[DynamicMark], at: Fraction) -> str:
    """The hairpin from the level in force at a time."""
    before = next((m for m in reversed(marks) if m.at <= at), None)
    return before.join if before is not None and before is not marks[-1] else ""


def _drawn(height: object) -> str:
    """A random point as an ordinary one."""
    if isinstance(height, Note):
        return f"x{spelled(height).name}"
    return height.word if isinstance(height, Height) else ""
