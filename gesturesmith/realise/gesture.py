"""How the instrument plays a gesture: fingerings and partials for every point, before any rule judges them.

Pure functions. A gesture consists of runs, points joined by slides of one kind, and single notes between them. Runs
that need a single tube (a sweep, a bend, a hand or slide glissando) get theirs first; the fingerings of all other
notes are chosen together, so that little has to move from one to the next.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from gesturesmith.acoustics.series import step_cents
from gesturesmith.diagnostics import PointReport, RealisationReport
from gesturesmith.instruments.base import Instrument, Tube
from gesturesmith.kinds import Bell, Correction, Path, Trill
from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.model.realisation import PlayedPoint, Realisation
from gesturesmith.realise import paths
from gesturesmith.realise.in_force import InForce, in_force
from gesturesmith.realise.paths import AskedPoint
from gesturesmith.realise.tonguing import tonguing
from gesturesmith.realise.trills import USUAL_CENTS
from gesturesmith.realise.ways import PossibleFingering, in_tune_cents, movement, raised, ways

_ZERO = Fraction(0)
_ONE_TUBE = ("partials", "hand-out", "lip", "hand", "slide", "against", "trigger")
_BY_SLIDE = {"slide": paths.slid, "against": paths.crossing, "trigger": paths.triggered}
_PATTERN_NOTES = 36  # three octaves of a fingered slide; nobody reads more
_NEAR_STEP_CENTS = 50.0  # steps no further from an interval asked for are as good as each other
_LIP_TRILL_CENTS = 230.0  # a lip trill needs neighbouring partials about a whole tone apart


class CarriedRun(NamedTuple):
    """Points joined by lines and one kind of movement, by their index among the sounding points."""

    path: Path
    members: tuple[int, ...]
    one_partial: bool


def realise(gesture: Gesture) -> Realisation:
    """The best way to play a gesture on its instrument; there is always one, whatever the rules will find."""
    points = gesture.sounding_points
    if not points:
        return Realisation(techniques=gesture.techniques)
    manners = _manners(gesture, points)
    instrument = gesture.instrument
    asked = [_asked(gesture, i, p, m) for i, (p, m) in enumerate(zip(points, manners, strict=True))]
    pitched = [i for i, m in enumerate(manners) if m.pitched != "none"]
    if gesture.fingering.mode == "held" and pitched:
        tube = paths.held(instrument, [asked[i] for i in pitched])
        asked = [a._replace(names=(tube,)) for a in asked]
    chosen: list[PossibleFingering | None] = [None] * len(points)
    runs = _runs(gesture, manners)
    facts = _carry(instrument, runs, asked, chosen)
    free = [i for i in pitched if chosen[i] is None]
    if free:
        for i, way in zip(free, paths.shortest(instrument, [asked[i] for i in free]), strict=True):
            chosen[i] = way
    steps = zip(_indices(gesture), manners, asked, chosen, strict=True)
    played = tuple(_played(gesture, index, m, a, way) for index, m, a, way in steps)
    return _gathered(gesture, _corrected(instrument, played, facts), manners, asked, facts)


class _Facts(NamedTuple):
    """What the runs of a gesture contribute beyond its points."""

    tube: Tube | None = None
    partials: tuple[int, ...] = ()
    starts: float | None = None
    lands: float | None = None
    breaks: tuple[int, ...] = ()  # indices among the sounding points
    lip: tuple[int, ...] = ()  # points the lip reaches from the run's partial
    hand: tuple[int, ...] = ()  # points the hand reaches


def _indices(gesture: Gesture) -> tuple[int, ...]:
    """Indices of the sounding points in the contour."""
    return tuple(i for i, p in enumerate(gesture.points) if p.kind != "silence")


def _manners(gesture: Gesture, points: Sequence[ContourPoint]) -> list[InForce]:
    known: dict[int, InForce] = {}  # by identity: most points share one tuple
    result = []
    for point in points:
        techniques = point.techniques or gesture.techniques
        if id(techniques) not in known:
            known[id(techniques)] = in_force(techniques, gesture.mute)
        result.append(known[id(techniques)])
    return result


def _asked(gesture: Gesture, i: int, point: ContourPoint, m: InForce) -> AskedPoint:
    names = gesture.fingering.tubes if gesture.fingering.mode == "given" else ()
    if len(names) > 1:
        names = (names[i],) if i < len(names) else ()
    names = tuple(filter(None, names))
    about = point.about or m.pitched == "about" or m.path == "half-valve"
    seconds = gesture.seconds_between(_ZERO, point.at)
    bell: Bell = m.bell or ("" if m.hand_free else "muted")
    cents = point.sounding_cents if point.sounding_cents is not None else _ZERO
    others = gesture.fingering.others
    other = "" if not others else others[0] if len(others) == 1 else others[i] if i < len(others) else ""
    return AskedPoint(cents, about, bell, names, seconds, other, m.first)


def _runs(gesture: Gesture, manners: Sequence[InForce]) -> list[CarriedRun]:
    """The runs of a gesture that need a single tube, in order; two may share the point where they meet."""
    place = {index: i for i, index in enumerate(_indices(gesture))}
    runs: list[CarriedRun] = []
    for i, segment in enumerate(gesture.segments):
        a, b = place.get(i), place.get(i + 1)
        if a is None or b is None or not segment.slides:
            continue
        m = manners[a]
        if m.path not in _ONE_TUBE or m.pitched == "none" or manners[b].pitched == "none":
            continue
        if runs and runs[-1].members[-1] == a and runs[-1].path == m.path:
            runs[-1] = runs[-1]._replace(members=(*runs[-1].members, b))
        else:
            runs.append(CarriedRun(m.path, (a, b), m.one_partial))
    return runs


def _carry(
    instrument: Instrument,
    runs: Sequence[CarriedRun],
    asked: Sequence[AskedPoint],
    chosen: list[PossibleFingering | None],
) -> _Facts:
    """Choose the tube of each run, fill in the fingerings of its points, and return the facts of the first run."""
    facts = _Facts()
    for run in runs:
        members = run.members
        group = [asked[i] for i in members]
        before = chosen[members[0]]
        if before is not None:  # it continues on the tube the last run ended on
            group = [a._replace(names=(before.tube.name,)) for a in group]
        if run.path in _BY_SLIDE and instrument.kind == "slide":
            found, broken = _BY_SLIDE[run.path](instrument, group)
            facts = facts._replace(breaks=(*facts.breaks, *(members[i] for i in broken)))
        elif run.path == "hand":
            # The hand's movement is the glissando itself: its pitch is played open.
            found = paths.handled(instrument, [a._replace(bell="") for a in group])
            facts = facts._replace(hand=(*facts.hand, *members), tube=facts.tube or found[0].tube)
        elif run.path == "lip":
            found = paths.bent(instrument, group, run.one_partial)
            facts = facts._replace(lip=(*facts.lip, *members[1:]), tube=facts.tube or found[0].tube)
        elif run.path in _BY_SLIDE:
            continue
        else:
            sweep = paths.swept(instrument, group)
            found = sweep.ways
            facts = facts._replace(tube=facts.tube or found[0].tube)
            if run.path == "partials" and not facts.partials:
                ends = _heard(found[0], group[0]), _heard(found[-1], group[-1])
                facts = facts._replace(partials=sweep.partials, starts=ends[0], lands=ends[1])
        for i, way in zip(members, found, strict=True):
            chosen[i] = chosen[i] or way
    return facts


def _heard(way: PossibleFingering, asked: AskedPoint) -> float:
    """The sounding pitch of a fingering: the pitch asked for plus its error."""
    return float(asked.cents) + way.error


def _played(
    gesture: Gesture, index: int, m: InForce, asked: AskedPoint, way: PossibleFingering | None
) -> PlayedPoint:
    at = gesture.points[index].at
    if way is None:
        return PlayedPoint(index=index, at=at, asked_cents=None, tube=None)
    other = None
    wide = gesture.points[index].trill
    second = float(wide.cents) if wide is not None else None
    if m.trill and m.path != "half-valve":
        way, other = _trill(gesture.instrument, m.trill, asked, way, second)
        if asked.other:
            above = asked.cents + Fraction(second or USUAL_CENTS.get(m.trill, 0))
            found = ways(gesture.instrument, above, asked.bell, (asked.other,))
            other = found[0].tube if found else other
    return PlayedPoint(
        index=index,
        at=at,
        asked_cents=asked.cents,
        tube=way.tube,
        partial=way.partial,
        error_cents=round(way.error, 6),
        correction="" if asked.about else _correction(gesture.instrument, way, m.hand_free),
        standard=way.standard,
        given=bool(asked.names) and gesture.fingering.mode == "given",
        other=other,
        fingered_cents=way.fingered if m.bell else None,
        trill_cents=second if m.trill else None,
    )


def _corrected(instrument: Instrument, played: tuple[PlayedPoint, ...], facts: _Facts) -> tuple[PlayedPoint, ...]:
    """The same points, corrected by lip or hand in runs moved by it."""
    if not facts.lip and not facts.hand:
        return played
    near = in_tune_cents(instrument)
    by: dict[int, Correction] = dict.fromkeys(facts.lip, "lip")
    by |= dict.fromkeys(facts.hand, "hand")
    return tuple(
        replace(p, correction=by[i] if abs(p.error_cents) > near else "") if i in by else p
        for i, p in enumerate(played)
    )


def _correction(instrument: Instrument, way: PossibleFingering, free: bool) -> Correction:
    """What corrects an error: nothing if it is in tune, the hand for a little upwards, a drawn valve slide for
    combinations of valves, else the lip; further down a valve slide, or the hand.
    """
    error = way.error
    if abs(error) <= in_tune_cents(instrument):
        return ""
    if free and raised(instrument, way.partial, error):
        return "hand"
    lip = instrument.lip_limit(error)
    slide, hand = (instrument.limits.get(name) for name in ("valve_slide_cents", "hand_lower_cents"))
    closes = instrument.has_hand and free and hand is not None and 0 < error <= hand.narrow.value
    if closes and instrument.means == "single":
        return "hand"
    reached = bool(set(way.tube.valves) & set("134"))  # no hand is free for the slide of the second valve
    drawn = slide is not None and 0 < error <= slide.narrow.value and reached
    if drawn and "-" in way.tube.valves:  # combinations of valves are what it is drawn for
        return "slide"
    if lip is not None and abs(error) <= lip.narrow.value:
        return "lip"
    if drawn:
        return "slide"
    return "hand" if closes else ""


def _trill(
    instrument: Instrument, kind: Trill, asked: AskedPoint, way: PossibleFingering, second: float | None
) -> tuple[PossibleFingering, Tube | None]:
    """The fingerings of a trill: of the note and of its second note; None if there are none.

    second   how many cents above the second note is asked for; None for the second that is in tune
    """
    limit = instrument.limits.get("trill_other_cents")
    near = float(limit.narrow.value) if limit else 35.0
    if kind == "same":
        free = paths.ways_of(instrument, asked._replace(names=()))
        others = [w for w in free if w.tube.name != way.tube.name and abs(w.error - way.error) <= near]
        return way, others[0].tube if others else None
    if kind in ("above", "other"):
        usual = (200.0, 100.0) if kind == "above" else (USUAL_CENTS[kind],)
        for cents in usual if second is None else (second,):
            found = [w for w in ways(instrument, asked.cents + Fraction(cents), asked.bell) if abs(w.error) <= near]
            if found:
                return way, min(found, key=lambda w: (movement(way, w), w.cost)).tube
        return way, None
    slurred = [w for w in paths.ways_of(instrument, asked) if abs(w.error) <= in_tune_cents(instrument)] + [way]
    if second is None:
        best = min(slurred, key=lambda w: (step_cents(w.partial) > _LIP_TRILL_CENTS, w.cost))
    else:
        best = min(slurred, key=lambda w: (round(abs(step_cents(w.partial) - second) / _NEAR_STEP_CENTS), w.cost))
    return best, best.tube


def _gathered(
    gesture: Gesture,
    played: tuple[PlayedPoint, ...],
    manners: Sequence[InForce],
    asked: Sequence[AskedPoint],
    facts: _Facts,
) -> Realisation:
    tube = facts.tube
    tubed = [p for p in played if p.tube is not None]
    one_tube = bool(facts.partials)
    if gesture.fingering.mode == "held" and tubed:
        tube, one_tube = tubed[0].tube, True
    # With half valves, without a pitch or with an approximate one there is no fingering to show.
    told = zip(played, manners, asked, strict=True)
    odd = any(_odd(gesture.instrument, p, a) for p, m, a in told if m.path != "half-valve")
    return Realisation(
        techniques=gesture.techniques,
        points=played,
        tube=tube,
        partials=facts.partials,
        starts_cents=facts.starts,
        lands_cents=facts.lands,
        pattern=_pattern(gesture),
        breaks=tuple(played[i].index for i in facts.breaks),
        print_tube=any(p.given for p in played) or one_tube or odd,
        tonguing=tonguing(gesture),
    )


def _odd(instrument: Instrument, point: PlayedPoint, asked: AskedPoint) -> bool:
    """Whether the player would not choose this fingering, or the second one of a trill, unprompted."""
    if point.tube is None or len(instrument.tubes) == 1:
        return False
    second = point.other is not None and point.other.name != point.tube.name
    return second or not (point.standard or asked.about)


def _pattern(gesture: Gesture) -> tuple[Tube, ...]:
    """The standard tubes of the chromatic notes along the first slide made by valves or as a run."""
    for i, segment in enumerate(gesture.segments):
        a, b = gesture.points[i], gesture.points[i + 1]
        if not segment.slides or a.sounding_cents is None or b.sounding_cents is None:
            continue
        m = in_force(a.techniques or gesture.techniques, gesture.mute)
        if m.path not in ("valves", "steps") or m.pitched == "none":
            continue
        first, last = round(a.sounding_cents / 100), round(b.sounding_cents / 100)
        step = 1 if last >= first else -1
        notes = list(range(first, last + step, step))[:_PATTERN_NOTES]
        tubes = [ways(gesture.instrument, Fraction(100 * n), m.bell)[0].tube for n in notes]
        return tuple(t for k, t in enumerate(tubes) if k == 0 or t.name != tubes[k - 1].name)
    return ()


def realisation_report(realisation: Realisation) -> RealisationReport:
    """A realisation as in a report: names for techniques and tubes, cents as whole numbers."""
    swept = realisation.starts_cents is not None and realisation.lands_cents is not None
    return RealisationReport(
        techniques=tuple(t.key for t in realisation.techniques),
        points=tuple(_point_report(p) for p in realisation.points),
        tube=realisation.tube.name if realisation.tube is not None else "",
        partials=realisation.partials,
        starts_cents=round(realisation.starts_cents or 0.0) if swept else None,
        lands_cents=round(realisation.lands_cents or 0.0) if swept else None,
        pattern=tuple(t.name for t in realisation.pattern),
        breaks=realisation.breaks,
        fallback=realisation.used_fallback,
        tonguing=realisation.tonguing,
    )


def _point_report(point: PlayedPoint) -> PointReport:
    if point.tube is None:
        return PointReport(at=point.at)
    return PointReport(
        at=point.at,
        side=point.tube.side,
        valves=point.tube.valves,
        partial=point.partial,
        cents=round(point.error_cents),
        correction=point.correction,
        trill=point.other.name if point.other is not None else "",
    )
