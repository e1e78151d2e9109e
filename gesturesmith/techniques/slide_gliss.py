"""A continuous glissando of the slide, on one partial."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Look, Technique

TECHNIQUE = Technique(
    key="slide-gliss",
    layer="motion",
    path="slide",
    moves="slide",
    kin=("lip-gliss", "fingered-gliss", "harmonic-gliss", "chromatic"),
    points=(2, None),
    needs_line=True,
    needs="slide",
    takes={"pitch": "glide with the slide", "slide": "glide"},
    limits={"shortest_ms": Limit(Sourced(80, HOUSE, "in less it is heard as a slur"), unit="ms", side="below")},
    skill=Sourced(0.1, HOUSE, "the slide moves as it is made to"),
    effort=Sourced(1.0, HOUSE, "as plain playing"),
    flow=Sourced(1.05, HOUSE, "an even stream carries the slide"),
    look=Look(
        line_word="gliss.",
        reason=(
            'The one glissando that needs no other name: "gliss." on its line, from notehead to notehead '
            "(Stone, Gould; from memory), and the MusicXML slide. The straight line is the sign of a "
            "continuous slide where sources tell it from a wave."
        ),
    ),
    sources=(Sourced("a slide glissando must stay on one partial", PRACTICE, "M. Clayville, blog of 2011-10-24"),),
    called=("gliss", "glissando", "portamento", "trombone gliss", "Zugglissando", "coulissé"),
    means="the slide moves without a break",
    title={
        "en": "Slide glissando",
        "de": "Zugglissando",
        "fr": "Glissando de coulisse",
        "it": "Glissando con la coulisse",
    },
    texts={
        "en": "Move the slide evenly along the line, without a new attack.",
        "de": "Den Zug gleichmäßig der Linie entlang bewegen, ohne neu anzustoßen.",
        "fr": "Déplacer la coulisse régulièrement le long de la ligne, sans nouvelle attaque.",
        "it": "Muovere la coulisse in modo uniforme lungo la linea, senza un nuovo attacco.",
    },
)
