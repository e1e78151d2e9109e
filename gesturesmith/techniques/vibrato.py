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
    limits={
        "waves_per_s": Limit(Sourced(8, MEMORY, "5 to 7 waves a second are usual"), unit="1/s"),
        "shortest_ms": Limit(Sourced(500, HOUSE, "two or three waves"), unit="ms", side="below"),
    },
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
    texts_where={
        "waves": {
            "en": (
                "Vibrato as the wave above shows: faster where it is closer, wider where it is higher, and none "
                "after its end."
            ),
            "de": (
                "Vibrato, wie die Wellenlinie darüber zeigt: schneller, wo sie enger, weiter, wo sie höher ist, "
                "und keines nach ihrem Ende."
            ),
            "fr": (
                "Vibrato suivant la ligne ondulée : plus rapide là où elle est serrée, plus ample là où elle est "
                "haute, et aucun après sa fin."
            ),
            "it": (
                "Vibrato come mostra la linea ondulata: più rapido dove è fitta, più ampio dove è alta, e nessuno"
                " dopo la sua fine."
            ),
        },
    },
)
