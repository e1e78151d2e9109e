"""A trill has no second note within reach.

Checks  the second fingering of a valve or timbre trill, and the distance to the next partial in a lip trill
        or shake
Why     a valve trill needs a fingering for the note above, a timbre trill a second fingering of the same pitch;
        the lip can only trill where neighbouring partials are about a tone apart
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: lip-trill
      contour: C4
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: lip-trill
      contour: C5
Fix     move the trill up where partials are close, or write a `valve-trill`
"""

from collections.abc import Iterator

from gesturesmith.acoustics.series import step_cents
from gesturesmith.diagnostics import Number
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.realise.in_force import path_of
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import apart, fingering_word, plain, played_points

_NONE = Sourced("no second fingering", DERIVED, "all fingerings of the instrument were tried")


@rule("GS209", "trill-without-neighbour", severity="caution", only=("trill",))
def check(case: Case) -> Iterator[Finding]:
    for point, played in played_points(case):
        trill = next((t for t in point.techniques if t.trill), None)
        if trill is None or path_of(point.techniques) == "half-valve":
            continue
        if trill.trill == "neighbour":
            excess = above(trill.limits.get("widest_cents"), step_cents(max(1, played.partial)))
            if excess is None:
                continue
            step = step_cents(max(1, played.partial))
            yield Finding(
                span=point.span,
                text=f"the next partial lies {apart(step, excess.limit)} cents above; a "
                f"{trill.title['en'].lower()} reaches about {plain(excess.limit)}",
                evidence=excess.evidence,
                severity=excess.severity,
                numbers=(Number(name="step", value=step, limit=excess.limit, unit="cents"),),
                proposed_fixes=(*fixes.instead(case, "lip", "valve-trill"), *fixes.moved(12)),
            )
        elif played.other is None:
            word, name = fingering_word(case.instrument), trill.title["en"].lower()
            what = "of the note above" if trill.trill == "above" else "of the same pitch"
            yield Finding(
                span=point.span,
                text=f"there is no second {word} {what} in tune for a {name}",
                evidence=_NONE,
                proposed_fixes=fixes.without(case, trill.key),
            )
