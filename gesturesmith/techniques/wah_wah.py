"""Wah-wah: a plunger, or a hand over a mute or before the bell, closes and opens again and again under a note."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="wah-wah",
    layer="cover",
    moves="hand or plunger",
    kin=("closed", "half-closed", "ordinary"),
    tone="needs",
    cover="half",
    takes={"hand": "open and close the bell or the mute"},
    limits={
        "shortest_ms": Limit(Sourced(500, HOUSE, "closed, open and closed again"), unit="ms", side="below"),
    },
    skill=Sourced(0.1, HOUSE, "a hand that keeps an even motion"),
    effort=Sourced(1.1, HOUSE, "the resistance changes all the time"),
    flow=Sourced(0.95, HOUSE, "the cover holds the air back half of the time"),
    look=Look(
        word="wah-wah",
        extent="span",
        reason=(
            "+ and o in turn over the note, as jazz parts have them (SMuFL brassMuteClosed, brassMuteOpen), closer "
            "where they come faster; after a word, since the signs show the way and not the number."
        ),
    ),
    sound=Sound(waves_hz=Sourced(2.0, HOUSE, "an easy motion of the hand, in eighths at 60"), opens=True),
    sources=(
        Sourced(
            "wah-wah with a plunger, or a hand over the stem of a harmon mute", MEMORY, "jazz parts since 1920"
        ),
    ),
    called=(
        "wah",
        "wah wah",
        "wah wah wah",
        "wa wa",
        "wa-wa",
        "wawa",
        "wow wow",
        "wow-wow",
        "doo wah",
        "ouah ouah",
        "ua ua",
    ),
    means="what covers the bell or the mute goes to and fro",
    title={
        "en": "Wah-wah",
        "de": "Wah-wah",
        "fr": "Wah-wah",
        "it": "Wah-wah",
    },
    texts={
        "en": (
            "Close (+) and open (o) the bell or the mute again and again, as far as the signs go and as fast "
            "as they "
            "come; their number is free, and after the last it is open."
        ),
        "de": (
            "Den Schalltrichter oder den Dämpfer immer wieder schließen (+) und öffnen (o), soweit die "
            "Zeichen reichen "
            "und so schnell, wie sie aufeinander folgen; ihre Zahl ist frei, und nach dem letzten ist offen."
        ),
        "fr": (
            "Fermer (+) et ouvrir (o) sans cesse le pavillon ou la sourdine, tant que durent les signes et "
            "aussi vite "
            "qu’ils se suivent ; leur nombre est libre, et après le dernier on reste ouvert."
        ),
        "it": (
            "Chiudere (+) e aprire (o) di continuo il padiglione o la sordina, finché durano i segni e con la"
            " rapidità "
            "con cui si susseguono; il loro numero è libero, e dopo l’ultimo si resta aperti."
        ),
    },
)
