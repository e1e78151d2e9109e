"""The double horn in F and B-flat: two sides, three valves, sixteen tubes. Written a fifth above sounding pitch."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.evidence import DERIVED, HOUSE, MEMORY, PRACTICE, PUBLISHED, Limit, Sourced
from gesturesmith.instruments import _limits
from gesturesmith.instruments._build import cents, chart, registers, valve_tubes
from gesturesmith.instruments._charts import three_valves
from gesturesmith.instruments.base import Instrument, Side
from gesturesmith.kinds import Tuning
from gesturesmith.units import Interval

_SERIES = "bwhisperer.com, Horn Harmonic Series: harmonics 1 to 19 of the F horn"
_BLOG = "bwhisperer.com, Horn Harmonic Series: the partials of the F horn from 1 to 19 are heard"

# Highest partial of each tube length by sounding first partial, from a chart of one expert player that was not
# found again, and all within the height that bwhisperer.com, Horn Harmonic Series, lets hear: B-flat open 13,
# A 14, A-flat 15, G 16, G-flat 17, F 18 (its page Horn Harmonic Series: 19), E 19, E-flat 20, D 21, D-flat 22,
# C 23, B 24. Alternatives of the same length (F 0 and B-flat 1-3) share a row.
SHOWN = {3400: 13, 3300: 14, 3200: 15, 3100: 16, 3000: 17, 2900: 19, 2800: 19, 2700: 20, 2600: 21, 2500: 22}
SHOWN |= {2400: 23, 2300: 24}

_USUAL = Sourced(
    (cents("B1"), cents("F5")), PUBLISHED, "abjad 3.31, FrenchHorn: sounding B1 to F5, written F#2 to C6"
)
_WIDEST = Sourced(
    (cents("F1"), cents("G5")),
    PRACTICE,
    "music21 10.5.1: written C2 is the lowest; bwhisperer.com, Horn Harmonic Series: partials up to sounding Ab5",
)
# F 1-2-3 is then 54 cents sharp. One dictionary has 20, as with the third slide pulled: on that the fingerings of
# eight quarter tones and of F#2 and C#3 rest, and whether a sweep from an exact F# takes this tube.
THIRD_SLIDE: Sourced[Tuning] = Sourced(
    "alone",
    PRACTICE,
    "thebrasswhisperer.com: F 1-2-3 is a quarter tone sharper than a horn in B; thecontemporaryhorn.com: F 2-3, "
    "1-3 and 1-2-3 very sharp. Both agree with each valve tuned by itself",
)

F_SIDE = Side(
    name="F",
    fundamental_cents=cents("F1"),
    partials=Limit(
        Sourced((2, 16), PUBLISHED, _USUAL.source),
        Sourced((1, 19), PRACTICE, "bwhisperer.com, Horn Harmonic Series: F horn, harmonics 1 to 19"),
        "partial",
    ),
    valves=(2, 1, 3),
    stopped_cents=Sourced(
        100,
        PUBLISHED,
        "JASA 155 (3 Suppl.) A109 (2024), doi 10.1121/10.0026978: the stopped F horn is transposed by a semitone",
    ),
)
B_FLAT_SIDE = Side(
    name="Bb",
    fundamental_cents=cents("Bb1"),
    partials=Limit(Sourced((2, 12), PUBLISHED, _USUAL.source), Sourced((1, 13), PRACTICE, _BLOG), "partial"),
    valves=(2, 1, 3),
    stopped_cents=Sourced(
        150,
        PRACTICE,
        "banddirectorstalkshop.com, Solving mystery stopped horn: about three quarters of a tone, so the F side",
    ),
)

# Below the standard chart's F#2 only first partials exist.
_PEDALS = "F2 Bb 0, E2 Bb 2, Eb2 Bb 1, D2 Bb 1-2, C#2 Bb 2-3, C2 F 0"
# The fifth partial is flat: the chart uses the sixth, eighth or twelfth if one of them has the note.
B_FLAT_HIGH = """
Ab4 Bb 2-3, A4 Bb 1-2, Bb4 Bb 1, B4 Bb 2, C5 Bb 0, C#5 Bb 2-3, D5 Bb 1-2, Eb5 Bb 1, E5 Bb 2, F5 Bb 0, F#5 Bb 2
G5 Bb 0, Ab5 Bb 2-3, A5 Bb 1-2, Bb5 Bb 1, B5 Bb 2, C6 Bb 0
"""

REGISTERS = registers(
    "low F#2 B3, middle C4 G4, high Ab4 G5, top Ab5 C6",
    Sourced(
        "written limits", MEMORY, "register limits of the horn as commonly taught; sources disagree by a third"
    ),
)


def hand_limits(top_register_cents: int, long_tube_cents: float) -> dict[str, Limit]:
    """The limits of the hand in the bell.

    top_register_cents   sounding: where the top register begins
    long_tube_cents      first partial of the longest tube
    """
    smooth = round(long_tube_cents + 3600)
    return {
        "hand_lower_cents": Limit(
            Sourced(100, PRACTICE, "Ericson, ASU; Wikipedia, horn: the hand lowers up to a semitone in mid-range"),
            Sourced(398, DERIVED, "closing reaches a half step above the next partial: 398 cents from partial 4"),
            "cents",
        ),
        "hand_out_lowest_cents": Limit(
            Sourced(
                top_register_cents, HOUSE, "smooth with the hand out only where partials are close: top register"
            ),
            Sourced(smooth, DERIVED, "below partial 8 of the longest tube the steps are wider than a whole tone"),
            "cents",
            side="below",
        ),
        "hand_out_widest_cents": Limit(
            Sourced(500, HOUSE, "wider slides break into their partials"), None, "cents"
        ),
        "half_stopped_lower_cents": Limit(
            Sourced(100, PRACTICE, "Ericson, ASU: moderate stopping lowers any note a half step"),
            None,
            "cents",
            side="none",
        ),
        "stopped_lowest_cents": Limit(
            Sourced(cents("Bb2"), MEMORY, "stopped notes below written F3 are hard to tune and to hear"),
            None,
            "cents",
            side="below",
        ),
        "half_stopped_lowest_cents": Limit(
            Sourced(cents("F3"), MEMORY, "half-stopped notes below written C4 lose their pitch"),
            None,
            "cents",
            side="below",
        ),
        "hand_change_s": Limit(
            Sourced(0.15, HOUSE, "from note to note: quarters at 120 are ordinary, much faster ones are played"),
            None,
            "s",
            side="below",
        ),
    }


TUBES = valve_tubes(
    (F_SIDE, B_FLAT_SIDE), _USUAL.value[1], _WIDEST.value[1], third_slide=THIRD_SLIDE.value, shown=SHOWN
)

CALLED = (
    "French horn",
    "F horn",
    "double horn",
    "horn in F/Bb",
    "Doppelhorn",
    "Waldhorn",
    "cor d’harmonie",
    "cor double",
    "corno francese",
    "corno doppio",
)
INSTRUMENT = Instrument(
    key="horn",
    name="double horn in F/B-flat",
    part_name="Horn in F",
    names={"de": "Doppelhorn in F/B", "fr": "Cor double en fa/si bémol", "it": "Corno doppio in fa/si bemolle"},
    part_names={"de": "Horn in F", "fr": "Cor en fa", "it": "Corno in fa"},
    abbreviation="Hn.",
    sound="brass.french-horn",
    midi_program=61,
    sounding=Interval(-4, Fraction(-700)),
    sides=(F_SIDE, B_FLAT_SIDE),
    tubes=TUBES,
    registers=REGISTERS,
    usual_range=_USUAL,
    widest_range=_WIDEST,
    chart=chart(_PEDALS) | three_valves("C3", "F", high="G4") | chart(B_FLAT_HIGH),
    chart_evidence=Sourced(
        "F side up to written G4, B-flat side from Ab4",
        MEMORY,
        "standard double-horn chart (Farkas type); low octave from the harmonic series, pedal notes derived",
    ),
    limits=_limits.ear_and_lip()
    | _limits.tonguing(REGISTERS)
    | _limits.bends(REGISTERS)
    | _limits.breath(REGISTERS)
    | _limits.stamina(REGISTERS)
    | _limits.beyond_sources(200)
    | hand_limits(cents("C#5"), min(t.fundamental_cents for t in TUBES))
    | {
        "low_gliss_highest_cents": Limit(
            Sourced(cents("E3"), HOUSE, "in the low register a fast run says more than a glissando"),
            None,
            "cents",
            side="below",
        ),
        "pedal_partial": Limit(
            Sourced(1, PUBLISHED, "hal-04281802: a pedal lies a few semitones from any resonance of the tube"),
            None,
            "partial",
            side="none",
        ),
        "pedal_loudest": Limit(
            Sourced(
                "f",
                HOUSE,
                "on the horn it has little to hold it; trombones have theirs loud rather than soft (hal-04281802)",
            ),
            side="louder",
        ),
    },
    has_hand=True,
    # Bass clef in new notation: the same fifth down as in treble. Treble clef is used down to two ledger lines.
    clefs=(("treble", cents("G3")), ("bass", -100000)),
    third_slide=THIRD_SLIDE,
    hand_chart=three_valves("C3", "F"),
)
