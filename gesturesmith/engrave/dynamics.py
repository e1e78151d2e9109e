"""Dynamics of a gesture as things to attach, each at its own time."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from gesturesmith.lytext import quoted
from gesturesmith.model.gesture import Gesture, attack_times

# Levels that are commands of LilyPond itself since 2.24; the others are printed by `\gsLevel`.
_LILYPONDS = frozenset(("ppp", "pp", "p", "mp", "mf", "f", "ff", "fff", "sf", "sfz", "fp", "sfp", "rfz"))
NOTHING = "n"
_SHORT = Fraction(2)  # beats: a hairpin that lasts no longer is given room; our own judgement


@dataclass(slots=True, kw_only=True)
class Dynamic:
    """What stands at one time: `level` a command LilyPond knows, or ""; `hairpin` "<", ">" or ""."""

    at: Fraction
    level: str = ""
    other: str = ""
    closes: bool = False
    hairpin: str = ""
    before: list[str] = field(default_factory=list)


def dynamics(gesture: Gesture) -> list[Dynamic]:
    """The dynamics of a gesture in order of time; those put at points where the gesture has none of its own."""
    marks = [(m.at, m.level, m.join) for m in gesture.dynamics]
    if not marks:
        marks = [(p.at, p.dynamic, "") for p in gesture.points if p.dynamic]
    over = _last_stroke(gesture)
    begins = {*(p.at for p in gesture.points), *attack_times(gesture)}
    made: list[Dynamic] = []
    for n, (written, level, join) in enumerate(marks):
        at = written
        if over is not None and n == len(marks) - 1 and at > over and not (made and made[-1].at >= over):
            at = over
        if not (made and made[-1].hairpin):
            at = _sounding(gesture, written, marks[n + 1][0] if n + 1 < len(marks) else None)
        opened = bool(made and made[-1].hairpin)
        one = Dynamic(at=at, hairpin=join)
        if level in _LILYPONDS:
            one.level = level
        elif level == NOTHING and (join or opened):
            one.closes = opened
            for tipped in [*([one] if join else []), *(made[-1:] if opened else [])]:
                if r"\gsNiente" not in tipped.before:
                    tipped.before.append(r"\gsNiente")
        else:
            one.other = f"\\gsLevel {quoted(level)}"
            one.closes = opened
        if made and made[-1].hairpin and _needs_room(made[-1].at, at, begins):
            letters = sum(len(mark) for mark in (marks[len(made) - 1][1], level) if mark != NOTHING)
            made[-1].before.append(f"\\gsShortHairpin #{letters}")
        made.append(one)
    return made


def _last_stroke(gesture: Gesture) -> Fraction | None:
    """When the last sound begins, if it has no length: the level that a gesture ends with stands under it, for
    after it there is nothing to hear."""
    point = next((p for p in reversed(gesture.points) if p.kind != "silence"), None)
    if point is None or point.reached == "line" or all(t.pitched != "none" for t in point.techniques):
        return None
    return max(attack_times(gesture))


def _sounding(gesture: Gesture, at: Fraction, following: Fraction | None) -> Fraction:
    """A level stands under a note: one that is written in a silence, under the note that ends it, unless the next
    mark comes first."""
    begins = next((p.at for p in gesture.points if p.until > at and p.kind != "silence"), at)
    silent = any(p.at <= at < p.until and p.kind == "silence" for p in gesture.points)
    return begins if silent and (following is None or begins < following) else at


def _needs_room(start: Fraction, end: Fraction, begins: set[Fraction]) -> bool:
    """Whether a hairpin may come out too narrow: it is short, or nothing begins between its ends, which a crowded
    score of the composer's presses together."""
    return end - start <= _SHORT or not any(start < at < end for at in begins)
