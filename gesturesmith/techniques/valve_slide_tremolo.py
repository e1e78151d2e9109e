"""A tremolo of a valve slide: it is pushed in and out quickly while the note sounds."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="valve-slide-tremolo",
    layer="valves",
    needs="valve-slide",
    tone="needs",
    moves="a valve slide, with the hand that holds the instrument",
    kin=("vibrato", "ordinary"),
    takes={"slide": "be pushed in and out", "tube": "waver", "jaw": "stay still"},
    limits={
        "waves_per_s": Limit(Sourced(6, HOUSE, "a hand pushes and pulls"), unit="1/s"),
        "shortest_ms": Limit(Sourced(400, HOUSE, "two or three waves"), unit="ms", side="below"),
    },
    skill=Sourced(0.4, HOUSE, "a slide moved quickly under a steady tone"),
    effort=Sourced(1.05, HOUSE, "a small movement of the hand"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        word="slide trem.",
        extent="span",
        reason=(
            "The word with a dashed line and a hook, as for any lasting change of tone; slashes on the stem would "
            "mean flutter-tonguing."
        ),
    ),
    sound=Sound(
        waves_hz=Sourced(5.0, HOUSE, "two waves in the shortest note"),
        vibrato_cents=Sourced(35, HOUSE, "a few centimetres, little compared with the tube"),
    ),
    sources=(
        Sourced(
            "the third valve slide of the trumpet moved quickly in and out",
            MEMORY,
            "common practice of contemporary parts",
        ),
    ),
    called=("third slide tremolo",),
    labels={
        "de": Label(word="Zugtrem."),
        "fr": Label(word="trém. de coulisse"),
        "it": Label(word="trem. con la pompa"),
    },
    title={
        "en": "Valve-slide tremolo",
        "de": "Tremolo mit dem Ventilzug",
        "fr": "Trémolo de coulisse de piston",
        "it": "Tremolo con la pompa del pistone",
    },
    texts={
        "en": "Push a valve slide quickly in and out while the note sounds, to the end of the dashed line.",
        "de": (
            "Einen Ventilzug schnell hinein- und hinausschieben, während der Ton klingt, bis zum Ende der "
            "gestrichelten Linie."
        ),
        "fr": (
            "Pousser et tirer rapidement une coulisse de piston pendant que la note sonne, jusqu’à la fin de la "
            "ligne en tirets."
        ),
        "it": (
            "Spingere e tirare rapidamente una pompa dei pistoni mentre la nota suona, fino alla fine della "
            "linea tratteggiata."
        ),
    },
    texts_where={
        "waves": {
            "en": (
                "Push a valve slide in and out while the note sounds as the wave above shows: faster where it is "
                "closer."
            ),
            "de": (
                "Einen Ventilzug hinein- und hinausschieben, während der Ton klingt, wie die Wellenlinie darüber "
                "zeigt: schneller, wo sie enger ist."
            ),
            "fr": (
                "Pousser et tirer une coulisse de piston pendant que la note sonne, suivant la ligne ondulée : "
                "plus vite là où elle est serrée."
            ),
            "it": (
                "Spingere e tirare una pompa dei pistoni mentre la nota suona, come mostra la linea ondulata: più"
                " in fretta dove è fitta."
            ),
        },
    },
)
