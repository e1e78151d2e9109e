"""A fall: off the note, downward."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="fall",
    layer="edge-off",
    moves="lip and valves",
    kin=("ordinary",),
    takes={"end": "go off downward"},
    limits={
        "shortest_ms": Limit(Sourced(250, HOUSE, "the note itself must be heard first"), unit="ms", side="below"),
        "room_below_cents": Limit(Sourced(300, HOUSE, "a few steps to fall through"), unit="cents", side="none"),
    },
    skill=Sourced(0.15, HOUSE, "the tone is let go"),
    effort=Sourced(1.0, HOUSE, "as plain playing"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        edge="fall",
        reason=(
            "The falling curve of SMuFL brassFallLipMedium, off the head to the right. SMuFL "
            "distinguishes lip, smooth and rough falls; players choose by style, and if it matters "
            "the note says so in words."
        ),
    ),
    sound=Sound(fades=True),
    sources=(Sourced("fall-off or drop", PRACTICE, "D. Hill, Extended Techniques for the Horn, contents"),),
    called=("fall off", "drop", "drop off", "fall down", "Abfallen", "Absacken", "chute", "caduta"),
    title={
        "en": "Fall",
        "de": "Fall (Absacken)",
        "fr": "Chute (fall)",
        "it": "Fall (caduta)",
    },
    texts={
        "en": "Hold the note, then let it drop away at the end, getting softer; where it ends is free.",
        "de": ("Den Ton halten, dann am Ende nach unten absacken lassen und leiser werden; das Ende ist frei."),
        "fr": (
            "Tenir la note, puis la laisser tomber vers le grave en diminuant ; la hauteur d’arrivée est libre."
        ),
        "it": "Tenere la nota, poi lasciarla cadere verso il grave diminuendo; il punto d’arrivo è libero.",
    },
)
