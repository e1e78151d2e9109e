"""A harmon mute with its stem pushed in."""

from gesturesmith.evidence import HOUSE, MEMORY, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="stem-in",
    layer="stem",
    moves="stem of the mute",
    kin=("stem-half-out", "ordinary"),
    of_mute="harmon",
    takes={"stem": "be pushed in", "bell": "hold a mute"},
    skill=Sourced(0.05, HOUSE, "as with any mute"),
    effort=Sourced(1.05, HOUSE, "a narrow opening"),
    flow=Sourced(1.0, HOUSE, "as with the mute alone"),
    look=Look(
        word="stem in",
        cancel="",
        announce=True,
        reason=(
            "The words of jazz parts, announced in the rest before like a mute; along a line an arrow joins two of "
            "them. SMuFL has signs for it, which few players know."
        ),
    ),
    sources=(
        Sourced(
            "harmon mute with its stem, the sound of wah-wah", MEMORY, "jazz parts; SMuFL 1.4 brassHarmonMute signs"
        ),
    ),
    called=("harmon stem in", "with stem", "Röhrchen hinein", "tube enfoncé"),
    labels={
        "de": Label(word="Rohr hinein"),
        "fr": Label(word="tube enfoncé"),
        "it": Label(word="tubo inserito"),
    },
    title={
        "en": "Stem in",
        "de": "Rohr hineingeschoben",
        "fr": "Tube enfoncé",
        "it": "Tubo inserito",
    },
    texts={
        "en": "Push the stem of the harmon mute all the way in.",
        "de": "Das Rohr des Harmon-Dämpfers ganz hineinschieben.",
        "fr": "Enfoncer entièrement le tube de la sourdine harmon.",
        "it": "Inserire del tutto il tubo della sordina harmon.",
    },
)
