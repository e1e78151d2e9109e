"""The euphonium in B-flat with four valves, written in bass clef at sounding pitch."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.evidence import HOUSE, MEMORY, PRACTICE, Sourced
from gesturesmith.instruments._brass import CHART_FOUR, DRAWN_SLIDE, WHOLE_TUBE, valved
from gesturesmith.instruments._build import cents, registers
from gesturesmith.instruments._charts import four_valves, pedals
from gesturesmith.units import Interval

REGISTERS = registers(
    "low E2 Bb2, middle B2 F4, high F#4 Bb4",
    Sourced("written limits", HOUSE, "thirds of the usual compass; no source at hand names them"),
)

CALLED = (
    "tenor tuba",
    "Tenortuba",
    "Tenorhorn",
    "basse à pistons",
    "eufonio",
    "bombardino",
    "saxhorn basse",
)
INSTRUMENT = valved(
    key="euphonium",
    name="euphonium in B-flat",
    names={
        "de": "Euphonium in B mit vier Ventilen",
        "fr": "Euphonium en si bémol à quatre pistons",
        "it": "Eufonio in si bemolle a quattro pistoni",
    },
    part_name="Euphonium",
    part_names={"de": "Euphonium", "fr": "Euphonium", "it": "Eufonio"},
    abbreviation="Euph.",
    sound="brass.euphonium",
    midi_program=59,
    fundamental_cents=cents("Bb1"),
    valves=(2, 1, 3, 5),
    sounding=Interval(0, Fraction(0)),
    registers=REGISTERS,
    usual=Sourced(
        (cents("Bb1"), cents("Bb4")),
        MEMORY,
        "the compass of the tenor trombone, of the same length; the fourth valve and the pedal note fill it down "
        "to Bb1 (Wikipedia, Pitch of brass instruments)",
    ),
    widest=Sourced(
        (cents("E1"), cents("Bb4")), PRACTICE, "whistleandflute.net, same length of tube: pedal notes E1, up to Bb4"
    ),
    far_cents=700,
    own_limits=DRAWN_SLIDE | WHOLE_TUBE,
    chart=pedals("Bb2", fourth=True) | four_valves("Bb2", high="Bb4", extended=True),
    chart_evidence=CHART_FOUR,
    air=1.3,
    clefs=(("bass", -100000),),
    bell_in_reach=False,
)
