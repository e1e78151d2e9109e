"""A smear: a slow, blurred slide into the note from below."""

from gesturesmith.evidence import HOUSE, PRACTICE, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="smear",
    layer="edge-in",
    moves="lip and half-pressed valves or slide",
    kin=("scoop", "rip", "ordinary"),
    takes={"beginning": "come blurred from below"},
    limits={
        "shortest_ms": Limit(
            Sourced(400, HOUSE, "the way up is slow and part of the note"), unit="ms", side="below"
        ),
        "lip_down_cents": Limit(Sourced(150, HOUSE, "twice a scoop"), unit="cents", side="none"),
    },
    skill=Sourced(0.25, HOUSE, "a long bend into a note"),
    effort=Sourced(1.1, HOUSE, "the lip leads slowly"),
    flow=Sourced(1.05, HOUSE, "a steady stream"),
    look=Look(
        edge="smear",
        reason=(
            "A long S that rises into the head, for SMuFL brassSmear: flatter than the arc of the scoop, and no "
            "wave, since only the contour is wavy on these pages."
        ),
    ),
    sound=Sound(edge_share=Sourced(0.6, HOUSE, "its pitch is reached late")),
    sources=(
        Sourced("brassSmear", PUBLISHED, "SMuFL 1.4"),
        Sourced("rip or smear", PRACTICE, "D. Hill, Extended Techniques for the Horn, contents"),
    ),
    called=("smeared", "verschmiert", "sbavato"),
    title={
        "en": "Smear",
        "de": "Smear (verwischt von unten)",
        "fr": "Smear (glissé flou vers la note)",
        "it": "Smear (scivolata sfumata verso la nota)",
    },
    texts={
        "en": (
            "Begin well below the note and slide up into it slowly and blurred; the pitch is reached late in the "
            "note."
        ),
        "de": (
            "Deutlich unter dem Ton beginnen und langsam und verwischt hinaufgleiten; die Tonhöhe wird erst spät "
            "erreicht."
        ),
        "fr": (
            "Commencer nettement sous la note et glisser lentement et de façon floue vers elle ; la hauteur "
            "n’est atteinte que tard."
        ),
        "it": (
            "Cominciare ben sotto la nota e salire lentamente, in modo sfumato; l’altezza viene raggiunta solo "
            "tardi."
        ),
    },
)
