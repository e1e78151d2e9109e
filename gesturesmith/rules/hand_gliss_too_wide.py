"""A hand glissando goes further down than the closing hand can take the note.

Checks  each line of a hand glissando, down or from a closed bell up: its width against how far the hand can lower
        the open partial it is played on
Why     the closing hand lowers an open note to a half step above the next partial down and no further; about a
        semitone is usual
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: hand-gliss
      contour: C5 -- G4
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: hand-gliss
      contour: C5 -- B4
Fix     narrow it to a semitone, or ask for a `lip-gliss`
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reach import hand_reaches
from gesturesmith.rules.shared.reading import exact_name, plain


@rule("GS307", "hand-gliss-too-wide", severity="caution", only=("path:hand",))
def check(case: Case) -> Iterator[Finding]:
    for one in hand_reaches(case):
        played = one.played
        width = played.error_cents - one.slack
        excess = above(one.limit, width)
        if excess is None or one.limit.wide is None:
            continue
        # A tempered semitone may be a few cents beyond the law and still count as in tune.
        reach = one.limit.wide.value
        lowered = min(played.error_cents, reach) if width <= reach else played.error_cents
        yield Finding(
            span=one.point.span,
            text=f"{plain(lowered)} cents below open {exact_name(case.instrument, one.open_cents)}; "
            f"the hand lowers it by up to {plain(excess.limit)}{excess.caveat}",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="lowered by", value=played.error_cents, limit=excess.limit, unit="cents"),),
            proposed_fixes=(
                *fixes.at_pitch(case, played.index, one.open_cents - 100),
                *fixes.instead(case, "motion", "lip-gliss", "fingered-gliss"),
            ),
        )
