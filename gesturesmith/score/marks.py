"""What can stand at a note, rest or point: signs, words and numbers as plain values. How a mark is drawn is told by
whoever prints it, kind by kind; nothing here knows of any format.

What reaches from one place to another has a mark where it starts and one where it ends.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, get_args

from gesturesmith.kinds import EdgeShape, Growth, HandState, HeadShape, Join, ScriptSign
from gesturesmith.units import Spelling
from gesturesmith.values import frozen

type LineStyle = Literal["straight", "wavy", "broken", "dotted", "arrow"]
type Mark = (
    LineStart | LineEnd | Edge | Bend | Script | HandTurnStart | HandTurnEnd | TechniqueTurnStart | TechniqueTurnEnd
    | SpanStart | SpanEnd | Flutter | TrillSign | SecondNote | Words | FootnoteMark | Fingering | Cents | BandStart
    | BandEnd | LengthStart | LengthEnd | Small | SungHead
)  # fmt: skip


@frozen(kw_only=True)
class TechniqueLabel:
    """A technique's word at one place: `first` where it comes before every other mention of `word` on its system,
    `later` elsewhere; "" for nothing. Only the layout of the page knows which."""

    word: str
    first: str = ""
    later: str = ""


# --- lines -----------------------------------------------------------------------------------------------------


@frozen(kw_only=True)
class LineStart:
    """A contour line begins; `word` sits on it, "" for none."""

    style: LineStyle
    growth: Growth = ""
    word: str = ""


@frozen(kw_only=True)
class LineEnd:
    """The contour line ends."""


@frozen(kw_only=True)
class Edge:
    """How the edge of a note bends: its beginning (scoop, plop, rip) or its end (doit, fall)."""

    shape: EdgeShape

    @property
    def enters(self) -> bool:
        return self.shape in ("scoop", "plop", "rip")


@frozen(kw_only=True)
class Bend:
    """The pitch goes down and comes back within the note; how far is not said."""


# --- hand, tongue, technique -----------------------------------------------------------------------------------


@frozen(kw_only=True)
class Script:
    """A sign over the note: what the hand in the bell does (+, o and the like), or the dots of a tonguing."""

    sign: ScriptSign


@frozen(kw_only=True)
class HandTurnStart:
    """The hand begins to move from one state to another."""

    here: HandState
    there: HandState


@frozen(kw_only=True)
class HandTurnEnd:
    """The hand has arrived."""


@frozen(kw_only=True)
class TechniqueTurnStart:
    """A gradual change begins, named at both its ends."""

    here: str
    there: str


@frozen(kw_only=True)
class TechniqueTurnEnd:
    """The gradual change is complete."""


@frozen(kw_only=True)
class SpanStart:
    """A dashed line with a hook over all that is played so begins, at its word."""

    word: str


@frozen(kw_only=True)
class SpanEnd:
    """The dashed line ends, with the note."""


@frozen(kw_only=True)
class Flutter:
    """So many slashes at the stem of every head of the note."""

    slashes: int


@frozen(kw_only=True)
class TrillSign:
    """A trill; `to` is the second note where an accidental by the sign says it, None where the sign says all."""

    to: Spelling | None = None


@frozen(kw_only=True)
class SecondNote:
    """The second note of a trill, in a small head in parentheses."""

    to: Spelling


# --- words and numbers -----------------------------------------------------------------------------------------


@frozen(kw_only=True)
class Words:
    """Words above the staff that are no technique's."""

    text: str


@frozen(kw_only=True)
class FootnoteMark:
    """The numbers of the footnotes that belong here."""

    numbers: tuple[str, ...]


@frozen(kw_only=True)
class Fingering:
    """What to press, or the position of the slide."""

    name: str


@frozen(kw_only=True)
class Cents:
    """How many cents a pitch is away from a tempered note, as a tuner shows it; `note` names that note where it is
    not the one printed."""

    off: int
    note: Spelling | None = None


@frozen(kw_only=True)
class BandStart:
    """The field of a register band begins, from one written note up to another."""

    low: Spelling
    high: Spelling


@frozen(kw_only=True)
class BandEnd:
    """The field of the band ends, with the note."""


@frozen(kw_only=True)
class LengthStart:
    """A bracket that says how long something lasts begins: `text` as printed, `beats` the same in quarters."""

    text: str
    beats: Fraction


@frozen(kw_only=True)
class LengthEnd:
    """The bracket ends, with the note or rest."""


# --- heads -----------------------------------------------------------------------------------------------------


@frozen(kw_only=True)
class Small:
    """A small head."""


@frozen(kw_only=True)
class SungHead:
    """The head of a line that is sung and not played."""

    shape: HeadShape


# --- loudness --------------------------------------------------------------------------------------------------


@frozen(kw_only=True)
class DynamicLevel:
    """What is said of loudness at a time of its own.

    at        beats from the start of its gesture
    level     as printed; "" where only a hairpin begins or ends
    hairpin   one begins here: "<" opens, ">" closes, "" none
    closes    the hairpin before it ends here
    niente    its hairpin begins at nothing or ends there
    letters   where its hairpin is so short that it must be given room: of how many letters the levels at its ends
              are; else None
    crowded   it is the last of its gesture, and the first of the next stands close behind it
    """

    at: Fraction
    level: str = ""
    hairpin: Join = ""
    closes: bool = False
    niente: bool = False
    letters: int | None = None
    crowded: bool = False


MARKS: tuple[type[Mark], ...] = get_args(Mark.__value__)
