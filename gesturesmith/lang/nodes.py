"""The syntax tree of a file. A value is None if its line could not be read.

Every node has the span of its text. The tree holds what was written; `model` works out what it means.
"""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.kinds import (
    AttackShape,
    BlockKind,
    Direction,
    FingeringMode,
    Growth,
    Join,
    LineKind,
    Shade,
    TempoTurn,
    Unit,
)
from gesturesmith.lang.tokens import quoted
from gesturesmith.lang.words import BEATS
from gesturesmith.source import Span
from gesturesmith.units import KeySignature
from gesturesmith.values import frozen

_NOTE_NAMES = {
    length * dot: f"{'dotted ' if dot > 1 else ''}{name}"
    for name, length in BEATS.items()
    for dot in (1, Fraction(3, 2))
}


@frozen
class Word:
    """A bare word: a name, a technique, a unit, a register."""

    text: str
    span: Span


@frozen
class Text:
    """A quoted text, its parts joined by a space."""

    text: str
    span: Span


@frozen
class Amount:
    """A number with its unit: "" | "beats" | "bars" | "s" | "mm" | "%"."""

    value: Fraction
    unit: Unit
    span: Span


@frozen
class Note:
    """A pitch as written. `alter` in semitones (halves are quarter tones); `about` for an x before it."""

    letter: str
    alter: Fraction
    octave: int
    cents: int
    about: bool
    span: Span


@frozen
class JustNote:
    """`7/4 of F2`: the pitch whose frequency is `ratio` times that of a note."""

    ratio: Fraction
    of: Note
    span: Span


@frozen
class Harmonic:
    """`F 0:11`: a partial of a tube."""

    partial: int
    tube: Finger
    span: Span


@frozen
class Height:
    """low, mid, high (percent 0, 50, 100), `35%`, or "highest" / "lowest" (percent None)."""

    word: str
    percent: Fraction | None
    span: Span


@frozen
class Rest:
    """`r`: silence."""

    span: Span


@frozen
class PointText:
    """A quoted text at a point: text above it or, after `say`, a syllable under it."""

    said: bool
    text: Text

    def __str__(self) -> str:
        """As the language writes it."""
        return f"say {quoted(self.text.text)}" if self.said else quoted(self.text.text)


@frozen(kw_only=True)
class PointNode:
    """One point: its height, its time `at` (in the unit of `lasts`; it follows from the lengths `for_` if these are
    typed), the techniques it turns to (`as`), the
    techniques it ends (`without`), the words after it, quoted ones in `texts`; its grace notes, those after it if
    it is the last; whether it is random (`drawn`), sharing its span with others."""

    height: Note | JustNote | Harmonic | Height | Rest
    at: Amount | None
    for_: Amount | None = None
    as_: tuple[Word, ...] = ()
    without: tuple[Word, ...] = ()
    marks: tuple[Word, ...]  # accent, staccato, ... and dynamic levels
    graces: tuple[GraceNode, ...] = ()
    after: tuple[GraceNode, ...] = ()
    texts: tuple[PointText, ...] = ()
    drawn: bool = False
    span: Span


@frozen
class LineNode:
    """What joins two points: straight wavy broken dotted arrow slur none; growth "growing" | "fading" | ""."""

    kind: LineKind
    growth: Growth
    span: Span


@frozen
class GraceNode:
    """A grace note, and the line on the side of its note: the one that leads on from a grace before it, or to a
    grace after it."""

    point: PointNode
    line: LineNode


@frozen
class Contour:
    """Points with the lines between them: len(lines) == len(points) - 1. `beats`: how long they are together, if
    each says how long it is."""

    points: tuple[PointNode, ...]
    lines: tuple[LineNode, ...]
    span: Span
    beats: Fraction | None = None


@frozen
class Names:
    """One or more words joined by `+` (techniques) or listed (wording)."""

    words: tuple[Word, ...]
    span: Span


@frozen
class BandNode:
    """A register's name, or two notes."""

    register: Word | None
    low: Note | None
    high: Note | None
    span: Span


@frozen
class LevelNode:
    """A dynamic level with its time, if one is given."""

    level: str
    at: Amount | None
    span: Span


@frozen
class Dynamics:
    """Levels and what joins each to the next: "<", ">" or "" (no hairpin). `each`: one level at every attack."""

    levels: tuple[LevelNode, ...]
    joins: tuple[Join, ...]
    span: Span
    each: bool = False


@frozen
class WaveNode:
    """A speed or width of waves: a word, or how many a second; with its time, if one is given."""

    word: str
    per_second: Fraction | None
    at: Amount | None
    span: Span


@frozen
class WavesNode:
    """Speeds or widths and what joins each to the next: "<", ">" or "" (at once)."""

    marks: tuple[WaveNode, ...]
    joins: tuple[Join, ...]
    span: Span


@frozen
class AttacksNode:
    """How many attacks; shape "" | "accelerating" | "slowing"."""

    count: int
    shape: AttackShape
    span: Span


@frozen
class Finger:
    """One fingering as written: side "" or one of `words.SIDES`; valves "0", "1-2", a slide position, "auto"; shade
    on a slide, "" | "short" | "long"; `other`: the second of a trill."""

    side: str
    valves: str
    shade: Shade
    span: Span
    other: Finger | None = None


@frozen
class FingeringNode:
    """mode "auto" | "held" | "given"; `items` one for all or one a point."""

    mode: FingeringMode
    items: tuple[Finger, ...]
    span: Span


@frozen
class TrillNode:
    """What a trill goes to: a note, or an interval above by its name ("M2")."""

    to: Note | None
    interval: str
    span: Span


@frozen
class AllowNode:
    """A rule's name and the reason to override it."""

    rule: Word
    reason: Text
    span: Span


@frozen
class Tempo:
    """Beats per minute, with any words before the number. `note`: the note value of a beat, in quarters; None if it
    is not named."""

    words: Text | None
    bpm: Amount
    span: Span
    note: Fraction | None = None

    def __str__(self) -> str:
        """As an entry of `play` has it."""
        words = f"{quoted(self.words.text)} " if self.words is not None else ""
        named = f"{_NOTE_NAMES[self.note]} = " if self.note is not None else ""
        return f"tempo {words}{named}{self.bpm.value}"


@frozen
class TimeSignature:
    """A time signature; both None for `free`."""

    beats: int | None
    unit: int | None
    span: Span

    def __str__(self) -> str:
        """As an entry of `play` has it."""
        return f"meter {self.beats}/{self.unit}"


@frozen
class GradualNode:
    """`accelerando to 96 over 8`: to a tempo, over beats or bars."""

    turn: TempoTurn
    to: Tempo
    over: Amount
    span: Span

    def __str__(self) -> str:
        to = str(self.to).removeprefix("tempo ")
        return f"{self.turn} to {to} over {self.over.value}{' bars' if self.over.unit == 'bars' else ''}"


@frozen
class KeyNode:
    """A key signature, in the pitch of the file."""

    key: KeySignature
    span: Span

    def __str__(self) -> str:
        return f"key {self.key.name}"


@frozen
class MarkNode:
    """A rehearsal mark."""

    text: str
    span: Span

    def __str__(self) -> str:
        return f"mark {self.text}"


@frozen
class DoubleBarNode:
    """A double bar line."""

    span: Span

    def __str__(self) -> str:
        return "double bar"


type ChangeNode = Tempo | GradualNode | TimeSignature | KeyNode | MarkNode | DoubleBarNode


@frozen
class Paper:
    """A named size ("a4", "letter") or width and height in mm."""

    name: str
    width_mm: Fraction | None
    height_mm: Fraction | None
    span: Span


@frozen(kw_only=True)
class PlayItem:
    """One item of `play:`: exactly one of name, note, rest, change.

    name    a gesture or another passage; `move` "" | "up" | "down", by `semitones` or by `interval` ("M2")
    note    a pitch `for_` a number of beats, with point words in `marks` and `texts`, and grace notes before it
    rest    a number of beats; a fermata over it in `marks`
    change  what changes here, or is marked: nothing is played
    who     of two players: `a2`, `first`, `second`; None: unchanged
    below   what the second player plays while the first plays this
    silent  a rest as long as what is given here
    """

    name: Word | None = None
    note: Note | JustNote | Harmonic | None = None
    rest: Amount | None = None
    change: ChangeNode | None = None
    move: Direction = ""
    semitones: int | None = None
    interval: str = ""
    for_: Amount | None = None
    as_: tuple[Word, ...] = ()
    marks: tuple[Word, ...] = ()
    graces: tuple[GraceNode, ...] = ()
    texts: tuple[PointText, ...] = ()
    who: Word | None = None
    below: PlayItem | None = None
    silent: bool = False
    span: Span


@frozen
class Play:
    items: tuple[PlayItem, ...]
    span: Span


OWN_LANGUAGE = (
    "own language"  # the key of a setting that no file has: in which its texts are if pages are in others
)
IN_SCORE = "in score"  # the key of a setting that no file has: that this is one part of several
IMPOSED = "for all parts"  # and the key of what changes in a passage for all of them


@frozen
class Imposed:
    """What changes in a passage for all its parts, in quarters from its start; nothing while it is gathered from
    their lines. No file says it like this."""

    changes: tuple[tuple[Fraction, PlayItem], ...]
    span: Span


@frozen
class BoxLength:
    """How long a box is repeated: a length, or until a cue, with a maximum if one is given."""

    amount: Amount | None
    cue: Text | None
    span: Span


@frozen
class Range:
    """`A..B by N` over notes or quantities; `by` in semitones for notes, in the values' unit for quantities."""

    first: Note | Amount
    last: Note | Amount
    by: Amount
    span: Span


@frozen
class Series:
    """A list of values in an exercises block: quantities, notes, bands, dynamics, words, or one Range."""

    items: tuple[Amount | Note | BandNode | Dynamics | Word | Range, ...]
    span: Span


type Value = (
    Word | Text | Amount | Contour | Names | BandNode | Dynamics | AttacksNode | FingeringNode | AllowNode
    | TrillNode | WavesNode | Tempo | TimeSignature | KeyNode | Paper | Play | Series | BoxLength | Imposed
)  # fmt: skip


@frozen
class KeyEntry:
    """`key: value`; value None if it could not be read (the error is reported beside the tree)."""

    key: Word
    value: Value | None
    span: Span  # of the value as written on its first line


@frozen(kw_only=True)
class Block:
    """A gesture, passage or exercises block."""

    kind: BlockKind
    name: Word
    title: Text | None
    entries: tuple[KeyEntry, ...]
    broken: bool  # something in it could not be read
    last_line: int
    indent: str
    span: Span  # of the heading

    def get(self, key: str) -> KeyEntry | None:
        for entry in self.entries:  # called for every key of every block
            if entry.key.text == key:
                return entry
        return None

    def span_of(self, key: str) -> Span:
        """The span of a key's value, or of the heading if the key is missing."""
        entry = self.get(key)
        return entry.span if entry is not None else self.span


@frozen
class File:
    """A file: its settings (at the top or between blocks, at the margin) and its blocks in order."""

    settings: tuple[KeyEntry, ...]
    blocks: tuple[Block, ...]

    def get(self, key: str) -> KeyEntry | None:
        return next((e for e in self.settings if e.key.text == key), None)
