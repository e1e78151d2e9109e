"""What each mark becomes: an element of its own where MusicXML has one, and words where it has none or where
programs that read it leave the element out."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, assert_never

from gesturesmith import techniques
from gesturesmith.backends.musicxml._xml import Element, add, lone
from gesturesmith.backends.musicxml.written import Written, flags
from gesturesmith.kinds import EdgeShape, HandState, ScriptSign
from gesturesmith.score.marks import (
    BandEnd,
    BandStart,
    Bend,
    BreathSign,
    Cents,
    Edge,
    Fingering,
    Flutter,
    FootnoteMark,
    FrameEnd,
    FrameStart,
    FrameWords,
    GoesOnEnd,
    GoesOnStart,
    HandTurnEnd,
    HandTurnStart,
    LengthEnd,
    LengthStart,
    LineEnd,
    LineStart,
    LineStyle,
    Mark,
    RepeatStrokes,
    Script,
    SecondNote,
    Small,
    SpanEnd,
    SpanStart,
    SungHead,
    Syllable,
    TechniqueTurnEnd,
    TechniqueTurnStart,
    TrillSign,
    Waves,
    Words,
)
from gesturesmith.score.music import Event
from gesturesmith.units import Spelling
from gesturesmith.wording import technique_title
from gesturesmith.wording import text as wording

type Placement = Literal["above", "below"]

# Numbers of brackets that may be open at the same time.
_SPAN, _TURN, _HAND, _LENGTH, _FRAME, _GOES_ON = range(1, 7)
_SUPERSCRIPTS = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_ARTICULATIONS = {
    "accent": "accent",
    "staccato": "staccato",
    "tenuto": "tenuto",
    "marcato": "strong-accent",
    "breath": "breath-mark",
}
_HANDS: dict[HandState | ScriptSign, str] = {
    "stopped": "stopped",
    "half-stopped": "half-muted",
    "open": "open",
    "double-dots": "double-tongue",
    "triple-dots": "triple-tongue",
}
# The element of each edge, with its attributes; None: there is none, and words stand for it.
_EDGES: dict[EdgeShape, tuple[str, dict[str, str]] | None] = {
    "scoop": ("scoop", {}),
    "plop": ("plop", {}),
    "rip": ("scoop", {"line_shape": "straight", "line_length": "long"}),
    "lift": None,
    "smear": ("smear", {}),
    "doit": ("doit", {}),
    "short-doit": ("doit", {"line_length": "short"}),
    "long-doit": ("doit", {"line_length": "long"}),
    "doit-at-once": ("doit", {}),
    "fall": ("falloff", {}),
    "short-fall": ("falloff", {"line_length": "short"}),
    "long-fall": ("falloff", {"line_length": "long"}),
    "fall-at-once": ("falloff", {}),
    "spill": None,
    "flip": ("flip", {}),
    "jazz-turn": None,
}
_TECHNICAL = ("flip", "smear")  # of the edges, those that MusicXML counts among the technical marks
LINE_TYPES: dict[LineStyle, str] = {
    "straight": "solid",
    "wavy": "wavy",
    "broken": "dashed",
    "dotted": "dotted",
    "arrow": "solid",
}


@dataclass(slots=True)
class Dress:
    """What belongs to one written note: directions before and after it, and notations by their group."""

    before: list[Element] = field(default_factory=list)
    after: list[Element] = field(default_factory=list)
    ornaments: list[Element] = field(default_factory=list)
    technical: list[Element] = field(default_factory=list)
    articulations: list[Element] = field(default_factory=list)
    others: list[Element] = field(default_factory=list)
    lyrics: list[str] = field(default_factory=list)

    @property
    def notations(self) -> Element | None:
        """All notations; None if there are none."""
        made = lone("notations")
        made.extend(self.others)
        for name, inside in (
            ("ornaments", self.ornaments),
            ("technical", self.technical),
            ("articulations", self.articulations),
        ):
            if inside:
                add(made, name).extend(inside)
        return made if len(made) else None


class Dresser:
    """Dresses the notes of one voice, in order.

    language    of the words that the page itself has not
    footnotes   the footnotes' texts by number, as they are numbered in the document
    """

    def __init__(self, language: str, footnotes: dict[str, str]) -> None:
        self._language = language
        self._footnotes = footnotes
        self._there = ""  # what a gradual change leads to
        self._hand: HandState = "open"
        self._told: set[str] = set()  # words of techniques printed so far
        self._signs: tuple[str, ...] = ()  # those of the last note that only an element shows

    def dress(self, written: Written) -> Dress:
        """The directions and notations of a note."""
        event, made = written.event, Dress()
        if written.first:
            self._labels(written, made)
            self._name_signs(written, made)
            for mark in event.marks:
                self._mark(mark, written, made)
            self._articulations(written, made)
        elif written.kind == "note":
            for mark in event.marks:
                if isinstance(mark, Flutter | RepeatStrokes):
                    self._mark(mark, written, made)
        self._trill(written, made)
        if "fermata" in event.articulations and written.kind not in ("space", "held") and not written.tied:
            made.others.append(lone("fermata", type="upright"))
        for mark in event.ends:
            # What belongs to a head stands there, though the note sounds on after the bar line.
            at_head = isinstance(mark, Edge | Bend)
            if written.sounds_on and written.first if at_head and _is_held(written) else written.last:
                self._mark(mark, written, made)
        if written.last and "breath" in event.articulations and written.sounds:
            made.articulations.append(lone("breath-mark"))
        return made

    def numbers(self, written: Written) -> str:
        """The footnotes of a note, each with its number."""
        marks = (mark for mark in written.event.marks if isinstance(mark, FootnoteMark))
        numbers = [n for mark in marks for n in mark.numbers] if written.first else []
        return " ".join(f"{n} {self._footnotes[n]}" for n in numbers if n in self._footnotes)

    def _labels(self, written: Written, made: Dress) -> None:
        said = []
        for label in written.event.labels:
            text = label.later if label.word in self._told else label.first
            self._told.add(label.word)
            said += [text] if text else []
        if said:
            made.before.append(words(", ".join(said)))

    def _articulations(self, written: Written, made: Dress) -> None:
        for name in written.event.articulations:
            if name in _ARTICULATIONS and name != "breath" and written.sounds:
                made.articulations.append(lone(_ARTICULATIONS[name]))

    def _name_signs(self, written: Written, made: Dress) -> None:
        """Words for signs that most programs leave out, where they begin."""
        event = written.event
        found = (self._word_of(mark, event.techniques) for mark in (*event.marks, *event.ends))
        names = tuple(dict.fromkeys(name for name in found if name))
        printed = {label.word for label in event.labels}
        made.before += [words(name) for name in names if name not in (*self._signs, *printed)]
        if written.sounds:
            self._signs = names

    def _word_of(self, mark: Mark, keys: tuple[str, ...]) -> str:
        """The name of the technique that a sign shows, unless the page has words for it; "" for other signs."""
        sign = self._hand_of(mark)
        if sign == "open":
            return wording("say-open", self._language)
        for key in keys:
            look = techniques.get(key).look
            match mark:
                case Edge(shape=shape):
                    own = look.edge == shape
                case Bend():
                    own = look.motion == "bend"
                case _:
                    own = sign not in ("", "stopped") and look.script == sign
            if own and not look.word:
                title = technique_title(techniques.get(key), self._language).split(" (")[0]
                return title if self._language == "de" else title[:1].lower() + title[1:]
        return ""

    def _hand_of(self, mark: Mark) -> HandState | ScriptSign | Literal[""]:
        """The sign over a note, "" for none."""
        match mark:
            case Script(sign="beyond-up" | "beyond-down"):
                return ""
            case Script():
                return mark.sign
            case HandTurnStart():
                return mark.here
            case HandTurnEnd():
                return self._hand
            case _:
                return ""

    def _trill(self, written: Written, made: Dress) -> None:
        """The wavy line of a trill over more than one note value."""
        if not any(isinstance(mark, TrillSign) for mark in written.event.marks) or written.kind == "space":
            return
        long = written.tied or written.continued or (written.value is None and written.kind == "note")
        if long and written.first:
            made.ornaments.append(lone("wavy-line", type="start", number=1))
        if long and not written.tied:
            made.ornaments.append(lone("wavy-line", type="stop", number=1))

    def _mark(self, mark: Mark, written: Written, made: Dress) -> None:
        match mark:
            case LineStart():
                if mark.growth:
                    made.before.append(words(wording(f"sign-{mark.growth}", self._language)))
            case LineEnd() | Small() | SungHead() | SecondNote() | BandEnd():
                pass  # said by the notes themselves
            case Edge():
                element = _EDGES[mark.shape]
                if element is not None:
                    group = made.technical if element[0] in _TECHNICAL else made.articulations
                    group.append(lone(element[0], **element[1]))
            case Bend():
                made.technical.append(lone("brass-bend"))
            case Script(sign="beyond-up" | "beyond-down"):
                pass  # the triangle says it
            case Script():
                made.technical.append(lone(_HANDS[mark.sign]))
            case HandTurnStart():
                self._hand = mark.there
                _hand(mark.here, made)
                made.before.extend(_bracket("start", _HAND, line="solid"))
            case HandTurnEnd():
                _hand(self._hand, made)
                made.before.extend(_bracket("stop", _HAND, end="arrow"))
            case TechniqueTurnStart():
                self._there = mark.there
                made.before.extend(_bracket("start", _TURN, line="solid", before=mark.here))
            case TechniqueTurnEnd():
                made.before.extend(_bracket("stop", _TURN, end="arrow", after=self._there))
            case SpanStart():
                made.before.extend(_bracket("start", _SPAN, line="dashed", before=mark.word))
            case SpanEnd():
                made.after.extend(_bracket("stop", _SPAN, end="down"))
            case Flutter() | RepeatStrokes() if written.kind != "note":
                pass  # small heads outside the time have no strokes
            case Flutter():
                made.ornaments.append(lone("tremolo", mark.slashes, type="single"))
            case RepeatStrokes():
                # A head as short as what its strokes stand for is one of the repeats.
                if written.value is None or written.value > mark.value:
                    made.ornaments.append(lone("tremolo", _strokes(flags(mark.value), written), type="single"))
            case TrillSign():
                made.ornaments.append(lone("trill-mark", trill_step=_step(mark, written.event)))
                if mark.to is not None:
                    made.ornaments.append(lone("accidental-mark", PLAIN_ACCIDENTALS[mark.to.alter]))
            case Words() | FrameWords():
                made.before.append(words(mark.text))
            case Syllable():
                if written.sounds:
                    made.lyrics.append(mark.text)
                else:
                    made.before.append(words(mark.text, "below"))
            case BreathSign():
                way = "say-inhale" if mark.way == "in" else "say-exhale"
                made.before.append(words(wording(way, self._language)))
            case FootnoteMark():
                made.before.append(words(",".join(mark.numbers).translate(_SUPERSCRIPTS)))
            case Fingering():
                _fingering(mark.name, made)
            case Cents():
                note = f"{_letter(mark.note)} " if mark.note is not None else ""
                made.before.append(words(f"{note}{mark.off:+d}".replace("-", "−")))
            case BandStart():
                made.before.append(words(f"{mark.low.name}–{mark.high.name}"))
            case FrameStart():
                made.before.extend(_bracket("start", _FRAME, line="solid", end="down"))
            case FrameEnd():
                made.after.extend(_bracket("stop", _FRAME, end="down"))
            case GoesOnStart():
                made.before.extend(_bracket("start", _GOES_ON, line="solid", before=mark.text))
            case GoesOnEnd():
                made.after.extend(_bracket("stop", _GOES_ON, end="arrow"))
            case LengthStart():
                made.before.extend(_bracket("start", _LENGTH, line="solid", end="down", before=mark.text))
            case LengthEnd():
                made.after.extend(_bracket("stop", _LENGTH, end="down"))
            case _:
                assert_never(mark)


# The forms of Stein and Zimmermann, and those with arrows; eighths of a tone have arrows in both.
PLAIN_ACCIDENTALS = {
    Fraction(-2): "flat-flat",
    Fraction(-3, 2): "three-quarters-flat",
    Fraction(-5, 4): "flat-down",
    Fraction(-1): "flat",
    Fraction(-3, 4): "flat-up",
    Fraction(-1, 2): "quarter-flat",
    Fraction(-1, 4): "natural-down",
    Fraction(0): "natural",
    Fraction(1, 4): "natural-up",
    Fraction(1, 2): "quarter-sharp",
    Fraction(3, 4): "sharp-down",
    Fraction(1): "sharp",
    Fraction(5, 4): "sharp-up",
    Fraction(3, 2): "three-quarters-sharp",
    Fraction(2): "double-sharp",
}
ARROW_ACCIDENTALS = PLAIN_ACCIDENTALS | {
    Fraction(-3, 2): "flat-down",
    Fraction(-1, 2): "natural-down",
    Fraction(1, 2): "natural-up",
    Fraction(3, 2): "sharp-up",
}


def words(text: str, placement: Placement = "above", **how: str) -> Element:
    """A direction in words."""
    made = lone("direction", placement=placement)
    add(add(made, "direction-type"), "words", text, **how)
    return made


def lost(mark: Mark) -> str:
    """What of a mark no element holds, for people; "" if nothing is lost."""
    match mark:
        case SpanStart(waves=Waves()) | TrillSign(waves=Waves()):
            return "how fast and how wide waves are (an ordinary line)"
        case Script(sign="beyond-up" | "beyond-down"):
            return "the arrow at the highest or lowest note"
        case LineStart(arrow=True):
            return "the arrow at the end of a line"
        case LineStart(turns=turns) if turns:
            return "how a line turns between its points"
        case LineStart(growth="growing" | "fading"):
            return "how a line grows or fades (in words)"
        case Bend():
            return "how a bend looks (a sign without its curve)"
        case Edge(shape=shape) if _EDGES[shape] is None:
            return f"the sign of a {shape} (in words)"
        case Edge(shape="rip"):
            return "the sign of a rip (a long, straight scoop, and in words)"
        case Edge(shape="doit-at-once" | "fall-at-once"):
            return "that a doit or fall comes at once (in words)"
        case BandStart():
            return "the grey field of a band (its limits in words)"
        case FrameStart():
            return "the frame of a box (a bracket above it)"
        case BreathSign():
            return "the signs of breathing in and out (in words)"
        case _:
            return ""


def _is_held(written: Written) -> bool:
    return written.sounds_on or written.kind == "held"


def _step(sign: TrillSign, event: Event) -> str | None:
    """Which second a trill plays, for programs that play it; None if neither a semitone nor a tone, nor the same
    note in another way."""
    if any(techniques.get(key).trill == "same" for key in event.techniques):
        return "unison"
    head = event.head
    if sign.to is None or head is None or head.spelling is None:
        return None
    return {100: "half", 200: "whole"}.get(int(sign.to.pitch_cents - head.spelling.pitch_cents))


def _strokes(count: int, written: Written) -> int:
    """Strokes through a stem; a flag or beam stands for one of them."""
    return max(1, count - (flags(written.value) if written.value is not None else 0))


def _bracket(
    way: str, number: int, *, line: str | None = None, end: str = "none", before: str = "", after: str = ""
) -> list[Element]:
    """The beginning or end of a bracket above the staff, with words before or after it: programs that read words
    and a bracket in one direction lose the bracket."""
    made = lone("direction", placement="above")
    add(add(made, "direction-type"), "bracket", type=way, number=number, line_end=end, line_type=line)
    return [*([words(before)] if before else []), made, *([words(after)] if after else [])]


def _hand(sign: HandState, made: Dress) -> None:
    """What the hand does at the bell, once where one turn ends and the next begins."""
    if all(one.tag != _HANDS[sign] for one in made.technical):
        made.technical.append(lone(_HANDS[sign]))


def _fingering(name: str, made: Dress) -> None:
    """Each valve by itself, since a whole fingering as one text stops some programs; the side of the instrument
    below, in words."""
    ways = [way.rsplit(" ", 1) for way in name.split(" / ")]
    sides = [way[0] if len(way) > 1 else "" for way in ways]
    for number, way in enumerate(ways):
        for valve in way[-1].split("-"):
            made.technical.append(lone("fingering", valve, placement="below", alternate="yes" if number else None))
    if any(sides):
        made.before.append(words(" / ".join(sides), "below"))


def _letter(note: Spelling) -> str:
    return note.name.rstrip("0123456789")
