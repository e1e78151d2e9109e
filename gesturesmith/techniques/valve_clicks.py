"""Clicks of the valves, without breath."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="valve-clicks",
    layer="valves",
    moves="valves",
    kin=("mouthpiece-pop", "kiss"),
    lines=("none",),
    pitched="none",
    needs="valves",
    tone="none",
    takes={"valves": "click", "fingering": "click", "breath": "stay in"},
    hampers={
        "tonguing": Sourced(
            "with care", HOUSE, "the clicks are made without breath, and there is no tone to tongue"
        ),
    },
    limits={
        "fastest_per_s": Limit(Sourced(10, HOUSE, "all fingers in turn"), unit="1/s"),
        "loudest": Limit(Sourced("mp", HOUSE, "a quiet noise at best"), unit="level", side="louder"),
    },
    skill=Sourced(0.05, HOUSE, "fingers only"),
    effort=Sourced(0.1, HOUSE, "the lips rest"),
    flow=Sourced(0.1, HOUSE, "no breath"),
    look=Look(
        head="x",
        word="valve clicks",
        cancel="ord.",
        over="tone",
        reason=(
            "x-heads for a noise without pitch (Stone, Read; from memory), distinguished from other "
            "noises by its word. A click ends at once: it has one note value, and rests for the "
            "remainder."
        ),
    ),
    sound=Sound(noise="click"),
    sources=(
        Sourced("x-noteheads for what has no pitch", MEMORY, "Stone, Music Notation in the Twentieth Century"),
    ),
    called=(
        "key clicks",
        "clicks",
        "key noise",
        "valve noise",
        "valve sounds",
        "Ventilgeräusche",
        "Klappengeräusche",
        "bruit de clés",
        "rumore di chiavi",
        "tapping valves",
    ),
    labels={
        "de": Label(word="Ventilklappern", over="Ton"),
        "fr": Label(word="bruits de pistons", over="son"),
        "it": Label(word="rumore di pistoni", over="suono"),
    },
    labels_of_hand={
        "fr": Label(word="bruits de palettes", over="son"),
        "it": Label(word="rumore di cilindri", over="suono"),
    },
    title={
        "en": "Valve clicks",
        "de": "Ventilklappern",
        "fr": "Bruits de pistons",
        "it": "Rumore di pistoni",
    },
    texts={
        "en": "Press and release the valves audibly in the rhythm given, without blowing.",
        "de": "Die Ventile im angegebenen Rhythmus hörbar drücken und loslassen, ohne zu blasen.",
        "fr": "Enfoncer et relâcher bruyamment les pistons dans le rythme indiqué, sans souffler.",
        "it": "Abbassare e rilasciare i pistoni in modo udibile nel ritmo indicato, senza soffiare.",
    },
    texts_where={
        "breath": {
            "en": "Press and release the valves audibly in the rhythm given while you blow.",
            "de": "Beim Blasen die Ventile im angegebenen Rhythmus hörbar drücken und loslassen.",
            "fr": "Enfoncer et relâcher bruyamment les pistons dans le rythme indiqué, en soufflant.",
            "it": "Abbassare e rilasciare i pistoni in modo udibile nel ritmo indicato, mentre si soffia.",
        },
    },
)
