"""Which techniques are in force at each point of a contour: the gesture's own, changed by `as` and `without`."""

from __future__ import annotations

from collections.abc import Sequence

from gesturesmith import techniques
from gesturesmith.techniques.base import GROUP_OF_LAYER, Technique, clash
from gesturesmith.values import frozen

_ORDINARY = "ordinary"
_SLIDES_BY = "motion"  # the layer of ways to slide, which are not states


@frozen
class Change:
    """What a point changes: the techniques it turns to (`as`) and those it ends (`without`); the technique that a
    word such as `closed` stands for, or None, and whether it opens what is closed; the
    keys of `turns_to` as they are written, if others."""

    turns_to: tuple[Technique, ...] = ()
    ends: tuple[Technique, ...] = ()
    covers: Technique | None = None
    opens: bool = False
    named: tuple[str, ...] = ()


NO_CHANGE = Change()


def in_force(
    own: tuple[Technique, ...], changes: Sequence[Change], lines: Sequence[bool]
) -> list[tuple[Technique, ...]]:
    """The techniques from each point on.

    changes  one for each point
    lines    for each point but the last, whether a line slides from it to the next

    An `as` replaces what is in force in its layer, and what the mouth cannot do at the same time, but nothing
    that the same `as` names. `as ordinary` ends everything; but a line goes on sliding the way it did, so a way of
    moving the pitch continues to the end of the lines at that point. If nothing is left, playing is ordinary.
    """
    if all(change is NO_CHANGE or change == NO_CHANGE for change in changes):
        return [own] * len(changes)
    found: list[tuple[Technique, ...]] = []
    now, over = own, False  # over: ways to slide end with their lines
    for index, change in enumerate(changes):
        reached = index > 0 and lines[index - 1]
        left = index < len(lines) and lines[index]
        if over and not reached:
            now, over = tuple(t for t in now if t.layer != _SLIDES_BY), False
        if change.opens:
            now = tuple(t for t in now if not (t.cover or t.bell_hand))
        if change.ends:
            now = tuple(t for t in now if t not in change.ends)
        if change.turns_to:
            ordinary = any(t.layer == "none" for t in change.turns_to)
            over = ordinary and (reached or left)
            if not ordinary:
                for technique in change.turns_to:
                    now = _joined(now, technique, change.turns_to)
            else:
                now = tuple(t for t in now if over and t.layer == _SLIDES_BY)
        if change.covers is not None:
            now = _joined(now, change.covers, change.turns_to)
        found.append(tuple(t for t in now if t.layer != "none") or _ordinary())
    return found


def _joined(now: tuple[Technique, ...], new: Technique, beside: tuple[Technique, ...]) -> tuple[Technique, ...]:
    """Add a technique; it replaces those that give way to it, but none of those `beside` it."""
    going = [i for i, t in enumerate(now) if t == new or (t not in beside and _makes_way(t, new))]
    at = going[0] if going else len(now)
    return (*now[:at], new, *(t for i, t in enumerate(now[at:], at) if i not in going))


def _makes_way(old: Technique, new: Technique) -> bool:
    """Whether the new technique replaces an old one: both in one layer, or both made by the mouth, which cannot do
    both at once."""
    if old.layer == new.layer:
        return True
    group = GROUP_OF_LAYER.get(new.layer)
    return group is not None and GROUP_OF_LAYER.get(old.layer) == group and clash(old, new) != ""


def _ordinary() -> tuple[Technique, ...]:
    """Ordinary playing, when nothing else is in force."""
    return (techniques.get(_ORDINARY),)
