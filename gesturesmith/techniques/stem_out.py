"""A harmon mute with its stem taken out."""

from gesturesmith.evidence import HOUSE, MEMORY, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="stem-out",
    layer="stem",
    moves="stem of the mute",
    kin=("stem-half-out", "ordinary"),
    of_mute="harmon",
    takes={"stem": "be taken out", "bell": "hold a mute"},
    skill=Sourced(0.05, HOUSE, "as with any mute"),
    effort=Sourced(1.0, HOUSE, "as with the mute alone"),
    flow=Sourced(1.0, HOUSE, "as with the mute alone"),
    look=Look(
        word="stem out",
        cancel="stem in",
        announce=True,
        reason=(
            "The words of jazz parts, announced in the rest before like a mute; along a line an arrow joins two of "
            "them. SMuFL has signs for it, which few players know."
        ),
    ),
    sources=(
        Sourced(
            "harmon mute without its stem, a distant buzz", MEMORY, "jazz parts; SMuFL 1.4 brassHarmonMute signs"
        ),
    ),
    called=(
        "harmon stem out",
        "no stem",
        "without stem",
        "stem removed",
        "ohne Röhrchen",
        "sans tube",
        "senza tubo",
    ),
    labels={
        "de": Label(word="ohne Rohr", cancel="Rohr hinein"),
        "fr": Label(word="sans tube", cancel="tube enfoncé"),
        "it": Label(word="senza tubo", cancel="tubo inserito"),
    },
    title={
        "en": "Stem out",
        "de": "Ohne Rohr",
        "fr": "Sans tube",
        "it": "Senza tubo",
    },
    texts={
        "en": "Take the stem out of the harmon mute.",
        "de": "Das Rohr des Harmon-Dämpfers herausnehmen.",
        "fr": "Retirer le tube de la sourdine harmon.",
        "it": "Togliere il tubo dalla sordina harmon.",
    },
)
