"""An exact pitch lies between all that the tubes of the instrument give, even with the lip's help.

Checks  every exact pitch that is played as a note of its own, against the nearest partial of every tube
Why     a brass instrument has the partials of its tubes and what the lip can pull them to; between them a
        note slips to the nearest one or splits
Fires
    instrument: trombone
    pitches: written
    gesture a
      contour: C2
Passes
    instrument: trombone
    pitches: written
    gesture a
      contour: C3
Fix     take the nearest pitch that is there, or mark the pitch as approximate with an x
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number, Severity
from gesturesmith.rules import _tries
from gesturesmith.rules._limits import above
from gesturesmith.rules._reading import exact_name, path_of, plain, played_points
from gesturesmith.rules.base import Case, Finding, rule


@rule("GS201", "pitch-no-tube-gives", severity="refused")
def check(case: Case) -> Iterator[Finding]:
    limit = case.instrument.limits.get("lip_correction_cents")
    lowest, highest = case.instrument.widest_range.value
    for point, played in played_points(case):
        if point.kind != "pitch" or point.about or played.given:
            continue
        if path_of(point) not in ("none", "steps") or any(t.pitched != "exact" for t in point.techniques):
            continue
        off = abs(played.error_cents)
        excess = above(limit, off)
        if excess is None or played.asked_cents is None or played.correction == "hand":
            continue
        if played.standard and excess.severity is not Severity.REFUSED:
            continue  # players correct the chart's own fingerings from habit
        if not lowest <= played.asked_cents <= highest:
            continue  # out of range altogether, which has a rule of its own
        if played.error_cents < 0 and played.tube and played.partial >= played.tube.widest_partials[1]:
            continue  # above the ladder as far as anyone has shown it: a matter of range as well
        nearest = float(played.asked_cents) + played.error_cents
        tube = f" ({played.tube.name}, partial {played.partial})" if played.tube else ""
        yield Finding(
            span=point.span,
            text=f"the nearest pitch any tube gives is {exact_name(case.instrument, nearest)}{tube}, "
            f"{plain(off)} cents away; the lip corrects up to {plain(excess.limit)}",
            hint=f"write {exact_name(case.instrument, 100 * round(nearest / 100))}, or x for about this pitch",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="distance to the nearest partial", value=off, limit=excess.limit, unit="cents"),),
            physical=excess.severity is Severity.REFUSED,
            try_values=(
                *_tries.at_pitch(case, played.index, nearest),
                *_tries.about(case.gesture, played.index),
            ),
        )
