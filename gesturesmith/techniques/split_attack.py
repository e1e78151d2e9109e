"""Split attack: hard, spat with the tongue, the pitch only approximate."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="split-attack",
    layer="attack",
    moves="tongue and air",
    kin=("ordinary",),
    pitched="about",
    rate="split_attack",
    takes={"stroke": "be spat", "tonguing": "strike a tone"},
    limits={
        "shortest_ms": Limit(Sourced(60, HOUSE, "a burst"), unit="ms", side="below"),
        "longest_s": Limit(Sourced(8, HOUSE, "hard on the lips"), unit="s"),
        "softest": Limit(Sourced("mf", HOUSE, "the burst comes with force"), unit="level", side="softer"),
    },
    skill=Sourced(0.5, HOUSE, "notes cracked on purpose, against all training"),
    effort=Sourced(1.4, HOUSE, "a burst of force on every note"),
    flow=Sourced(1.1, HOUSE, "bursts of air"),
    tiring=True,
    loud=True,
    caution="caution-lip",
    look=Look(
        word="split attack",
        cancel="ord.",
        over="attack ord.",
        reason=(
            "A word with its end, and x-heads if the pitch is written as approximate, as it should "
            "be; no glyph is in use, and an accent alone would ask for the note itself."
        ),
    ),
    sound=Sound(splits=True),
    sources=(
        Sourced(
            "split tongue among the ways of tonguing",
            PRACTICE,
            "D. Hill, Extended Techniques for the Horn, contents",
        ),
    ),
    called=("split tonguing", "spit attack", "spat", "gespuckt"),
    labels={
        "de": Label(word="gespuckter Anstoß", over="Anstoß ord."),
        "fr": Label(word="attaque fendue", over="attaque ord."),
        "it": Label(over="attacco ord."),
    },
    title={
        "en": "Split attack (split tongue)",
        "de": "Gespuckter Anstoß (Split Attack)",
        "fr": "Attaque fendue (split attack)",
        "it": "Split attack (attacco scroccato)",
    },
    texts={
        "en": ("Spit the note out hard from between the lips, so that it cracks; the pitch is only approximate."),
        "de": (
            "Den Ton mit der Zunge hart zwischen den Lippen herausspucken, sodass er kiekst; die Tonhöhe "
            "ist nur ungefähr."
        ),
        "fr": (
            "Cracher la note durement, la langue entre les lèvres, de façon qu’elle se fende ; la hauteur "
            "n’est qu’approximative."
        ),
        "it": (
            "Sputare la nota con forza, con la lingua tra le labbra, in modo che si scrocchi; l’altezza è "
            "solo approssimativa."
        ),
    },
)
