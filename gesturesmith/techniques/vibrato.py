"""Vibrato, where the player would not use it unprompted."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="vibrato",
    layer="lip",
    moves="lip, jaw or hand",
    kin=("ordinary",),
    tone="needs",
    takes={"jaw": "swing"},
    limits={"shortest_ms": Limit(Sourced(500, HOUSE, "two or three waves"), unit="ms", side="below")},
    skill=Sourced(0.1, HOUSE, "most players have it"),
    effort=Sourced(1.05, HOUSE, "a small movement"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        word="vib.",
        cancel="ord.",
        reason=(
            "A word and its end. SMuFL has waves for it (wiggleVibrato), and some scores draw its width and "
            "speed as a wave; on these pages only the contour is wavy."
        ),
    ),
    sound=Sound(
        waves_hz=Sourced(
            5.0,
            HOUSE,
            "two or three waves in the shortest note it is asked on",
        ),
        vibrato_cents=Sourced(25, HOUSE, "clear, and half of what the lip corrects"),
    ),
    sources=(Sourced("vibrato is asked for by word", MEMORY, "common practice"),),
    called=("vib", "vibr", "vibrate", "Bebung", "vibrer", "vibrando"),
    title={
        "en": "Vibrato",
        "de": "Vibrato",
        "fr": "Vibrato",
        "it": "Vibrato",
    },
    texts={
        "en": "Play with clear vibrato until “ord.” or another technique.",
        "de": "Mit deutlichem Vibrato spielen, bis „ord.“ oder eine andere Spielweise steht.",
        "fr": "Jouer avec un vibrato marqué jusqu’à « ord. » ou à une autre indication.",
        "it": "Suonare con vibrato evidente fino a «ord.» o a un’altra indicazione.",
    },
)
