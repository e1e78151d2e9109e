"""A scoop: into the note from below."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Look, Technique

TECHNIQUE = Technique(
    key="scoop",
    layer="edge-in",
    moves="lip",
    kin=("ordinary",),
    takes={"beginning": "come from a little below"},
    limits={
        "shortest_ms": Limit(
            Sourced(150, HOUSE, "the note must still be heard after the scoop"), unit="ms", side="below"
        ),
        "lip_down_cents": Limit(
            Sourced(75, HOUSE, "less is heard as a note out of tune"), unit="cents", side="none"
        ),
    },
    skill=Sourced(0.2, HOUSE, "a small bend at the beginning of a note"),
    effort=Sourced(1.05, HOUSE, "a small movement of the lip"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        edge="scoop",
        reason=(
            "The curve of SMuFL brassScoop, before the accidental: it belongs to the beginning of the "
            "note and takes no time of its own. Small grace notes, as in older parts, would ask for "
            "an exact pitch."
        ),
    ),
    sources=(Sourced("scoop up and down", PRACTICE, "D. Hill, Extended Techniques for the Horn, contents"),),
    called=("scooped", "slide into", "von unten anschleifen"),
    means="the note is entered from just below",
    title={
        "en": "Scoop",
        "de": "Scoop (Anschleifen von unten)",
        "fr": "Scoop (attaque par en dessous)",
        "it": "Scoop (attacco da sotto)",
    },
    texts={
        "en": ("Begin a little below the note and slide up into it with the lip; the note itself comes on time."),
        "de": (
            "Etwas unter dem Ton beginnen und mit dem Ansatz hinaufziehen; der Ton selbst kommt genau auf "
            "den Schlag."
        ),
        "fr": (
            "Commencer un peu au-dessous de la note et remonter avec les lèvres ; la note elle-même tombe "
            "sur le temps."
        ),
        "it": "Cominciare poco sotto la nota e salire con le labbra; la nota stessa arriva a tempo.",
    },
)
