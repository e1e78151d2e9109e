"""Footnotes and cautions: which gesture needs which, and their numbers."""

from __future__ import annotations

from gesturesmith.engrave.events import Event, Line
from gesturesmith.engrave.music import Footnote
from gesturesmith.engrave.signs import in_force
from gesturesmith.rules.base import Case
from gesturesmith.techniques.base import Technique
from gesturesmith.wording import technique_text
from gesturesmith.wording import text as wording

_BETWEEN_LANGUAGES = " / "


class Footnotes:
    """Numbers footnotes in order of first appearance: one number for each text, and each is marked once.

    In a passage a text that has been marked needs no second mark: the word or sign says that it goes on.
    """

    def __init__(self, languages: tuple[str, ...]) -> None:
        self._languages = languages
        self._numbers: dict[str, str] = {}

    @property
    def footnotes(self) -> tuple[Footnote, ...]:
        """All that were needed, in order."""
        return tuple(Footnote(number=number, text=text) for text, number in self._numbers.items())

    def mark(self, case: Case, line: Line) -> None:
        """Put the marks of a gesture at its events."""
        gesture, events = case.gesture, line.sounding
        if gesture.footnote is not None:
            self._put(events[0], [gesture.footnote])
            return
        seen: tuple[Technique, ...] = ()
        for n, event in enumerate(events):
            new = tuple(t for t in in_force(case, event) if t not in seen)
            texts = [text for t in new if (text := self._standard(t))]
            if n == 0 and gesture.note is not None:
                texts = [*texts[:-1], " ".join([*texts[-1:], gesture.note])]
            self._put(event, texts)
            seen = (*seen, *new)

    def _standard(self, technique: Technique) -> str:
        """A technique's wording in the languages of the page; ordinary playing needs none."""
        if technique.layer == "none":
            return ""
        return _BETWEEN_LANGUAGES.join(technique_text(technique, language) for language in self._languages)

    def _put(self, event: Event, texts: list[str]) -> None:
        new = [t for t in dict.fromkeys(texts) if t not in self._numbers]
        for text in new:
            self._numbers[text] = str(len(self._numbers) + 1)
        if new:
            event.after.append(f'\\gsMark "{", ".join(self._numbers[t] for t in new)}"')


def cautions(cases: tuple[Case, ...], languages: tuple[str, ...]) -> tuple[str, ...]:
    """Sentences about what tires or is loud, each once, in the languages of the page."""
    keys = dict.fromkeys(key for case in cases for t in case.techniques for key in _caution_keys(t))
    return tuple(_BETWEEN_LANGUAGES.join(wording(key, language) for language in languages) for key in keys)


def _caution_keys(technique: Technique) -> list[str]:
    """What a technique has to be warned of: its own caution, else that it tires; and that it is loud."""
    tiring = technique.caution or ("caution-tiring" if technique.tiring else "")
    return [key for key in (tiring, "caution-loud" if technique.loud else "") if key]
