"""A note of a lip glissando is further from the partials of its tube than the lip can bend.

Checks  each note of a lip glissando against the nearest partial of the tube that suits the whole line best, with
        separate limits down and up
Why     on one tube the lip finds the partials and can bend them: down by a half step or more, up only a little
Fires
    instrument: trumpet
    pitches: written
    gesture a
      technique: lip-gliss
      contour: C4 -- E4
      lasts: 4 beats
Passes
    instrument: trumpet
    pitches: written
    gesture a
      technique: lip-gliss
      contour: C5 -- G4
      lasts: 4 beats
Fix     begin and end on partials of one tube, or ask for a `fingered-gliss`
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.kinds import Direction
from gesturesmith.realise.curve import along
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import apart, plain, played_points, point_names, slides, tube_words


@rule("GS212", "lip-gliss-off-partial", severity="caution", only=("path:lip",))
def check(case: Case) -> Iterator[Finding]:
    lines = [s for s in slides(case, "lip") if not any(t.one_partial for t in s.start.techniques)]
    slid = {index for line in lines for index in (line.index, line.index + 1)}
    for point, played in played_points(case):
        if played.index not in slid or point.about or played.asked_cents is None:
            continue
        off = abs(played.error_cents)
        way: Direction = "down" if played.error_cents > 0 else "up"
        excess = above(along(case.instrument, f"bend_{way}", played.asked_cents), off)
        if excess is None:
            continue
        side = "above" if way == "down" else "below"
        yield Finding(
            span=point.span,
            text=f"partial {played.partial} of {tube_words(case.instrument, played.tube)} lies "
            f"{apart(off, excess.limit)} cents {side} {point_names(case, point)}; the lip bends it {way} by about "
            f"{plain(excess.limit)}",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name=f"bend {way}", value=off, limit=excess.limit, unit="cents"),),
            proposed_fixes=(
                *fixes.at_pitch(case, played.index, float(played.asked_cents) + played.error_cents),
                *fixes.instead(case, "motion", "fingered-gliss", "chromatic", "slide-gliss"),
            ),
        )
        return
