"""How a head looks and where it is placed: spelling, height, shape, cents."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import get_args

from gesturesmith.kinds import AskedHead, HeadShape, Pitches, one_of
from gesturesmith.model.gesture import Band, ContourPoint, Gesture, Pitch
from gesturesmith.model.piece import Settings
from gesturesmith.score.marks import Cents
from gesturesmith.techniques.base import Technique
from gesturesmith.units import LETTERS, Spelling, chromatic, spell
from gesturesmith.values import frozen

MIDDLE_LINE_LOW, MIDDLE_LINE_HIGH = -4, 4  # outer lines of the three-line staff, in half spaces
_BEYOND = 6  # position of `highest`, and below of `lowest`: clear of the staff's outer line
_SHAPES: tuple[HeadShape, ...] = get_args(HeadShape)
_PLAIN = (-1, 0, 1)  # semitones shown by one sign
_MAX_ALTER = 2  # semitones of a double sign, the widest there is
# An error this small leaves a quarter tone a quarter tone to the ear: our own judgement.
_NEAR_QUARTER_CENTS = 5


@frozen(kw_only=True)
class Head:
    """One notehead.

    spelling  the note as printed, without cents; None if `position` applies
    position  height on the staff in half staff spaces from its middle, for heads without pitch
    shape     as drawn
    bare      no accidental, whatever the pitch: it shows a height
    cents     how far the pitch is from the printed note
    tuner     the same as shown to the player, if it is
    upper     a second head above, sounding at the same time
    """

    spelling: Spelling | None
    position: Fraction | None = None
    shape: HeadShape = "normal"
    bare: bool = False
    cents: Fraction = Fraction(0)
    tuner: Cents | None = None
    upper: Spelling | None = None

    @property
    def steps(self) -> int | None:
        """Diatonic steps above C0, for clefs and ledger lines; None if the staff has no pitches."""
        return self.spelling.steps if self.spelling is not None else None

    @property
    def alter(self) -> Fraction:
        """The printed alteration, in semitones."""
        return self.spelling.alter if self.spelling is not None else Fraction(0)


def natural(steps: int) -> Spelling:
    """The natural note this many diatonic steps above C0."""
    octave, index = divmod(steps, 7)
    return Spelling(LETTERS[index], Fraction(0), octave)


def decimal(number: Fraction) -> str:
    """A number in decimal digits, to a thousandth."""
    return f"{float(round(number, 3)):g}"


def on_page(pitch: Pitch, pitches: Pitches) -> Spelling:
    """The printed spelling: the composer's own, in the part or in the concert score."""
    return pitch.sounding if pitches == "sounding" else pitch.written


def three_lines(gestures: tuple[Gesture, ...], settings: Settings) -> bool:
    """Whether heights go on a three-line staff: if nothing else is on the staff, and as `heights` says."""
    points = [p for g in gestures for p in g.sounding_points]
    if settings.heights == "band" or not points or any(p.kind == "pitch" for p in points):
        return False
    if any(g.sing is not None for g in gestures):
        return False
    named = all(g.band is None or g.band.register for g in gestures)
    return settings.heights == "lines" or named


@frozen
class Stave:
    """How heads are placed: on three lines or five, in written or sounding pitches."""

    lines: int
    pitches: Pitches
    arrows: bool = False  # mean quarter tones, so that eighth tones need their cents

    def head(self, gesture: Gesture, point: ContourPoint) -> Head:
        """The head of a contour point."""
        shape = _shape(gesture, point)
        if point.kind == "pitch" and point.pitch is not None:
            return self._pitched(on_page(point.pitch, self.pitches), shape)
        if point.kind == "extreme" and (self.lines == 3 or gesture.band is None):
            return self._placed(self._edge(gesture, point), shape)
        percent = point.percent if point.percent is not None else Fraction(100 if point.extreme == "highest" else 0)
        if self.lines == 3:
            spread = MIDDLE_LINE_HIGH - MIDDLE_LINE_LOW
            return self._placed(MIDDLE_LINE_LOW + spread * percent / 100, shape)
        if gesture.band is None:
            raise ValueError(f"{gesture.name}: a height without a band")
        return self._bare(self._in_band(gesture.band, percent), shape)

    def between(self, gesture: Gesture, one: ContourPoint, two: ContourPoint, share: Fraction) -> Head:
        """A head on the line from one point to the next, `share` of the way along it: approximate."""
        a, b = self.head(gesture, one), self.head(gesture, two)
        shape: HeadShape = "x" if gesture.notehead == "auto" else a.shape
        if a.position is not None and b.position is not None:
            return self._placed(a.position + share * (b.position - a.position), shape)
        if a.steps is None or b.steps is None:
            return a if share < Fraction(1, 2) else b
        return self._bare(round(a.steps + share * (b.steps - a.steps)), shape)

    def band(self, band: Band) -> tuple[Spelling, Spelling]:
        """The limits of a band."""
        return on_page(band.low, self.pitches), on_page(band.high, self.pitches)

    def heard_above(self, pitch: Pitch, sounding_cents: float) -> Spelling:
        """The note nearest to a sounding pitch above another, spelled by its interval from that note: a
        semitone goes on the next line or space, never beside its own note."""
        return on_page(pitch, self.pitches).transposed(chromatic(_semitones(pitch, sounding_cents)))

    def _edge(self, gesture: Gesture, point: ContourPoint) -> Fraction:
        """The position of `highest` and `lowest`: beyond the staff."""
        return Fraction(_BEYOND if point.extreme == "highest" else -_BEYOND)

    def _in_band(self, band: Band, percent: Fraction) -> int:
        low, high = on_page(band.low, self.pitches).steps, on_page(band.high, self.pitches).steps
        return low + round((high - low) * percent / 100)

    def _pitched(self, spelling: Spelling, shape: HeadShape) -> Head:
        if self.arrows and spelling.alter.denominator == 4:
            near = spelling.nearest
            spelling = replace(near, cents=spelling.cents + int(spelling.pitch_cents - near.pitch_cents))
        printed, tuner = _tuned(spelling)
        off = spelling.pitch_cents - printed.pitch_cents
        return Head(spelling=printed, shape=shape, cents=off, tuner=tuner)

    def _placed(self, position: Fraction, shape: HeadShape) -> Head:
        return Head(spelling=None, position=position, shape=shape)

    def _bare(self, steps: int, shape: HeadShape) -> Head:
        return Head(spelling=natural(steps), shape=shape, bare=True)


def _semitones(pitch: Pitch, sounding_cents: float) -> int:
    return round((sounding_cents - float(pitch.cents)) / 100)


def _tuned(spelling: Spelling) -> tuple[Spelling, Cents | None]:
    """The printed note for a pitch with cents, and its cents as a tuner shows them.

    The sign of a quarter tone if the pitch is inaudibly close to one; else the plain note with cents: a reader
    would add the cents to a quarter-tone sign.
    """
    if not spelling.cents:
        return spelling, None
    raised = spelling.alter * 100 + spelling.cents
    quarter = Fraction(round((raised - 50) / 100) * 100 + 50, 100)
    tempered = _tempered(spelling)
    shown = tempered
    if abs(quarter) < _MAX_ALTER and abs(raised - quarter * 100) <= _NEAR_QUARTER_CENTS:
        shown = Spelling(spelling.letter, quarter, spelling.octave)
    off = int(spelling.pitch_cents - tempered.pitch_cents)
    if spelling.pitch_cents == shown.pitch_cents:
        return shown, None
    if shown == tempered and tempered.alter in _PLAIN:
        return shown, Cents(off=off)
    named = tempered if tempered.alter in _PLAIN else spell(int(tempered.pitch_cents))
    return shown, Cents(off=off, note=named)


def _tempered(spelling: Spelling) -> Spelling:
    """The nearest tempered note: on the composer's letter if one plain accidental can show it or the composer wrote
    a double one."""
    alter = Fraction(round((spelling.alter * 100 + spelling.cents) / 100))
    if alter in _PLAIN or alter == spelling.alter:
        return Spelling(spelling.letter, alter, spelling.octave)
    return spell(round(spelling.pitch_cents / 100) * 100)


def _shape(gesture: Gesture, point: ContourPoint) -> HeadShape:
    """The head the composer asks for; else a triangle at the extremes, x for an approximate pitch, else what the
    techniques in force want."""
    wanted = gesture.notehead
    if wanted == "auto" and point.extreme:
        wanted = "triangle"
    elif wanted == "auto" and point.about:
        wanted = "x"
    elif wanted == "auto":
        wanted = look_head(point.techniques)
    if wanted == "triangle":
        return "triangle-down" if point.extreme == "lowest" else "triangle-up"
    return one_of(_SHAPES, wanted)


def look_head(techniques: tuple[Technique, ...]) -> AskedHead:
    """The head of the last technique that has its own."""
    heads = [t.look.head for t in techniques if t.look.head not in ("auto", "normal")]
    return heads[-1] if heads else "normal"
