"""Triple tonguing."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Look, Technique

TECHNIQUE = Technique(
    key="triple-tongue",
    layer="attack",
    moves="tongue",
    kin=("double-tongue", "single-tongue", "ordinary"),
    rate="triple_tongue",
    takes={"stroke": "be triple", "tonguing": "strike a tone", "tongue": "strike in threes"},
    limits={"longest_s": Limit(Sourced(20, HOUSE, "long fast tonguing tires"), unit="s")},
    skill=Sourced(0.35, HOUSE, "three syllables to be made even"),
    effort=Sourced(1.1, HOUSE, "fast tonguing tires"),
    flow=Sourced(1.05, HOUSE, "a steady stream under the tongue"),
    look=Look(
        script="triple-dots",
        reason=(
            "Three dots over the note: SMuFL tripleTongueAbove, MusicXML triple-tongue; for other "
            "notations see double tonguing."
        ),
    ),
    sources=(
        Sourced("twelve and more a second; fatigue when it goes on", PRACTICE, "contemporarytuba.com/tonguing"),
    ),
    called=("triple tonguing", "triplet tonguing"),
    title={
        "en": "Triple tonguing",
        "de": "Tripelzunge",
        "fr": "Triple coup de langue",
        "it": "Triplo colpo di lingua",
    },
    texts={
        "en": "Triple-tongue (ta ta ka ta ta ka).",
        "de": "Mit Tripelzunge spielen (ta ta ka ta ta ka).",
        "fr": "Jouer en triple coup de langue (ta ta ka ta ta ka).",
        "it": "Suonare con il triplo colpo di lingua (ta ta ka ta ta ka).",
    },
)
