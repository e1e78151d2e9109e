"""A fall at once: the note drops as soon as it is attacked."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="fall-at-once",
    layer="edge-off",
    moves="lip and valves",
    kin=("fall", "ordinary"),
    takes={"end": "go off downward at once"},
    limits={
        "shortest_ms": Limit(Sourced(200, HOUSE, "a shorter one is not heard as a fall"), unit="ms", side="below"),
        "room_below_cents": Limit(Sourced(300, HOUSE, "a step or two at least"), unit="cents", side="none"),
    },
    skill=Sourced(0.2, HOUSE, "let go before it has settled"),
    effort=Sourced(1.0, HOUSE, "as plain playing"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        edge="fall-at-once",
        reason=(
            "A straight line downward from the head: nothing is held, so there is no curve (our own judgement; "
            "parts have the word or a straight line)."
        ),
    ),
    sound=Sound(fades=True, edge_share=Sourced(1.0, HOUSE, "from the attack on")),
    sources=(Sourced("a fall from the attack on is asked for in words", MEMORY, "common practice in jazz parts"),),
    title={
        "en": "Fall at once",
        "de": "Sofortiger Fall",
        "fr": "Chute immédiate",
        "it": "Caduta immediata",
    },
    texts={
        "en": "Strike the note and let it drop at once, without holding it; where it ends is free.",
        "de": "Den Ton anstoßen und sofort absacken lassen, ohne ihn zu halten; das Ende ist frei.",
        "fr": "Attaquer la note et la laisser tomber aussitôt, sans la tenir ; la hauteur d’arrivée est libre.",
        "it": "Attaccare la nota e lasciarla cadere subito, senza tenerla; il punto d’arrivo è libero.",
    },
)
