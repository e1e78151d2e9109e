"""Closed: the bell, or the opening of a plunger or harmon mute, is covered."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="closed",
    layer="cover",
    moves="hand or plunger",
    kin=("half-closed", "muted", "ordinary"),
    cover="closed",
    in_hand="stopped",
    takes={"hand": "cover the bell or the mute"},
    limits={"shortest_ms": Limit(Sourced(80, HOUSE, "in less the colour is not heard"), unit="ms", side="below")},
    skill=Sourced(0.1, HOUSE, "a hand or plunger to be moved"),
    effort=Sourced(1.1, HOUSE, "a little more resistance"),
    flow=Sourced(0.9, HOUSE, "the cover holds the air back a little"),
    look=Look(
        script="stopped",
        cancel="open",
        cancel_script="open",
        reason=(
            "+ over every closed note and o over the first open one, as jazz parts have them for plunger, hat and "
            "harmon (SMuFL brassMuteClosed, brassMuteOpen): the same signs as for the hand in the bell of a horn."
        ),
    ),
    sources=(
        Sourced(
            "closed and open with a plunger, or a hand over the stem of a harmon mute",
            MEMORY,
            "jazz parts; SMuFL 1.4 brassMuteClosed and brassMuteOpen",
        ),
    ),
    called=("fermé", "zugedeckt", "chiuso", "chiusa", "chiusi"),
    labels={
        "de": Label(cancel="offen"),
        "fr": Label(cancel="ouvert"),
        "it": Label(cancel="aperto"),
    },
    title={
        "en": "Closed",
        "de": "Geschlossen",
        "fr": "Fermé",
        "it": "Chiuso",
    },
    texts={
        "en": "At + close what covers the bell or the opening of the mute; at “o” or “open” uncover it.",
        "de": (
            "Bei + den Schalltrichter oder die Öffnung des Dämpfers ganz zudecken, bei „o“ oder „open“ freigeben."
        ),
        "fr": (
            "À +, couvrir entièrement le pavillon ou l’ouverture de la sourdine ; à « o » ou « open », découvrir."
        ),
        "it": "A + coprire del tutto il padiglione o l’apertura della sordina; a «o» oppure «open» scoprire.",
    },
)
