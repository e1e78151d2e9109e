"""The definition of an instrument: tubes, registers, range, transposition, charts. The data are in one file
each."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from fractions import Fraction
from typing import Any

from gesturesmith.acoustics.response import round_trip_s
from gesturesmith.evidence import Kind, Limit, Sourced
from gesturesmith.kinds import Clef, InstrumentKind, Means, Needs, Tuning
from gesturesmith.units import Interval, Spelling, frequency_hz
from gesturesmith.values import frozen


@frozen(kw_only=True)
class Side:
    """One air path that valves lengthen: the F side or the B-flat side of a double horn.

    fundamental_cents   sounding first partial of the open tube, cents above C-1
    partials            lowest and highest usable partial of the open tube (narrow and wide reading)
    valves              semitones each valve lowers the pitch by, valve 1 first; () for a slide
    positions           slide positions of this side, a semitone each; 0 without a slide
    stopped_cents       how far a hand-stopped note sounds above the fingered one; None without a hand
    """

    name: str
    fundamental_cents: int
    partials: Limit
    valves: tuple[int, ...] = ()
    positions: int = 0
    stopped_cents: Sourced[int] | None = None


@frozen(kw_only=True)
class Tube:
    """One tube length: a side with certain valves down, or a slide position.

    fundamental_cents   sounding first partial, cents above C-1 (a float: valve sums are irrational)
    length_m            effective length in metres, half the wavelength of the first partial at 343 m/s
    partials            usable partials, lowest and highest by the narrow reading
    widest_partials     the same by the widest reading
    reach               place of the slide, in positions of the open side; 0 without a slide
    """

    side: str
    valves: str  # "0" or "1-2-3"; a slide position "3"
    fundamental_cents: float
    length_m: float
    partials: tuple[int, int]
    widest_partials: tuple[int, int]
    reach: float = 0.0

    @property
    def name(self) -> str:
        return f"{self.side} {self.valves}".strip()

    @property
    def round_trip_s(self) -> float:
        """Seconds a pulse takes to the bell and back: until then the lip gets no response from the tube."""
        return round_trip_s(frequency_hz(self.fundamental_cents))


@frozen(kw_only=True)
class Register:
    """A named register by its written limits, both inclusive."""

    name: str  # low, middle, high, top
    low: Spelling
    high: Spelling
    evidence: Sourced[Any]


@frozen(kw_only=True)
class Student:
    """What a student's profile says besides the limits of the instrument.

    name      as in the profile
    keys      written key signatures of major keys, sharps or (-) flats; () for those of the level
    tempi     slowest and fastest tempo, quarters a minute; None for those of the level
    minutes   of practice a week, None if it does not say
    braces    whether the student wears braces
    """

    name: str
    keys: tuple[int, ...] = ()
    tempi: tuple[int, int] | None = None
    minutes: int | None = None
    braces: bool = False

    def in_reach(self, tempo: Fraction) -> Fraction:
        """The tempo of the student's that is nearest to one, in quarters a minute."""
        slow, fast = self.tempi or (tempo, tempo)
        return Fraction(min(fast, max(slow, tempo)))


# For an instrument of one's own that says nothing of its sound: "brass section" in General MIDI.
UNKNOWN_SOUND, UNKNOWN_PROGRAM = "brass.group", 62
ALONE: Sourced[Tuning] = Sourced("alone", Kind.HOUSE, "each valve tuned by itself")


@frozen(kw_only=True)
class Instrument:
    """A brass instrument.

    name                which instrument it is ("double horn in F/B-flat"); names: the same in other languages, if
                        the name of its part does not say it
    part_name           name at the head of its part, in English or, if `part_names` is empty, in all languages;
                        part_names: the same in other languages ("de")
    sounding            interval from a written pitch to the sounding one (horn in F: a fifth down)
    usual_range         sounding limits in cents, narrow reading: a caution outside
    widest_range        sounding limits in cents, widest reading of any source: refused outside
    chart               standard fingerings: written pitch in cents -> tube name ("F 1-2")
    limits              further limits by name, each with its evidence; see the instrument files
    clefs               for clef changes: (clef, lowest written cents it suits), highest first
    third_slide         what the third valve slide is tuned for: one of acoustics.tubing.TUNINGS
    hand_chart          standard fingerings of stopped notes: fingered written pitch in cents -> tube name
    sound               its name among the standard sounds of MusicXML 4.0 (sounds.xml)
    student             whose profile it is, if it is a student's
    midi_program        its program in General MIDI, 1 to 128
    """

    key: str
    name: str
    part_name: str
    abbreviation: str
    sounding: Interval
    sides: tuple[Side, ...]
    tubes: tuple[Tube, ...]
    registers: tuple[Register, ...]
    usual_range: Sourced[tuple[int, int]]
    widest_range: Sourced[tuple[int, int]]
    chart: Mapping[int, str]
    chart_evidence: Sourced[Any]
    limits: Mapping[str, Limit]
    kind: InstrumentKind = "valves"
    has_hand: bool = False  # whether a hand in the bell can close, stop and open
    bell_in_reach: bool = True  # whether a hand, or a plunger in it, can cover the bell while playing
    clefs: tuple[tuple[Clef, int], ...] = (("treble", -100000),)
    third_slide: Sourced[Tuning] = ALONE
    hand_chart: Mapping[int, str] = field(default_factory=dict)
    part_names: Mapping[str, str] = field(default_factory=dict)
    sound: str = UNKNOWN_SOUND
    midi_program: int = UNKNOWN_PROGRAM
    names: Mapping[str, str] = field(default_factory=dict)
    student: Student | None = None

    def __hash__(self) -> int:
        return hash(self.key)

    @property
    def means(self) -> Means:
        """How notes are chosen: "valves", "slide", or "single" with only one tube."""
        return "single" if len(self.tubes) == 1 else self.kind

    def gives(self, need: Needs) -> bool:
        """Whether it has what a technique needs (`kinds.Needs`); "" is always there."""
        valves = any(side.valves for side in self.sides)  # a natural horn has none
        slide = self.kind == "slide"
        return {
            "hand": self.has_hand,
            "valves": valves,
            "slide": slide,
            "trigger": slide and len(self.sides) > 1,
            "valve-slide": valves and not slide and not self.has_hand,
        }.get(need, True)

    def part_in(self, language: str) -> str:
        """The name at the head of its part in a language of the page ("de")."""
        return self.part_names.get(language, self.part_name)

    def name_in(self, language: str) -> str:
        """Which instrument it is, in a language of the page ("de")."""
        return self.name if language == "en" else self.names.get(language) or self.part_in(language)

    def register(self, name: str) -> Register | None:
        """The register called `name`, or None."""
        return next((r for r in self.registers if r.name == name), None)

    def register_of(self, sounding_cents: Fraction | float) -> Register:
        """The register of a sounding pitch; the outermost ones have no outer limit."""
        written = sounding_cents - self.sounding.cents
        for register in self.registers[:-1]:
            if written < register.high.pitch_cents + 50:
                return register
        return self.registers[-1]

    def lip_limit(self, error_cents: float) -> Limit | None:
        """How far the lip can take a partial with this error, + sharp: down, or less far up. If the limit downwards
        is the narrower (set by a player), it applies both ways.
        """
        down, up = self.limits.get("lip_correction_cents"), self.limits.get("lip_correction_up_cents")
        if error_cents >= 0 or up is None or (down is not None and down.narrow.value < up.narrow.value):
            return down
        return up

    def written(self, spelling: Spelling) -> Spelling:
        """The written form of a sounding spelling."""
        return spelling.transposed(-self.sounding)

    def heard(self, spelling: Spelling) -> Spelling:
        """The sounding form of a written spelling."""
        return spelling.transposed(self.sounding)

    def tube(self, name: str) -> Tube | None:
        """The tube called `name` ("F 1-2-3"), or None."""
        return next((t for t in self.tubes if t.name == name), None)

    def tubes_named(self, name: str) -> tuple[Tube, ...]:
        """The tubes a composer's fingering can mean: one for "F 1-2"; for "1-2" one on each side that has it.

        On a slide "short 2" and "long 3" mean the tube of the position they qualify. () if there is none.
        """
        words = [w for w in name.split() if w not in ("short", "long")] if self.kind == "slide" else name.split()
        plain = " ".join(words)
        exact = self.tube(plain)
        if exact is not None:
            return (exact,)
        # On a slide, no side means the open one: "T" is always written.
        return () if self.kind == "slide" else tuple(t for t in self.tubes if t.valves == plain)
