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

from gesturesmith.acoustics.series import hand_glide_cents
from gesturesmith.diagnostics import Number
from gesturesmith.evidence import DERIVED, Limit, Sourced
from gesturesmith.instruments.base import Tube
from gesturesmith.realise.in_force import path_of
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import exact_name, leaves_by_line, plain, played_points

_LAW = "to a half step above the next partial down: Ericson, ASU; List of horn techniques; the number computed"


@rule("GS307", "hand-gliss-too-wide", severity="caution", only=("path:hand",))
def check(case: Case) -> Iterator[Finding]:
    limit = case.instrument.limits.get("hand_lower_cents")
    near = case.instrument.limits.get("in_tune_cents")
    if limit is None or near is None or limit.wide is None:
        return
    # Players tune the chart's own fingerings from habit: the hand need not lower that as well.
    tops: dict[tuple[Tube | None, int], float] = {}
    rows = [(point, played) for point, played in played_points(case) if path_of(point.techniques) == "hand"]
    for _, played in rows:
        if played.standard:
            key = (played.tube, played.partial)
            tops[key] = min(tops.get(key, played.error_cents), played.error_cents)
    for point, played in rows:
        slack = max(float(near.narrow.value), tops.get((played.tube, played.partial), 0.0))
        # A closed bell can open along the line: the way up is as long as the way down.
        if played.partial == 0 or (point.reached == "attack" and not leaves_by_line(case.gesture, played.index)):
            continue
        width = played.error_cents - slack
        reach = max(hand_glide_cents(played.partial), float(limit.narrow.value))
        own = Limit(limit.narrow, Sourced(reach, DERIVED, _LAW), limit.unit)
        excess = above(own, width)
        if excess is None:
            continue
        # A tempered semitone may be a few cents beyond the law and still count as in tune.
        lowered = min(played.error_cents, reach) if width <= reach else played.error_cents
        open_cents = float(point.sounding_cents or 0) + played.error_cents
        yield Finding(
            span=point.span,
            text=f"{plain(lowered)} cents below open {exact_name(case.instrument, open_cents)}; "
            f"the hand lowers it by up to {plain(excess.limit)}{excess.caveat}",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="lowered by", value=played.error_cents, limit=excess.limit, unit="cents"),),
            proposed_fixes=(
                *fixes.at_pitch(case, played.index, open_cents - 100),
                *fixes.instead(case, "motion", "lip-gliss", "fingered-gliss"),
            ),
        )
