"""How much space time takes in proportional spacing: less in a long gesture in which little happens."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from gesturesmith.model.gesture import Gesture
from gesturesmith.score.music import USUAL_PLACE
from gesturesmith.score.plan import Plan

_BEATS_PER_ROW = Fraction(5, 2)  # fill a row beside the gesture's name at the usual scale
_PLACES_PER_GAP = Fraction(5, 4)  # kept between two things: a head with its accidental, or a level


def place(gesture: Gesture, plan: Plan) -> Fraction:
    """Whole notes to a place, at least the usual number: as many as make the gesture fit one row, if possible."""
    times = {event.start for part in plan.parts for event in part.line.events} | {m.at for m in gesture.dynamics}
    gaps = [after - before for before, after in pairwise(sorted(times))]
    closest = min(gaps, default=gesture.beats) / (4 * _PLACES_PER_GAP)
    return max(USUAL_PLACE, min(USUAL_PLACE * gesture.beats / _BEATS_PER_ROW, closest))
