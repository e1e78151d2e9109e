"""Notes come at times that note values cannot express.

Checks  when notes begin and end, as fractions of a beat
Why     a player can count up to thirteen in the time of fewer, as a tuplet; finer divisions are printed without
        note values, as heads spaced in proportion to their time
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: C5, D5, E5
      lasts: 12/37 beats
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: C5, D5, E5, D5, C5, D5, E5
      lasts: 2 beats
Fix     divide the beat into fewer parts, or give the length in seconds if only the proportions matter
"""

from collections.abc import Collection, Iterable, Iterator
from fractions import Fraction

from gesturesmith.diagnostics import Number
from gesturesmith.instruments.base import Instrument
from gesturesmith.model.gesture import Gesture, attack_times
from gesturesmith.rules.base import Case, Finding, PassageCase, rule
from gesturesmith.rules.shared.limits import above
from gesturesmith.source import Span

_MEANT = (
    3,
    6,
    12,
    24,
    7,
    9,
)  # what a decimal such as 0.33 or 2.1667 stands for: parts of a beat it cannot give


def _parts(times: Iterable[Fraction]) -> int:
    """The number of equal parts of a beat needed for all times, ignoring halvings."""
    most = 1
    for time in times:
        parts = time.denominator
        while parts % 2 == 0:
            parts //= 2
        most = max(most, parts)
    return most


def _times(gesture: Gesture) -> set[Fraction]:
    """When notes with a value begin; points that a line only passes need none."""
    if gesture.in_seconds or (gesture.attacks is not None and gesture.attacks.shape):
        return set()
    valued = {p.at for p in gesture.points if p.reached != "line" or p.held}
    return valued | set(attack_times(gesture)) if gesture.attacks is not None else valued


def _rounded(times: Iterable[Fraction]) -> str:
    """What to write where a decimal stands for a fraction: 13/6 for 2.1667; "" where none does."""
    for time in sorted(times):
        digits = next((d for d in range(2, 7) if 10**d % time.denominator == 0), 0)
        near = (Fraction(round(time * parts), parts) for parts in _MEANT)
        meant = next((n for n in near if n != time and abs(n - time) <= Fraction(1, 2 * 10**digits)), None)
        if digits and meant is not None and 1 < _parts((meant,)) < _parts((time,)):
            return f"write {meant} in place of {float(time):g}, as a fraction"
    return ""


def _found(instrument: Instrument, times: Collection[Fraction], span: Span) -> Iterator[Finding]:
    parts = _parts(times)
    excess = above(instrument.limits.get("tuplet_largest"), parts)
    if excess is None:
        return
    yield Finding(
        span=span,
        text=f"a beat in {parts} parts: without note values, spaced by time; tuplets go up to {excess.limit}",
        hint=_rounded(times),
        evidence=excess.evidence,
        numbers=(Number(name="parts of a beat", value=parts, limit=excess.limit, unit=""),),
    )


def _in_passage(case: PassageCase) -> Iterator[Finding]:
    passage = case.passage
    first = next((c for c in case.cases if c is not None), None)
    late = next((item for item in passage.items if _parts((item.at,)) > 1), None)
    if first is not None and late is not None and not any(c and c.gesture.in_seconds for c in case.cases):
        yield from _found(first.instrument, [item.at for item in passage.items], late.span)


@rule("GS730", "no-note-value", severity="advice", passage=_in_passage)
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    span = gesture.span_of("lasts") if "lasts" in gesture.spans else gesture.span_of("contour")
    yield from _found(case.instrument, _times(gesture), span)
