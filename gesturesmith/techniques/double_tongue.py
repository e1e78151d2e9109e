"""Double tonguing."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Look, Technique

TECHNIQUE = Technique(
    key="double-tongue",
    layer="attack",
    moves="tongue",
    kin=("triple-tongue", "single-tongue", "ordinary"),
    rate="double_tongue",
    takes={"stroke": "be double", "tonguing": "strike a tone", "tongue": "strike to and fro"},
    limits={"longest_s": Limit(Sourced(20, HOUSE, "long fast tonguing tires"), unit="s")},
    skill=Sourced(0.3, HOUSE, "a second syllable, trained for years"),
    effort=Sourced(1.1, HOUSE, "fast tonguing tires"),
    flow=Sourced(1.05, HOUSE, "a steady stream under the tongue"),
    look=Look(
        script="double-dots",
        reason=(
            "Two dots over the note: SMuFL doubleTongueAbove, MusicXML double-tongue. Orchestral "
            'parts often leave the choice to the player, and methods use letters ("t k"); the dots '
            "are only printed if the composer asks for the tonguing."
        ),
    ),
    sources=(
        Sourced("twelve and more a second; fatigue when it goes on", PRACTICE, "contemporarytuba.com/tonguing"),
    ),
    called=("double tonguing", "doodle tongue", "doodle"),
    title={
        "en": "Double tonguing",
        "de": "Doppelzunge",
        "fr": "Double coup de langue",
        "it": "Doppio colpo di lingua",
    },
    texts={
        "en": "Double-tongue (ta ka ta ka).",
        "de": "Mit Doppelzunge spielen (ta ka ta ka).",
        "fr": "Jouer en double coup de langue (ta ka ta ka).",
        "it": "Suonare con il doppio colpo di lingua (ta ka ta ka).",
    },
)
