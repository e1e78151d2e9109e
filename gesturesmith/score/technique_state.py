"""The signs and words of techniques over a whole piece: beginnings are announced and ends cancelled.

Everything comes from `Technique.look`; no technique is named here.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from gesturesmith.kinds import HandState, HeadShape
from gesturesmith.rules.base import Case
from gesturesmith.score.events import EventBuilder, VoiceBuilder
from gesturesmith.score.marks import (
    Bend,
    Edge,
    Flutter,
    HandTurnEnd,
    HandTurnStart,
    Script,
    SpanEnd,
    SpanStart,
    TechniqueLabel,
    TechniqueTurnEnd,
    TechniqueTurnStart,
)
from gesturesmith.score.waves import drawn_waves, rate
from gesturesmith.techniques.base import PLAIN_END, Technique, clash
from gesturesmith.wording import PageWords
from gesturesmith.wording import text as wording

# After this many beats of silence a reader has forgotten what held, so the word is repeated. Our own judgement.
LONG_REST_BEATS = Fraction(8)


def in_force(case: Case, event: EventBuilder) -> tuple[Technique, ...]:
    """The techniques at an event; if a fallback replaces one, those actually played."""
    return case.in_force(event.point)


def left_in_force(case: Case, event: EventBuilder) -> tuple[Technique, ...]:
    """Those that hold on after the last event of a gesture. Waves show where they end; whatever plays the same
    later says so anew."""
    return tuple(t for t in in_force(case, event) if t.look.extent == "span" or not _is_span(case, t))


@dataclass(slots=True)
class TechniqueState:
    """What the page has told the player so far; gestures and rests pass through it in order."""

    language: str
    words: PageWords
    active: tuple[Technique, ...] = ()
    again: tuple[Technique, ...] = ()  # in force when a repeat sign leads back to the beginning
    known: set[str] = field(default_factory=set)
    silence: Fraction = Fraction(0)
    rest_before: EventBuilder | None = None
    mute: str | None = None
    shut: bool = False  # a glissando has left the hand in the bell, and nothing has opened it
    open: dict[str, EventBuilder] = field(default_factory=dict)  # spans still open at the end of the last gesture

    def rest(self, event: EventBuilder) -> None:
        """A rest between gestures: mutes are announced in it, and after a long one words are repeated."""
        self.silence += event.end - event.start
        self.rest_before = self.rest_before or event
        if self.silence >= LONG_REST_BEATS:
            self.known.clear()

    def unsure(self, ends: tuple[Technique, ...]) -> None:
        """Something that may follow any of these, as a cell of a box may: all its own techniques are named, and any
        others cancelled."""
        self.again = tuple(dict.fromkeys((*self.active, *self.again, *ends)))
        self.active, self.mute, self.rest_before, self.silence = (), None, None, Fraction(0)
        self.known.clear()
        self.open.clear()

    def gesture(self, case: Case, line: VoiceBuilder) -> None:
        """Add signs and words to the events of a gesture."""
        events = line.sounding
        forces = [in_force(case, e) for e in events]
        for n, (event, force) in enumerate(zip(events, forces, strict=True)):
            if n:
                self.rest_before = _rest_before(event, line)
            before = forces[n - 1] if n else self._known_before(case)
            entering = tuple(t for t in force if t not in before)
            leaving = tuple(t for t in (*before, *self.again) if t not in force)
            self.again = ()
            if n and (entering or leaving) and event.index and event.point and event.point.reached == "line":
                self._turn(case, line.at_point(event.index - 1), event, before, force)
            else:
                gone = tuple(t for t in leaving if not _replaced(t, entering) and not (n and _is_span(case, t)))
                self._leave(gone, force, event)
                self._enter(case, entering, event)
            if n == 0:
                self._remind(case, tuple(t for t in force if t in before), event)
                self.mute = case.gesture.mute
            for technique in force:
                said = self._word(case, technique, force)
                if not said or _is_span(case, technique):
                    continue
                over = _slid(technique, event, line)
                if not over or (event.point is not None and event.index and event.point.reached == "line"):
                    event.held.append(_always(said))
                if not over:
                    event.repeat_after_break.append(_always(said))
            _signs_of(force, event, line)
        self._spans(case, events, forces)
        _hand(forces, line)
        self._open(forces, events)
        self.active = left_in_force(case, events[-1])
        self.silence, self.rest_before = Fraction(0), None

    def _open(self, forces: list[tuple[Technique, ...]], events: list[EventBuilder]) -> None:
        """Say "open" where the hand comes out again after a glissando has closed it."""
        there: HandState = "open"
        for force, event in zip(forces, events, strict=True):
            if any(_hand_state(t) or t.takes_mute for t in force):
                self.shut = False
            elif self.shut and carries_scripts(event) and not any(t.look.motion == "hand" for t in force):
                event.marks.append(Script(sign="open"))
                self.shut = False
            for mark in (*event.marks, *event.ends):
                if isinstance(mark, HandTurnStart):
                    there = mark.there
                elif isinstance(mark, HandTurnEnd):
                    self.shut = there != "open" and not any(_hand_state(t) for t in force)

    def _known_before(self, case: Case) -> tuple[Technique, ...]:
        """What is in force before a gesture: another mute is a new one."""
        other = case.gesture.mute not in (None, self.mute)
        return tuple(t for t in self.active if not (other and t.takes_mute))

    def _enter(self, case: Case, entering: tuple[Technique, ...], event: EventBuilder) -> None:
        for technique in entering:
            if technique.look.word and not _is_span(case, technique):
                said = self._word(case, technique, in_force(case, event))
                later = technique.look.sign if technique.key in self.known and technique.look.sign else said
                self._say(TechniqueLabel(word=said, first=said, later=later), technique.look.announce, event)
            self.known.add(technique.key)

    def _leave(self, leaving: tuple[Technique, ...], force: tuple[Technique, ...], event: EventBuilder) -> None:
        """Cancel techniques that are over; `force` is what continues or begins."""
        muted = any(t.takes_mute for t in force)
        unmuted = not muted and any(t.takes_mute for t in leaving)
        for technique in leaving:
            look = technique.look
            if (technique.of_mute and not muted) or (technique.cover and unmuted):
                continue  # it goes with its mute
            if look.cancel_script and carries_scripts(event):
                event.marks.append(Script(sign=look.cancel_script))
            elif end := self._end(technique, force):
                self._say(TechniqueLabel(word=end, first=end, later=end), look.announce, event)

    def _say(self, label: TechniqueLabel, announced: bool, event: EventBuilder) -> None:
        place = self.rest_before if announced and self.rest_before is not None else event
        if label not in place.labels:
            place.labels.append(label)

    def _remind(self, case: Case, staying: tuple[Technique, ...], event: EventBuilder) -> None:
        """Repeat the sign of a technique that continues from the gesture before; after a long rest, its word."""
        for technique in staying:
            look = technique.look
            if _is_span(case, technique) or not look.word:
                continue
            if technique.key not in self.known:
                self._enter(case, (technique,), event)
            else:
                said = self._word(case, technique, in_force(case, event))
                self._say(TechniqueLabel(word=said, first=said, later=look.sign), False, event)

    def _word(self, case: Case, technique: Technique, force: tuple[Technique, ...]) -> str:
        """The word of a technique, given what else is in force, with the mute's name filled in."""
        look, mute = self.words.look(technique), case.gesture.mute
        said = look.word
        if look.breath_word and any(t.breath_only for t in force):
            said = look.breath_word
        return said.replace("{mute}", wording(f"mute-{mute}", self.language)) if "{mute}" in said and mute else said

    def _end(self, technique: Technique, force: tuple[Technique, ...]) -> str:
        """The text where this ends: its own name if other techniques are in force, which must not end too."""
        look = self.words.look(technique)
        return look.named_end if _said(force) else look.cancel

    def _name(self, case: Case, technique: Technique, force: tuple[Technique, ...]) -> str:
        """The word of a technique, or its sign if the word is already in force."""
        sign = technique.look.sign
        return sign if technique.key in self.known and sign else self._word(case, technique, force)

    def _turn(
        self,
        case: Case,
        start: EventBuilder,
        end: EventBuilder,
        before: tuple[Technique, ...],
        force: tuple[Technique, ...],
    ) -> None:
        """A gradual change: both states joined by an arrow, as hand signs if the hand makes it. Each end names
        everything in force there, so that there is no doubt about what is at neither."""
        leaving = tuple(t for t in before if t not in force)
        entering = tuple(t for t in force if t not in before)
        hands = [[state for t in side if (state := _hand_state(t))] for side in (leaving, entering)]
        if any(hands):
            one, two = (states[0] if states else "open" for states in hands)
            _turn_hand(start, one, two)
            end.marks.append(HandTurnEnd())
        changing = (*leaving, *entering)
        if any(_turns(t, changing) for t in changing):
            here = [self._name(case, t, before) for t in before if _named(case, t, changing)]
            there = [self._name(case, t, force) for t in force if _named(case, t, changing)]
            if not here and not _said(before):
                here = [PLAIN_END]
            if not there:
                there = [e for e in (self._end(t, force) for t in leaving if _turns(t, changing)) if e]
            else:
                there += [
                    self.words.look(t).cancel for t in leaving if t.look.announce and not _replaced(t, entering)
                ]
            if not there and not _said(force):
                there = [PLAIN_END]  # what otherwise ends with its note (a trill) ends along the line
            # At its start the arrow replaces the words it names; at its end it also says what holds from there.
            start.labels[:] = [
                TechniqueLabel(word=label.word) if label.first in here else label for label in start.labels
            ]
            start.held[:] = [label for label in start.held if label.word not in here]
            end.labels += [
                TechniqueLabel(word=self._word(case, t, force))
                for t in force
                if _named(case, t, changing) or (t in entering and t.look.word and not _is_span(case, t))
            ]
            start.marks.append(TechniqueTurnStart(here=_joined(here), there=_joined(there)))
            end.marks.append(TechniqueTurnEnd())
        self.known.update(t.key for t in entering)

    def _spans(self, case: Case, events: list[EventBuilder], forces: list[tuple[Technique, ...]]) -> None:
        """Draw a dashed line with a hook over each stretch of a technique that needs one."""
        wanted = {t.key: t for force in forces for t in force if _is_span(case, t)}
        for technique in wanted.values():
            inside = [n for n, force in enumerate(forces) if technique in force]
            for n in inside:
                waves = drawn_waves(case, technique, events[n].start, _span_end(n, inside, events))
                if n == 0 and technique.key in self.open and not self.silence and waves is None:
                    self.open.pop(technique.key).ends.remove(SpanEnd())  # it continues from the gesture before
                elif n - 1 not in inside:
                    said = self._word(case, technique, forces[n])
                    often = rate(case, events[n].start, _span_end(n, inside, events)) if waves is not None else ""
                    events[n].marks.append(SpanStart(word=f"{said} {often}".strip(), waves=waves))
                if n + 1 not in inside:
                    events[n].ends.append(SpanEnd())
            self.known.add(technique.key)
        last = len(events) - 1
        self.open = {
            t.key: events[last]
            for t in wanted.values()
            if t in forces[last] and drawn_waves(case, t, Fraction(0), case.gesture.beats) is None
        }


def _span_end(n: int, inside: list[int], events: list[EventBuilder]) -> Fraction:
    """When the stretch ends that begins at event `n`, in beats."""
    while n + 1 in inside:
        n += 1
    return events[n].end


def _said(techniques: tuple[Technique, ...]) -> bool:
    """Whether the page shows any of these as in force, so that a plain "ord." would cancel it too."""
    return any(t.look.word or _hand_state(t) for t in techniques)


def _turns(technique: Technique, changing: tuple[Technique, ...]) -> bool:
    """Whether the words at an arrow name this: a way of playing that can come and go, not a line; a mute only if it
    is what changes, since one that stays has already been announced."""
    look = technique.look
    return bool(look.word and technique.layer != "motion" and (not look.announce or technique in changing))


def _named(case: Case, technique: Technique, changing: tuple[Technique, ...]) -> bool:
    """Whether an end of an arrow names this: not if a line of its own already shows it."""
    return not _is_span(case, technique) and _turns(technique, changing)


def _is_span(case: Case, technique: Technique) -> bool:
    """Whether a technique has a line over all its notes: dashed, or the waves that are asked for."""
    if technique.look.extent == "span":
        return True
    return not technique.look.trill and drawn_waves(case, technique, Fraction(0), case.gesture.beats) is not None


def _rest_before(event: EventBuilder, line: VoiceBuilder) -> EventBuilder | None:
    """The first of the rests right before an event of a gesture, or None."""
    here = next((n for n, e in enumerate(line.events) if e is event), len(line.events))
    rest = None
    while here and not line.events[here - 1].sounds:
        here -= 1
        rest = line.events[here]
    return rest


def _replaced(technique: Technique, entering: tuple[Technique, ...]) -> bool:
    """Whether a new technique shows by itself that this one is over: another of the same layer, with a word or
    sign, or one that cannot be played at the same time. A technique whose end has its own name ("hand in") stays
    until that is printed or one with the same ending comes; but a hand in the bell gives way to a mute."""
    if technique.look.cancel == PLAIN_END and any(_said((t,)) and _apart(technique, t) for t in entering):
        return True
    return any(
        t.layer == technique.layer
        and (t.look.word or t.look.script)
        and (
            technique.look.cancel in ("", PLAIN_END, t.look.cancel)
            or (t.look.announce and technique.look.cancel_script != "")
        )
        for t in entering
    )


def _apart(one: Technique, other: Technique) -> bool:
    """Whether two techniques cannot be played at once; of two noises one gives way to the other."""
    return bool(clash(one, other)) or one.tone == other.tone == "none"


def _slid(technique: Technique, event: EventBuilder, line: VoiceBuilder) -> bool:
    """Whether a way to slide (not a state of the instrument) has no more lines from an event on."""
    slides = any(segment.slides for segment in line.segments)  # the hand also moves on a single note
    if technique.layer != "motion" or technique.look.cancel or not slides:
        return False
    here = max((n for n, point in enumerate(line.points) if point.at <= event.start), default=0)
    return not any(segment.slides for segment in line.segments[here:])


def _joined(names: list[str]) -> str:
    return ", ".join(dict.fromkeys(names))


def _always(word: str) -> TechniqueLabel:
    """Text repeated at the beginning of a system only."""
    return TechniqueLabel(word=word, first=word)


def _hand_state(technique: Technique) -> HandState | None:
    """The state of the hand in the bell shown by the sign over a technique's notes, or None."""
    script = technique.look.script
    return script if script in ("stopped", "half-stopped", "open") else None


def carries_scripts(event: EventBuilder) -> bool:
    """Whether a sign over the note would be where something begins, not where a line only passes."""
    point = event.point
    return event.tongued or (point is not None and (point.reached == "slur" or point.held))


def _signs_of(force: tuple[Technique, ...], event: EventBuilder, line: VoiceBuilder) -> None:
    """Add scripts, slashes, edges and bends to an event."""
    for technique in force:
        look = technique.look
        of_hand = _hand_state(technique) is not None
        turned = of_hand and HandTurnEnd() in event.marks  # the arrow ends at the sign
        if look.script and not turned and (event.tongued or (of_hand and carries_scripts(event))):
            event.marks.append(Script(sign=look.script))
        if look.tremolo and carries_scripts(event):
            event.marks.append(Flutter(slashes=look.tremolo))
        if look.edge and _at_edge(edge := Edge(shape=look.edge), event, line):
            (event.marks if edge.enters else event.ends).append(edge)
        if look.motion == "bend" and event.index is not None and _detached(event, line):
            event.ends.append(Bend())


def _at_edge(edge: Edge, event: EventBuilder, line: VoiceBuilder) -> bool:
    if edge.enters:
        return event.tongued and event.index is not None
    if event.index is None:
        return event is line.sounding[-1]
    return event.index >= len(line.segments) or line.segments[event.index].kind == "none"


def _detached(event: EventBuilder, line: VoiceBuilder) -> bool:
    """Whether no line leads to or from a point."""
    index = event.index or 0
    around = line.segments[max(0, index - 1) : index + 1] if index else line.segments[:1]
    return not any(segment.slides for segment in around)


def _hand(forces: list[tuple[Technique, ...]], line: VoiceBuilder) -> None:
    """Add hand signs along the lines of a hand glissando: closing as the pitch falls, opening as it rises."""
    points = line.points
    for index, segment in enumerate(line.segments):
        start, end = line.at_point(index), line.at_point(index + 1)
        if segment.slides and _moved_by_hand(start, forces, line):
            if HandTurnEnd() in end.marks:
                continue  # a change `as stopped` along the line already shows it
            falls = (points[index + 1].sounding_cents or 0) < (points[index].sounding_cents or 0)
            _turn_hand(start, "open" if falls else "stopped", "stopped" if falls else "open")
            end.marks.append(HandTurnEnd())
    for event in line.events:
        if event.index is not None and _detached(event, line) and _moved_by_hand(event, forces, line):
            _turn_hand(event, "open", "stopped")
            event.ends.append(HandTurnEnd())


def _turn_hand(start: EventBuilder, here: HandState, there: HandState) -> None:
    """Draw an arrow between two hand signs; a sign already over the note serves as the first."""
    start.marks[:] = [mark for mark in start.marks if mark != Script(sign=here)]
    start.marks.append(HandTurnStart(here=here, there=there))


def _moved_by_hand(event: EventBuilder, forces: list[tuple[Technique, ...]], line: VoiceBuilder) -> bool:
    sounding = line.sounding
    place = next((n for n, e in enumerate(sounding) if e is event), None)
    return place is not None and any(t.look.motion == "hand" for t in forces[place])


def line_word(force: tuple[Technique, ...]) -> str:
    """The word on a line, or ""."""
    return next((t.look.line_word for t in force if t.look.line_word), "")


def head_for_sung(force: tuple[Technique, ...]) -> HeadShape:
    """The head of a sung line."""
    return next((t.look.sung_head for t in force if t.look.sung_head), "normal")


def small_start(force: tuple[Technique, ...]) -> bool:
    """Whether the first head of an unmeasured gesture is small."""
    return any(t.look.small_start for t in force)
