"""Growl: the voice or the throat roughens the tone."""

from gesturesmith.evidence import HOUSE, MEMORY, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Look, Technique

TECHNIQUE = Technique(
    key="growl",
    layer="voice",
    moves="throat",
    kin=("flutter-tongue", "ordinary"),
    takes={"throat": "growl", "breath": "stream"},
    hampers={
        "tongue": Sourced(
            "with care", HOUSE, "throat and tongue work in one stream of air, and the one covers the other"
        ),
    },
    limits={
        "shortest_ms": Limit(Sourced(200, HOUSE, "in less it is heard as a rough attack"), unit="ms", side="below"),
        "longest_s": Limit(Sourced(8, HOUSE, "taxing for the throat"), unit="s"),
        "softest": Limit(Sourced("mp", HOUSE, "a soft growl hardly speaks"), unit="level", side="softer"),
        "registers": Limit(
            Sourced(("low", "middle", "high"), HOUSE, "as for flutter-tongue"), unit="register", side="outside"
        ),
        "cycles_hz": Limit(Sourced((20, 30), HOUSE, "taken as for flutter-tongue"), unit="Hz", side="none"),
        "cycle_periods": Limit(
            Sourced(3, HOUSE, "fewer periods in a cycle leave no pitch"), unit="periods", side="below"
        ),
    },
    skill=Sourced(
        0.5,
        HOUSE,
        "an alternative that some players cannot do (A. Hynds, composerstubaguide.blog); the number is ours",
    ),
    effort=Sourced(1.6, HOUSE, "more than flutter-tongue, which A. Hynds calls less taxing; the factor is ours"),
    flow=Sourced(1.3, HOUSE, "voice and tone share the air"),
    tiring=True,
    caution="caution-growl",
    look=Look(
        word="growl",
        extent="span",
        reason=(
            "The word with a dashed line and a hook, as for any change of tone that lasts. Some parts put "
            "slashes on the stem as for flutter-tonguing, which players then cannot tell from it; a wave over "
            "the staff would read as a trill or as the contour."
        ),
    ),
    sources=(
        Sourced(
            "say in the notes whether flutter or growl is meant", MEMORY, "thecontemporaryhorn.com, not found again"
        ),
        Sourced(
            "an alternative to flutter-tongue that some players cannot do",
            PRACTICE,
            "composerstubaguide.blog (A. Hynds)",
        ),
    ),
    called=("growling", "throat growl", "Knurren", "grognement", "ringhio", "voce roca"),
    title={
        "en": "Growl",
        "de": "Growl",
        "fr": "Growl",
        "it": "Growl",
    },
    texts={
        "en": "Growl with the voice or the throat while playing, to the end of the dashed line.",
        "de": "Während des Spielens mit Stimme oder Kehle knurren, bis zum Ende der gestrichelten Linie.",
        "fr": "Grogner avec la voix ou la gorge en jouant, jusqu’à la fin de la ligne en tirets.",
        "it": "Ringhiare con la voce o con la gola suonando, fino alla fine della linea tratteggiata.",
    },
    texts_where={
        "breath": {
            "en": "With air alone, growl with the voice or the throat, to the end of the dashed line.",
            "de": "Bei bloßer Luft mit Stimme oder Kehle knurren, bis zum Ende der gestrichelten Linie.",
            "fr": "Avec le souffle seul, grogner avec la voix ou la gorge, jusqu’à la fin de la ligne en tirets.",
            "it": (
                "Con il solo soffio, ringhiare con la voce o con la gola, fino alla fine della linea tratteggiata."
            ),
        },
    },
)
