"""A slide glissando against the grain: the slide moves one way and the lip crosses harmonics the other."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="against-the-grain",
    layer="motion",
    path="against",
    points=(2, None),
    needs_line=True,
    needs="slide",
    tone="needs",
    moves="slide and lip",
    kin=("slide-gliss", "harmonic-gliss", "chromatic"),
    takes={
        "pitch": "cross the harmonics against the slide",
        "slide": "glide",
        "lips": "cross the harmonics",
        "tube": "change all the time",
        "harmonics": "stay clear",
    },
    limits={
        "shortest_ms": Limit(
            Sourced(300, HOUSE, "in less the breaks between the harmonics are not heard"), unit="ms", side="below"
        ),
        "narrowest_cents": Limit(Sourced(300, HOUSE, "in less no harmonic is crossed"), unit="cents", side="below"),
    },
    skill=Sourced(0.45, HOUSE, "lip and slide go opposite ways, which is learnt late"),
    effort=Sourced(1.2, HOUSE, "lip and slide work against each other"),
    flow=Sourced(1.1, HOUSE, "an even stream carries it"),
    look=Look(
        word="against the grain",
        cancel="ord.",
        over="slide ord.",
        reason=(
            "In words over a glissando line: nothing in the line itself tells that the slide goes against it. "
            "Trombonists call it so; a sign is not in use."
        ),
    ),
    sources=(
        Sourced("against-the-grain glissandi of the trombone", MEMORY, "common practice of contemporary parts"),
    ),
    called=("against the grain glissando", "against-the-grain gliss"),
    labels={
        "de": Label(word="gegen den Zug", over="Zug ord."),
        "fr": Label(word="à contre-coulisse", over="coulisse ord."),
        "it": Label(word="contro la coulisse", over="coulisse ord."),
    },
    title={
        "en": "Glissando against the grain",
        "de": "Glissando gegen die Zugrichtung",
        "fr": "Glissando à contre-coulisse",
        "it": "Glissando in senso contrario alla coulisse",
    },
    texts={
        "en": (
            "Glide along the line while the slide moves the other way, so that the note breaks from harmonic to "
            "harmonic."
        ),
        "de": (
            "Der Linie folgen, während sich der Zug in die Gegenrichtung bewegt, sodass der Ton von Naturton zu "
            "Naturton bricht."
        ),
        "fr": (
            "Suivre la ligne pendant que la coulisse va en sens contraire, de sorte que le son se brise "
            "d’harmonique en harmonique."
        ),
        "it": (
            "Seguire la linea mentre la coulisse va in senso contrario, così che il suono si spezzi da un "
            "armonico all’altro."
        ),
    },
)
