"""The tenor trombone with F attachment: the slide has six positions with the trigger."""

from __future__ import annotations

from gesturesmith.evidence import PRACTICE, Sourced
from gesturesmith.instruments._brass import slide
from gesturesmith.instruments._build import cents, chart
from gesturesmith.instruments._charts import tenor_slide
from gesturesmith.instruments.trombone import REGISTERS, USUAL, WIDEST

# The gap below E2, which the attachment fills, and the notes of the sixth and seventh positions, for which it is
# used. Positions with it count its own semitones.
ATTACHMENT = "C3 T 1, B2 T 2, F2 T 1, E2 T 2, Eb2 T 3, D2 T 4, C#2 T 5, C2 T 6"
WITH_TRIGGER = Sourced(
    "seven positions, six with the trigger",
    PRACTICE,
    "OEIS A309909; Wikibooks, Trombone, Slide Positions: 1 and 2 with the trigger for 6 and 7; below E2 semitones "
    "of the longer tube (derived)",
)

CALLED = (
    "trigger trombone",
    "tenor trombone with trigger",
    "Quartventilposaune",
    "trombone in Bb/F",
    "tenor-bass trombone",
)
INSTRUMENT = slide(
    key="trombone-f",
    name="tenor trombone with F attachment",
    names={
        "de": "Tenorposaune mit Quartventil",
        "fr": "Trombone ténor à barillet de quarte",
        "it": "Trombone tenore con ritorta in fa",
    },
    part_name="Trombone",
    part_names={"de": "Posaune", "fr": "Trombone", "it": "Trombone"},
    abbreviation="Tbn.",
    sound="brass.trombone.tenor",
    midi_program=58,
    sides=(("", cents("Bb1"), 7), ("T", cents("F1"), 6)),
    registers=REGISTERS,
    usual=USUAL,
    widest=WIDEST,
    chart=tenor_slide() | chart(ATTACHMENT),
    chart_evidence=WITH_TRIGGER,
    air=1.2,
)
