"""Slap tongue: a percussive stroke of the tongue, no tone."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="slap-tongue",
    layer="attack",
    moves="tongue",
    kin=("mouthpiece-pop", "kiss"),
    lines=("none",),
    pitched="none",
    tone="none",
    rate="slap",
    takes={"stroke": "be a slap", "tongue": "slap", "breath": "stay in"},
    limits={
        "shortest_ms": Limit(Sourced(40, HOUSE, "a stroke"), unit="ms", side="below"),
        "registers": Limit(
            Sourced(("low", "middle"), HOUSE, "the stroke resonates in the lower half of the range"),
            unit="register",
            side="outside",
        ),
    },
    skill=Sourced(0.4, HOUSE, "a stroke of the tongue that few brass players learn"),
    effort=Sourced(0.7, HOUSE, "no held tone"),
    flow=Sourced(0.3, HOUSE, "hardly any air"),
    look=Look(
        head="x",
        word="slap",
        cancel="ord.",
        over="tone",
        reason=(
            "x-heads for a stroke without pitch (Stone, Read; from memory), distinguished from other "
            "noises by its word. A plus, used in parts for reeds, means stopped here. A stroke ends "
            "at once: it has one note value, and rests for the remainder."
        ),
    ),
    sound=Sound(noise="slap"),
    sources=(
        Sourced("x-noteheads for what has no pitch", MEMORY, "Stone, Music Notation in the Twentieth Century"),
    ),
    called=("slap", "slapped", "slap tonguing", "tongue slap", "Zungenschlag", "pizzicato", "pizz"),
    labels={
        "de": Label(over="Ton"),
        "fr": Label(over="son"),
        "it": Label(over="suono"),
    },
    title={
        "en": "Slap tongue",
        "de": "Slap (Zungenschlag)",
        "fr": "Slap",
        "it": "Slap",
    },
    texts={
        "en": (
            "Strike the mouthpiece opening with the tongue, dry and without tone; the heights show only "
            "lower or higher."
        ),
        "de": (
            "Mit der Zunge trocken gegen die Mundstücköffnung schlagen, ohne Ton; die Höhen zeigen nur "
            "tiefer oder höher."
        ),
        "fr": (
            "Frapper sèchement l’ouverture de l’embouchure avec la langue, sans son ; les hauteurs "
            "indiquent seulement plus grave ou plus aigu."
        ),
        "it": (
            "Colpire con la lingua l’apertura del bocchino, in modo secco e senza suono; le altezze "
            "indicano solo più grave o più acuto."
        ),
    },
)
