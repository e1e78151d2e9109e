"""Air: breath through the instrument, without lip tone."""

from gesturesmith.evidence import HOUSE, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="air",
    layer="tone",
    moves="breath",
    kin=("air-tone",),
    tone="none",
    takes={"mouthpiece": "be blown into"},
    limits={
        "shortest_ms": Limit(Sourced(100, HOUSE, "the noise needs a moment to be heard"), unit="ms", side="below"),
        "loudest": Limit(Sourced("f", HOUSE, "breath has no more to give"), unit="level", side="louder"),
    },
    skill=Sourced(0.05, HOUSE, "nothing to learn but how much air it takes"),
    effort=Sourced(0.3, HOUSE, "the lips rest"),
    flow=Sourced(2.0, HOUSE, "nothing holds the air back"),
    look=Look(
        head="diamond",
        word="air",
        cancel="ord.",
        over="tone",
        reason=(
            "A diamond head keeps the fingering readable and cannot be taken for a tone; x-heads are "
            "reserved for approximate pitches and noises. Handbooks differ (x, diamond and triangle "
            "are all in use; from memory), so the word is printed as well, and its end."
        ),
    ),
    sources=(Sourced("the fingering of the note written colours the breath", HOUSE, "to be tried with players"),),
    called=(
        "breath",
        "breath sound",
        "breath noise",
        "air sound",
        "air noise",
        "toneless",
        "aeolian",
        "Luft",
        "Luftgeräusch",
        "tonlos",
        "souffle",
        "bruit de souffle",
        "son éolien",
        "soffio",
        "suono d’aria",
    ),
    labels={
        "de": Label(word="Luft", over="Ton"),
        "fr": Label(word="souffle", over="son"),
        "it": Label(word="soffio", over="suono"),
    },
    title={
        "en": "Air only",
        "de": "Nur Luft",
        "fr": "Souffle seul",
        "it": "Solo soffio",
    },
    texts={
        "en": (
            "Blow through the instrument without letting the lips sound; where a note is written, finger it: "
            "it colours the breath."
        ),
        "de": (
            "Luft durch das Instrument blasen, ohne dass die Lippen ansprechen; einen notierten Ton "
            "greifen, er färbt das Geräusch."
        ),
        "fr": (
            "Souffler dans l’instrument sans faire vibrer les lèvres ; doigter la note si elle est écrite : "
            "elle colore le souffle."
        ),
        "it": (
            "Soffiare nello strumento senza far vibrare le labbra; la posizione di una nota scritta "
            "colora il soffio."
        ),
    },
    texts_where={
        "slide": {
            "en": (
                "Blow through the instrument without letting the lips sound; where a note is written, take its "
                "slide position: it colours the breath."
            ),
            "de": (
                "Luft durch das Instrument blasen, ohne dass die Lippen ansprechen; die Lage eines "
                "notierten Tons nehmen, sie färbt das Geräusch."
            ),
            "fr": (
                "Souffler dans l’instrument sans faire vibrer les lèvres ; prendre la position de la "
                "note si elle est écrite : elle colore le souffle."
            ),
            "it": (
                "Soffiare nello strumento senza far vibrare le labbra; la posizione di una nota scritta "
                "colora il soffio."
            ),
        },
        "single": {
            "en": "Blow through the instrument without letting the lips sound.",
            "de": "Luft durch das Instrument blasen, ohne dass die Lippen ansprechen.",
            "fr": "Souffler dans l’instrument sans faire vibrer les lèvres.",
            "it": "Soffiare nello strumento senza far vibrare le labbra.",
        },
    },
)
