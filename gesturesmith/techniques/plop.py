"""A plop: into the note from above."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Look, Technique

TECHNIQUE = Technique(
    key="plop",
    layer="edge-in",
    moves="lip and valves",
    kin=("ordinary",),
    takes={"beginning": "come from above"},
    limits={
        "shortest_ms": Limit(
            Sourced(200, HOUSE, "the note must still be heard after the plop"), unit="ms", side="below"
        ),
        "room_above_cents": Limit(Sourced(300, HOUSE, "a few steps to fall through"), unit="cents", side="none"),
    },
    skill=Sourced(0.25, HOUSE, "a quick drop into the middle of a note"),
    effort=Sourced(1.05, HOUSE, "a small movement of the lip"),
    flow=Sourced(1.05, HOUSE, "a short burst before the note"),
    look=Look(
        edge="plop",
        reason=(
            "The falling curve of SMuFL brassPlop, before the accidental: the mirror of the scoop. Some parts "
            "draw a straight line for both; the curve tells it from a glissando."
        ),
    ),
    sources=(Sourced("plop", PRACTICE, "D. Hill, Extended Techniques for the Horn, contents"),),
    called=("drop in", "fall into", "drop onto"),
    title={
        "en": "Plop",
        "de": "Plop (Hineinfallen von oben)",
        "fr": "Plop (chute vers la note)",
        "it": "Plop (caduta sulla nota)",
    },
    texts={
        "en": (
            "Drop quickly into the note from above, through the harmonics or with the valves; the note "
            "itself comes on time."
        ),
        "de": (
            "Schnell von oben in den Ton fallen, durch die Naturtöne oder mit den Ventilen; der Ton "
            "selbst kommt genau auf den Schlag."
        ),
        "fr": (
            "Tomber rapidement sur la note depuis le haut, par les harmoniques ou avec les pistons ; la "
            "note elle-même tombe sur le temps."
        ),
        "it": (
            "Cadere rapidamente sulla nota dall’alto, attraverso gli armonici o con i pistoni; la nota "
            "stessa arriva a tempo."
        ),
    },
    texts_where={
        "slide": {
            "en": (
                "Drop quickly into the note from above, through the harmonics or with the slide; the "
                "note itself comes on time."
            ),
            "de": (
                "Schnell von oben in den Ton fallen, durch die Naturtöne oder mit dem Zug; der Ton "
                "selbst kommt genau auf den Schlag."
            ),
            "fr": (
                "Tomber rapidement sur la note depuis le haut, par les harmoniques ou avec la coulisse ; "
                "la note elle-même tombe sur le temps."
            ),
            "it": (
                "Cadere rapidamente sulla nota dall’alto, attraverso gli armonici o con la coulisse; la "
                "nota stessa arriva a tempo."
            ),
        },
        "single": {
            "en": "Drop quickly into the note from above, through the harmonics; the note itself comes on time.",
            "de": (
                "Schnell von oben in den Ton fallen, durch die Naturtöne; der Ton selbst kommt genau auf den "
                "Schlag."
            ),
            "fr": (
                "Tomber rapidement sur la note depuis le haut, par les harmoniques ; la note elle-même "
                "tombe sur le temps."
            ),
            "it": (
                "Cadere rapidamente sulla nota dall’alto, attraverso gli armonici; la nota stessa arriva a tempo."
            ),
        },
    },
)
