"""A whole piece of music before engraving: its gestures and rests in order, with all the marks at their events."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import pairwise

from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import AttackShape, Clef, Pitches, StaffClef, Strokes
from gesturesmith.lang.words import FERMATA
from gesturesmith.model.piece import Settings
from gesturesmith.model.tempo import TempoMap
from gesturesmith.rules.base import Case
from gesturesmith.score import boxes, clefs, events, lines, notes, rows, signs, trills
from gesturesmith.score.boxes import Boxes
from gesturesmith.score.dynamics import dynamics
from gesturesmith.score.events import EventBuilder, VoiceBuilder
from gesturesmith.score.heads import Stave, on_page, three_lines
from gesturesmith.score.marks import DynamicLevel, Small, SungHead, Words
from gesturesmith.score.music import Footnote
from gesturesmith.score.rhythm import Meter, Slot, SlotKind, is_value, settled
from gesturesmith.score.technique_state import TechniqueState, head_for_sung, in_force, left_in_force, small_start
from gesturesmith.techniques.base import Technique
from gesturesmith.units import LETTERS, KeySignature
from gesturesmith.values import frozen
from gesturesmith.wording import text as wording

type Keys = tuple[tuple[Fraction, KeySignature], ...]


@dataclass(slots=True, kw_only=True)
class PartBuilder:
    """One gesture or rest, `at` beats from the start of the music.

    since       where the clock of its slots begins, in beats from the start of the music
    slots       its times on that clock
    first_key   key of its first event in the slots
    sung_slots  the same for the sung line
    """

    case: Case | None
    line: VoiceBuilder
    at: Fraction
    beats: Fraction
    first_key: int
    sung: VoiceBuilder | None = None
    since: Fraction = Fraction(0)
    slots: tuple[Slot, ...] = ()
    sung_slots: tuple[Slot, ...] = ()
    levels: list[DynamicLevel] = field(default_factory=list)
    apart: bool = False  # a rest kept apart from the one before it
    crowded: bool = False  # its last level is close to the first of the next part
    boxed: bool = False  # in a box, or the time through which one is repeated
    fan: AttackShape = ""  # under one feathered beam


@frozen(kw_only=True)
class Plan:
    """All parts, with the clefs and footnotes of the whole music."""

    parts: tuple[PartBuilder, ...]
    meter: Meter
    free: bool
    stave: Stave
    clef: StaffClef
    last_clef: StaffClef
    footnotes: tuple[Footnote, ...]
    beats: Fraction
    turns: tuple[tuple[Fraction, Fraction], ...]  # rests with time to turn a page


_TURN_S = 2.0  # seconds a player needs to turn a page and find the place: our own judgement


def plan(
    played: tuple[tuple[Case | None, Fraction, Fraction], ...],
    instrument: Instrument,
    settings: Settings,
    meter: Meter,
    pitches: Pitches,
    tempo: TempoMap,
    *,
    repeated: bool = False,
    players: Mapping[Fraction, str] | None = None,
    cuts: frozenset[Fraction] = frozenset(),
    boxed: Boxes | None = None,
    borders: frozenset[Fraction] = frozenset(),
    held: frozenset[Fraction] = frozenset(),
    keys: Keys = (),
) -> Plan:
    """Plan a piece of music from its gestures and rests (None), each with its start and length in beats. If it is
    `repeated`, what holds at its end is cancelled at its beginning. `players`: by time, words for which of two
    plays. `cuts`: where a rest is kept apart from the one before it. `borders`: times over which
    no tuplet or beam may reach, if there are no bars. `held`: rests under a fermata. `keys`: key signatures,
    each from a time on."""
    cases = tuple(case for case, _, _ in played if case is not None)
    stave = Stave(
        3 if three_lines(tuple(c.gesture for c in cases), settings) else 5,
        pitches,
        settings.accidentals == "arrows",
    )
    parts: list[PartBuilder] = []
    key = 0
    seconds = in_seconds(cases)
    for case, at, beats in played:
        parts.append(_part(case, at, beats, key, stave, "point" if seconds else "rest"))
        parts[-1].apart = at in cuts
        if case is None and at in held:
            parts[-1].line.events[0].articulations = (FERMATA,)
        key += len(parts[-1].line.events) + (len(parts[-1].sung.events) if parts[-1].sung else 0)
    _time(parts, meter, borders)
    last = next((part for part in reversed(parts) if part.case is not None), None) if repeated else None
    again = in_force(last.case, last.line.sounding[-1]) if last is not None and last.case is not None else ()
    state = TechniqueState(settings.wording[0], settings.page_words, again=again)
    footnotes = notes.Footnotes(settings.wording, settings.page_words)
    named = ""
    strokes: Strokes = ""
    ends = _ends_in_boxes(parts, boxed or {})
    for part in parts:
        place = boxed.get(part.at) if boxed else None
        if part.at in ends:
            state.unsure(ends[part.at])
        if place is not None:
            part.boxed = True
            boxes.draw(place, part.line, tempo.tempo_at(part.at), meter, settings.wording[0])
        if place is not None and place.goes_on:
            continue
        if part.case is None:
            state.rest(part.line.events[0])
            if all(slot.kind == "point" for slot in part.slots):
                length = part.beats * 60 / tempo.tempo_at(part.at) if seconds else None
                lines.draw_rest_length(part.line, part.beats, length, meter, settings.wording[0])
        else:
            if players and part.at in players:
                part.line.sounding[0].marks.append(Words(text=players[part.at]))
            strokes = lines.name_strokes(part.line, settings.wording[0], strokes)
            _dress(part, part.case, stave, settings, meter, state, footnotes)
            named = _name_register(part, part.case, stave, settings, named)
    _gather_rests(parts, meter.bar is not None)
    _part_levels(parts)
    chosen: Sequence[StaffClef] = _clefs(parts, instrument) if stave.lines == 5 else [""]
    if meter.bar is None:
        _naturals([(part.at, part.line) for part in parts], keys)
        _naturals([(part.at, part.sung) for part in parts if part.sung is not None], keys)
    _of_two_voices(parts)
    if not keys:
        trills.leave_naturals_out([part.line for part in parts])
    return Plan(
        parts=tuple(parts),
        meter=meter,
        free=any(_in_points(part) or _shows_harmonics(part) for part in parts),
        stave=stave,
        clef=chosen[0],
        last_clef=chosen[-1],
        footnotes=footnotes.footnotes,
        beats=max(at + beats for _, at, beats in played),
        turns=tuple(
            (at, at + beats)
            for case, at, beats in played
            if case is None and not boxes.goes_on(boxed, at) and tempo.between(at, at + beats) >= _TURN_S
        ),
    )


def _ends_in_boxes(parts: list[PartBuilder], boxed: Boxes) -> dict[Fraction, tuple[Technique, ...]]:
    """What may be in force where a cell of a box begins, and after the box: what any of its cells ends with."""
    found: dict[Fraction, tuple[Technique, ...]] = {}
    begins: list[Fraction] = []
    ends: tuple[Technique, ...] = ()
    last: tuple[Technique, ...] = ()
    for part in parts:
        place = boxed.get(part.at)
        if place is None:
            continue
        if place.first or place.goes_on:
            begins.append(part.at)
        if part.case is not None:
            last = left_in_force(part.case, part.line.sounding[-1])
        if place.last:
            ends, last = (*ends, *last), ()
        if place.goes_on:
            found |= dict.fromkeys(begins, ends)
            begins, ends = [], ()
    return found


def in_seconds(cases: Iterable[Case]) -> bool:
    """Whether everything played is in seconds, so that nothing is counted in beats."""
    played = [case.gesture.in_seconds for case in cases]
    return bool(played) and all(played)


def _part(
    case: Case | None, at: Fraction, beats: Fraction, key: int, stave: Stave, silent: SlotKind
) -> PartBuilder:
    if case is None:
        rest = EventBuilder(start=Fraction(0), end=beats, kind=silent, head=None, point=None)
        line = VoiceBuilder(events=[rest], stop=None, points=(), segments=())
        return PartBuilder(case=None, line=line, at=at, beats=beats, first_key=key)
    gesture = case.gesture
    part = PartBuilder(
        case=case,
        line=events.contour(gesture, stave),
        at=at,
        beats=beats,
        first_key=key,
        sung=events.sung(gesture, stave),
        levels=dynamics(gesture),
    )
    if gesture.attacks is not None and any(e.feather for e in part.line.events):
        part.fan = gesture.attacks.shape
    return part


def _time(parts: list[PartBuilder], meter: Meter, borders: frozenset[Fraction]) -> None:
    """Give the parts their slots."""
    for together in _clocks(parts, meter, borders):
        since = together[0].at if meter.bar is None else Fraction(0)
        for part in together:
            part.since, offset = since, part.at - since
            part.slots = events.slots(part.line, offset, part.first_key)
            if part.sung is not None:
                sung = events.slots(part.sung, offset, part.first_key + len(part.line.events))
                part.sung_slots = settled(sung, (0,) * len(sung), meter)
        whole = settled(
            tuple(slot for part in together for slot in part.slots),
            tuple(n for n, part in enumerate(together) for _ in part.slots),
            meter,
        )
        at = 0
        for part in together:
            part.slots, at = whole[at : at + len(part.slots)], at + len(part.slots)


def _clocks(parts: list[PartBuilder], meter: Meter, borders: frozenset[Fraction]) -> list[list[PartBuilder]]:
    """The parts that are timed together: all, if there are bars. In free time each is by itself, but pitches that
    follow each other make tuplets and beams, as they would in a gesture."""
    if meter.bar is not None:
        return [parts]
    made: list[list[PartBuilder]] = []
    for part in parts:
        if made and part.at not in borders and _is_loose(part) and _is_loose(made[-1][-1]):
            made[-1].append(part)
        else:
            # A rest in a tuplet is not one with a rest outside.
            part.apart = part.apart or _is_loose(part) or bool(made and len(made[-1]) > 1)
            made.append([part])
    return made


def _is_loose(part: PartBuilder) -> bool:
    """Whether it is a plain pitch, or a rest with no note value of its own."""
    return not is_value(part.beats) if part.case is None else part.case.gesture.name == ""


def _gather_rests(parts: list[PartBuilder], barred: bool) -> None:
    """Merge successive rests into one, which gets the marks of all."""
    last: tuple[PartBuilder, int] | None = None
    for part in parts:
        for n in range(len(part.slots)):
            if last is not None and _goes_on(*last, part, n, barred):
                before, k = last
                slot, rest = part.slots[n], before.slots[k]
                longer = replace(rest, end=rest.end + slot.end - slot.start)
                before.slots = (*before.slots[:k], longer, *before.slots[k + 1 :])
                part.slots = (*part.slots[:n], replace(slot, gathered=True), *part.slots[n + 1 :])
                first, event = before.line.events[k], part.line.events[n]
                first.labels += event.labels
                first.marks += event.marks
            else:
                last = part, n


def _goes_on(before: PartBuilder, k: int, part: PartBuilder, n: int, barred: bool) -> bool:
    """Whether a rest continues the silence before it, with nothing to separate them."""
    rest, slot, event = before.slots[k], part.slots[n], part.line.events[n]
    if rest.kind != "rest" or slot.kind != "rest":
        return False
    if part.apart or any(p.fan or p.sung is not None or p.boxed for p in (before, part)):
        return False
    if part is not before and not barred and rest.end % 1:  # each part is timed from its own start
        return False
    if any(isinstance(mark, signs.AT_A_TIME) for mark in event.marks):
        return False
    if before.line.events[k].ends or before.line.events[k].articulations:
        return False
    if event.ends or event.articulations or event.clef:
        return False
    return not any(event.start <= d.at < event.end for d in part.levels)


def _in_points(part: PartBuilder) -> bool:
    """Whether a gesture is spaced by time, without note values."""
    if part.case is None or part.fan or _shows_harmonics(part):
        return False
    return all(slot.kind == "point" for slot in part.slots)


def _shows_harmonics(part: PartBuilder) -> bool:
    """Whether a line shows the harmonics it passes: heads between notes that keep their values."""
    return any(event.value is not None for event in part.line.events)


def _dress(
    part: PartBuilder,
    case: Case,
    stave: Stave,
    settings: Settings,
    meter: Meter,
    state: TechniqueState,
    footnotes: notes.Footnotes,
) -> None:
    """Add all the marks a gesture needs to its events."""
    gesture, line = case.gesture, part.line
    first = line.sounding[0]
    _second_heads(case, line, stave)
    state.gesture(case, line)
    trills.draw(case, line, stave.pitches)
    if gesture.text is not None:
        first.marks.append(Words(text=gesture.text))
    signs.draw(line)
    lines.draw(case, line)
    lines.draw_band(gesture, line, stave)
    rows.cents(line)
    rows.fingerings(case, line, settings.fingerings)
    if _in_points(part) or part.fan:
        lines.draw_length(gesture, line, meter, settings.wording[0])
    if gesture.in_seconds and small_start(in_force(case, first)):
        first.marks.append(Small())
    footnotes.mark(case, line)
    if part.sung is not None:
        signs.draw(part.sung)
        lines.draw(case, part.sung)
        rows.cents(part.sung)
        head = head_for_sung(tuple(t for event in line.sounding for t in in_force(case, event)))
        for event in part.sung.sounding:
            event.marks += [Small(), *([SungHead(shape=head)] if head != "normal" else [])]


def _name_register(part: PartBuilder, case: Case, stave: Stave, settings: Settings, named: str) -> str:
    """Name the register over a three-line staff if it has changed; returns the name now in force."""
    band = case.gesture.band
    if band is None or stave.lines != 3:
        return named
    low, high = (on_page(pitch, stave.pitches).name for pitch in (band.low, band.high))
    name = wording(f"register-{band.register}", settings.wording[0]) if band.register else f"{low}–{high}"
    if name != named:
        part.line.sounding[0].marks.append(Words(text=name))
    return name


def _part_levels(parts: list[PartBuilder]) -> None:
    """Make room between the level at the very end of a gesture and a different one at the start of the next. Equal
    levels are printed once: the hairpin that leads to them goes on to the next note."""
    for part, following in pairwise(parts):
        ending = [d for d in part.levels if d.at >= part.beats and d.level]
        begins = [d for d in following.levels if d.at == 0]
        if not ending or not begins:
            continue
        if part.line.stop is None and ending[-1].level == begins[0].level:
            part.levels.remove(ending[-1])
        else:
            where = next(n for n, level in enumerate(part.levels) if level is ending[-1])
            part.levels[where] = replace(ending[-1], crowded=True)
            part.crowded = True


def _second_heads(case: Case, line: VoiceBuilder, stave: Stave) -> None:
    """Add the upper of two neighbouring partials held at once."""
    for played in case.realisation.points:
        event = line.at_point(played.index)
        pitch = event.point.pitch if event.point is not None else None
        held = max((t.holds for t in in_force(case, event)), default=1)
        if held > 1 and played.tube is not None and played.partial and event.head is not None and pitch is not None:
            upper = played.tube.fundamental_cents + 1200 * math.log2(played.partial + 1)
            event.head = replace(event.head, upper=stave.heard_above(pitch, upper))


def _clefs(parts: list[PartBuilder], instrument: Instrument) -> list[Clef]:
    """Put clef changes at the events that need them; returns all clefs in order."""
    groups: list[list[EventBuilder]] = []
    rests: list[bool] = []
    rest = False
    for part in parts:
        if part.case is None:
            rest = True
            continue
        both = [*part.line.sounding, *part.sung.sounding] if part.sung is not None else None
        fresh = [both] if both is not None else clefs.phrases(part.line.sounding)
        groups += fresh
        rests += [rest, *[False] * (len(fresh) - 1)]
        rest = False
    chosen = clefs.assign(groups, rests, instrument)
    for group, (before, clef) in zip(groups[1:], pairwise(chosen), strict=True):
        if clef != before:
            group[0].clef = clef
    for part, following in pairwise(parts):
        if following.case is not None:
            stops = part.line.stop is not None or (part.sung is not None and part.sung.stop is not None)
            following.line.sounding[0].after_stop = stops
    return chosen or [instrument.clefs[0][0]]


def _naturals(voice: list[tuple[Fraction, VoiceBuilder]], keys: Keys) -> None:
    """Without bars each accidental applies to its note only; a natural after it, or what the key signature has, is
    still printed, once, to leave no doubt."""
    altered: dict[int, Fraction] = {}
    for at, line in voice:
        key = next((key for since, key in reversed(keys) if since <= at), None)
        for event in (one for whole in line.sounding for one in whole.whole):
            head = event.head
            if head is None or head.steps is None or head.bare:
                continue
            usual = key.alter(LETTERS[head.steps % 7]) if key is not None else 0
            event.forced = head.alter == usual and altered.get(head.steps, usual) != usual
            altered[head.steps] = head.alter


def _of_two_voices(parts: list[PartBuilder]) -> None:
    """If played and sung notes share a line or space, both get an accidental: one could belong to either."""
    for part in parts:
        for sung in part.sung.sounding if part.sung is not None else ():
            for played in part.line.sounding:
                one, two = played.head, sung.head
                if one is None or two is None or one.steps is None or one.bare or two.bare:
                    continue
                meet = played.start < sung.end and sung.start < played.end
                if (meet or played.start == sung.start) and one.steps == two.steps and one.alter != two.alter:
                    played.forced = sung.forced = True
