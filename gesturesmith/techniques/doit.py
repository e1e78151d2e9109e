"""A doit: off the note, upward."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Look, Technique

TECHNIQUE = Technique(
    key="doit",
    layer="edge-off",
    moves="lip",
    kin=("ordinary",),
    takes={"end": "go off upward"},
    limits={
        "shortest_ms": Limit(Sourced(250, HOUSE, "the note itself must be heard first"), unit="ms", side="below"),
        "room_above_cents": Limit(Sourced(200, HOUSE, "a step or two to leave by"), unit="cents", side="none"),
    },
    skill=Sourced(0.25, HOUSE, "jazz players learn it early, others late"),
    effort=Sourced(1.1, HOUSE, "upward at the end of the breath"),
    flow=Sourced(1.05, HOUSE, "a short push of air"),
    look=Look(
        edge="doit",
        reason=(
            "The rising curve of SMuFL brassDoitMedium, off the head to the right: where it ends is "
            "free, as in jazz parts. It is the middle one of three lengths; the short and the long doit "
            "are the others."
        ),
    ),
    sources=(Sourced("doit", PRACTICE, "D. Hill, Extended Techniques for the Horn, contents"),),
    called=("doo-it", "lift off", "Abreißen nach oben", "départ vers l’aigu"),
    title={
        "en": "Doit",
        "de": "Doit (nach oben wegziehen)",
        "fr": "Doit (départ vers l’aigu)",
        "it": "Doit (uscita verso l’alto)",
    },
    texts={
        "en": ("Hold the note, then slide up and away from it at the end, getting softer; where it ends is free."),
        "de": "Den Ton halten, dann am Ende nach oben wegziehen und leiser werden; das Ende ist frei.",
        "fr": "Tenir la note, puis la quitter vers l’aigu en diminuant ; la hauteur d’arrivée est libre.",
        "it": "Tenere la nota, poi lasciarla verso l’alto diminuendo; il punto d’arrivo è libero.",
    },
)
