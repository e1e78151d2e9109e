"""A lift: into the note by quick steps from below."""

from gesturesmith.evidence import HOUSE, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Look, Technique

TECHNIQUE = Technique(
    key="lift",
    layer="edge-in",
    moves="lip and valves or slide",
    kin=("rip", "scoop", "ordinary"),
    takes={"beginning": "come by steps from below"},
    limits={
        "shortest_ms": Limit(
            Sourced(300, HOUSE, "the note must still be heard after the steps"), unit="ms", side="below"
        ),
        "room_below_cents": Limit(Sourced(500, HOUSE, "a few steps to climb"), unit="cents", side="none"),
    },
    skill=Sourced(0.25, HOUSE, "quick steps into a note"),
    effort=Sourced(1.05, HOUSE, "quick steps before the note"),
    flow=Sourced(1.05, HOUSE, "a short push of air"),
    look=Look(
        edge="lift",
        reason=(
            "A straight slanting line into the head, flatter than the rip: the line of SMuFL brassLiftShort. A "
            "rip goes through the harmonics and stands steeper."
        ),
    ),
    sources=(Sourced("brassLiftShort, brassLiftMedium, brassLiftLong", PUBLISHED, "SMuFL 1.4"),),
    called=("lifting in",),
    title={
        "en": "Lift",
        "de": "Lift (stufenweise von unten)",
        "fr": "Lift (montée par degrés)",
        "it": "Lift (salita per gradi)",
    },
    texts={
        "en": "Climb quickly into the note by steps from below, getting louder; the note itself comes on time.",
        "de": (
            "Schnell und stufenweise von unten in den Ton hinaufsteigen, dabei lauter werden; der Ton selbst "
            "kommt genau auf den Schlag."
        ),
        "fr": (
            "Monter rapidement par degrés vers la note depuis le grave, en crescendo ; la note elle-même tombe "
            "sur le temps."
        ),
        "it": "Salire rapidamente per gradi verso la nota dal basso, in crescendo; la nota stessa arriva a tempo.",
    },
)
