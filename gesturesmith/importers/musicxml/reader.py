"""MusicXML to a notated score, bar by bar: no more than one bar is held as XML."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from fractions import Fraction

from gesturesmith.diagnostics import ReadError
from gesturesmith.importers.identify import identify
from gesturesmith.importers.musicxml.beside import BarSigns, Beside, barline, direction
from gesturesmith.importers.musicxml.container import pieces
from gesturesmith.importers.musicxml.note import OpenSlurs, read_note, unknown
from gesturesmith.importers.musicxml.numbers import number, transposition, whole_number
from gesturesmith.importers.musicxml.tree import Element, NotMusicXmlError, parse
from gesturesmith.importers.notated import (
    NotatedBar,
    NotatedNote,
    NotatedPart,
    NotatedScore,
    NotatedWord,
    ScoreBar,
    ScoreSign,
    TempoMark,
)
from gesturesmith.source import Span
from gesturesmith.units import UNISON, Interval

MAX_BARS = 50_000  # in one part; the longest works have a few thousand
MAX_NOTES = 500_000  # of the parts that are judged
MAX_ERRORS = 200
_CODE, _RULE = "GS199", "unreadable-in-score"
_MAX_DIVISIONS = 1_000_000  # of a quarter
_MAX_BAR = Fraction(4000)  # quarters: beyond it a length is a mistake
_IN_BARS = frozenset({
    "note", "backup", "forward", "direction", "attributes", "harmony", "figured-bass", "print", "sound",
    "listening", "barline", "grouping", "link", "bookmark",
})  # fmt: skip
_WATCHED = frozenset({"identification", "part-list", "measure", "part"})


@dataclass(slots=True)
class _ReadBar:
    """A bar of the score, as its parts are read."""

    number: str
    lasts: Fraction = Fraction(0)
    meter: tuple[int, int] | None = None
    hidden: bool = False
    tempos: list[TempoMark] = field(default_factory=list)
    marks: list[ScoreSign] = field(default_factory=list)
    signs: BarSigns = field(default_factory=BarSigns)


@dataclass(slots=True)
class _ReadPart:
    """A part, as it is read."""

    name: str
    key: str
    why: str
    bars: list[NotatedBar] = field(default_factory=list)
    divisions: Fraction = Fraction(1)
    sounding: Interval = UNISON
    meter: tuple[int, int] | None = (4, 4)
    hidden: bool = False
    sharps: int = 0
    minor: bool = False
    bass_clef: bool = False
    slurs: OpenSlurs = field(default_factory=OpenSlurs)


@dataclass(slots=True)
class _InBar:
    """Reading one bar of one part: `now` is where its next note begins, `last` where the last one did."""

    now: Fraction = Fraction(0)
    last: Fraction = Fraction(0)
    end: Fraction = Fraction(0)
    notes: list[NotatedNote] = field(default_factory=list)
    words: list[NotatedWord] = field(default_factory=list)
    half: NotatedNote | None = None  # the first of a two-note tremolo


def read(data: bytes, given: Callable[[str], str] = lambda _name: "") -> NotatedScore:
    """The score in the bytes of a MusicXML file, plain or compressed.

    given   the key of the instrument that the user names for a part, "" for none

    NotMusicXmlError if there is none; whatever cannot be read in it is among the errors of the score.
    """
    reader = _ScoreReader(given)
    try:
        root = parse(pieces(data), _WATCHED, reader.done)
    except NotMusicXmlError as broken:
        if broken.too_large or not reader.bars:
            raise
        name, bar = reader.last
        reader.error(broken.line, f"{_upper(str(broken))}: what comes after bar {bar} of {name} could not be read")
    else:
        if root.tag not in ("score-partwise", "score-timewise"):
            raise NotMusicXmlError(
                f"this is XML, but no MusicXML score: it begins with <{root.tag[:40]}>", root.line
            )
        reader.head(root)
    return reader.score()


class _ScoreReader:
    def __init__(self, given: Callable[[str], str]) -> None:
        self.given = given
        self.parts: dict[str, _ReadPart] = {}
        self.bars: list[_ReadBar] = []
        self.errors: list[ReadError] = []
        self.ignored: Counter[str] = Counter()
        self.title = ""
        self.composer = ""
        self.notes = 0
        self.ours = False
        self._left = 0

    @property
    def last(self) -> tuple[str, str]:
        """The part and the number of the bar that were read last."""
        part = [one for one in self.parts.values() if one.bars][-1]
        return part.name, self.bars[len(part.bars) - 1].number

    def error(self, line: int, message: str) -> None:
        if len(self.errors) < MAX_ERRORS:
            span = Span(max(line, 1), 1, 2)
            self.errors.append(ReadError(code=_CODE, rule=_RULE, span=span, message=message))
        else:
            self._left += 1

    def done(self, element: Element, inside: list[Element]) -> bool:
        """An element has ended; whether it has been dealt with."""
        if element.tag == "identification":
            self.ours = any(one.text.startswith("Gesturesmith") for one in element.every("software"))
            return False
        if element.tag == "part-list":
            self.part_list(element)
            return False
        within = inside[-1] if inside else None
        if within is None or len(inside) != 2:
            return False
        if element.tag == "measure" and within.tag == "part":
            part = self.part(within)
            self.bar(part, len(part.bars), element, element)
            return True
        if element.tag == "part" and within.tag == "measure":
            part = self.part(element)
            self.bar(part, len(part.bars), within, element)
            return True
        return False

    def part_list(self, element: Element) -> None:
        for one in element.all("score-part"):
            name = _name(one)
            sounds = tuple(s.text.strip() for s in one.every("instrument-sound") if s.text.strip())
            names = tuple(filter(None, (name, *(i.text.strip() for i in one.every("instrument-name")))))
            programs = tuple(
                p for m in one.every("midi-program") if (p := whole_number(m.text.strip())) is not None
            )
            chosen = self.given(name)
            key, why = (chosen, "as you say") if chosen else identify(names, sounds, programs)
            self.parts[one.get("id")] = _ReadPart(name=name or one.get("id"), key=key, why=why)

    def part(self, element: Element) -> _ReadPart:
        """The part that an element belongs to; one that the list of parts does not have is read as well."""
        name = element.get("id")
        if name not in self.parts:
            self.error(element.line, f"the part {name or 'without a name'!r} is not in the list of parts")
            chosen = self.given(name)
            self.parts[name] = _ReadPart(name=name or "part", key=chosen, why="as you say" if chosen else "")
        return self.parts[name]

    def bar(self, part: _ReadPart, index: int, measure: Element, content: Element) -> None:
        """One bar of one part."""
        if index >= MAX_BARS:
            raise NotMusicXmlError(f"more than {MAX_BARS:,} bars, the limit", measure.line, too_large=True)
        if index >= len(self.bars):
            self.bars.append(_ReadBar(measure.get("number") or str(index + 1)))
        bar = self.bars[index]
        here = _InBar()
        for element in content.children:
            self.element(part, bar, here, element)
        here.end = max(here.end, here.now)
        if here.half is not None:
            here.notes.append(here.half)
        if here.end > _MAX_BAR:
            self.wrong(part, bar, content, f"it is {_shown(here.end)} quarters long; it is left out")
            here = _InBar()
        bar.lasts = max(bar.lasts, here.end)
        if bar.meter is None:
            bar.meter, bar.hidden = part.meter, part.hidden
        self.notes += len(here.notes)
        if self.notes > MAX_NOTES:
            raise NotMusicXmlError(f"more than {MAX_NOTES:,} notes, the limit", measure.line, too_large=True)
        part.bars.append(
            NotatedBar(
                notes=tuple(here.notes),
                words=tuple(here.words),
                sounding=part.sounding,
                bass_clef=part.bass_clef,
                sharps=part.sharps,
                minor=part.minor,
            )
        )

    def wrong(self, part: _ReadPart, bar: _ReadBar, element: Element, message: str) -> None:
        self.error(element.line, f"bar {bar.number} of {part.name}: {message}")

    def element(self, part: _ReadPart, bar: _ReadBar, here: _InBar, element: Element) -> None:
        """One element of a bar."""
        tag = element.tag
        if tag == "note":
            self.note(part, bar, here, element)
        elif tag in ("backup", "forward"):
            moved = self.duration(part, bar, element)
            here.now += -moved if tag == "backup" else moved
            if here.now < 0:
                self.wrong(part, bar, element, "it goes back to before its beginning")
                here.now = Fraction(0)
            here.end = max(here.end, here.now)
        elif tag == "attributes":
            self.attributes(part, bar, element)
        elif tag in ("direction", "sound"):
            offset = number(element.says("offset") or "0") or Fraction(0)
            at = max(Fraction(0), here.now + offset / part.divisions)
            found = direction(element, at, bar.signs)
            self.beside(bar, here, found)
        elif tag == "barline":
            barline(element, bar.signs)
            if element.says("bar-style") == "light-light" and element.get("location") in ("left", "middle"):
                double = ScoreSign(at=here.now if element.get("location") == "middle" else Fraction(0))
                bar.marks += [double] if double not in bar.marks else []
        elif tag not in _IN_BARS:
            self.wrong(part, bar, element, f"<{tag[:40]}> is no element of MusicXML here; it is left out")

    def beside(self, bar: _ReadBar, here: _InBar, found: Beside) -> None:
        here.words += found.words
        for mark in found.tempos:
            if all((mark.at, mark.turn) != (known.at, known.turn) for known in bar.tempos):
                bar.tempos.append(mark)
        bar.marks += (mark for mark in found.marks if mark not in bar.marks)

    def note(self, part: _ReadPart, bar: _ReadBar, here: _InBar, element: Element) -> None:
        for strange in unknown(element):
            self.wrong(part, bar, strange, f"<{strange.tag[:40]}> is no element of MusicXML here; it is left out")
        grace = element.find("grace") is not None
        if not grace and not (number(element.says("duration")) or 0) > 0:
            text = element.says("duration")
            said = f"the duration {text[:20]!r}" if text else "no duration"
            self.wrong(part, bar, element, f"a note has {said}; it is left out")
            return
        chord = element.find("chord") is not None
        lasts = Fraction(0) if grace else self.duration(part, bar, element)
        at = here.last if chord and not grace else here.now
        if not chord:
            here.last, here.now = here.now, here.now + lasts
            here.end = max(here.end, here.now)
        silent = element.find("rest") is not None or element.find("cue") is not None
        if not part.key or (silent and element.find("notations") is None):
            return
        found, tremolo = read_note(element, at, lasts, part.slurs, self.ignored)
        if silent:
            return
        if found is None:
            self.wrong(part, bar, element, "a note has no pitch that can be read; it is left out")
        elif tremolo == "start":
            here.half = found
        elif tremolo == "stop" and here.half is not None:
            first = here.half
            here.notes.append(
                replace(first, lasts=first.lasts + lasts, signs=(*first.signs, "tremolo"), other=found.written.name)
            )
            here.half = None
        else:
            here.notes.append(found)

    def duration(self, part: _ReadPart, bar: _ReadBar, element: Element) -> Fraction:
        """The duration of an element in quarters; 0 if it is none, with an error."""
        text = element.says("duration")
        found = number(text)
        if found is None or found < 0:
            said = f"the duration {text[:20]!r}" if text else "no duration"
            self.wrong(part, bar, element, f"a {element.tag} has {said}; it is left out")
            return Fraction(0)
        return found / part.divisions

    def attributes(self, part: _ReadPart, bar: _ReadBar, element: Element) -> None:
        if text := element.says("divisions"):
            found = number(text)
            if found is None or not 0 < found <= _MAX_DIVISIONS:
                self.wrong(part, bar, element, f"{text[:20]!r} divisions; {_shown(part.divisions)} is assumed")
            else:
                part.divisions = found
        for time in element.all("time"):
            part.hidden = time.get("print-object") == "no"
            part.meter = None if time.find("senza-misura") is not None else _meter(time) or part.meter
            bar.meter, bar.hidden = part.meter, part.hidden
        for key in element.all("key"):
            part.sharps = max(-7, min(7, whole_number(key.says("fifths") or "0") or 0))
            part.minor = key.says("mode") == "minor"
        for clef in element.all("clef"):
            part.bass_clef = clef.says("sign") == "F" and clef.says("clef-octave-change") in ("", "0")
        for transpose in element.all("transpose"):
            interval = transposition(transpose)
            if interval is None:
                self.wrong(part, bar, transpose, "a transposition that is no interval; it is left out")
            else:
                part.sounding = interval

    def head(self, root: Element) -> None:
        """Title and composer."""
        work = root.find("work")
        self.title = root.says("movement-title") or (work.says("work-title") if work is not None else "")
        identification = root.find("identification")
        for creator in identification.all("creator") if identification is not None else ():
            if creator.get("type") in ("composer", "") and not self.composer:
                self.composer = " ".join(creator.text.split())
        self.title = " ".join(self.title.split())

    def score(self) -> NotatedScore:
        """Everything that was read."""
        if not self.parts or not self.bars:
            raise NotMusicXmlError("this score has no parts" if not self.parts else "this score has no bars")
        errors = self.errors
        if self._left:
            more = f"and {self._left:,} more places that could not be read"
            errors = [*errors, ReadError(code=_CODE, rule=_RULE, span=errors[-1].span, message=more)]
        count = len(self.bars)
        empty = (NotatedBar(),)
        return NotatedScore(
            title=self.title,
            composer=self.composer,
            bars=tuple(map(_score_bar, self.bars)),
            parts=tuple(
                NotatedPart(
                    id=id,
                    name=part.name,
                    key=part.key,
                    why=part.why,
                    bars=(*part.bars, *empty * (count - len(part.bars))),
                )
                for id, part in self.parts.items()
                if part.key
            ),
            others=tuple(part.name for part in self.parts.values() if not part.key),
            errors=tuple(errors),
            left_out=tuple(sorted(self.ignored.items())),
            ours=self.ours,
        )


def _score_bar(bar: _ReadBar) -> ScoreBar:
    signs = bar.signs
    # Ours are marked so: no bar line, and a hidden meter that only says how long the bar is.
    length = bar.lasts or (Fraction(4 * bar.meter[0], bar.meter[1]) if bar.meter is not None else bar.lasts)
    free = bar.meter is None or (bar.hidden and signs.bare and not signs.plain)
    double = [ScoreSign(at=length)] if signs.double and not free else []
    return ScoreBar(
        number=bar.number,
        lasts=length,
        meter=None if free else bar.meter,
        free=free,
        tempos=tuple(sorted(bar.tempos, key=lambda mark: mark.at)),
        marks=tuple(sorted([*bar.marks, *double], key=lambda mark: mark.at)),
        signs=signs.repeats,
    )


def _meter(time: Element) -> tuple[int, int] | None:
    """Beats and note value; several, as in 3+2/8, are added."""
    rows = zip(time.all("beats"), time.all("beat-type"), strict=False)
    total = Fraction(0)
    finest = 1
    for beats, kind in rows:
        counts = [whole_number(n.strip()) for n in beats.text.split("+")]
        unit = whole_number(kind.text.strip())
        if unit is None or not 0 < unit <= 128 or any(c is None or not 0 < c < 1000 for c in counts):
            return None
        total += Fraction(sum(c for c in counts if c is not None), unit)
        finest = max(finest, unit)
    count = total * finest
    return (int(count), finest) if count and count.denominator == 1 else None


def _name(part: Element) -> str:
    """The name of a part on one line."""
    return " ".join((part.says("part-name") or part.says("part-abbreviation")).split())


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def _shown(value: Fraction) -> str:
    return f"{float(value):g}"
