"""Half closed: the bell, or the opening of a plunger or harmon mute, is half covered."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="half-closed",
    layer="cover",
    moves="hand or plunger",
    kin=("closed", "muted", "ordinary"),
    cover="half",
    in_hand="half-stopped",
    takes={"hand": "half cover the bell or the mute"},
    limits={"shortest_ms": Limit(Sourced(100, HOUSE, "in less the colour is not heard"), unit="ms", side="below")},
    skill=Sourced(0.15, HOUSE, "a hand or plunger to be held in between"),
    effort=Sourced(1.05, HOUSE, "a little more resistance"),
    flow=Sourced(0.95, HOUSE, "the cover holds the air back a little"),
    look=Look(
        script="half-stopped",
        cancel="open",
        cancel_script="open",
        reason=(
            "The circled half sign of SMuFL brassMuteHalfClosed over every note, o over the first open one, as for "
            "closed notes."
        ),
    ),
    sources=(
        Sourced(
            "half closed with a plunger, or a hand over the stem of a harmon mute",
            MEMORY,
            "jazz parts; SMuFL 1.4 brassMuteHalfClosed",
        ),
    ),
    called=("half open", "half plunger", "halb zugedeckt", "mi-fermé", "semichiuso"),
    labels={
        "de": Label(cancel="offen"),
        "fr": Label(cancel="ouvert"),
        "it": Label(cancel="aperto"),
    },
    title={
        "en": "Half closed",
        "de": "Halb geschlossen",
        "fr": "Mi-fermé",
        "it": "Semichiuso",
    },
    texts={
        "en": "At the sign cover the bell or the opening of the mute by half; at “o” or “open” uncover it.",
        "de": (
            "Bei dem Zeichen den Schalltrichter oder die Öffnung des Dämpfers halb zudecken, "
            "bei „o“ oder „open“ freigeben."
        ),
        "fr": (
            "Au signe, couvrir à moitié le pavillon ou l’ouverture de la sourdine ; à « o » ou « open », découvrir."
        ),
        "it": "Al segno coprire a metà il padiglione o l’apertura della sordina; a «o» oppure «open» scoprire.",
    },
)
