"""Stopped: the hand closes the bell; the player fingers another note to get the sounding pitch."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="stopped",
    layer="bell",
    moves="hand",
    kin=("half-stopped", "muted", "ordinary"),
    needs="hand",
    bell_hand="stopped",
    takes={"bell": "be shut by the hand", "hand": "shut the bell"},
    limits={"shortest_ms": Limit(Sourced(80, HOUSE, "in less the colour is not heard"), unit="ms", side="below")},
    first_notes=Sourced(("G4", "C5"), HOUSE, "there the pitch holds; lower it is insecure, higher it tires"),
    skill=Sourced(0.4, HOUSE, "transposed fingering, resistance, and a hand that closes tight"),
    effort=Sourced(1.3, HOUSE, "more resistance, less centred notes"),
    flow=Sourced(0.8, HOUSE, "the hand holds the air back"),
    look=Look(
        script="stopped",
        cancel="open",
        cancel_script="open",
        reason=(
            "+ over every stopped note and o over the first open one: SMuFL brassMuteClosed and "
            "brassMuteOpen, which MusicXML calls stopped and open. All handbooks agree on the signs "
            "(Read, Stone, Gould; from memory). Older parts differ in whether the written note is the "
            "result or the fingering: here it is the result, and the player finds the fingering."
        ),
    ),
    sources=(
        Sourced(
            "a stopped note on the F side sounds a semitone above the fingered one",
            PRACTICE,
            "J. Ericson, Understanding stopped and muted horn",
        ),
        Sourced(
            "on the B-flat side about three quarters of a tone, so the F side is used",
            PRACTICE,
            "banddirectorstalkshop.com",
        ),
    ),
    called=(
        "hand stopped",
        "stopped horn",
        "gest",
        "stopfen",
        "gestopfter Ton",
        "bouché",
        "bouchez",
        "son bouché",
        "cuivré bouché",
        "chiuso",
        "chiusi",
        "chiusa",
    ),
    labels={
        "de": Label(cancel="offen"),
        "fr": Label(cancel="ouvert"),
        "it": Label(cancel="aperto"),
    },
    title={
        "en": "Stopped (by hand)",
        "de": "Gestopft",
        "fr": "Sons bouchés (main)",
        "it": "Suoni chiusi (con la mano)",
    },
    texts={
        "en": (
            "Close the bell tightly with the hand; the note written is the one that results. “o” or “open” ends it."
        ),
        "de": (
            "Den Schalltrichter mit der Hand fest verschließen; notiert ist der klingende gestopfte Ton, "
            "nicht der gegriffene. „o“ oder „open“ hebt es auf."
        ),
        "fr": (
            "Boucher fermement le pavillon avec la main ; la note écrite est la note obtenue. « o » ou "
            "« open » y met fin."
        ),
        "it": (
            "Chiudere bene il padiglione con la mano; la nota scritta è quella che risulta. «o» oppure "
            "«open» annulla l’effetto."
        ),
    },
    texts_where={
        "single": {
            "en": (
                "Close the bell tightly with the hand; the note written is the one that results. “o” or "
                "“open” ends it."
            ),
            "de": (
                "Den Schalltrichter mit der Hand fest verschließen; notiert ist der klingende gestopfte "
                "Ton. „o“ oder „open“ hebt es auf."
            ),
            "fr": (
                "Boucher fermement le pavillon avec la main ; la note écrite est la note obtenue. « o » "
                "ou « open » y met fin."
            ),
            "it": (
                "Chiudere bene il padiglione con la mano; la nota scritta è quella che risulta. «o» "
                "oppure «open» annulla l’effetto."
            ),
        },
    },
)
