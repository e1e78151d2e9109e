"""The speed and width of waves over the time of a gesture: of vibrato, trills, shakes, tremolos, wah-wah."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction

from gesturesmith.evidence import HOUSE, Sourced
from gesturesmith.kinds import Speed, Width
from gesturesmith.lang import nodes
from gesturesmith.model import times
from gesturesmith.model.context import Context
from gesturesmith.model.contour import GestureLength, complain
from gesturesmith.model.gesture import ContourPoint, WaveMark
from gesturesmith.techniques.base import Technique

_WORDS = "a word compares with what the player does unasked"
# Times the usual speed of the technique.
SPEEDS: dict[str | Speed, Sourced[Fraction]] = {
    "slow": Sourced(Fraction(3, 5), HOUSE, _WORDS),
    "medium": Sourced(Fraction(1), HOUSE, _WORDS),
    "fast": Sourced(Fraction(7, 5), HOUSE, _WORDS),
}
# Times the usual width of a vibrato; a shake reaches its second note at its widest only.
WIDTHS: dict[str | Width, Sourced[Fraction]] = {
    "narrow": Sourced(Fraction(1, 2), HOUSE, _WORDS),
    "medium": Sourced(Fraction(1), HOUSE, _WORDS),
    "wide": Sourced(Fraction(2), HOUSE, _WORDS),
}


def waves(
    ctx: Context, block: nodes.Block, key: str, clock: GestureLength, points: tuple[ContourPoint, ...]
) -> tuple[WaveMark, ...]:
    """The marks of a key `speed` or `width`, each at its time; they share the time as levels do."""
    node = ctx.value(block, key, nodes.WavesNode)
    if node is None or not node.marks or clock.beats is None or not points:
        return ()
    _has_effect(ctx, key, node, [t for p in points for t in p.techniques])
    detached = not node.joins or node.joins[-1] == ""
    given = clock.given(mark.at for mark in node.marks)
    found = times.faults(given, detached=detached, length=clock.beats, from_start=False)
    if found:
        spans = [mark.at.span if mark.at is not None else mark.span for mark in node.marks]
        complain(ctx, found, given, spans, clock, key)
        return ()
    at = times.spread(given, detached=detached, length=clock.beats)
    return tuple(
        WaveMark(word=mark.word, per_second=mark.per_second, at=at[i], join=join, span=mark.span)
        for i, (mark, join) in enumerate(zip(node.marks, (*node.joins, ""), strict=True))
    )


def _has_effect(ctx: Context, key: str, node: nodes.WavesNode, techniques: Iterable[Technique]) -> None:
    """Report a key that no technique of the gesture has a use for."""
    waving = [t for t in techniques if t.sound.waves_hz is not None]
    if not waving:
        ctx.error("waves-nowhere", node.span, key=key)
    elif key == "width" and not any(t.varies_width for t in waving):
        ctx.error("width-nowhere", node.span, technique=f"`{waving[0].key}`")


def waves_hz(mark: WaveMark, technique: Technique) -> float:
    """Waves of a technique per second at a mark."""
    if mark.per_second is not None:
        return float(mark.per_second)
    usual = technique.sound.waves_hz
    return float(SPEEDS[mark.word].value) * (usual.value if usual is not None else 0.0)


def width_factor(mark: WaveMark, technique: Technique) -> float:
    """How wide the waves are at a mark, as a multiple of what they are if nobody says: at most 1 where there is a
    second note."""
    factor = float(WIDTHS[mark.word].value)
    return factor / float(WIDTHS["wide"].value) if technique.trill else factor


def course(
    marks: tuple[WaveMark, ...], start: Fraction, end: Fraction, value: Callable[[WaveMark], float]
) -> tuple[tuple[Fraction, float], ...]:
    """The values at marks as rows of time in beats and value, from `start` to `end`: linear between marks that are
    joined, else constant until the next; two rows at one time are a step. () without marks."""
    rows: list[tuple[Fraction, float]] = []
    for i, mark in enumerate(marks):
        rows.append((mark.at, value(mark)))
        if not mark.join and i + 1 < len(marks):
            rows.append((marks[i + 1].at, value(mark)))
    if not rows:
        return ()
    inside = [row for row in rows if start < row[0] < end]
    return ((start, _at(rows, start, after=True)), *inside, (end, _at(rows, end, after=False)))


def _at(rows: list[tuple[Fraction, float]], at: Fraction, *, after: bool) -> float:
    """The value at a time: of a step, that `after` it or before it."""
    before = [row for row in rows if row[0] < at or (after and row[0] == at)]
    later = rows[len(before) :]
    if not before or not later:
        return (before or later)[-1 if before else 0][1]
    (t0, a), (t1, b) = before[-1], later[0]
    return a if t1 == t0 else a + (b - a) * float((at - t0) / (t1 - t0))
