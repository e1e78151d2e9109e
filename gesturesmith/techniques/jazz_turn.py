"""A turn at the end of a note: above, note, below, note."""

from gesturesmith.evidence import HOUSE, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="jazz-turn",
    layer="edge-off",
    moves="valves or lip",
    kin=("flip", "ordinary"),
    takes={"end": "turn about itself"},
    limits={
        "shortest_ms": Limit(Sourced(500, HOUSE, "the turn needs four quick notes"), unit="ms", side="below"),
        "room_above_cents": Limit(Sourced(200, HOUSE, "a step above"), unit="cents", side="none"),
    },
    skill=Sourced(0.35, HOUSE, "four notes in no time, an idiom of jazz"),
    effort=Sourced(1.0, HOUSE, "fingers only"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        edge="jazz-turn",
        reason=(
            "The lying S after the head, SMuFL brassJazzTurn: the ornament of the same form stands over the "
            "note, this one at its end."
        ),
    ),
    sound=Sound(edge_turns=(0, 200, 0, -200, 0)),
    sources=(Sourced("brassJazzTurn", PUBLISHED, "SMuFL 1.4"),),
    called=("turn", "gruppetto"),
    title={
        "en": "Jazz turn",
        "de": "Doppelschlag am Tonende",
        "fr": "Ornement en fin de note",
        "it": "Gruppetto a fine nota",
    },
    texts={
        "en": "At the end of the note play a quick turn: the step above, the note, the step below, the note.",
        "de": "Am Ende des Tons einen schnellen Doppelschlag spielen: obere Nebennote, Ton, untere Nebennote, Ton.",
        "fr": "À la fin de la note, jouer rapidement : note supérieure, note, note inférieure, note.",
        "it": "Alla fine della nota eseguire un rapido gruppetto: nota superiore, nota, nota inferiore, nota.",
    },
)
