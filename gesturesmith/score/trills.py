"""Trills: their sign and their second note, so that a whole tone or a semitone is never in doubt."""

from __future__ import annotations

from dataclasses import replace

from gesturesmith.kinds import Pitches
from gesturesmith.realise.trills import above, second_cents
from gesturesmith.rules.base import Case
from gesturesmith.score.events import EventBuilder, VoiceBuilder
from gesturesmith.score.heads import on_page
from gesturesmith.score.marks import SecondNote, TrillSign, Words
from gesturesmith.score.technique_state import carries_scripts, in_force
from gesturesmith.score.waves import drawn_waves, rate
from gesturesmith.techniques.base import Technique
from gesturesmith.units import Spelling

_SECOND = 2  # semitones; the widest interval the sign can show with an accidental


def draw(case: Case, line: VoiceBuilder, pitches: Pitches) -> None:
    """Draw the signs of trills and their second notes.

    A small accidental by the sign shows which second it is (Gould, from memory); a wider trill, and one without a
    sign, has its second note as a small head in parentheses after the first. A trill that a line turns into begins,
    with its sign, where the line reaches its point, tongued or not.
    """
    before = in_force(case, line.sounding[0])
    for event in line.sounding:
        force = in_force(case, event)
        for technique in force:
            if not technique.trill or (technique in before and not carries_scripts(event)):
                continue
            to = _upper(case, event, technique, pitches)
            near = to is not None and to[1] <= _SECOND and _is_next(event, to[0], pitches)
            if technique.look.trill:
                waves = drawn_waves(case, technique, event.start, event.end)
                event.marks.append(TrillSign(to=to[0] if to is not None and near else None, waves=waves))
                often = rate(case, event.start, event.end) if waves is not None else ""
                event.marks += [Words(text=often)] if often else []
            if to is not None and not (near and technique.look.trill):
                event.marks.append(SecondNote(to=to[0]))
        before = force


def leave_naturals_out(voices: list[VoiceBuilder]) -> None:
    """Second notes have no natural where nothing altered stands on their line: nobody can be in doubt."""
    heads = [e.head for voice in voices for event in voice.sounding for e in event.whole]
    altered = {h.spelling.steps for h in heads if h is not None and h.spelling is not None and h.spelling.alter}
    seconds = [m.to for voice in voices for e in voice.sounding for m in e.marks if isinstance(m, SecondNote)]
    altered |= {to.steps for to in seconds if to.alter}
    for voice in voices:
        for event in voice.sounding:
            event.marks[:] = [
                replace(m, natural=False) if isinstance(m, SecondNote) and m.to.steps not in altered else m
                for m in event.marks
            ]


def _is_next(event: EventBuilder, to: Spelling, pitches: Pitches) -> bool:
    """Whether a note has the next letter up, which the sign stands for with its accidental."""
    point = event.point
    return point is not None and point.pitch is not None and to.steps - on_page(point.pitch, pitches).steps == 1


def _upper(case: Case, event: EventBuilder, technique: Technique, pitches: Pitches) -> tuple[Spelling, int] | None:
    """The second note as spelled on the page, and how many semitones it is above the first."""
    point = event.point
    played = next((p for p in case.realisation.points if p.index == event.index), None)
    if point is None or point.pitch is None or point.about or played is None or played.asked_cents is None:
        return None
    second = second_cents(technique.trill, played)
    if second is None and point.trill is None:
        return None
    if point.trill is not None:
        return on_page(point.pitch, pitches).transposed(point.trill), round(point.trill.cents / 100)
    assert second is not None
    semitones = round((second - float(played.asked_cents)) / 100)
    return above(on_page(point.pitch, pitches), semitones), semitones
