"""Quarter tones by fingering: out-of-tune partials put to use."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Look, Technique

TECHNIQUE = Technique(
    key="quarter-tones",
    layer="valves",
    moves="valves and lip",
    kin=("ordinary",),
    grid=50,
    takes={"valves": "go right down"},
    hampers={
        "fingering": Sourced("with care", HOUSE, "unusual fingerings have to change quickly"),
    },
    limits={
        "shortest_ms": Limit(
            Sourced(150, HOUSE, "in less the ear takes it for a note out of tune"), unit="ms", side="below"
        )
    },
    skill=Sourced(0.5, HOUSE, "fingerings of their own, and an ear that leads them"),
    effort=Sourced(1.1, HOUSE, "unusual fingerings, unusual partials"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        fingering=True,
        reason=(
            "The accidentals show it: the Stein-Zimmermann forms (SMuFL "
            "accidentalQuarterToneSharpStein and its relatives, which it calls the most common, after "
            "Gould), or arrows by choice. Sources differ: arrows show the direction at once, but in "
            "some music mean less than a quarter tone; so a file uses one system. The fingering is "
            "printed under each note, since no player knows them by heart."
        ),
    ),
    sources=(
        Sourced(
            "out-of-tune partials are more stable than bending by the hand",
            PRACTICE,
            "thecontemporaryhorn.com, Microtonality",
        ),
    ),
    called=(
        "quarter tone",
        "microtones",
        "microtone",
        "microtonal",
        "Viertelton",
        "quart de ton",
        "quarto di tono",
        "quarti di tono",
    ),
    title={
        "en": "Quarter tones",
        "de": "Vierteltöne",
        "fr": "Quarts de ton",
        "it": "Quarti di tono con la diteggiatura",
    },
    texts={
        "en": "Play the quarter tones with the fingerings given, and correct them by ear.",
        "de": "Die Vierteltöne mit den angegebenen Griffen spielen und nach Gehör korrigieren.",
        "fr": "Jouer les quarts de ton avec les doigtés indiqués et les ajuster à l’oreille.",
        "it": "Suonare i quarti di tono con le posizioni indicate e correggerli a orecchio.",
    },
    texts_where={
        "slide": {
            "en": "Play the quarter tones in the slide positions given, and correct them by ear.",
            "de": "Die Vierteltöne in den angegebenen Lagen spielen und nach Gehör korrigieren.",
            "fr": "Jouer les quarts de ton aux positions indiquées et les ajuster à l’oreille.",
            "it": "Suonare i quarti di tono nelle posizioni indicate e correggerli a orecchio.",
        },
        "single": {
            "en": "Play the quarter tones from the harmonics that lie near, and correct them by ear.",
            "de": (
                "Die Vierteltöne von den Naturtönen aus spielen, die ihnen nahe liegen, und nach Gehör korrigieren."
            ),
            "fr": "Jouer les quarts de ton à partir des harmoniques voisins et les ajuster à l’oreille.",
            "it": "Suonare i quarti di tono a partire dagli armonici vicini e correggerli a orecchio.",
        },
    },
)
