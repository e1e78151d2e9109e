"""The rows of a gesture: cents above, fingerings below."""

from __future__ import annotations

from gesturesmith.kinds import Fingerings
from gesturesmith.model.graces import unfolded
from gesturesmith.model.realisation import PlayedPoint
from gesturesmith.realise import realise
from gesturesmith.rules.base import Case
from gesturesmith.score.events import EventBuilder, VoiceBuilder
from gesturesmith.score.marks import Fingering
from gesturesmith.score.technique_state import in_force


def cents(line: VoiceBuilder) -> None:
    """Add cents to pitches finer than a quarter tone."""
    for note in line.sounding:
        for event in note.whole if note.index is not None else ():
            if event.head is not None and event.head.tuner is not None:
                event.marks.append(event.head.tuner)


def fingerings(case: Case, line: VoiceBuilder, asked: Fingerings) -> None:
    """Add fingerings as the file asks: `needed`, `all` or `none`.

    A fingering is printed once along a line or for a note repeated without a rest, unless the row belongs to the
    sign; at any other note a gap would read as the usual fingering.
    """
    if asked == "none" or len(case.instrument.tubes) == 1:
        return
    realisation = case.realisation
    # One tube throughout is said at its first note; where plain notes stand beside a sweep, each says its own.
    tubes = {p.tube.name for p in realisation.points if p.tube is not None}
    if realisation.print_tube and realisation.tube is not None and tubes <= {realisation.tube.name}:
        line.sounding[0].marks.append(Fingering(name=realisation.tube.name))
        return
    shown: tuple[str, EventBuilder] | None = None
    for played in realisation.points:
        event = _event(line, played.index)
        name = _name(played)
        if event is None or not name or not (played.given or (_shows_pitch(event) and not _forced(event))):
            shown = None
            continue
        part_of_sign = _part_of_sign(case, event)
        wanted = asked == "all" or not played.standard or played.given or part_of_sign
        told = shown is not None and shown[0] == name and _goes_on(shown[1], event)
        if wanted and (part_of_sign or not told):
            event.marks.append(Fingering(name=name))
        shown = (name, event) if wanted else None
    _of_graces(case, line, asked)


def _forced(event: EventBuilder) -> bool:
    """Whether the lip forces the note between the harmonics: no fingering gives it, and the player finds one."""
    return event.point is not None and any(t.harmonic == "between" for t in event.point.techniques)


def _of_graces(case: Case, line: VoiceBuilder, asked: Fingerings) -> None:
    """The fingerings of grace notes that the player would not choose, or all of them."""
    graces = [grace for event in line.sounding for grace in event.whole if grace is not event]
    if not graces:
        return
    gesture = unfolded(case.gesture)
    by_place = {gesture.points[p.index].span: p for p in realise(gesture).points}
    for grace in graces:
        played = by_place.get(grace.point.span) if grace.point is not None else None
        if played is not None and played.tube is not None and (asked == "all" or not played.standard):
            grace.marks.append(Fingering(name=played.tube.name))


def _goes_on(before: EventBuilder, event: EventBuilder) -> bool:
    """Whether a line leads from one to the other, or the same note is repeated without a rest."""
    if event.point is not None and event.point.reached == "line":
        return True
    one, two = before.head, event.head
    same = one is not None and two is not None and (one.spelling, one.tuner) == (two.spelling, two.tuner)
    return same and before.end == event.start


def _shows_pitch(event: EventBuilder) -> bool:
    """Whether the head shows a pitch that can have a fingering, not a height."""
    return event.head is not None and event.head.steps is not None and not event.head.bare


def _part_of_sign(case: Case, event: EventBuilder) -> bool:
    return any(t.look.fingering for t in in_force(case, event))


def _event(line: VoiceBuilder, index: int) -> EventBuilder | None:
    return next((e for e in line.sounding if e.index == index), None)


def _name(played: PlayedPoint) -> str:
    if played.tube is None:
        return ""
    if played.other is None or played.other == played.tube:
        return played.tube.name
    return f"{played.tube.name} / {played.other.name}"
