"""A fast chromatic run in place of a slide."""

from gesturesmith.evidence import DERIVED, HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="chromatic",
    layer="motion",
    path="steps",
    moves="valves or slide",
    kin=("fingered-gliss", "harmonic-gliss", "slide-gliss", "lip-gliss"),
    points=(2, None),
    needs_line=True,
    takes={
        "pitch": "run in semitones",
        "lips": "run from note to note",
        "fingering": "run through the semitones",
        "tube": "change with every note",
    },
    limits={
        "narrowest_cents": Limit(
            Sourced(200, DERIVED, "within less than two semitones there is no note to run through"),
            unit="cents",
            side="below",
        )
    },
    skill=Sourced(0.1, HOUSE, "a scale every player practises"),
    effort=Sourced(1.0, HOUSE, "as plain playing"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        word="chrom.",
        reason=(
            "The word asks for fingered notes where the line alone would leave the choice to the "
            'player; parts abbreviate it as "chrom.". The alternative is to write out the notes: '
            "exact, but a run this fast is read as a line."
        ),
    ),
    sources=(Sourced("chromatic glissando", PRACTICE, "D. Hill, Extended Techniques for the Horn, contents"),),
    called=(
        "run",
        "scale",
        "chromatic scale",
        "chromatic gliss",
        "Lauf",
        "Tonleiter",
        "gamme",
        "scala",
        "scala cromatica",
    ),
    labels={
        "it": Label(word="crom."),
    },
    title={
        "en": "Chromatic run",
        "de": "Chromatischer Lauf",
        "fr": "Trait chromatique",
        "it": "Passaggio cromatico",
    },
    texts={
        "en": "Fill the line with a fast chromatic run, slurred and even, and arrive in tempo.",
        "de": (
            "Die Linie mit einem schnellen chromatischen Lauf füllen, gebunden und gleichmäßig, und im "
            "Tempo ankommen."
        ),
        "fr": "Remplir la ligne par un trait chromatique rapide, lié et régulier, et arriver en mesure.",
        "it": "Riempire la linea con un rapido passaggio cromatico, legato e uniforme, e arrivare a tempo.",
    },
)
