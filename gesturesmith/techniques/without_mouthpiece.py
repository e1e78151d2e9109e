"""Without the mouthpiece: the lips at the end of the tube."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="without-mouthpiece",
    layer="tone",
    pitched="about",
    moves="lips at the leadpipe",
    kin=("air-tone", "mouthpiece-alone"),
    takes={"mouthpiece": "be taken off", "harmonics": "be weak"},
    limits={
        "shortest_ms": Limit(Sourced(200, HOUSE, "the tone speaks late"), unit="ms", side="below"),
        "loudest": Limit(
            Sourced("mf", HOUSE, "without a rim the lips have no support"), unit="level", side="louder"
        ),
    },
    skill=Sourced(0.35, HOUSE, "no rim holds the lips"),
    effort=Sourced(1.3, HOUSE, "no rim supports the lips"),
    flow=Sourced(1.4, HOUSE, "much air escapes"),
    look=Look(
        word="without mouthpiece",
        cancel="ord.",
        over="with mouthpiece",
        reason=(
            "In words: there is no established sign. The heads stay normal, since the fingering still matters."
        ),
    ),
    sound=Sound(air=Sourced(0.5, HOUSE, "half air, half tone")),
    sources=(Sourced("playing with the mouthpiece removed", MEMORY, "common practice of contemporary parts"),),
    called=("mouthpiece removed",),
    labels={
        "de": Label(word="ohne Mundstück", over="mit Mundstück"),
        "fr": Label(word="sans embouchure", over="avec embouchure"),
        "it": Label(word="senza bocchino", over="con bocchino"),
    },
    title={
        "en": "Without mouthpiece",
        "de": "Ohne Mundstück",
        "fr": "Sans embouchure",
        "it": "Senza bocchino",
    },
    texts={
        "en": "Take off the mouthpiece and play with the lips at the end of the tube; the pitches are approximate.",
        "de": "Das Mundstück abnehmen und mit den Lippen am Rohrende spielen; die Tonhöhen sind ungefähr.",
        "fr": "Retirer l’embouchure et jouer avec les lèvres au bout du tube ; les hauteurs sont approximatives.",
        "it": (
            "Togliere il bocchino e suonare con le labbra all’estremità del tubo; le altezze sono approssimative."
        ),
    },
)
