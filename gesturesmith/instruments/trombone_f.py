"""The tenor trombone with F attachment: the slide has six positions with the trigger."""

from __future__ import annotations

from gesturesmith.evidence import DERIVED, PUBLISHED, Sourced
from gesturesmith.instruments._brass import slide
from gesturesmith.instruments._build import cents, chart
from gesturesmith.instruments._charts import tenor_slide
from gesturesmith.instruments.trombone import CHART_EVIDENCE, REGISTERS, WIDEST

# The gap below E2, which the attachment fills; positions with it count its own semitones.
ATTACHMENT = "Eb2 T 3, D2 T 4, C#2 T 5, C2 T 6"
WITH_TRIGGER = Sourced(
    "seven positions, six with the trigger",
    DERIVED,
    f"{CHART_EVIDENCE.source}; with the trigger derived: semitones of the longer tube",
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
    part_name="Trombone",
    part_names={"de": "Posaune", "fr": "Trombone", "it": "Trombone"},
    abbreviation="Tbn.",
    sound="brass.trombone.tenor",
    midi_program=58,
    sides=(("", cents("Bb1"), 7), ("T", cents("F1"), 6)),
    registers=REGISTERS,
    usual=Sourced((cents("C2"), cents("D5")), PUBLISHED, "as without it, and abjad 3.31, BassTrombone: down to C2"),
    widest=WIDEST,
    chart=tenor_slide() | chart(ATTACHMENT),
    chart_evidence=WITH_TRIGGER,
    air=1.2,
)
