"""A glissando by the lip: as smooth as possible, with the steps between partials blurred."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="lip-gliss",
    layer="motion",
    path="lip",
    moves="lip",
    kin=("bend", "hand-gliss", "slide-gliss", "fingered-gliss", "harmonic-gliss", "chromatic"),
    points=(2, None),
    needs_line=True,
    tone="needs",
    takes={"pitch": "be slid by the lip", "lips": "slide"},
    limits={
        "shortest_ms": Limit(
            Sourced(150, HOUSE, "in less the lip jumps instead of sliding"), unit="ms", side="below"
        )
    },
    skill=Sourced(0.45, HOUSE, "the lip hides the slots it crosses"),
    effort=Sourced(1.25, HOUSE, "the lip works against the slots of the tube"),
    flow=Sourced(1.1, HOUSE, "a steady stream carries the slide"),
    tiring=True,
    caution="caution-lip",
    look=Look(
        word="lip gliss.",
        sign="gliss.",
        reason=(
            "The word tells it from the other glissandos, which share the line: handbooks (Gould, Stone; from "
            "memory) want the means named where a player could choose between several. The line is the one "
            "the composer wrote."
        ),
    ),
    sources=(
        Sourced(
            "between distant partials a gap refuses to sound and then jumps",
            PRACTICE,
            "contemporarytuba.com, gliss, cusps and split tones",
        ),
    ),
    called=("gliss", "glissando", "portamento", "lip slide", "lip glissando"),
    means="the lip slides, as smoothly as the harmonics let it",
    labels={
        "de": Label(word="Lippengliss."),
        "fr": Label(word="gliss. de lèvres"),
        "it": Label(word="gliss. di labbra"),
    },
    title={
        "en": "Lip glissando",
        "de": "Lippenglissando",
        "fr": "Glissando de lèvres",
        "it": "Glissando di labbra",
    },
    texts={
        "en": ("Slide with the lip along the line, blurring the steps between the harmonics as far as you can."),
        "de": (
            "Mit den Lippen der Linie folgen und die Stufen zwischen den Naturtönen so weit wie möglich verwischen."
        ),
        "fr": (
            "Glisser avec les lèvres en suivant la ligne et estomper autant que possible les paliers "
            "entre les harmoniques."
        ),
        "it": ("Glissare con le labbra seguendo la linea e sfumare il più possibile i gradini tra gli armonici."),
    },
)
