"""The mouthpiece alone: buzzed without the instrument."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="mouthpiece-alone",
    layer="tone",
    pitched="about",
    moves="lips on the mouthpiece alone",
    kin=("lip-buzz", "air-tone"),
    takes={
        "mouthpiece": "be taken off and buzzed",
        "tube": "be left off",
        "bell": "be left off",
        "hand": "leave the bell",
        "valves": "be left alone",
        "slide": "be left alone",
        "fingering": "be left alone",
        "harmonics": "be missing",
    },
    limits={
        "shortest_ms": Limit(Sourced(100, HOUSE, "a buzz needs a moment to be heard"), unit="ms", side="below"),
        "loudest": Limit(
            Sourced("f", HOUSE, "a mouthpiece alone does not carry further"), unit="level", side="louder"
        ),
    },
    skill=Sourced(0.2, HOUSE, "a daily exercise"),
    effort=Sourced(1.2, HOUSE, "nothing helps the lips"),
    flow=Sourced(1.1, HOUSE, "little resistance"),
    look=Look(
        word="mouthpiece alone",
        cancel="ord.",
        over="instrument",
        reason=(
            "The word and its end; no sign is in use. No tube holds the pitches; x-heads say so where the "
            "composer writes them."
        ),
    ),
    sound=Sound(colour="buzz"),
    sources=(Sourced("buzzing on the mouthpiece alone", MEMORY, "common practice of contemporary parts"),),
    called=("mouthpiece", "mouthpiece only", "mouthpiece buzz"),
    labels={
        "de": Label(word="Mundstück allein", over="Instrument"),
        "fr": Label(word="embouchure seule", over="instrument"),
        "it": Label(word="bocchino solo", over="strumento"),
    },
    title={
        "en": "Mouthpiece alone",
        "de": "Mundstück allein",
        "fr": "Embouchure seule",
        "it": "Bocchino solo",
    },
    texts={
        "en": (
            "Take off the mouthpiece and buzz on it alone; the pitches are approximate. “Ord.” means back to the "
            "instrument."
        ),
        "de": (
            "Das Mundstück abnehmen und nur darauf spielen; die Tonhöhen sind ungefähr. „Ord.“: wieder mit dem "
            "Instrument."
        ),
        "fr": (
            "Retirer l’embouchure et jouer sur elle seule ; les hauteurs sont approximatives. « Ord. » : "
            "reprendre l’instrument."
        ),
        "it": (
            "Togliere il bocchino e suonare solo con esso; le altezze sono approssimative. «Ord.»: di nuovo con "
            "lo strumento."
        ),
    },
)
