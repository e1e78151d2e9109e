"""A doit at once: the note rises as soon as it is struck."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="doit-at-once",
    layer="edge-off",
    moves="lip",
    kin=("doit", "ordinary"),
    takes={"end": "go off upward at once"},
    limits={
        "shortest_ms": Limit(Sourced(200, HOUSE, "in less there is no line to hear"), unit="ms", side="below"),
        "room_above_cents": Limit(Sourced(200, HOUSE, "a step or two at least"), unit="cents", side="none"),
    },
    skill=Sourced(0.3, HOUSE, "the tone leaves its note before it has settled"),
    effort=Sourced(1.1, HOUSE, "further from the note than plain playing"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        edge="doit-at-once",
        reason=(
            "A straight line upward from the head: no held part, so no curve that leaves it slowly (our own "
            "judgement; parts have the word or a straight line)."
        ),
    ),
    sound=Sound(edge_share=Sourced(1.0, HOUSE, "from the attack on")),
    sources=(Sourced("a doit at the attack is asked for by word", MEMORY, "common practice in jazz parts"),),
    title={
        "en": "Doit at once",
        "de": "Sofortiger Doit",
        "fr": "Doit immédiat",
        "it": "Doit immediato",
    },
    texts={
        "en": "Strike the note and pull it upward at once, without holding it; where it ends is free.",
        "de": "Den Ton anstoßen und sofort nach oben wegziehen, ohne ihn zu halten; das Ende ist frei.",
        "fr": (
            "Attaquer la note et la quitter aussitôt vers l’aigu, sans la tenir ; la hauteur d’arrivée est libre."
        ),
        "it": "Attaccare la nota e lasciarla subito verso l’alto, senza tenerla; il punto d’arrivo è libero.",
    },
)
