"""A short fall: off the note, downwards by about a step."""

from gesturesmith.evidence import HOUSE, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="short-fall",
    layer="edge-off",
    moves="lip and valves",
    kin=("fall", "ordinary"),
    takes={"end": "go off downward a little"},
    limits={
        "shortest_ms": Limit(Sourced(250, HOUSE, "the note itself must be heard first"), unit="ms", side="below"),
        "room_below_cents": Limit(Sourced(150, HOUSE, "about a step"), unit="cents", side="none"),
    },
    skill=Sourced(0.1, HOUSE, "a small drop"),
    effort=Sourced(1.0, HOUSE, "as plain playing"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        edge="short-fall",
        reason=(
            "A short curve downward off the head (SMuFL brassFallLipShort); its length on the page is what tells "
            "it from the fall and the long fall."
        ),
    ),
    sound=Sound(fades=True),
    sources=(Sourced("brassFallLipShort", PUBLISHED, "SMuFL 1.4"),),
    called=("short drop", "kurzer Fall", "chute courte", "caduta corta"),
    title={
        "en": "Short fall",
        "de": "Kurzer Fall",
        "fr": "Chute courte",
        "it": "Caduta breve",
    },
    texts={
        "en": "Let the note drop a little at its very end, about a step, getting softer.",
        "de": "Den Ton ganz am Ende ein wenig absacken lassen, etwa einen Ton tief, und leiser werden.",
        "fr": "Laisser tomber la note un peu, tout à la fin, d’environ un ton, en diminuant.",
        "it": "Lasciar cadere la nota di poco, proprio alla fine, di circa un tono, diminuendo.",
    },
)
