"""A score as it is notated: parts, bars, notes and words, whatever file they come from.

All times are in quarter notes, exact. Times of notes and words are from the start of their bar.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from gesturesmith.diagnostics import ReadError
from gesturesmith.kinds import LineKind, NotatedDirection, TempoTurn
from gesturesmith.units import Interval, Spelling
from gesturesmith.values import frozen


@frozen(kw_only=True)
class NotatedNote:
    """A note.

    at          from the start of its bar
    lasts       its length; 0 for a grace note
    written     its pitch as written
    voice       the voice that it is in; notes of a chord share one
    grace       a grace note; `stops`: the small head in brackets where a line stops
    tied        whether a tie leads to it; `ties`: whether one leads on
    slurred     whether a slur that began earlier is still open when it begins
    marks       the language's words after a point: accent, staccato, tenuto, marcato, fermata, breath
    signs       signs of techniques at it: names of edges, scripts, "open", "bend", "trill", "tremolo"
    line        the line that leads on from it, "none" for none; `named`: words on it
    strokes     through its stem; 0 for none, -1 for those that are not counted
    other       the other note of a trill or tremolo: "half", "whole", "same", or a pitch's name; "" if not written
    fingering   as written; () for none
    head        "x", "diamond", "triangle", "inverted triangle", "slash" or ""
    stem        whether it has one
    exact       False for a sound without a pitch, whose `written` is only its place on the staff
    """

    at: Fraction
    lasts: Fraction
    written: Spelling
    voice: str = "1"
    grace: bool = False
    stops: bool = False
    tied: bool = False
    ties: bool = False
    slurred: bool = False
    marks: tuple[str, ...] = ()
    signs: tuple[str, ...] = ()
    line: LineKind = "none"
    named: str = ""
    strokes: int = 0
    other: str = ""
    fingering: tuple[str, ...] = ()
    head: str = ""
    stem: bool = True
    exact: bool = True


@frozen(kw_only=True)
class NotatedWord:
    """A word or sign beside the staff: `text` is the words, the level or the mute.

    kind   words | level | crescendo | diminuendo | wedge-end | mute
    """

    at: Fraction
    kind: NotatedDirection
    text: str = ""


@frozen(kw_only=True)
class NotatedBar:
    """One bar of one part, with what it has been given in it.

    sounding   the interval from written to sounding pitch
    bass_clef  whether its notes are in bass clef
    sharps     of its key signature, negative for flats; `minor`: whether it says that it is a minor key
    """

    notes: tuple[NotatedNote, ...] = ()
    words: tuple[NotatedWord, ...] = ()
    sounding: Interval = Interval(0, Fraction(0))
    bass_clef: bool = False
    sharps: int = 0
    minor: bool = False


@frozen(kw_only=True)
class NotatedPart:
    """A part.

    key       the instrument that it was taken for; "" if none of ours
    why       by what: its sound, name or program
    """

    id: str
    name: str
    key: str
    why: str
    bars: tuple[NotatedBar, ...]


@frozen(kw_only=True)
class TempoMark:
    """Quarters per minute from a time in a bar on, with the words beside them; or None, and the words say how the
    tempo goes on: "accelerando" or "ritardando" up to the next mark, "steady" where they only end that."""

    at: Fraction
    quarters: Fraction | None
    words: str = ""
    counted: Fraction = Fraction(1)
    turn: TempoTurn | Literal["", "steady"] = ""


@frozen(kw_only=True)
class ScoreSign:
    """A rehearsal mark at a time in a bar; one without text is a double bar line."""

    at: Fraction
    text: str = ""


@frozen(kw_only=True)
class RepeatSigns:
    """The signs of one bar that say how its neighbours follow each other.

    starts, ends   repeat signs at its start and end; `times`: how often the stretch is played
    ending         numbers of the ending that begins in it, () for none; `ending_ends`: one ends with it
    """

    starts: bool = False
    ends: bool = False
    times: int = 2
    ending: tuple[int, ...] = ()
    ending_ends: bool = False
    segno: str = ""
    coda: str = ""
    to_coda: str = ""
    dal_segno: str = ""
    da_capo: bool = False
    fine: bool = False


@frozen(kw_only=True)
class ScoreBar:
    """One bar of a score, for all its parts.

    number  as printed
    lasts   its length
    meter   beats and note value in force; None where there is none
    free    free time: no bar lines
    marks   rehearsal marks and double bar lines
    """

    number: str
    lasts: Fraction
    meter: tuple[int, int] | None
    free: bool = False
    tempos: tuple[TempoMark, ...] = ()
    marks: tuple[ScoreSign, ...] = ()
    signs: RepeatSigns = RepeatSigns()


@frozen(kw_only=True)
class NotatedScore:
    """A whole score; `errors` name what could not be read, `others` the parts for other instruments, `left_out` the
    signs that say nothing to a brass player, with their number; `ours`: whether Gesturesmith has written it."""

    title: str
    composer: str
    bars: tuple[ScoreBar, ...]
    parts: tuple[NotatedPart, ...]
    others: tuple[str, ...] = ()
    errors: tuple[ReadError, ...] = ()
    left_out: tuple[tuple[str, int], ...] = ()
    ours: bool = False

    def beat(self, bar: int, at: Fraction) -> Fraction:
        """The beat of a time in a bar, from 1."""
        meter = self.bars[bar].meter
        return 1 + at * (Fraction(meter[1], 4) if meter is not None else 1)
