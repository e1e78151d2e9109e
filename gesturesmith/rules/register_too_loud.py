"""A dynamic is louder than the register allows.

Checks  the level through each note, hairpins included, against the loudest of its register
Why     the lowest octave is weak and veiled: forced, it cracks before it gets louder
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: G2
      dynamics: fff
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: C5
      dynamics: ff
Fix     write it softer, or an octave higher
"""

from collections.abc import Iterator
from functools import lru_cache

from gesturesmith.instruments.base import Instrument
from gesturesmith.model.gesture import LEVELS
from gesturesmith.model.levels import bounds
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared.dynamics import AskedLevel, moved, too_loud
from gesturesmith.rules.shared.limits import loudest_of
from gesturesmith.rules.shared.reading import leaves_by_line, pitched_points, point_names, register_name


@rule("GS507", "register-too-loud", severity="caution")
def check(case: Case) -> Iterator[Finding]:
    def words(asked: AskedLevel, level: str, limit: str) -> str:
        loudest = f"about the loudest the {register_name(case, asked.point)} register gives"
        return f"{point_names(case, asked.point)} {level}; {limit} is {loudest}"

    if bounds(case.gesture)[1] > _given_anywhere(case.instrument):
        yield from too_loud(case, _asked(case), words, moved(12))


@lru_cache(maxsize=64)
def _given_anywhere(instrument: Instrument) -> int:
    """The loudest place in LEVELS that every register gives; a gesture no louder needs no more looks."""
    limits = (instrument.limits.get(f"loudest_{r.name}") for r in instrument.registers)
    return min((LEVELS.index(limit.narrow.value) for limit in limits if limit is not None), default=len(LEVELS))


def _asked(case: Case) -> Iterator[AskedLevel]:
    points = case.gesture.points
    for index, point in pitched_points(case):
        if any(t.tone == "none" for t in point.techniques):
            continue
        register = register_name(case, point)
        # If a line leads into another register, the swell along it belongs to neither.
        stays = not leaves_by_line(case.gesture, index) or register_name(case, points[index + 1]) == register
        place = loudest_of(case.gesture, index, throughout=stays)
        yield AskedLevel(point, point.at, place, case.instrument.limits.get(f"loudest_{register}"))
