"""A dynamic is softer than the register can speak.

Checks  the level at each attack, hairpins included, against the softest of its register
Why     each pitch needs a minimum pressure to start, and the highest need the most: any softer, they may not speak
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: B5
      dynamics: ppp
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: C5
      dynamics: ppp
Fix     write it louder, reach it from below with a slur, or move it down
"""

from collections.abc import Iterator
from functools import lru_cache

from gesturesmith.instruments.base import Instrument
from gesturesmith.model.gesture import LEVELS
from gesturesmith.model.levels import bounds, place_at
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared.dynamics import AskedLevel, moved, too_soft
from gesturesmith.rules.shared.reading import begun, pitched_points, point_names, register_name


@rule("GS508", "register-too-soft", severity="caution")
def check(case: Case) -> Iterator[Finding]:
    def words(asked: AskedLevel, level: str, limit: str) -> str:
        register = register_name(case, asked.point)
        name = point_names(case, asked.point)
        return f"{name} attacked {level}; {limit} is about the softest attack in the {register} register"

    if bounds(case.gesture)[0] < _given_anywhere(case.instrument):
        yield from too_soft(case, _asked(case), words, moved(-12))


@lru_cache(maxsize=64)
def _given_anywhere(instrument: Instrument) -> int:
    """The softest place in LEVELS that every register can attack; a gesture no softer needs no more looks."""
    limits = (instrument.limits.get(f"softest_{r.name}") for r in instrument.registers)
    return max((LEVELS.index(limit.narrow.value) for limit in limits if limit is not None), default=0)


def _asked(case: Case) -> Iterator[AskedLevel]:
    pitched = dict(pitched_points(case))
    for at, index in begun(case.gesture):
        point = pitched.get(index)
        if point is None or point.reached == "slur" or any(t.tone == "none" for t in point.techniques):
            continue
        limit = case.instrument.limits.get(f"softest_{register_name(case, point)}")
        yield AskedLevel(point, at, place_at(case.gesture, at), limit)
