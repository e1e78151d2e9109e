"""Half-stopped: the hand half closes the bell; softer, veiled, lower."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="half-stopped",
    layer="bell",
    moves="hand",
    kin=("muted", "stopped", "ordinary"),
    needs="hand",
    bell_hand="half",
    takes={"bell": "be half shut by the hand", "hand": "half shut the bell"},
    limits={
        "shortest_ms": Limit(Sourced(100, HOUSE, "in less the colour is not heard"), unit="ms", side="below"),
        "loudest": Limit(
            Sourced(
                "mf", PRACTICE, "half to three quarters stopped is best from pp to mf, bnelsonmusic.wordpress.com"
            ),
            unit="level",
            side="louder",
        ),
    },
    skill=Sourced(0.4, HOUSE, "intonation by ear, and a hand position of its own"),
    effort=Sourced(1.15, HOUSE, "less centred notes"),
    flow=Sourced(0.9, HOUSE, "the hand holds the air back a little"),
    look=Look(
        script="half-stopped",
        cancel="open",
        cancel_script="open",
        reason=(
            "The circled half sign of SMuFL brassMuteHalfClosed over every note, o over the first open one, "
            'as for stopped notes. Sources differ: a plus in brackets and the word "half" are met too (from '
            "memory), but a bracket means a courtesy elsewhere."
        ),
    ),
    sources=(
        Sourced(
            "stopped half to three quarters, or echo",
            PRACTICE,
            "D. Hill, Extended Techniques for the Horn, contents",
        ),
    ),
    called=(
        "echo horn",
        "half stopped",
        "half hand",
        "halbgestopft",
        "mi-bouché",
        "demi-bouché",
        "son d’écho",
        "mezzo chiuso",
        "semichiuso",
    ),
    labels={
        "de": Label(cancel="offen"),
        "fr": Label(cancel="ouvert"),
        "it": Label(cancel="aperto"),
    },
    title={
        "en": "Half-stopped (echo)",
        "de": "Halb gestopft (Echo)",
        "fr": "Sons demi-bouchés (écho)",
        "it": "Suoni semichiusi (eco)",
    },
    texts={
        "en": (
            "Close the bell half to three quarters with the hand for a veiled tone; the note written is "
            "the one that results. “o” or “open” ends it."
        ),
        "de": (
            "Den Schalltrichter mit der Hand halb bis drei viertel schließen, der Ton ist verschleiert; "
            "notiert ist der klingende Ton. „o“ oder „open“ hebt es auf."
        ),
        "fr": (
            "Fermer le pavillon à moitié ou aux trois quarts avec la main pour un son voilé ; la note "
            "écrite est la note obtenue. « o » ou « open » y met fin."
        ),
        "it": (
            "Chiudere il padiglione con la mano da metà a tre quarti per un suono velato; la nota scritta "
            "è quella che risulta. «o» oppure «open» annulla l’effetto."
        ),
    },
)
