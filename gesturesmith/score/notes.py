"""Footnotes and cautions: which gestures need them, and their numbers."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from gesturesmith.rules.base import Case
from gesturesmith.rules.shared.reading import slides
from gesturesmith.score.events import EventBuilder, VoiceBuilder
from gesturesmith.score.marks import FootnoteMark
from gesturesmith.score.music import Footnote
from gesturesmith.score.technique_state import in_force
from gesturesmith.techniques.base import Technique
from gesturesmith.wording import PageWords, said, technique_text, together


class Footnotes:
    """Numbers footnotes in order of first appearance: one number for each text, and one mark. The same words about
    different techniques are two footnotes.

    In a passage a footnote already marked needs no second mark: the word or sign shows that it still applies.
    """

    def __init__(self, languages: tuple[str, ...], words: PageWords) -> None:
        self._languages = languages
        self._words = words
        self._known: dict[tuple[str, tuple[str, ...]], Footnote] = {}

    @property
    def footnotes(self) -> tuple[Footnote, ...]:
        """All footnotes that were needed, in order."""
        return tuple(self._known.values())

    def mark(self, case: Case, line: VoiceBuilder) -> None:
        """Put the marks of a gesture at its events."""
        gesture, events = case.gesture, line.sounding
        if gesture.footnote is not None and gesture.own_words is not None:
            own = Footnote(number="", text=gesture.own_words, own=gesture.own_words, plays=plays(case))
            self._put(events[0], [own])
            return
        seen: tuple[Technique, ...] = ()
        for n, event in enumerate(events):
            told = (t for t in in_force(case, event) if event.tongued or not t.tongues_only)
            new = tuple(t for t in told if t not in seen)
            wanted = [
                Footnote(number="", text=text, techniques=(t.key,))
                for t in new
                if (text := self._standard(t, told_where(case)))
            ]
            if n == 0 and gesture.note is not None:
                wanted = [*wanted[:-1], _with_note(wanted[-1:], case, gesture.note)]
            self._put(event, wanted)
            seen = (*seen, *new)

    def _standard(self, technique: Technique, where: tuple[str, ...]) -> str:
        """A technique's standard wording in the languages of the page; none for ordinary playing."""
        if technique.layer == "none":
            return ""
        told = together(technique_text(technique, language, *where) for language in self._languages)
        return self._words.quoted(technique, told)

    def _put(self, event: EventBuilder, wanted: list[Footnote]) -> None:
        new = {(w.text, w.plays): w for w in wanted if (w.text, w.plays) not in self._known}
        for key, footnote in new.items():
            self._known[key] = replace(footnote, number=str(len(self._known) + 1))
        if new:
            event.marks.append(FootnoteMark(numbers=tuple(self._known[key].number for key in new)))


def plays(case: Case) -> tuple[str, ...]:
    """The keys of all techniques of a gesture, sorted: what its own text is about."""
    return tuple(sorted(t.key for t in _played(case) if t.layer != "none"))


def told_where(case: Case) -> tuple[str, ...]:
    """The conditions under which a gesture's techniques use other texts: waves that are drawn, a trill
    whose other note is named, breath beside
    another technique, a line to sing, a lip bend upwards, its instrument."""
    waves = ("waves",) if case.gesture.speed or case.gesture.width else ()
    interval = ("interval",) if any(p.trill is not None for p in case.gesture.points) else ()
    return (*waves, *interval, *_other_wheres(case))


def _other_wheres(case: Case) -> tuple[str, ...]:
    rows = [case.in_force(p) for p in case.gesture.sounding_points]
    if any(len(row) > 1 and any(t.breath_only for t in row) for row in rows):
        return "breath", *(("sung",) if case.gesture.sing is not None else ()), case.instrument.means
    if case.gesture.sing is not None:
        return "sung", case.instrument.means
    home: Fraction | None = None
    for line in slides(case, "lip"):
        if line.start.reached != "line" or home is None:
            home = line.start.sounding_cents
        bent = any(t.one_partial for t in line.start.techniques)
        if bent and home is not None and (line.end.sounding_cents or home) > home:
            return "up", case.instrument.means
    return (case.instrument.means,)


def _with_note(last: list[Footnote], case: Case, note: str) -> Footnote:
    """The composer's addition after the standard wording, or alone."""
    text = " ".join([*(f.text for f in last), note])
    standard = tuple(key for footnote in last for key in footnote.techniques)
    return Footnote(number="", text=text, techniques=standard, own=note, plays=plays(case))


def cautions(cases: tuple[Case, ...], languages: tuple[str, ...]) -> tuple[str, ...]:
    """Sentences about tiring or loud playing, each once, in the languages of the page."""
    keys = dict.fromkeys(key for case in cases for key in caution_keys(_played(case)))
    return tuple(said(key, languages) for key in keys)


def _played(case: Case) -> tuple[Technique, ...]:
    """The techniques of all notes, from the gesture's own `technique` or an `as`."""
    return tuple(dict.fromkeys(t for point in case.gesture.sounding_points for t in case.in_force(point)))


def caution_keys(techniques: tuple[Technique, ...]) -> tuple[str, ...]:
    """The cautions that techniques need, as keys of `wording`: their own caution, else that they tire; and that
    they are loud."""
    keys: dict[str, None] = {}
    for technique in techniques:
        tiring = technique.caution or ("caution-tiring" if technique.tiring else "")
        keys.update((key, None) for key in (tiring, "caution-loud" if technique.loud else "") if key)
    return tuple(keys)
