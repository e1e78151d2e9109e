"""The natural horn in any crook: one tube, its harmonic series, and the hand for the notes in between."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from gesturesmith.evidence import DERIVED, HOUSE, PRACTICE, PUBLISHED, Limit, Sourced
from gesturesmith.instruments import horn
from gesturesmith.instruments._build import registers, valve_tubes
from gesturesmith.instruments.base import Instrument, Side
from gesturesmith.units import Interval

# Written C4 is partial 4 in every crook.
_WRITTEN_FUNDAMENTAL = 3600
REGISTERS = registers(
    "low C3 B3, middle C4 G4, high Ab4 G5, top Ab5 C6",
    Sourced("written limits", HOUSE, "the horn's, on the steps of the series"),
)


def crook(key: str, pitch: str, steps: int, semitones: int, *, de: str, fr: str, it: str) -> Instrument:
    """A natural horn whose written C sounds `steps` (diatonic) and `semitones` away, both negative downwards.

    pitch, de, fr, it   the name of the crook, in English ("E-flat") and in the other languages
    """
    fundamental = _WRITTEN_FUNDAMENTAL + 100 * semitones
    side = Side(
        name="",
        fundamental_cents=fundamental,
        partials=Limit(
            Sourced((2, 16), PRACTICE, "common practice: written C3 to C6"),
            Sourced((1, 18), PRACTICE, horn.F_SIDE.partials.wide.source if horn.F_SIDE.partials.wide else ""),
            "partial",
        ),
        stopped_cents=Sourced(
            100, PUBLISHED, "JASA 155 (3 Suppl.) A109 (2024): stopping transposes the horn in F by a semitone"
        ),
    )
    top = horn.INSTRUMENT.widest_range.value[1]
    usual = (fundamental + 1200, min(fundamental + 4800, top))
    widest = (fundamental, max(fundamental + 4800, min(fundamental + 5000, top)))
    return replace(
        horn.INSTRUMENT,
        key=key,
        name=f"natural horn in {pitch}",
        names={"de": f"Naturhorn in {de}", "fr": f"Cor naturel en {fr}", "it": f"Corno naturale in {it}"},
        part_name=f"Horn in {pitch.replace('-flat', '♭')}",
        part_names={"de": f"Horn in {de}", "fr": f"Cor en {fr}", "it": f"Corno in {it}"},
        sound="brass.natural-horn",
        sounding=Interval(steps, Fraction(100 * semitones)),
        sides=(side,),
        tubes=valve_tubes((side,), usual[1], widest[1]),
        registers=REGISTERS,
        usual_range=Sourced(
            usual,
            PRACTICE,
            "common practice: partials 2 to 16, written C3 to C6; in high crooks to G5 sounding, as any horn",
        ),
        widest_range=Sourced(
            widest,
            PRACTICE,
            "the first partial, and partial 18 as bwhisperer.com, Horn Harmonic Series, has it on the F tube",
        ),
        chart={},
        chart_evidence=Sourced("no valves", DERIVED, "the harmonic series of one tube"),
        limits={
            **horn.INSTRUMENT.limits,
            "hand_lower_cents": Limit(
                Sourced(
                    250, PRACTICE, "Ericson, ASU: the closing hand reaches a half step above the next partial below"
                ),
                Sourced(
                    602,
                    DERIVED,
                    "to a half step above the next partial: 602 cents from partial 3, 398 from partial 4",
                ),
                "cents",
            ),
            "factitious_cents": Limit(
                Sourced(
                    250, PRACTICE, "Ericson, ASU: the closing hand reaches a half step above the next partial below"
                ),
                Sourced(
                    500,
                    PRACTICE,
                    "Grove, A Dictionary of Music and Musicians, Horn: the fictitious G2 of Beethoven's Symphony "
                    "7, held for 22 bars; many players cannot produce it",
                ),
                "cents",
            ),
            "hand_raise_cents": Limit(
                Sourced(
                    49,
                    PRACTICE,
                    "naturalhorn.com, hand position: partial 7, Bb4, and F#5 on the top line, partial 11, with the "
                    "hand out of the bell; they lie 31 and 49 cents low",
                ),
                unit="cents",
                side="none",
            ),
        },
        hand_chart={},
    )
