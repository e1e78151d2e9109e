"""A note is too short for its pitch to be heard.

Checks  every exact pitch that is attacked or slurred to: how many periods of the note fit into its time
Why     the ear needs several periods to hear a pitch; a shorter note is a percussive effect, for which there are
        x-heads
Fires
    instrument: horn
    pitches: written
    tempo: 300
    gesture a
      contour: F#2, G2, F#2, G2, F#2, G2, F#2, G2
      lasts: 1/2 beats
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      contour: C5, D5, E5, D5
Fix     slow it down, move it up, or write x-notes if a percussive effect is wanted
"""

from collections.abc import Iterator
from itertools import pairwise

from gesturesmith.diagnostics import Number, Severity
from gesturesmith.model.gesture import ContourPoint, attack_times, sounds
from gesturesmith.model.strokes import gap_beats
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import Excess, below
from gesturesmith.rules.shared.reading import apart, hz, pitched_points, plain, point_name, slot_s

# The limit that refuses was measured at 150 Hz. Higher up a pitch needs more periods; further down than an octave
# nothing is known, and fewer may do; but a pitch that does not even go round once is none.
_KNOWN_FROM_HZ = 75.0


@rule("GS402", "pitch-too-short-to-hear", severity="caution")
def check(case: Case) -> Iterator[Finding]:
    limit = case.instrument.limits.get("response_periods")
    gesture = case.gesture
    worst: tuple[float, int, ContourPoint, Excess] | None = None
    shortest = _shortest_gap_s(case) if gesture.spread is not None else None
    for index, point in pitched_points(case):
        if point.about or point.kind != "pitch" or point.reached == "line":
            continue
        if any(t.pitched != "exact" or t.tone == "none" for t in point.techniques):
            continue
        seconds = float(gesture.seconds_at(gap_beats(gesture, point))) if point.strokes else slot_s(gesture, point)
        if shortest is not None:
            seconds = min(seconds, shortest)
        periods = seconds * hz(point)
        excess = below(limit, periods)
        if excess is not None and (worst is None or periods < worst[0]):
            worst = (periods, index, point, excess)
    if worst is None:
        return
    periods, _, point, excess = worst
    known = hz(point) >= _KNOWN_FROM_HZ or periods < 1
    yield Finding(
        span=point.span,
        text=f"{apart(periods, excess.limit)} periods of {point_name(case, point)}; its pitch needs about "
        f"{plain(excess.limit)} to be heard{excess.caveat}, so this will sound like a percussive effect",
        evidence=excess.evidence,
        severity=excess.severity if known else Severity.CAUTION,
        numbers=(Number(name="periods", value=periods, limit=excess.limit, unit="periods"),),
        proposed_fixes=(
            *fixes.slower(gesture, excess.limit / periods if periods else 1000.0),
            *fixes.moved(12),
            *fixes.about(gesture, *fixes.exact_points(gesture)),
        ),
    )


def _shortest_gap_s(case: Case) -> float:
    times = (*attack_times(case.gesture), sounds(case.gesture)[1])
    return min(float(case.gesture.seconds_at(b - a)) for a, b in pairwise(times))
