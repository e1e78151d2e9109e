"""Ordinary playing: the default of a gesture; `as ordinary` goes back to it and ends everything else."""

from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.techniques.base import Look, Technique

TECHNIQUE = Technique(
    key="ordinary",
    layer="none",
    moves="lip, tongue and valves as always",
    skill=Sourced(0.0, DERIVED, "the measure of all others"),
    effort=Sourced(1.0, DERIVED, "the measure of all others"),
    flow=Sourced(1.0, DERIVED, "the measure of all others"),
    look=Look(
        reason=(
            "Nothing is printed: an unnecessary sign is one more thing to read. Returning to it is "
            'shown by the "ord." that other techniques print at their end.'
        )
    ),
    called=(
        "ord",
        "ordinario",
        "normal",
        "norm",
        "normale",
        "naturale",
        "nat",
        "natural",
        "plain",
        "regular",
        "gewöhnlich",
        "normal spielen",
        "offen",
        "ouvert",
        "aperto",
        "open",
        "senza sord",
        "senza sordino",
        "senza sordina",
        "ohne Dämpfer",
        "sans sourdine",
    ),
    title={
        "en": "Ordinary playing",
        "de": "Normale Spielweise",
        "fr": "Jeu ordinaire",
        "it": "Modo ordinario",
    },
    texts={
        "en": "Play in the ordinary way.",
        "de": "In gewöhnlicher Weise spielen.",
        "fr": "Jouer de manière ordinaire.",
        "it": "Suonare in modo ordinario.",
    },
)
