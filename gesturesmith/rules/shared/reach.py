"""How far lip, hand and slide take a note from where it is: for the rules, and for pictures of the same."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from gesturesmith.acoustics.series import hand_glide_cents, partial_cents, step_cents
from gesturesmith.evidence import DERIVED, Limit, Sourced
from gesturesmith.instruments.base import Instrument, Tube
from gesturesmith.kinds import Direction
from gesturesmith.model.gesture import ContourPoint
from gesturesmith.model.realisation import PlayedPoint
from gesturesmith.realise.curve import along
from gesturesmith.realise.in_force import path_of
from gesturesmith.rules.base import Case
from gesturesmith.rules.shared.limits import FAR
from gesturesmith.rules.shared.reading import leaves_by_line, played_points
from gesturesmith.values import frozen

_GAP = "the distance to the next partial of the tube: beyond it the lip has left the note"
_LAW = "to a half step above the next partial down: Ericson, ASU; List of horn techniques; the number computed"


def bend_limit(case: Case, home: ContourPoint, way: Direction) -> Limit | None:
    """How far the lip takes a note, in cents: by its height, and never as far as the next partial of its tube."""
    limit = along(case.instrument, f"bend_{way}", home.sounding_cents or 0)
    played = next((p for p in case.realisation.points if case.gesture.points[p.index] is home), None)
    if limit is None or limit.wide is None or played is None or played.partial < (2 if way == "down" else 1):
        return limit
    gap = round(step_cents(played.partial - 1 if way == "down" else played.partial))
    if gap > limit.wide.value * FAR:
        return limit
    return replace(limit, wide=Sourced(max(gap, limit.narrow.value), DERIVED, _GAP))


@frozen(kw_only=True)
class HandReach:
    """How far the closing hand lowers the open note on which a point of a hand glissando is played.

    limit   in cents below the open note
    slack   cents that need no hand: what is in tune anyway, and what players correct in the chart's own fingerings
    """

    point: ContourPoint
    played: PlayedPoint
    limit: Limit
    slack: float

    @property
    def open_cents(self) -> float:
        """The sounding pitch of the open note."""
        return float(self.point.sounding_cents or 0) + self.played.error_cents


def hand_reaches(case: Case) -> Iterator[HandReach]:
    """The points of a hand glissando that a line leads from or to, with the hand's reach."""
    limit = case.instrument.limits.get("hand_lower_cents")
    near = case.instrument.limits.get("in_tune_cents")
    if limit is None or near is None or limit.wide is None:
        return
    # Players tune the chart's own fingerings from habit: the hand need not lower that as well.
    tops: dict[tuple[Tube | None, int], float] = {}
    rows = [(point, played) for point, played in played_points(case) if path_of(point.techniques) == "hand"]
    for _, played in rows:
        if played.standard:
            key = (played.tube, played.partial)
            tops[key] = min(tops.get(key, played.error_cents), played.error_cents)
    for point, played in rows:
        # A closed bell can open along the line: the way up is as long as the way down.
        if played.partial and (point.reached != "attack" or leaves_by_line(case.gesture, played.index)):
            reach = max(hand_glide_cents(played.partial), float(limit.narrow.value))
            yield HandReach(
                point=point,
                played=played,
                limit=Limit(limit.narrow, Sourced(reach, DERIVED, _LAW), limit.unit),
                slack=max(float(near.narrow.value), tops.get((played.tube, played.partial), 0.0)),
            )


def slide_goes_to(instrument: Instrument, start: float, end: float) -> float:
    """How far towards `end` the slide can go from `start` without leaving a partial; sounding cents."""
    near = instrument.limits.get("in_tune_cents")
    slack = 2 * float(near.narrow.value) if near is not None else 0.0
    found = [start]
    for side in instrument.sides:
        tubes = [t.fundamental_cents for t in instrument.tubes if t.side == side.name]
        for n in range(1, side.partials.wide.value[1] + 1 if side.partials.wide else 1):
            low, high = min(tubes) + partial_cents(n), max(tubes) + partial_cents(n)
            if low - slack <= start <= high + slack:
                found.append(100 * round((high if end > start else low) / 100))
    return max(found) if end > start else min(found)
