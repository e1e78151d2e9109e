"""Changes of keys, written as edits of a gesture's own lines."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

from gesturesmith.diagnostics import Edit
from gesturesmith.diagnostics.changes import (
    AttacksChange,
    BandChange,
    BreathAdded,
    Change,
    DynamicsChange,
    FingeringChange,
    Fix,
    LengthChange,
    LevelChange,
    LineChange,
    PitchChange,
    PointChange,
    SungPitchChange,
    TechniquesChange,
    TechniqueTurn,
    Transposition,
)
from gesturesmith.lang.nodes import Block, Contour, KeyEntry, PointNode
from gesturesmith.lang.words import LEVELS, SIGNS
from gesturesmith.model.messages import amount
from gesturesmith.model.piece import Settings
from gesturesmith.units import Spelling

# The key of a block for each kind of change.
_KEYS: dict[type[Change], str] = {
    TechniquesChange: "technique",
    LengthChange: "lasts",
    DynamicsChange: "dynamics",
    AttacksChange: "attacks",
    FingeringChange: "fingering",
    BandChange: "band",
}
_IN_CONTOUR = (PitchChange, SungPitchChange, LevelChange, BreathAdded, TechniqueTurn, LineChange)
type _Named = Callable[[Spelling], str]


def written(change: Change, named: _Named = lambda pitch: pitch.name) -> str:
    """A change as the language writes it, with pitches named by `named`.

    >>> g4 = Spelling("G", Fraction(0), 4)
    >>> written(LengthChange(Fraction(5, 2), True)), written(PitchChange(0, g4, about=True))
    ('2.5 s', 'xG4')
    """
    match change:
        case PitchChange(_, pitch, about) | SungPitchChange(_, pitch, about):
            return ("x" if about else "") + named(pitch)
        case LevelChange(_, level):
            return level
        case BreathAdded():
            return " breath"
        case TechniqueTurn(_, technique):
            return f" as {technique}"
        case LineChange(_, kind):
            return SIGNS[kind]
        case TechniquesChange(keys):
            return " + ".join(keys) or "ordinary"
        case LengthChange(length, in_seconds):
            unit = "s" if in_seconds else "beat" if length == 1 else "beats"
            return f"{float(length):g} {unit}"
        case DynamicsChange(marks):
            return " ".join(" ".join(filter(None, (_at(level, at), join))) for level, at, join in marks)
        case AttacksChange(count, shape):
            return f"{count} {shape}".strip()
        case FingeringChange(mode):
            return mode
        case BandChange(low, high):
            return f"{named(low)}..{named(high)}"
        case Transposition():
            raise TypeError("a transposition is written pitch by pitch")


def _at(level: str, at: Fraction | None) -> str:
    return level if at is None else f"{level}@{amount(at)}"


class EditWriter:
    """Writes changes as edits of the lines of one file."""

    def __init__(self, settings: Settings, lines: Sequence[str]) -> None:
        self._settings = settings
        self.lines = lines

    def edits(self, block: Block, fix: Fix) -> tuple[Edit, ...] | None:
        """The changes of a fix as edits of lines, or None if they change nothing or cannot be written. A
        transposition must already be expanded, pitch by pitch."""
        parts: dict[str, list[PointChange]] = {}
        rows: list[Edit] = []
        for change in fix:
            if isinstance(change, _IN_CONTOUR):
                parts.setdefault("sing" if isinstance(change, SungPitchChange) else "contour", []).append(change)
            else:
                rows += self.of_key(block, _KEYS[type(change)], written(change, self._named))
        for key, found in parts.items():
            contour = self._contour_edits(block, key, found)
            if contour is None:
                return None
            rows += contour
        return tuple(rows) or None

    def _named(self, pitch: Spelling) -> str:
        """The file's name for a written pitch."""
        heard = self._settings.pitches == "sounding"
        return (self._settings.instrument.heard(pitch) if heard else pitch).name

    def of_key(self, block: Block, key: str, text: str) -> Iterator[Edit]:
        """A key with a new value, on its own line or on a new one under the heading."""
        entry = block.get(key)
        if entry is None:
            yield Edit(block.span.line, "", f"{block.indent or '  '}{key}: {text}")
            return
        line = entry.key.span.line
        start, end = entry.key.span.column - 1, entry.span.end_column - 1
        old, new = self.lines[line - 1][start:end], f"{entry.key.text}: {text}"
        if old != new:
            yield Edit(line, old, new)
        for further in self.continued(block, entry):
            yield Edit(further, self.lines[further - 1].strip(), "")

    def continued(self, block: Block, entry: KeyEntry) -> Iterator[int]:
        """The continuation lines of a value: those indented deeper than its key."""
        depth = entry.key.span.column - 1
        for number in range(entry.key.span.line + 1, block.last_line + 1):
            line = self.lines[number - 1]
            if not line.strip():
                continue
            if len(line) - len(line.lstrip()) <= depth:
                return
            yield number

    def _contour_edits(self, block: Block, key: str, changes: list[PointChange]) -> tuple[Edit, ...] | None:
        entry = block.get(key)
        if entry is None or not isinstance(entry.value, Contour):
            return None
        by_line: dict[int, list[tuple[int, int, str]]] = {}
        for change in changes:
            row = entry.value.lines if isinstance(change, LineChange) else entry.value.points
            if change.index >= len(row):
                return None
            node = row[change.index]
            if isinstance(node, PointNode) and node.drawn:
                return None  # one of several points in one span
            text = written(change, self._named)
            span = node.span
            start, end = span.column - 1, span.end_column - 1
            if isinstance(change, LineChange):
                start, end, text = _spaced(self.lines[span.line - 1], start, end, text)
            elif isinstance(change, BreathAdded | TechniqueTurn):
                start = end
            else:
                point = entry.value.points[change.index]
                own = isinstance(change, LevelChange)
                span = next(m.span for m in point.marks if m.text in LEVELS) if own else point.height.span
                start, end = span.column - 1, span.end_column - 1
            by_line.setdefault(span.line, []).append((start, end, text))
        return self.replaced(entry, by_line) or None

    def replaced(self, entry: KeyEntry, by_line: dict[int, list[tuple[int, int, str]]]) -> tuple[Edit, ...]:
        """Replace parts of lines: by line, start and end (from 0), and replacement."""
        edits = []
        for number, changes in sorted(by_line.items()):
            line = self.lines[number - 1]
            new = line
            for start, end, text in sorted(changes, reverse=True):
                new = new[:start] + text + new[end:]
            if new != line:
                edits.append(_shortest(number, line, new, entry))
        return tuple(edits)


def _spaced(line: str, start: int, end: int, sign: str) -> tuple[int, int, str]:
    """A line between two points with its spaces: none before a comma, one on each side of any other."""
    before, after = line[:start].rstrip(), line[end:].lstrip()
    left = "" if sign == "," or not before else " "
    return len(before) or start, len(line) - len(after), f"{left}{sign}{' ' if after else ''}"


def _shortest(number: int, line: str, new: str, entry: KeyEntry) -> Edit:
    """The change of a line as an edit of its key and value, without the unchanged text around them."""
    start = len(line) - len(line.lstrip())
    end = entry.span.end_column - 1 if number == entry.key.span.line else len(line.rstrip())
    return Edit(number, line[start:end], new[start : len(new) - (len(line) - end)])
