"""Instruments with one air path, built from the few facts that distinguish them."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from gesturesmith.evidence import DERIVED, HOUSE, MEMORY, PRACTICE, Limit, Sourced
from gesturesmith.instruments import _limits
from gesturesmith.instruments._build import slide_tubes, valve_tubes
from gesturesmith.instruments.base import ALONE, Instrument, Register, Side
from gesturesmith.kinds import Clef, Tuning
from gesturesmith.units import Interval

CHART_THREE = Sourced(
    "three valves",
    PRACTICE,
    "common practice: the fewest valves whose partials 2 to 6, 8, 10, 12 and 16 have the note; pedal notes as an "
    "octave higher",
)
CHART_FOUR = Sourced(
    "four valves",
    PRACTICE,
    "bandworld.org, Taming the Tuba: as with three valves, 4 for 1-3 and 2-4 for 1-2-3; below them the next "
    "combination above, with a valve slide drawn (derived)",
)
FORMAL = (
    "Wikipedia, Pitch of brass instruments: three valves reach three tones below partial 2 and up to partial 10, "
    "written F#3 to E6; below that the first partials of the tubes are left (derived)"
)
PEDAL = Limit(
    Sourced(1, PRACTICE, "Wikipedia, Pitch of brass instruments: half-tube instruments miss the first partial"),
    None,
    "partial",
    side="none",
)

WHOLE_TUBE = {
    "pedal_loudest": Limit(
        Sourced("fff", PRACTICE, "Wikipedia, Pitch of brass instruments: whole-tube instruments have partial 1"),
        side="louder",
    )
}
DRAWN_SLIDE = {
    "valve_slide_cents": Limit(
        Sourced(100, PRACTICE, "common practice on large brass: a valve slide is drawn for sharp low combinations"),
        None,
        "cents",
    )
}

THIRD_SLIDE = {
    "valve_slide_cents": Limit(
        Sourced(
            60,
            PRACTICE,
            "common practice: the third valve slide is drawn for written D4 and C#4, 30 and 54 cents sharp",
        ),
        None,
        "cents",
    )
}


def limits(registers: tuple[Register, ...], air: float) -> dict[str, Limit]:
    """The limits common to all brass, for an instrument with these registers; `air` multiplies the horn's flows."""
    return (
        _limits.ear_and_lip()
        | _limits.tonguing(registers)
        | _limits.bends(registers)
        | _limits.breath(registers, air)
        | _limits.stamina(registers)
        | {
            "pedal_partial": PEDAL,
            "pedal_loudest": Limit(Sourced("f", HOUSE, "a pedal note cannot be forced"), side="louder"),
        }
    )


def valved(
    *,
    key: str,
    name: str,
    part_name: str,
    part_names: dict[str, str],
    names: dict[str, str] | None = None,
    abbreviation: str,
    sound: str,
    midi_program: int,
    fundamental_cents: int,
    valves: tuple[int, ...],
    sounding: Interval,
    registers: tuple[Register, ...],
    usual: Sourced[tuple[int, int]],
    widest: Sourced[tuple[int, int]],
    chart: dict[int, str],
    chart_evidence: Sourced[str],
    air: float,
    clefs: tuple[tuple[Clef, int], ...],
    far_cents: int,
    third_slide: Sourced[Tuning] = ALONE,
    own_limits: dict[str, Limit] | None = None,
    bell_in_reach: bool = True,
) -> Instrument:
    """An instrument with one side and valves. Ranges in sounding cents; `air` multiplies the horn's flows.

    far_cents    how far above the widest range a pitch is refused
    own_limits   this instrument's limits beyond those of all brass
    """
    evidence = Limit(
        Sourced((2, 10), PRACTICE, FORMAL),
        Sourced((1, 16), PRACTICE, "the first partial and the range's top"),
        "partial",
    )
    side = Side(name="", fundamental_cents=fundamental_cents, partials=evidence, valves=valves)
    return Instrument(
        bell_in_reach=bell_in_reach,
        key=key,
        name=name,
        part_name=part_name,
        part_names=part_names,
        names=names or {},
        abbreviation=abbreviation,
        sound=sound,
        midi_program=midi_program,
        sounding=sounding,
        sides=(side,),
        tubes=valve_tubes((side,), usual.value[1], widest.value[1] + far_cents, third_slide=third_slide.value),
        registers=registers,
        usual_range=usual,
        widest_range=widest,
        chart=chart,
        chart_evidence=chart_evidence,
        limits=limits(registers, air) | _limits.beyond_sources(far_cents) | (own_limits or {}),
        clefs=clefs,
        third_slide=third_slide,
    )


def slide(
    *,
    key: str,
    name: str,
    part_name: str,
    part_names: dict[str, str],
    names: dict[str, str] | None = None,
    abbreviation: str,
    sound: str,
    midi_program: int,
    sides: tuple[tuple[str, int, int], ...],
    registers: tuple[Register, ...],
    usual: Sourced[tuple[int, int]],
    widest: Sourced[tuple[int, int]],
    chart: dict[int, str],
    chart_evidence: Sourced[str],
    air: float,
    far_cents: int = 200,
    clefs: tuple[tuple[Clef, int], ...] = (("tenor", 5700), ("bass", -100000)),
) -> Instrument:
    """A trombone, sounding as written. `sides`: name ("T" with the trigger), first partial in cents, positions."""
    evidence = Limit(
        Sourced((2, 10), MEMORY, "partials of an orchestral part"),
        Sourced((1, 12), PRACTICE, "pedal notes, whistleandflute.net"),
        "partial",
    )
    made = tuple(
        Side(name=n, fundamental_cents=cents, partials=evidence, positions=positions)
        for n, cents, positions in sides
    )
    return Instrument(
        key=key,
        name=name,
        part_name=part_name,
        part_names=part_names,
        names=names or {},
        abbreviation=abbreviation,
        sound=sound,
        midi_program=midi_program,
        sounding=Interval(0, Fraction(0)),
        sides=made,
        tubes=slide_tubes(made, usual.value[1], widest.value[1] + far_cents),
        registers=registers,
        usual_range=usual,
        widest_range=widest,
        chart=chart,
        chart_evidence=chart_evidence,
        limits=limits(registers, air)
        | _limits.beyond_sources(far_cents)
        | WHOLE_TUBE
        | {
            # The page that has a semitone speaks of half valves, which a slide does not have.
            "lip_correction_up_cents": replace(
                _limits.ear_and_lip()["lip_correction_up_cents"],
                wide=Sourced(
                    50, PRACTICE, "thecontemporaryhorn.com, Demi-pistons: the lip alone, about a quarter tone"
                ),
                wide_means="",
            ),
            "slide_positions_per_s": Limit(
                Sourced(
                    30.0, HOUSE, "the whole slide in a fifth of a second; the Ride of the Valkyries asks for 24"
                ),
                None,
                "positions a second",
            ),
            "slide_end_position": Limit(
                Sourced(
                    float(sides[0][2]),
                    DERIVED,
                    "the positions of the open slide; playingbrass.com: with the trigger it is long enough for "
                    "six, which lie at 7.4",
                ),
                None,
                "positions",
            ),
        },
        kind="slide",
        clefs=clefs,
    )
