"""What stands beside the notes in MusicXML: words, levels, hairpins, tempos, repeats and jumps."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any, Literal

from gesturesmith.importers.musicxml.numbers import number, whole_number
from gesturesmith.importers.musicxml.tree import Element
from gesturesmith.importers.notated import NotatedWord, RepeatSigns, ScoreSign, TempoMark
from gesturesmith.kinds import NotatedDirection, TempoTurn
from gesturesmith.lang.words import LEVELS

_LEVELS = {
    "pppp": "ppp", "ppppp": "ppp", "pppppp": "ppp", "ffff": "fff", "fffff": "fff", "ffffff": "fff",
    "fz": "sfz", "rf": "rfz", "sfpp": "sfp", "sfzp": "sfp", "pf": "mf",
}  # fmt: skip
_WEDGES: dict[str, NotatedDirection] = {"crescendo": "crescendo", "diminuendo": "diminuendo", "stop": "wedge-end"}
_UNITS = {
    "breve": Fraction(8), "whole": Fraction(4), "half": Fraction(2), "quarter": Fraction(1),
    "eighth": Fraction(1, 2), "16th": Fraction(1, 4), "32nd": Fraction(1, 8),
}  # fmt: skip
_TEMPO = (Fraction(5), Fraction(1000))  # quarters per minute; anything else is a mistake
_MAX_TIMES = 99
# Jumps in words, where no `sound` element says them.
_SAID = (
    ("da_capo", re.compile(r"\bd\. ?c\.|\bda capo\b", re.I)),
    ("dal_segno", re.compile(r"\bd\. ?s\.|\bdal segno\b", re.I)),
    ("to_coda", re.compile(r"\bto coda\b|\balla? coda\Z", re.I)),
    ("fine", re.compile(r"\A\s*fine\.?\s*\Z", re.I)),
)
# Words for a change of tempo, in four languages. Those that end it name no number.
_TURNS: dict[TempoTurn | Literal["steady"], re.Pattern[str]] = {
    "steady": re.compile(r"\ba tempo\b|\btempo (?:primo|i)\b|\bim tempo\b|\bau mouvement\b", re.I),
    "accelerando": re.compile(r"\baccel|\baccél|\bstringendo\b|\bbeschleunig|\bschneller werden|\bpressez\b", re.I),
    "ritardando": re.compile(
        r"\brit\b|\britard|\brall|\ballarg|\bverlangsam|\blangsamer werden|\bralenti|\bcédez\b", re.I
    ),
}
_MUTES = {
    "off": "", "on": "straight", "straight": "straight", "cup": "cup", "harmon-no-stem": "harmon",
    "harmon-stem": "harmon", "bucket": "bucket", "plunger": "plunger", "practice": "practice",
    "stop-mute": "stopping", "hat": "bucket", "solotone": "straight",
}  # fmt: skip


@dataclass(slots=True)
class BarSigns:
    """The signs of a bar and its bar lines, as they are read from any part.

    plain    a bar line is drawn; `bare`: none is, or only a double one; `double`: one at its end
    """

    repeats: RepeatSigns = field(default_factory=RepeatSigns)
    plain: bool = False
    bare: bool = False
    double: bool = False

    def add(self, **found: Any) -> None:
        """More of the signs for repeats and jumps."""
        self.repeats = replace(self.repeats, **found)

    def first(self, **found: Any) -> None:
        """The same where there is none yet."""
        self.add(**{name: value for name, value in found.items() if not getattr(self.repeats, name)})


@dataclass(slots=True)
class Beside:
    """What is found beside the notes of one bar of one part."""

    words: list[NotatedWord] = field(default_factory=list)
    tempos: list[TempoMark] = field(default_factory=list)
    marks: list[ScoreSign] = field(default_factory=list)


def direction(element: Element, at: Fraction, signs: BarSigns) -> Beside:
    """A `direction` or `sound`; jumps go to `signs`."""
    found = Beside()
    sounds = [element] if element.tag == "sound" else element.all("sound")
    tempo = next((t for s in sounds if (t := number(s.get("tempo"))) is not None), None)
    for sound in sounds:
        _jump(sound, signs)
    words: list[str] = []
    beat: Fraction | None = None
    for kind in element.all("direction-type"):
        for child in kind.children:
            if child.tag == "words" and child.text.strip():
                words.append(" ".join(child.text.split()))
            elif child.tag == "metronome":
                beat, said = _metronome(child)
                tempo = tempo if tempo is not None else said
            elif child.tag in ("segno", "coda"):
                _mark(child.tag, signs)
            elif child.tag == "rehearsal" and child.text.strip():
                found.marks.append(ScoreSign(at=at, text=" ".join(child.text.split())))
            else:
                found.words += _signs(child, at)
    said_words = " ".join(words)
    if said_words:
        found.words.append(NotatedWord(at=at, kind="words", text=said_words))
        for name, pattern in _SAID:
            if pattern.search(said_words):
                signs.first(**{name: "said" if name in ("dal_segno", "to_coda") else True})
    for play in (play for sound in sounds for play in sound.all("play")):
        if play.find("mute") is not None and play.says("mute") in _MUTES:
            found.words.append(NotatedWord(at=at, kind="mute", text=_MUTES[play.says("mute")]))
    if tempo is not None and _TEMPO[0] <= tempo <= _TEMPO[1]:
        found.tempos.append(TempoMark(at=at, quarters=tempo, words=said_words, counted=beat or Fraction(1)))
    elif said_words:
        turn = next((turn for turn, pattern in _TURNS.items() if pattern.search(said_words)), None)
        if turn is not None:
            found.tempos.append(TempoMark(at=at, quarters=None, words=said_words, turn=turn))
    return found


def barline(element: Element, signs: BarSigns) -> None:
    """A `barline`: its repeat sign and the beginning or end of an ending."""
    style = element.says("bar-style")
    signs.double = signs.double or (style == "light-light" and element.get("location") in ("", "right"))
    if style in ("none", "light-light"):
        signs.bare = True
    elif style:
        signs.plain = True
    for child in element.children:
        if child.tag == "repeat":
            if child.get("direction") == "forward":
                signs.add(starts=True)
            else:
                times = whole_number(child.get("times") or "2") or 2
                signs.add(ends=True, times=max(2, min(_MAX_TIMES, times)))
        elif child.tag == "ending":
            if child.get("type") == "start":
                numbers = (whole_number(n) for n in re.split(r"[ ,.]+", child.get("number")) if n)
                signs.add(ending=tuple(n for n in numbers if n is not None and 0 < n <= _MAX_TIMES))
            else:
                signs.add(ending_ends=True)
        elif child.tag in ("segno", "coda"):
            _mark(child.tag, signs)


def _signs(child: Element, at: Fraction) -> Iterator[NotatedWord]:
    if child.tag == "dynamics":
        for level in child.children:
            name = level.tag if level.tag != "other-dynamics" else level.text.strip()
            name = _LEVELS.get(name, name)
            if name in LEVELS:
                yield NotatedWord(at=at, kind="level", text=name)
    elif child.tag == "wedge":
        for name, kind in _WEDGES.items():
            if child.get("type") == name:
                yield NotatedWord(at=at, kind=kind, text="n" if child.get("niente") == "yes" else "")


def _metronome(element: Element) -> tuple[Fraction | None, Fraction | None]:
    """The beat in quarters, and quarters per minute; None for a change of beat and the like."""
    units = element.all("beat-unit")
    told = re.search(r"[0-9]+(\.[0-9]+)?", element.says("per-minute"))
    if len(units) != 1 or told is None:
        return None, None
    unit = _UNITS.get(units[0].text.strip())
    per_minute = number(told[0])
    if unit is None or per_minute is None:
        return None, None
    for _ in element.all("beat-unit-dot")[:2]:
        unit = unit * 3 / 2
    return unit, per_minute * unit


def _jump(sound: Element, signs: BarSigns) -> None:
    signs.first(
        da_capo=sound.get("dacapo") == "yes",
        fine=bool(sound.get("fine")),
        segno=sound.get("segno"),
        coda=sound.get("coda"),
    )
    jumps = {"dal_segno": sound.get("dalsegno"), "to_coda": sound.get("tocoda")}
    signs.add(**{name: to for name, to in jumps.items() if to})


def _mark(tag: str, signs: BarSigns) -> None:
    """A segno or coda sign: a place to jump to. The first of two coda signs is where one jumps from."""
    signs.first(**{tag: "drawn"})
