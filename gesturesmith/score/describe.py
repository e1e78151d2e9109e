"""Descriptions of gestures and passages for those who cannot see the page, in the languages of the file."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from gesturesmith.kinds import Pitches
from gesturesmith.model.changes import (
    Change,
    DoubleBar,
    KeyChange,
    MeterChange,
    RehearsalMark,
    TempoChange,
    TempoGradually,
)
from gesturesmith.model.gesture import NIENTE, ContourPoint, Gesture, WaveMark
from gesturesmith.model.piece import Passage, PassageItem
from gesturesmith.rules.base import Case
from gesturesmith.score.heads import on_page
from gesturesmith.techniques import get
from gesturesmith.units import UNISON, KeySignature
from gesturesmith.wording import technique_title, together
from gesturesmith.wording import text as wording

_JOINS = {"<": "say-swell", ">": "say-fade", "": "say-then"}
_FIELD = re.compile(r"\{(\w+)\}")


def gesture_in_words(case: Case, languages: tuple[str, ...], pitches: Pitches) -> str:
    """Title, techniques, length, contour, attacks and dynamics of a gesture, once in each language."""
    return together(_Teller(language, pitches).gesture(case) for language in languages)


def passage_in_words(passage: Passage, languages: tuple[str, ...], pitches: Pitches) -> str:
    """Title, length and the gestures of a passage in order, once in each language."""
    return together(_Teller(language, pitches).passage(passage) for language in languages)


class _Teller:
    """Describes in one language."""

    def __init__(self, language: str, pitches: Pitches) -> None:
        self._language = language
        self._pitches = pitches
        self._beat = Fraction(1)  # of the file, in quarters
        self._sounding = UNISON  # from written to sounding pitch

    def gesture(self, case: Case) -> str:
        gesture = case.gesture
        titles = [technique_title(t, self._language) for t in case.techniques]
        what = " + ".join(titles or [technique_title(get("ordinary"), self._language)])
        title = gesture.title or gesture.name
        parts = [self._say("say-gesture", title=title, techniques=what, length=self._length(gesture))]
        parts.append(self._contour(gesture))
        if gesture.attacks is not None:
            shape = f"-{gesture.attacks.shape}" if gesture.attacks.shape else ""
            parts.append(self._say(f"say-attacks{shape}", count=str(gesture.attacks.count)))
        if gesture.dynamics:
            parts.append(self._dynamics(gesture))
        for key, marks in (("speed", gesture.speed), ("width", gesture.width)):
            if marks:
                parts.append(self._say(f"say-{key}", course=self._course(marks)))
        return " ".join(parts)

    def _course(self, marks: tuple[WaveMark, ...]) -> str:
        """Speeds or widths in order."""
        words = [
            self._say("wave-per-second", number=self._number(m.per_second))
            if m.per_second is not None
            else self._say(f"wave-{m.word}")
            for m in marks
        ]
        joined = [words[0]]
        for before, word in zip(marks, words[1:], strict=False):
            joined.append(self._say("wave-course-to" if before.join else "wave-course-then", next=word))
        return ", ".join(joined)

    def passage(self, passage: Passage) -> str:
        self._beat = next((i.gesture.beat for i in passage.items if i.gesture is not None), self._beat)
        free = passage.meter is None
        meter = self._say("say-free-meter") if free else "{}/{}".format(*(passage.meter or ()))
        played = (item.gesture for item in passage.items if item.gesture is not None)
        self._sounding = next((gesture.instrument.sounding for gesture in played), UNISON)
        begins = [self._say("say-pickup", length=self._beats(passage.pickup))] if passage.pickup else []
        begins += [self._key(passage.key)] if passage.key is not None else []
        return self._say(
            "say-passage",
            title=passage.title or passage.name,
            meter=", ".join([meter, *begins]),
            length=self._beats(passage.beats),
            items=", ".join(self._items(passage)),
        )

    def _key(self, key: KeySignature) -> str:
        if not key.mode:
            return self._say("say-no-key")
        here = key.transposed(-self._sounding) if self._pitches == "written" else key
        return self._say("say-key", name=self._say(f"say-{key.mode}", tonic=here.tonic))

    def _change(self, change: Change) -> str:
        match change:
            case TempoChange():
                way = "say-tempo-words" if change.words else "say-tempo"
                return self._say(way, words=change.words or "", number=self._tempo(change.tempo, change.counted))
            case TempoGradually():
                number = self._tempo(change.tempo, change.counted)
                return self._say(f"say-{change.turn}", number=number, length=self._beats(change.until - change.at))
            case MeterChange():
                return self._say("say-meter", meter="{}/{}".format(*change.meter))
            case KeyChange():
                return self._key(change.key)
            case RehearsalMark():
                return self._say("say-mark", mark=change.text)
            case DoubleBar():
                return self._say("say-double-bar")

    def _tempo(self, tempo: Fraction, counted: Fraction | None) -> str:
        return self._number(tempo / (counted or self._beat))

    def _items(self, passage: Passage) -> Iterator[str]:
        """The items in order; the content of a box together, with how long it is repeated."""
        boxed: list[list[str]] = []
        changes = list(passage.changes)
        for item in passage.items:
            place = item.box
            while changes and changes[0].at <= item.at:
                yield self._change(changes.pop(0))
            if place is None:
                yield self._item(item)
            elif place.goes_on:
                cells = [", ".join(cell) for cell in boxed]
                box, boxed = place.box, []
                ways = (f"choose-{box.choose}", f"pace-{box.pace}".replace(" ", "-"))
                said = [self._say(way.replace(" ", "-")) for way in ways if not way.endswith("-")]
                text = " / ".join(cells) + "".join(f" ({word})" for word in said)
                if box.cue:
                    yield self._say("say-box-cue", items=text, cue=box.cue)
                else:
                    seconds = self._number(box.beats * 60 / passage.tempo_map.tempo_at(item.at))
                    length = self._say("say-seconds", number=seconds) if box.in_seconds else self._beats(box.beats)
                    yield self._say("say-box", items=text, length=length)
            else:
                if place.first:
                    boxed.append([])
                boxed[-1].append(self._item(item))
        yield from map(self._change, changes)

    def _item(self, item: PassageItem) -> str:
        if item.gesture is None:
            return self._say("say-rest-held" if item.fermata else "say-rest", length=self._beats(item.beats))
        if item.played:
            return item.gesture.title or item.played
        point = item.gesture.points[0]
        pitch = on_page(point.pitch, self._pitches).name if point.pitch is not None else item.gesture.name
        return self._say("say-note", pitch=pitch, length=self._beats(item.beats))

    def _contour(self, gesture: Gesture) -> str:
        words = [self._point(gesture.points[0])]
        for segment, point in zip(gesture.segments, gesture.points[1:], strict=True):
            said = self._say(f"say-{segment.kind}", point=self._point(point))
            words.append(f"{said} ({self._say(f'say-{segment.growth}')})" if segment.growth else said)
        text = ", ".join(words)
        return f"{text[0].upper()}{text[1:]}."

    def _point(self, point: ContourPoint) -> str:
        name = self._name(point)
        if point.turns_to:
            turned = " + ".join(technique_title(get(key), self._language) for key in point.turns_to)
            name = f"{name} {self._say('say-as', technique=turned)}"
        if point.trill is not None and point.pitch is not None:
            to = on_page(point.pitch, self._pitches).transposed(point.trill).name
            name = f"{name} {self._say('say-trill', pitch=to)}"
        if point.covers:
            name = f"{name} {self._say('say-as', technique=technique_title(get(point.covers), self._language))}"
        for key in point.ends:
            ended = technique_title(get(key), self._language)
            name = f"{name} {self._say('say-without', technique=ended)}"
        marks = [self._say(f"say-{mark}") for mark in (*point.marks, *(["open"] if point.opens else []))]
        for key, text in (("words", point.words), ("syllable", point.syllable)):
            marks += [self._say(f"say-{key}", text=text)] if text else []
        at = self._say("say-point", point=name, time=self._number(point.at))
        if point.strokes:
            at = self._say(f"say-{point.strokes}", point=at)
        for key, graces in (("say-graces-before", point.graces), ("say-graces-after", point.after)):
            if graces:
                at = self._say(key, point=at, notes=", ".join(self._name(grace.point) for grace in graces))
        return ", ".join([at, *marks, *([self._level(point.dynamic)] if point.dynamic else [])])

    def _name(self, point: ContourPoint) -> str:
        if point.kind == "silence":
            return self._say("say-silence")
        if point.kind == "pitch" and point.pitch is not None:
            pitch = on_page(point.pitch, self._pitches).name
            return self._say("say-about", pitch=pitch) if point.about else pitch
        if point.extreme:
            return self._say(f"say-{point.extreme}")
        return self._say("say-percent", number=self._number(point.percent or Fraction(0)))

    def _dynamics(self, gesture: Gesture) -> str:
        marks = gesture.dynamics
        words = [self._level(marks[0].level)]
        words += [self._say(_JOINS[before.join], level=self._level(mark.level)) for before, mark in pairwise(marks)]
        return self._say("say-dynamics", levels=", ".join(words))

    def _level(self, level: str) -> str:
        return self._say("say-niente") if level == NIENTE else level

    def _length(self, gesture: Gesture) -> str:
        if gesture.in_seconds:
            return self._say("say-seconds", number=self._number(gesture.seconds))
        self._beat = gesture.beat
        return self._beats(gesture.beats)

    def _beats(self, beats: Fraction) -> str:
        beats /= self._beat
        return self._say("say-beat" if beats == 1 else "say-beats", number=self._number(beats))

    def _number(self, number: Fraction) -> str:
        return f"{float(round(number, 2)):g}".replace(".", wording("decimal", self._language))

    def _say(self, key: str, **fields: str) -> str:
        """A text with all its fields filled in at once: the user's own texts may contain braces."""
        return _FIELD.sub(lambda match: fields[match[1]], wording(key, self._language))
