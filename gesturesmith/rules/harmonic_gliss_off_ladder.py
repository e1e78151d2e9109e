"""A harmonic glissando begins or ends on a pitch that is not a partial of its tube.

Checks  the points joined by the lines of a sweep, on the tube that fits them best: exact pitches must be as near
        to a partial as the lip bridges, 35 cents, approximate ones within a semitone. Separate notes are fingered
        like any others
Why     one tube length is held throughout, so only its partials can sound; the player starts and lands on the
        nearest ones
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: B3 ~~ Bb4
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: G4 ~~ G5
Fix     write the pitches where the player really starts and lands, or mark the end as approximate with x
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.reading import exact_name, plain, played_points, swept_points, tube_words


@rule("GS202", "harmonic-gliss-off-ladder", severity="caution", only=("path:partials",))
def check(case: Case) -> Iterator[Finding]:
    realisation, instrument = case.realisation, case.instrument
    exact = instrument.limits.get("harmonic_gliss_exact_cents")
    about = instrument.limits.get("harmonic_gliss_about_cents")
    if not realisation.partials or exact is None or about is None:
        return
    starts, lands = realisation.starts_cents, realisation.lands_cents
    all_about = fixes.about(case.gesture, *fixes.exact_points(case.gesture))
    swept = swept_points(case)
    for point, played in played_points(case):
        limit = about if point.about else exact
        if played.index not in swept or abs(played.error_cents) <= limit.narrow.value:
            continue
        real = float(point.sounding_cents or 0) + played.error_cents
        ends = ""
        if starts is not None and lands is not None:
            first, last = exact_name(instrument, starts), exact_name(instrument, lands)
            ends = f"; the player starts on {first} and lands on {last}"
        tube = tube_words(instrument, played.tube)
        yield Finding(
            span=point.span,
            text=f"partial {played.partial} of {tube} is {exact_name(instrument, real)}, "
            f"{plain(abs(played.error_cents))} cents away{ends}",
            evidence=limit.narrow,
            numbers=(
                Number(
                    name="distance to the partial",
                    value=abs(played.error_cents),
                    limit=limit.narrow.value,
                    unit="cents",
                ),
            ),
            proposed_fixes=(
                *fixes.at_pitch(case, played.index, real),
                *fixes.about(case.gesture, played.index),
                *all_about,
            ),
        )
