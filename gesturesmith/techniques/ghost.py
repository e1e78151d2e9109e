"""A ghost note: half swallowed, more felt than heard."""

from gesturesmith.evidence import HOUSE, MEMORY, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="ghost",
    layer="tone",
    moves="breath and tongue",
    kin=("air-tone", "ordinary"),
    takes={"tone": "be half swallowed"},
    limits={
        "loudest": Limit(
            Sourced("mf", HOUSE, "louder it is heard as a note like the others"), unit="level", side="louder"
        ),
    },
    skill=Sourced(0.15, HOUSE, "a note half swallowed in its place"),
    effort=Sourced(1.0, HOUSE, "as plain playing"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        head="ghost",
        reason=(
            "The head in parentheses, as jazz parts have it (SMuFL noteheadParenthesis); an x-head, which some "
            "parts use, says on these pages that the pitch is approximate."
        ),
    ),
    sound=Sound(air=Sourced(0.4, HOUSE, "less tone than breath")),
    sources=(
        Sourced("noteheadParenthesis", PUBLISHED, "SMuFL 1.4"),
        Sourced("ghost notes in parentheses", MEMORY, "common practice of jazz parts"),
    ),
    called=("ghost note", "ghost notes", "ghosted", "swallowed note"),
    title={
        "en": "Ghost note",
        "de": "Verschluckter Ton",
        "fr": "Note fantôme",
        "it": "Nota fantasma",
    },
    texts={
        "en": (
            "Half swallow the notes in parentheses: they are more felt than heard, and the ones around them "
            "stand out."
        ),
        "de": (
            "Die eingeklammerten Töne halb verschlucken: Sie sind mehr zu ahnen als zu hören, die übrigen treten "
            "hervor."
        ),
        "fr": (
            "Avaler à demi les notes entre parenthèses : on les devine plus qu’on ne les entend, et les autres "
            "ressortent."
        ),
        "it": "Inghiottire a metà le note tra parentesi: si avvertono più che udirsi, e le altre risaltano.",
    },
)
