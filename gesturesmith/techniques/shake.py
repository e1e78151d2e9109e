"""A shake: a fast, wide and rough lip trill."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="shake",
    layer="lip",
    moves="lip and jaw, or the instrument",
    kin=("lip-trill",),
    tone="needs",
    trill="neighbour",
    takes={"lips": "shake", "jaw": "shake", "harmonics": "stay clear", "trill": "shake"},
    limits={
        "waves_per_s": Limit(Sourced(9, HOUSE, "lip and jaw at their fastest"), unit="1/s"),
        "shortest_ms": Limit(Sourced(300, HOUSE, "two or three waves"), unit="ms", side="below"),
        "longest_s": Limit(Sourced(6, HOUSE, "hard on the lip"), unit="s"),
        "softest": Limit(Sourced("mp", HOUSE, "the leaps are carried by force"), unit="level", side="softer"),
        "widest_cents": Limit(Sourced(320, HOUSE, "about a minor third"), unit="cents"),
    },
    skill=Sourced(0.6, HOUSE, "a lip trill wide and rough, an idiom of lead players"),
    effort=Sourced(1.6, HOUSE, "forceful movement against the lip"),
    flow=Sourced(1.2, HOUSE, "carried by force"),
    tiring=True,
    caution="caution-lip",
    look=Look(
        word="shake",
        extent="span",
        reason=(
            "Jazz parts draw a wave over the note (SMuFL wiggles). Here only the contour is wavy, so "
            "the word has a dashed line and a hook, and the harmonic above is a small head in "
            "parentheses after the note."
        ),
    ),
    sound=Sound(waves_hz=Sourced(8.0, HOUSE, "two or three waves in the shortest note it is asked on")),
    sources=(Sourced("shake, a sign of jazz parts", MEMORY, "common practice"),),
    called=("lip shake", "jazz shake"),
    title={
        "en": "Shake",
        "de": "Shake",
        "fr": "Shake",
        "it": "Shake",
    },
    texts={
        "en": ("Shake the note fast and wide up to the next harmonic and back, to the end of the dashed line."),
        "de": (
            "Den Ton schnell und weit zum nächsthöheren Naturton und zurück schütteln, bis zum Ende der "
            "gestrichelten Linie."
        ),
        "fr": (
            "Secouer la note, vite et largement, vers l’harmonique supérieur et retour, jusqu’à la fin de "
            "la ligne en tirets."
        ),
        "it": (
            "Scuotere la nota, in modo rapido e ampio, verso l’armonico superiore e ritorno, fino alla "
            "fine della linea tratteggiata."
        ),
    },
    texts_where={
        "interval": {
            "en": (
                "Shake the note fast and wide up to the one in parentheses and back, to the end of the dashed line."
            ),
            "de": (
                "Den Ton schnell und weit zu dem eingeklammerten und zurück schütteln, bis zum Ende der "
                "gestrichelten Linie."
            ),
            "fr": (
                "Secouer la note, vite et largement, vers celle entre parenthèses et retour, jusqu’à la fin de la"
                " ligne en tirets."
            ),
            "it": (
                "Scuotere la nota, in modo rapido e ampio, verso quella tra parentesi e ritorno, fino alla fine "
                "della linea tratteggiata."
            ),
        },
        "waves": {
            "en": (
                "Shake the note up to the one in parentheses and back as the wave above shows: faster where it is "
                "closer, wider where it is higher."
            ),
            "de": (
                "Den Ton zu dem eingeklammerten und zurück schütteln, wie die Wellenlinie darüber zeigt: "
                "schneller, wo sie enger, weiter, wo sie höher ist."
            ),
            "fr": (
                "Secouer la note vers celle entre parenthèses et retour suivant la ligne ondulée : plus vite là où"
                " elle est serrée, plus largement là où elle est haute."
            ),
            "it": (
                "Scuotere la nota verso quella tra parentesi e ritorno come mostra la linea ondulata: più in "
                "fretta dove è fitta, più ampiamente dove è alta."
            ),
        },
    },
)
