"""The marks at a note, rest or point: signs, words and numbers as plain values. Each output format draws every kind
of mark in its own way; nothing here depends on a format.

A mark that reaches from one place to another is two: one where it starts and one where it ends.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, get_args

from gesturesmith.kinds import Breath, EdgeShape, Growth, HandState, HeadShape, Join, ScriptSign
from gesturesmith.units import Spelling
from gesturesmith.values import frozen

type LineStyle = Literal["straight", "wavy", "broken", "dotted", "arrow"]
type WaveRows = tuple[tuple[Fraction, float], ...]
type Mark = (
    LineStart | LineEnd | Edge | Bend | Script | HandTurnStart | HandTurnEnd | TechniqueTurnStart | TechniqueTurnEnd
    | SpanStart | SpanEnd | Flutter | RepeatStrokes | TrillSign | SecondNote | Words | FootnoteMark | Fingering
    | Cents | BandStart | BandEnd | FrameStart | FrameWords | FrameEnd | GoesOnStart | GoesOnEnd | LengthStart
    | LengthEnd | Small | SungHead | Syllable | BreathSign
)  # fmt: skip


@frozen(kw_only=True)
class TechniqueLabel:
    """A technique's word at one place: `first` if no other mention of `word` precedes it on its system, else
    `later`; "" prints nothing. Only the page layout knows which applies."""

    word: str
    first: str = ""
    later: str = ""


# --- lines -----------------------------------------------------------------------------------------------------


@frozen(kw_only=True)
class LineStart:
    """A contour line begins; `word` is printed on it, "" for none; `arrow`: it ends with one.

    turns   where it leaves the straight way between its heads, in order: the share of its time, and how far above
            it is there, in diatonic steps; two at one time are a jump
    arrow   it ends with an arrow whatever its style: beyond is as far as the player can go
    """

    style: LineStyle
    growth: Growth = ""
    word: str = ""
    turns: tuple[tuple[Fraction, Fraction], ...] = ()
    arrow: bool = False


@frozen(kw_only=True)
class LineEnd:
    """The contour line ends."""


@frozen(kw_only=True)
class Edge:
    """A curve into a note (scoop, plop, rip, ...) or off it (doit, fall, ...)."""

    shape: EdgeShape

    @property
    def enters(self) -> bool:
        return self.shape in ("scoop", "plop", "rip", "lift", "smear")


@frozen(kw_only=True)
class Bend:
    """The pitch goes down and comes back within the note; how far is not shown."""


# --- hand, tongue, technique -----------------------------------------------------------------------------------


@frozen(kw_only=True)
class Script:
    """A sign over the note: for the hand in the bell (+, o and the like), the dots of a tonguing; or the arrow
    from a note that is the highest or lowest possible."""

    sign: ScriptSign


@frozen(kw_only=True)
class HandTurnStart:
    """The hand begins to move to another state."""

    here: HandState
    there: HandState


@frozen(kw_only=True)
class HandTurnEnd:
    """The hand reaches its new state."""


@frozen(kw_only=True)
class TechniqueTurnStart:
    """A gradual change begins; it is named at both ends."""

    here: str
    there: str


@frozen(kw_only=True)
class TechniqueTurnEnd:
    """The gradual change is complete."""


@frozen(kw_only=True)
class Waves:
    """Waves over a stretch of music: what is drawn in place of a dashed line, or after the sign of a trill.

    speed, width   rows (share of the time of the stretch, 0 to 1; multiple of the ordinary wave), as a line through
                   them; two rows at one share are a step
    signs          no wave but the signs of open and closed in turn
    """

    speed: WaveRows
    width: WaveRows
    signs: bool = False


@frozen(kw_only=True)
class SpanStart:
    """A dashed line with a hook, over all notes played with a technique, begins after its word; or its waves."""

    word: str
    waves: Waves | None = None


@frozen(kw_only=True)
class SpanEnd:
    """The dashed line ends, with the note."""


@frozen(kw_only=True)
class Flutter:
    """A number of slashes through the stem of every head of the note."""

    slashes: int


@frozen(kw_only=True)
class RepeatStrokes:
    """Strokes through the stem of every head of a note: it is repeated in notes of this many beats. Unmeasured
    repetition also has words."""

    value: Fraction


@frozen(kw_only=True)
class TrillSign:
    """A trill; `to` is the second note if an accidental by the sign shows it, None if the sign is enough; `waves`
    if its speed is drawn."""

    to: Spelling | None = None
    waves: Waves | None = None


@frozen(kw_only=True)
class SecondNote:
    """The second note of a trill, in a small head in parentheses; `natural`: it needs its natural."""

    to: Spelling
    natural: bool = True


# --- words and numbers -----------------------------------------------------------------------------------------


@frozen(kw_only=True)
class Words:
    """Words above the staff that do not belong to a technique."""

    text: str


@frozen(kw_only=True)
class Syllable:
    """A syllable under the note or rest, spoken or breathed there."""

    text: str


@frozen(kw_only=True)
class BreathSign:
    """A sign for air going in through the mouth, or out of it."""

    way: Breath


@frozen(kw_only=True)
class FootnoteMark:
    """The numbers of the footnotes that belong here."""

    numbers: tuple[str, ...]


@frozen(kw_only=True)
class Fingering:
    """The valves to press, or the position of the slide."""

    name: str


@frozen(kw_only=True)
class Cents:
    """How many cents a pitch is from a tempered note, as a tuner shows it; `note` names that note if it is not the
    printed one."""

    off: int
    note: Spelling | None = None


@frozen(kw_only=True)
class BandStart:
    """The grey field of a register band begins; it reaches from one written note up to another."""

    low: Spelling
    high: Spelling


@frozen(kw_only=True)
class BandEnd:
    """The grey field ends, with the note."""


@frozen(kw_only=True)
class FrameStart:
    """The start of a box around what is repeated freely."""


@frozen(kw_only=True)
class FrameWords:
    """Words above a box: its title, how to choose and how fast."""

    text: str


@frozen(kw_only=True)
class FrameEnd:
    """The end of the box, with the note or rest."""


@frozen(kw_only=True)
class GoesOnStart:
    """The start of the line through which a box is repeated: `text` says how long, as printed."""

    text: str


@frozen(kw_only=True)
class GoesOnEnd:
    """The end of that line, at its arrow."""


@frozen(kw_only=True)
class LengthStart:
    """A bracket that shows a length begins: `text` as printed, `beats` the same in quarters."""

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
    """A head of a sung line."""

    shape: HeadShape


# --- loudness --------------------------------------------------------------------------------------------------


@frozen(kw_only=True)
class DynamicLevel:
    """A dynamic mark at a time of its own.

    at        beats from the start of its gesture
    level     as printed; "" if only a hairpin begins or ends
    hairpin   the one that begins here: "<" opens, ">" closes, "" none
    closes    the preceding hairpin ends here
    niente    its hairpin begins or ends at nothing
    letters   for a hairpin so short that room must be made for it: the number of letters in the levels at its ends;
              else None
    crowded   it is the last of its gesture, and the first of the next gesture follows closely
    """

    at: Fraction
    level: str = ""
    hairpin: Join = ""
    closes: bool = False
    niente: bool = False
    letters: int | None = None
    crowded: bool = False


MARKS: tuple[type[Mark], ...] = get_args(Mark.__value__)
