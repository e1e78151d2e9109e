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

from gesturesmith.acoustics.series import nearest_partial, partial_cents, step_cents
from gesturesmith.diagnostics import Number
from gesturesmith.diagnostics.changes import FingeringChange
from gesturesmith.evidence import DERIVED, HOUSE, Sourced
from gesturesmith.model.gesture import ContourPoint
from gesturesmith.model.realisation import PlayedPoint
from gesturesmith.realise.in_force import path_of
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import apart, fingering_word, plain, played_points
from gesturesmith.techniques.base import Technique

_OFF = Sourced(60, HOUSE, "cents: further off it is another interval")
_NONE = Sourced("no second fingering", DERIVED, "all fingerings of the instrument were tried")


@rule("GS209", "trill-without-neighbour", severity="caution", only=("trill",))
def check(case: Case) -> Iterator[Finding]:
    for point, played in played_points(case):
        trill = next((t for t in point.techniques if t.trill), None)
        if trill is None or path_of(point.techniques) == "half-valve":
            continue
        yield from _drift(case, point, played, trill)
        yield from _travel(case, point, played, trill)
        if trill.trill != "same" and played.trill_cents is not None:
            yield from _asked(case, point, played, trill)
        elif trill.trill == "neighbour":
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
            what = "of the note above" if trill.trill in ("above", "other") else "of the same pitch"
            yield Finding(
                span=point.span,
                text=f"there is no second {word} {what} in tune for a {name}",
                evidence=_NONE,
                proposed_fixes=fixes.without(case, trill.key),
            )


def _asked(case: Case, point: ContourPoint, played: PlayedPoint, trill: Technique) -> Iterator[Finding]:
    """A trill to a note that is named: whether it is within reach, and fingered or next in the series."""
    asked = abs(float(played.trill_cents or 0))
    excess = above(trill.limits.get("widest_cents"), asked)
    step = step_cents(max(1, played.partial))
    off = trill.trill == "neighbour" and abs(step - asked) > _OFF.value
    other_way = fixes.instead(case, "lip", "valve-trill") if off else ()
    next_one = f"the next harmonic lies {plain(round(step))} above"
    if excess is not None:
        # One sentence about both: a trill that is too wide is seldom the next harmonic either.
        yield Finding(
            span=point.span,
            text=f"the other note is {apart(asked, excess.limit)} cents away; a {trill.title['en'].lower()} "
            f"reaches about {plain(excess.limit)}" + (f", and {next_one}" if off else ""),
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="step", value=asked, limit=excess.limit, unit="cents"),),
            proposed_fixes=other_way,
        )
    elif off:
        yield Finding(
            span=point.span,
            text=f"the trill asks for {plain(asked)} cents; {next_one}",
            evidence=_OFF,
            numbers=(Number(name="step", value=step, limit=asked, unit="cents"),),
            proposed_fixes=other_way,
        )
    if trill.trill in ("above", "other") and played.other is None:
        word = fingering_word(case.instrument)
        yield Finding(
            span=point.span,
            text=f"there is no {word} in tune for the other note, {plain(asked)} cents away",
            evidence=_NONE,
        )


def _drift(case: Case, point: ContourPoint, played: PlayedPoint, trill: Technique) -> Iterator[Finding]:
    """Two fingerings of one pitch that the composer has chosen: whether they are near enough."""
    limit = trill.limits.get("drift_cents")
    if not case.gesture.fingering.others or limit is None or played.other is None or played.asked_cents is None:
        return
    pitch = float(played.fingered_cents if played.fingered_cents is not None else played.asked_cents)
    tubes = (played.tube, played.other)
    found = [
        t.fundamental_cents + partial_cents(nearest_partial(pitch, t.fundamental_cents, *t.widest_partials))
        for t in tubes
        if t is not None
    ]
    apart_by = abs(found[-1] - found[0])
    excess = above(limit, apart_by)
    if excess is not None:
        yield Finding(
            span=case.gesture.fingering.span or point.span,
            text=f"the two fingerings are {apart(apart_by, excess.limit)} cents apart; beyond "
            f"{plain(excess.limit)} they are heard as two pitches",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="apart", value=apart_by, limit=excess.limit, unit="cents"),),
            proposed_fixes=((FingeringChange("auto"),),),
        )


def _travel(case: Case, point: ContourPoint, played: PlayedPoint, trill: Technique) -> Iterator[Finding]:
    """The way of a slide between two notes, there and back as often as a trill goes."""
    hz = trill.sound.waves_hz
    if case.instrument.kind != "slide" or played.tube is None or played.other is None or hz is None:
        return
    travel = 2 * hz.value * abs(played.other.reach - played.tube.reach)
    excess = above(case.instrument.limits.get("slide_positions_per_s"), travel)
    if excess is not None:
        yield Finding(
            span=point.span,
            text=f"the slide would go to and fro between {played.tube.name} and {played.other.name}, "
            f"{apart(travel, excess.limit)} positions a second; about {plain(excess.limit)} can be reached",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="positions a second", value=travel, limit=excess.limit, unit="positions/s"),),
        )
