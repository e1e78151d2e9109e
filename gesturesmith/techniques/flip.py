"""A flip: up off the note and down into the next."""

from gesturesmith.evidence import HOUSE, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="flip",
    layer="edge-off",
    moves="lip or valves",
    kin=("ordinary",),
    takes={"end": "flip up and over"},
    limits={
        "shortest_ms": Limit(
            Sourced(350, HOUSE, "the note must be heard before it flips"), unit="ms", side="below"
        ),
        "room_above_cents": Limit(Sourced(300, HOUSE, "a step or two to flip over"), unit="cents", side="none"),
    },
    skill=Sourced(0.35, HOUSE, "two turns in no time, an idiom of jazz"),
    effort=Sourced(1.05, HOUSE, "a quick movement at the end"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        edge="flip",
        reason="An arch off the head, up and over, as SMuFL brassFlip: the doit goes up and stays there.",
    ),
    sound=Sound(edge_turns=(0, 300, 0)),
    sources=(Sourced("brassFlip", PUBLISHED, "SMuFL 1.4"),),
    called=("flip off",),
    title={
        "en": "Flip",
        "de": "Flip (Überschlag nach oben)",
        "fr": "Flip (saut vers la note suivante)",
        "it": "Flip (scatto verso la nota seguente)",
    },
    texts={
        "en": "Leave the note upward at its end and drop over into the next note, which comes on time.",
        "de": (
            "Den Ton am Ende nach oben verlassen und in den nächsten hinüberfallen; dieser kommt genau auf "
            "den Schlag."
        ),
        "fr": "Quitter la note vers l’aigu à la fin et retomber sur la note suivante, qui tombe sur le temps.",
        "it": "Lasciare la nota verso l’alto alla fine e ricadere sulla nota seguente, che arriva a tempo.",
    },
)
