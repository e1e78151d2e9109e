"""How attacks are tongued: their rate, and the kind of tonguing it needs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from math import inf

from gesturesmith.evidence import PLAYER
from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import Tonguing
from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.model.strokes import has_strokes, struck
from gesturesmith.techniques.base import Technique

# Two attacks do not make a rate: an upbeat may be arbitrarily short. Longer runs are measured over more gaps.
SHORTEST_RUN = 2
_RUNS = (SHORTEST_RUN, 4, 8, 16)


def rate_limit(instrument: Instrument, techniques: Iterable[Technique], register: str) -> str:
    """The name of the instrument's limit on attacks per second, "double_tongue_per_s_high".

    If the composer names no tonguing, the player uses the fastest (contemporarytuba.com/tonguing: it need not be
    specified), unless the player's profile gives only the speed of single tonguing.
    """
    attacks = [t for t in techniques if t.layer == "attack" or "fastest_per_s" in t.limits]
    named = next((t.rate for t in attacks if t.rate), "single_tongue" if attacks else "")
    return f"{named}_per_s_{register}" if named else _fastest(instrument, register)


@lru_cache(maxsize=1024)
def _fastest(instrument: Instrument, register: str) -> str:
    single, double = (f"{way}_tongue_per_s_{register}" for way in ("single", "double"))
    one, two = instrument.limits.get(single), instrument.limits.get(double)
    if one is None or two is None:
        return single if two is None else double
    own = one.narrow.kind is PLAYER and two.narrow.kind is not PLAYER
    return single if own or one.narrow.value >= two.narrow.value else double


def burst(instrument: Instrument, gaps: int) -> float:
    """How many times faster than a sustained rate this many successive gaps can be; 1 for a long run."""
    extra = instrument.limits.get("burst_extra")
    return 1 + float(extra.narrow.value) / (gaps - 1) if extra is not None and gaps > 1 else 1.0


def runs(seconds: Sequence[float]) -> Iterator[tuple[int, int, float]]:
    """Runs of at least three attacks: the first of each, its number of gaps, and its attacks per second.

    seconds   the times of the attacks
    """
    for gaps in _RUNS:
        for i in range(len(seconds) - gaps):
            lasts = seconds[i + gaps] - seconds[i]
            if lasts > 0:
                yield i, gaps, round(gaps / lasts, 9)


def runs_in(gesture: Gesture) -> Iterator[tuple[ContourPoint, int, float]]:
    """Runs of at least three attacks in a gesture: the point of the first, the number of gaps, attacks per second.

    Without repeats whose speed is up to the player.
    """
    points = gesture.points
    if gesture.attacks is None and len(points) <= SHORTEST_RUN and not has_strokes(gesture):
        return
    rows = list(struck(gesture, unmeasured=False))
    if len(rows) > SHORTEST_RUN:
        for i, gaps, rate in runs(gesture.in_time([at for at, _ in rows])):
            yield rows[i][1], gaps, rate


def tonguing(gesture: Gesture) -> Tonguing:
    """The tonguing a player uses if none is named: "double" if single tonguing is too slow, else ""."""
    slow = _slowest_single(gesture.instrument)
    for point, gaps, rate in runs_in(gesture):
        if rate <= slow:
            continue
        techniques = point.techniques or gesture.techniques
        if any(t.rate or t.tone == "none" for t in techniques) or point.sounding_cents is None:
            continue
        register = gesture.instrument.register_of(point.sounding_cents).name
        if "double" not in rate_limit(gesture.instrument, techniques, register):
            continue
        if rate > _single(gesture.instrument, register) * burst(gesture.instrument, gaps):
            return "double"
    return ""


@lru_cache(maxsize=64)
def _slowest_single(instrument: Instrument) -> float:
    return min((_single(instrument, r.name) for r in instrument.registers), default=0.0)


@lru_cache(maxsize=1024)
def _single(instrument: Instrument, register: str) -> float:
    """Attacks per second that can be single-tongued; infinite if no limit is known."""
    limit = instrument.limits.get(f"single_tongue_per_s_{register}")
    return float(limit.narrow.value) if limit is not None else inf
