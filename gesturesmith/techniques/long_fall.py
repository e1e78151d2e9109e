"""A long fall: far down from the note."""

from gesturesmith.evidence import HOUSE, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="long-fall",
    layer="edge-off",
    moves="lip and valves",
    kin=("fall", "ordinary"),
    takes={"end": "go off downward far"},
    limits={
        "shortest_ms": Limit(Sourced(900, HOUSE, "the note itself must be heard first"), unit="ms", side="below"),
        "room_below_cents": Limit(
            Sourced(1200, HOUSE, "an octave, as its instruction asks"), unit="cents", side="none"
        ),
    },
    skill=Sourced(0.2, HOUSE, "the tone is let go for longer"),
    effort=Sourced(1.15, HOUSE, "more than in plain playing"),
    flow=Sourced(1.1, HOUSE, "a long breath after the note"),
    look=Look(
        edge="long-fall",
        reason=(
            "A long curve downward off the head (SMuFL brassFallLipLong); its length distinguishes it from "
            "the fall and the short fall."
        ),
    ),
    sound=Sound(fades=True, edge_share=Sourced(0.75, HOUSE, "most of the note")),
    sources=(Sourced("brassFallLipLong", PUBLISHED, "SMuFL 1.4"),),
    called=("long drop", "langer Fall", "chute longue", "caduta lunga"),
    title={
        "en": "Long fall",
        "de": "Langer Fall",
        "fr": "Chute longue",
        "it": "Caduta lunga",
    },
    texts={
        "en": "Hold the note briefly, then let it drop away slowly and far, an octave or more, getting softer.",
        "de": (
            "Den Ton kurz halten, dann langsam und weit abfallen lassen, eine Oktave oder mehr, und leiser werden."
        ),
        "fr": (
            "Tenir brièvement la note, puis la laisser tomber lentement et loin, d’une octave ou plus, en "
            "diminuant."
        ),
        "it": (
            "Tenere brevemente la nota, poi lasciarla cadere lentamente e lontano, di un’ottava o più, diminuendo."
        ),
    },
)
