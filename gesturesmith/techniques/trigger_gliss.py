"""A slide glissando that goes on with the trigger."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="trigger-gliss",
    layer="motion",
    path="trigger",
    points=(2, None),
    needs_line=True,
    needs="trigger",
    moves="slide and trigger",
    kin=("slide-gliss", "against-the-grain", "chromatic"),
    takes={
        "pitch": "glide with slide and trigger",
        "slide": "glide",
        "lips": "follow the slide",
        "tube": "change all the time",
    },
    limits={
        "shortest_ms": Limit(Sourced(300, HOUSE, "the trigger is pressed on the way"), unit="ms", side="below"),
    },
    skill=Sourced(0.35, HOUSE, "slide and thumb must hide where they meet"),
    effort=Sourced(1.05, HOUSE, "slide and thumb together"),
    flow=Sourced(1.05, HOUSE, "a steady air stream supports the slide"),
    look=Look(
        word="with trigger",
        cancel="ord.",
        over="without trigger",
        reason=(
            "In words above the line, since the glissando itself looks like any other; positions at its points, T "
            "with the trigger, show where it is pressed."
        ),
        fingering=True,
    ),
    sources=(
        Sourced(
            "glissandi with the trigger, wider than the slide alone allows",
            MEMORY,
            "common practice of contemporary parts",
        ),
    ),
    called=("attachment gliss",),
    labels={
        "de": Label(word="mit Ventil", over="ohne Ventil"),
        "fr": Label(word="avec barillet", over="sans barillet"),
        "it": Label(word="con ritorto", over="senza ritorto"),
    },
    title={
        "en": "Slide glissando with the trigger",
        "de": "Zugglissando mit Ventil",
        "fr": "Glissando de coulisse avec le barillet",
        "it": "Glissando di coulisse con il ritorto",
    },
    texts={
        "en": (
            "Glide along the line with the slide and press (T) or release the trigger on the way, as smoothly as "
            "you can."
        ),
        "de": (
            "Mit dem Zug der Linie entlang gleiten und unterwegs das Ventil drücken (T) oder loslassen, so glatt "
            "wie möglich."
        ),
        "fr": (
            "Glisser le long de la ligne avec la coulisse et enfoncer (T) ou relâcher le barillet en chemin, aussi "
            "régulièrement que possible."
        ),
        "it": (
            "Scivolare lungo la linea con la coulisse e premere (T) o rilasciare il ritorto durante il percorso, "
            "nel modo più uniforme possibile."
        ),
    },
)
