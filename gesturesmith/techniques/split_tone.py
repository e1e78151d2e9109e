"""Split tone: two neighbouring partials held at once."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="split-tone",
    layer="lip",
    moves="lip",
    kin=("multiphonic",),
    lines=("none", "slur"),
    tone="needs",
    holds=2,
    takes={"lips": "hold two harmonics", "jaw": "hold two harmonics", "harmonics": "stay clear"},
    hampers={
        "tongue": Sourced("with care", HOUSE, "two harmonics are held insecurely, and the tongue disturbs them"),
        "throat": Sourced("with care", HOUSE, "two harmonics are held insecurely, and the throat disturbs them"),
    },
    limits={
        "fastest_per_s": Limit(Sourced(2, HOUSE, "each pair has to be found"), unit="1/s"),
        "shortest_ms": Limit(Sourced(500, HOUSE, "the two partials must settle"), unit="ms", side="below"),
        "longest_s": Limit(Sourced(8, HOUSE, "the lip is held between two notes"), unit="s"),
        "softest": Limit(Sourced("mp", HOUSE, "insecure when soft"), unit="level", side="softer"),
    },
    skill=Sourced(0.8, HOUSE, "the lip stays between two slots that both pull"),
    effort=Sourced(1.5, HOUSE, "the lip is held where it does not want to be"),
    flow=Sourced(1.15, HOUSE, "two partials are fed"),
    tiring=True,
    caution="caution-lip",
    look=Look(
        word="split tone",
        cancel="ord.",
        reason=(
            "The two partials as a chord of ordinary heads, with the word and its end: the chord says what "
            "sounds, the word how."
        ),
    ),
    sources=(
        Sourced(
            "insecure, low ones unstable; mf at most low, f to ff high",
            PRACTICE,
            "contemporarytuba.com, gliss, cusps and split tones",
        ),
    ),
    called=("split", "double buzz", "dyad", "Spaltton"),
    labels={
        "fr": Label(word="son fendu", over="son ord."),
    },
    title={
        "en": "Split tone",
        "de": "Split Tone (zwei Naturtöne zugleich)",
        "fr": "Son fendu (split tone)",
        "it": "Split tone (due armonici insieme)",
    },
    texts={
        "en": "Hold the lip between two neighbouring harmonics of one fingering so that both sound.",
        "de": "Die Lippen zwischen zwei benachbarten Naturtönen eines Griffs halten, sodass beide klingen.",
        "fr": (
            "Maintenir les lèvres entre deux harmoniques voisins d’un même doigté, de façon que les deux sonnent."
        ),
        "it": ("Tenere le labbra tra due armonici vicini della stessa posizione, in modo che suonino entrambi."),
    },
    texts_where={
        "slide": {
            "en": "Hold the lip between two neighbouring harmonics of one slide position so that both sound.",
            "de": "Die Lippen zwischen zwei benachbarten Naturtönen einer Lage halten, sodass beide klingen.",
            "fr": (
                "Maintenir les lèvres entre deux harmoniques voisins d’une même position, de façon que "
                "les deux sonnent."
            ),
            "it": "Tenere le labbra tra due armonici vicini della stessa posizione, in modo che suonino entrambi.",
        },
        "single": {
            "en": "Hold the lip between two neighbouring harmonics so that both sound.",
            "de": "Die Lippen zwischen zwei benachbarten Naturtönen halten, sodass beide klingen.",
            "fr": "Maintenir les lèvres entre deux harmoniques voisins, de façon que les deux sonnent.",
            "it": "Tenere le labbra tra due armonici vicini, in modo che suonino entrambi.",
        },
    },
)
