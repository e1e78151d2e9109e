"""Which techniques are in force at each point of a contour: the gesture's own, every `as` and `without` so far."""

from __future__ import annotations

from collections.abc import Sequence

from gesturesmith import techniques
from gesturesmith.techniques.base import GROUP_OF_LAYER, Technique, clash
from gesturesmith.values import frozen

_ORDINARY = "ordinary"
_SLIDES_BY = "motion"  # the layer of ways to slide, which are no states


@frozen
class Change:
    """What one point changes: the technique it turns to (`as`), None for none, and those it ends (`without`)."""

    turns_to: Technique | None = None
    ends: tuple[Technique, ...] = ()


NO_CHANGE = Change()


def in_force(
    own: tuple[Technique, ...], changes: Sequence[Change], lines: Sequence[bool]
) -> list[tuple[Technique, ...]]:
    """The techniques from each point on.

    changes  one a point
    lines    for each point but the last, whether a line slides from it to the next

    An `as` takes the place of what is in force in its layer, and of what the mouth cannot do beside it.
    `as ordinary` ends everything; but a line still slides in the way it did, so a way of moving the pitch goes on
    to the end of the lines at that point. Where nothing is left there is ordinary playing.
    """
    if all(change == NO_CHANGE for change in changes):
        return [own] * len(changes)
    found: list[tuple[Technique, ...]] = []
    now, over = own, False  # over: ways to slide end with their lines
    for index, change in enumerate(changes):
        reached = index > 0 and lines[index - 1]
        left = index < len(lines) and lines[index]
        if over and not reached:
            now, over = tuple(t for t in now if t.layer != _SLIDES_BY), False
        if change.ends:
            now = tuple(t for t in now if t not in change.ends)
        if change.turns_to is not None:
            ordinary = change.turns_to.layer == "none"
            over = ordinary and (reached or left)
            if not ordinary:
                now = _joined(now, change.turns_to)
            else:
                now = tuple(t for t in now if over and t.layer == _SLIDES_BY)
        found.append(tuple(t for t in now if t.layer != "none") or _ordinary())
    return found


def _joined(now: tuple[Technique, ...], new: Technique) -> tuple[Technique, ...]:
    """With one more technique, in the place of those that make way for it."""
    at = next((i for i, t in enumerate(now) if _makes_way(t, new)), len(now))
    return (*now[:at], new, *(t for t in now[at:] if not _makes_way(t, new)))


def _makes_way(old: Technique, new: Technique) -> bool:
    """Whether the part of the player that turns to the new technique did the old one: in its layer; or the mouth,
    where it cannot do both."""
    if old.layer == new.layer:
        return True
    group = GROUP_OF_LAYER.get(new.layer)
    return group is not None and GROUP_OF_LAYER.get(old.layer) == group and clash(old, new) != ""


def _ordinary() -> tuple[Technique, ...]:
    """What is left when nothing else is asked for."""
    return (techniques.get(_ORDINARY),)
