"""A harmon mute with its stem half pulled out."""

from gesturesmith.evidence import HOUSE, MEMORY, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="stem-half-out",
    layer="stem",
    moves="stem of the mute",
    kin=("stem-out", "stem-in", "ordinary"),
    of_mute="harmon",
    takes={"stem": "be half pulled out", "bell": "hold a mute"},
    skill=Sourced(0.05, HOUSE, "as with any mute"),
    effort=Sourced(1.05, HOUSE, "a narrow opening"),
    flow=Sourced(1.0, HOUSE, "as with the mute alone"),
    look=Look(
        word="stem half out",
        cancel="stem in",
        announce=True,
        reason=(
            "The words of jazz parts, announced in the rest before like a mute; along a line an arrow joins two of "
            "them. SMuFL has signs for it, which few players know."
        ),
    ),
    sources=(
        Sourced("harmon mute with its stem drawn half way", MEMORY, "jazz parts; SMuFL 1.4 brassHarmonMute signs"),
    ),
    called=("half stem", "stem extended", "stem half", "tube à moitié sorti"),
    labels={
        "de": Label(word="Rohr halb heraus", cancel="Rohr hinein"),
        "fr": Label(word="tube à moitié sorti", cancel="tube enfoncé"),
        "it": Label(word="tubo a metà", cancel="tubo inserito"),
    },
    title={
        "en": "Stem half out",
        "de": "Rohr halb herausgezogen",
        "fr": "Tube à moitié sorti",
        "it": "Tubo estratto a metà",
    },
    texts={
        "en": "Pull the stem of the harmon mute half way out.",
        "de": "Das Rohr des Harmon-Dämpfers halb herausziehen.",
        "fr": "Sortir à moitié le tube de la sourdine harmon.",
        "it": "Estrarre a metà il tubo della sordina harmon.",
    },
)
