"""Random heights: `random 7 in G4..C5 seed 3`. The same text always gives the same heights."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from random import Random

from gesturesmith.lang.nodes import Height, LineNode, Note, PointNode
from gesturesmith.lang.notes import note
from gesturesmith.lang.reader import Reader
from gesturesmith.lang.words import GROWTH
from gesturesmith.units import Spelling, spell

WORD = "random"
_MAX_POINTS = 500
_MAX_SEED = 999_999
_STEPS = 20  # heights in a band where none is given in notes: every twentieth


def begins(reader: Reader) -> bool:
    """Whether the cursor is at such points."""
    return reader.tok.text == WORD and reader.tok.kind == "word"


def points(reader: Reader, line: Callable[[Reader], LineNode]) -> tuple[list[PointNode], list[LineNode]]:
    """The points and the lines between them: the one written after their number, or none.

    line   reads the line at the cursor
    """
    first = reader.next()
    count = reader.whole("how many points: random 7", least=2)
    if count.value > _MAX_POINTS:
        reader.fail("out-of-range", count.span, f"at most {_MAX_POINTS} points in a contour")
    join = LineNode("none", "", first.span)
    if reader.tok.kind == "line" and reader.tok.text != "," and _goes_on(reader):
        join = line(reader)
    heights: Sequence[Spelling | Fraction] = [Fraction(100 * n, _STEPS) for n in range(_STEPS + 1)]
    if reader.tok.text == "in":
        reader.next()
        heights = _notes(reader)
    seed = _seed(reader)
    span = reader.span_from(first)
    drawn = _drawn(heights, int(count.value), seed)
    made = [
        Height(f"{height}%", height, span)
        if isinstance(height, Fraction)
        else Note(height.letter, height.alter, height.octave, 0, True, span)
        for height in drawn
    ]
    return (
        [PointNode(height=height, at=None, marks=(), drawn=True, span=span) for height in made],
        [join] * (len(made) - 1),
    )


def _goes_on(reader: Reader) -> bool:
    """Whether the line at the cursor joins these points, rather than leading to another."""
    after = reader.ahead()
    if after.text in GROWTH:
        after = reader.tokens[reader.i + 2]
    return after.text in ("in", "seed") or after.kind == "end"


def _notes(reader: Reader) -> list[Spelling]:
    """The semitones of a band."""
    ends = []
    for what in ("the lowest pitch of the band", "the highest pitch of the band"):
        end = note(reader, f"{what}: in G4..C5")
        if end.about or end.cents or end.alter.denominator != 1:
            reader.fail("bad-band", end.span, "the ends of the band are plain notes: in G4..C5")
        ends.append(end)
        if len(ends) == 1:
            if reader.tok.text != "..":
                reader.unexpected("two dots and the highest pitch: in G4..C5")
            reader.next()
    low, high = (int(Spelling(end.letter, end.alter, end.octave).pitch_cents) // 100 for end in ends)
    if low >= high:
        reader.fail("bad-band", ends[1].span, "the lower pitch comes first, and is not the same: in G4..C5")
    return [spell(100 * semitone) for semitone in range(low, high + 1)]


def _seed(reader: Reader) -> int:
    if reader.tok.text != "seed":
        return 1
    reader.next()
    seed = reader.whole("the seed: seed 3", least=0)
    if seed.value > _MAX_SEED:
        reader.fail("out-of-range", seed.span, f"seeds run from 0 to {_MAX_SEED}")
    return int(seed.value)


def _drawn[T](heights: Sequence[T], count: int, seed: int) -> list[T]:
    """This many of them, none twice in a row. `random()` is the one draw whose results Python promises to keep."""
    lot = Random(seed)  # not for secrets
    found: list[T] = []
    while len(found) < count:
        height = heights[int(lot.random() * len(heights))]
        if not found or height != found[-1]:
            found.append(height)
    return found
