"""Factitious tones: pitches between the harmonics of the lowest tubes, forced by the lip."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="factitious",
    layer="lip",
    pitched="about",
    tone="needs",
    tiring=True,
    caution="caution-lip",
    moves="lip",
    harmonic="between",
    kin=("bend", "ordinary"),
    takes={
        "lips": "force a note off its harmonic",
        "jaw": "hold a note off its harmonic",
        "harmonics": "be left aside",
    },
    limits={
        "shortest_ms": Limit(Sourced(300, HOUSE, "they speak late"), unit="ms", side="below"),
        "registers": Limit(
            Sourced(("low",), HOUSE, "only between the lowest harmonics is there room"),
            unit="register",
            side="outside",
        ),
        "loudest": Limit(Sourced("f", HOUSE, "forced further the note breaks"), unit="level", side="louder"),
    },
    skill=Sourced(0.6, HOUSE, "the lip holds what no harmonic supports; few players have it at their call"),
    effort=Sourced(1.4, HOUSE, "the lip is held where the tube gives no support"),
    flow=Sourced(1.3, HOUSE, "much air, little resistance"),
    look=Look(
        word="fake tone",
        cancel="ord.",
        reason=(
            "In words: the note looks like any other, and the player would look for a fingering. Parts have "
            "“false tone” and “fake tone”; no sign is in use."
        ),
    ),
    sound=Sound(air=Sourced(0.2, HOUSE, "a rough tone with much air")),
    sources=(
        Sourced(
            "notes between the pedal and the second harmonic, known as factitious, false or fake tones",
            MEMORY,
            "common practice of contemporary parts",
        ),
    ),
    called=("fake tone", "fake tones", "false tone", "factitious tone", "factitious tones"),
    labels={
        "de": Label(word="erzwungener Ton", over="Ton ord."),
        "fr": Label(word="son factice", over="son ord."),
        "it": Label(word="suono fittizio", over="suono ord."),
    },
    title={
        "en": "Factitious (fake) tone",
        "de": "Erzwungener Ton (zwischen den Naturtönen)",
        "fr": "Son factice",
        "it": "Suono fittizio",
    },
    texts={
        "en": "Force this pitch with the lip between the harmonics; it is approximate and rough.",
        "de": "Diese Tonhöhe mit den Lippen zwischen den Naturtönen erzwingen; sie ist ungefähr und rau.",
        "fr": "Forcer cette hauteur avec les lèvres, entre les harmoniques ; elle est approximative et rude.",
        "it": "Forzare questa altezza con le labbra tra gli armonici; è approssimativa e ruvida.",
    },
)
