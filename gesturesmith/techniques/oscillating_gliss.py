"""An oscillating glissando: the lip goes to and fro through the harmonics on its way."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="oscillating-gliss",
    layer="motion",
    path="partials",
    points=(2, None),
    needs_line=True,
    tone="needs",
    tiring=True,
    caution="caution-lip",
    moves="lip",
    kin=("harmonic-gliss", "lip-gliss", "chromatic"),
    takes={
        "pitch": "sweep the harmonics to and fro",
        "lips": "sweep to and fro",
        "tube": "stay the same",
        "harmonics": "stay clear",
    },
    limits={
        "waves_per_s": Limit(Sourced(6, HOUSE, "each turn is to be followed by ear"), unit="1/s"),
        "shortest_ms": Limit(Sourced(600, HOUSE, "two or three times to and fro"), unit="ms", side="below"),
        "longest_s": Limit(Sourced(8, HOUSE, "the lip works all the time"), unit="s"),
    },
    skill=Sourced(0.5, HOUSE, "the lip turns round again and again among the harmonics"),
    effort=Sourced(1.4, HOUSE, "the lip crosses many harmonics again and again"),
    flow=Sourced(1.2, HOUSE, "a sweep is carried by more air"),
    look=Look(
        word="osc. gliss.",
        sign="gliss.",
        reason=(
            "In words over the line, since the line says where it goes in the end and not each turn on the way; "
            "a wave belongs to the contour."
        ),
    ),
    sound=Sound(
        waves_hz=Sourced(4.0, HOUSE, "two or three turns in the shortest that is asked for"),
        vibrato_cents=Sourced(150, HOUSE, "a step between high harmonics"),
    ),
    sources=(
        Sourced("oscillating among the ways of the glissando", MEMORY, "common practice of contemporary parts"),
    ),
    called=(
        "oscillating glissando",
        "wavering gliss",
        "oszillierendes Glissando",
        "glissando oscillant",
        "glissando oscillante",
    ),
    labels={
        "de": Label(word="pendelndes Gliss."),
        "fr": Label(word="gliss. oscillant"),
        "it": Label(word="gliss. oscillante"),
    },
    title={
        "en": "Oscillating glissando",
        "de": "Pendelndes Glissando",
        "fr": "Glissando oscillant",
        "it": "Glissando oscillante",
    },
    texts={
        "en": (
            "Sweep to and fro through the harmonics of one length of tube, a step or two each way, and reach the "
            "end of the line in tempo."
        ),
        "de": (
            "Durch die Naturtöne einer Rohrlänge hin und her gleiten, jeweils einen oder zwei weit, und das Ende "
            "der Linie im Tempo erreichen."
        ),
        "fr": (
            "Balayer en va-et-vient les harmoniques d’une seule longueur de tube, un ou deux à la fois, et "
            "arriver en mesure au bout de la ligne."
        ),
        "it": (
            "Percorrere avanti e indietro gli armonici di una sola lunghezza del tubo, uno o due alla volta, e "
            "arrivare a tempo alla fine della linea."
        ),
    },
    texts_where={
        "waves": {
            "en": (
                "Sweep to and fro through the harmonics of one length of tube along the line, faster where the "
                "wave above is closer."
            ),
            "de": (
                "Entlang der Linie durch die Naturtöne einer Rohrlänge hin und her gleiten, schneller, wo die "
                "Wellenlinie darüber enger ist."
            ),
            "fr": (
                "Balayer en va-et-vient les harmoniques d’une seule longueur de tube le long de la ligne, plus "
                "vite là où la ligne ondulée est serrée."
            ),
            "it": (
                "Oscillare fra gli armonici di una sola lunghezza di tubo lungo la linea, più in fretta dove la "
                "linea ondulata è fitta."
            ),
        },
    },
)
