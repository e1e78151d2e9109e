"""Tubas: the same range and fingering system on tubes of different length."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.evidence import HOUSE, PRACTICE, PUBLISHED, Sourced
from gesturesmith.instruments._brass import CHART_FOUR, DRAWN_SLIDE, WHOLE_TUBE, valved
from gesturesmith.instruments._build import cents, registers
from gesturesmith.instruments._charts import four_valves, pedals
from gesturesmith.instruments.base import Instrument
from gesturesmith.units import Interval

REGISTERS = registers(
    "low D1 Bb1, middle B1 Bb2, high B2 F4",
    Sourced("written limits", HOUSE, "thirds of the usual compass; no source at hand names them"),
)


def tuba(
    *,
    key: str,
    name: str,
    names: dict[str, str],
    part_name: str,
    part_names: dict[str, str],
    lowest: str,
    highest: str,
    open_note: str,
) -> Instrument:
    """A tuba with four valves, sounding as written.

    open_note         partial 2 of the open tube: the lowest note without valves
    lowest, highest   sounding limits beyond which a pitch is refused
    """
    return valved(
        key=key,
        name=name,
        part_name=part_name,
        part_names=part_names,
        names=names,
        abbreviation="Tba.",
        sound="brass.tuba",
        midi_program=59,
        fundamental_cents=cents(open_note) - 1200,
        valves=(2, 1, 3, 5),
        sounding=Interval(0, Fraction(0)),
        registers=REGISTERS,
        usual=Sourced((cents("D1"), cents("F4")), PUBLISHED, "abjad 3.31 and music21 10.5.1, Tuba: D1 to F4"),
        widest=Sourced(
            (cents(lowest), cents("Bb4")),
            PRACTICE,
            "kturnertuba.com: parts go to Bb4, in the last movement of the Symphonie fantastique; below the usual "
            "range first partials of the tubes are left (derived)",
        ),
        far_cents=cents(highest) - cents("Bb4"),
        own_limits=DRAWN_SLIDE | WHOLE_TUBE,
        chart=pedals(open_note, fourth=True) | four_valves(open_note, high="F4", extended=True),
        chart_evidence=CHART_FOUR,
        air=1.8,
        clefs=(("bass", -100000),),
        bell_in_reach=False,
    )
