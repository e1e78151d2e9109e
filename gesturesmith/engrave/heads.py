"""What a head looks like and where it stands: spelling, height, shape, cents."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.lytext import LyText, code
from gesturesmith.model.gesture import Band, ContourPoint, Gesture, Pitch
from gesturesmith.model.piece import Settings
from gesturesmith.techniques.base import Technique
from gesturesmith.units import LETTERS, Spelling, chromatic, spell
from gesturesmith.values import frozen

MIDDLE_LINE_LOW, MIDDLE_LINE_HIGH = -4, 4  # outer lines of the three-line staff, in half staff spaces
NOTHING = code("")
_BEYOND = 6  # where `highest` stands, and `lowest` below: clear of the staff's outer line
_SHAPES = {"x": r"\gsX", "diamond": r"\gsDiamond", "slash": r"\gsSlash"}
_ALTERS = {
    Fraction(-2): "ff",
    Fraction(-3, 2): "tqf",
    Fraction(-1): "f",
    Fraction(-1, 2): "qf",
    Fraction(0): "",
    Fraction(1, 2): "qs",
    Fraction(1): "s",
    Fraction(3, 2): "tqs",
    Fraction(2): "ss",
}
_PLAIN = (-1, 0, 1)  # semitones that one sign says
# Off by so little, nobody hears a quarter tone as anything else: our own judgement.
_NEAR_QUARTER_CENTS = 5


@frozen(kw_only=True)
class Head:
    """One notehead.

    name      pitch as LilyPond's English names say it; a dummy where `position` rules
    steps     diatonic steps above C0, for clefs and ledger lines; None where the staff has no pitches
    alter     alteration in semitones, for courtesy accidentals
    position  height on the staff in half staff spaces from its middle, for what has no pitch
    shape     commands before the note
    bare      no accidental, whatever the pitch
    tuned     command after the note that gives its cents, or ""
    upper     a second head above, sounding at once, or ""
    """

    name: str
    steps: int | None
    alter: Fraction = Fraction(0)
    position: Fraction | None = None
    shape: tuple[str, ...] = ()
    bare: bool = False
    tuned: LyText = NOTHING
    upper: str = ""

    @property
    def before(self) -> list[str]:
        """Commands that stand before the note."""
        where = [f"\\gsHeight #{decimal(self.position)}"] if self.position is not None else []
        return [*where, *([r"\gsBare"] if self.bare else []), *self.shape]


def lily_name(spelling: Spelling) -> str:
    """`F#^4` as LilyPond's English note names have it: `ftqs'`. Cents are left aside."""
    marks = "'" * (spelling.octave - 3) if spelling.octave >= 3 else "," * (3 - spelling.octave)
    return f"{spelling.letter.lower()}{_ALTERS[spelling.alter]}{marks}"


def natural(steps: int) -> Spelling:
    """The natural note so many diatonic steps above C0."""
    octave, index = divmod(steps, 7)
    return Spelling(LETTERS[index], Fraction(0), octave)


def decimal(number: Fraction) -> str:
    """A number as Scheme reads it, to a thousandth."""
    return f"{float(round(number, 3)):g}"


def on_page(pitch: Pitch, pitches: str) -> Spelling:
    """The spelling that is printed: the composer's own, in the part or in the concert score."""
    return pitch.sounding if pitches == "sounding" else pitch.written


def three_lines(gestures: tuple[Gesture, ...], settings: Settings) -> bool:
    """Whether the heights stand on three lines: where there is nothing else on the staff, and as `heights` says."""
    points = [p for g in gestures for p in g.sounding_points]
    if settings.heights == "band" or not points or any(p.kind == "pitch" for p in points):
        return False
    if any(g.sing is not None for g in gestures):
        return False
    named = all(g.band is None or g.band.register for g in gestures)
    return settings.heights == "lines" or named


@frozen
class Stave:
    """How heads find their place: on three lines or on five, in the part's pitches or the concert score's."""

    lines: int
    pitches: str

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
        """A head on the line from one point to the next, `share` of the way along it: only about there."""
        a, b = self.head(gesture, one), self.head(gesture, two)
        shape = (_SHAPES["x"],) if gesture.notehead == "auto" else a.shape
        if a.position is not None and b.position is not None:
            return self._placed(a.position + share * (b.position - a.position), shape)
        if a.steps is None or b.steps is None:
            return a if share < Fraction(1, 2) else b
        return self._bare(round(a.steps + share * (b.steps - a.steps)), shape)

    def band(self, band: Band) -> tuple[str, str]:
        """The limits of a band as note names."""
        low, high = on_page(band.low, self.pitches), on_page(band.high, self.pitches)
        return lily_name(low), lily_name(high)

    def heard_above(self, pitch: Pitch, sounding_cents: float) -> str:
        """The name of the note nearest to a sounding pitch above another, spelled by its interval from that: a
        semitone stands on the next line or space, never beside its own note."""
        return lily_name(on_page(pitch, self.pitches).transposed(chromatic(_semitones(pitch, sounding_cents))))

    def _edge(self, gesture: Gesture, point: ContourPoint) -> Fraction:
        """Where `highest` and `lowest` stand: beyond the staff."""
        return Fraction(_BEYOND if point.extreme == "highest" else -_BEYOND)

    def _in_band(self, band: Band, percent: Fraction) -> int:
        low, high = on_page(band.low, self.pitches).steps, on_page(band.high, self.pitches).steps
        return low + round((high - low) * percent / 100)

    def _pitched(self, spelling: Spelling, shape: tuple[str, ...]) -> Head:
        spelled, tuned = _tuned(spelling)
        return Head(name=lily_name(spelled), steps=spelled.steps, alter=spelled.alter, shape=shape, tuned=tuned)

    def _placed(self, position: Fraction, shape: tuple[str, ...]) -> Head:
        return Head(name="b'", steps=None, position=position, shape=shape)

    def _bare(self, steps: int, shape: tuple[str, ...]) -> Head:
        return Head(name=lily_name(natural(steps)), steps=steps, shape=shape, bare=True)


def _semitones(pitch: Pitch, sounding_cents: float) -> int:
    return round((sounding_cents - float(pitch.cents)) / 100)


def _tuned(spelling: Spelling) -> tuple[Spelling, LyText]:
    """What is printed for a pitch with cents, and its cents as a tuner shows them.

    The sign of a quarter tone where the pitch is one to within what nobody hears; else the plain note with cents:
    a sign and cents that say different things would be added up.
    """
    if not spelling.cents:
        return spelling, NOTHING
    raised = spelling.alter * 100 + spelling.cents
    quarter = Fraction(round((raised - 50) / 100) * 100 + 50, 100)
    tempered = _tempered(spelling)
    shown = tempered
    if quarter in _ALTERS and abs(raised - quarter * 100) <= _NEAR_QUARTER_CENTS:
        shown = Spelling(spelling.letter, quarter, spelling.octave)
    off = int(spelling.pitch_cents - tempered.pitch_cents)
    if spelling.pitch_cents == shown.pitch_cents:
        return shown, NOTHING
    if shown == tempered and tempered.alter in _PLAIN:
        return shown, code(f"\\gsCents #{off}")
    named = tempered if tempered.alter in _PLAIN else spell(int(tempered.pitch_cents))
    return shown, code(f"\\gsTuned {lily_name(named)} #{off}")


def _tempered(spelling: Spelling) -> Spelling:
    """The nearest tempered note: on the composer's letter where one plain accidental says it, or the composer has
    written a double one."""
    alter = Fraction(round((spelling.alter * 100 + spelling.cents) / 100))
    if alter in _PLAIN or alter == spelling.alter:
        return Spelling(spelling.letter, alter, spelling.octave)
    return spell(round(spelling.pitch_cents / 100) * 100)


def _shape(gesture: Gesture, point: ContourPoint) -> tuple[str, ...]:
    """The head the composer asks for; else triangle at the extremes, x where the pitch is only about there, else
    what the techniques in force want."""
    wanted = gesture.notehead
    if wanted == "auto" and point.extreme:
        wanted = "triangle"
    elif wanted == "auto" and point.about:
        wanted = "x"
    elif wanted == "auto":
        wanted = look_head(point.techniques)
    if wanted == "triangle":
        return (r"\gsTriangleDown" if point.extreme == "lowest" else r"\gsTriangleUp",)
    return (_SHAPES[wanted],) if wanted in _SHAPES else ()


def look_head(techniques: tuple[Technique, ...]) -> str:
    """The head that the last technique with a head of its own brings."""
    heads = [t.look.head for t in techniques if t.look.head not in ("auto", "normal")]
    return heads[-1] if heads else "normal"
