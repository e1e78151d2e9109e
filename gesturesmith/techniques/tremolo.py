"""A tremolo between two notes with different fingerings."""

from gesturesmith.evidence import HOUSE, PRACTICE, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="tremolo",
    layer="valves",
    moves="valves or slide",
    kin=("valve-trill",),
    trill="other",
    takes={
        "valves": "go right down",
        "fingering": "alternate between two notes",
        "slide": "alternate between two notes",
        "tube": "change with the tremolo",
        "trill": "alternate between two notes",
    },
    limits={
        "waves_per_s": Limit(
            Sourced(
                7,
                PUBLISHED,
                "a finger taps 5 to 7 times a second (Neuroscience Letters 2009, doi 10.1016/j.neulet.2009.04.055)",
            ),
            unit="1/s",
        ),
        "shortest_ms": Limit(Sourced(300, HOUSE, "two or three strokes"), unit="ms", side="below"),
        "widest_cents": Limit(Sourced(500, HOUSE, "the lips cannot follow the fingers any wider"), unit="cents"),
    },
    skill=Sourced(0.3, HOUSE, "fingers far apart, and the lip between them"),
    effort=Sourced(1.1, HOUSE, "the lip follows the fingers"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        word="trem.",
        extent="span",
        reason=(
            "The word with a dashed line to its end, and the second note as a small head in parentheses after the "
            "first, as for a wide trill. Two notes with beams between them, as for strings and keyboards, would "
            "show twice the time, and slashes on the stem mean flutter-tonguing here."
        ),
    ),
    sound=Sound(waves_hz=Sourced(5.0, HOUSE, "two or three strokes in the shortest note")),
    sources=(
        Sourced(
            "tremolo of like and unlike fingerings", PRACTICE, "D. Hill, Extended Techniques for the Horn, contents"
        ),
    ),
    called=("trem", "fingered tremolo"),
    title={
        "en": "Tremolo",
        "de": "Tremolo",
        "fr": "Trémolo",
        "it": "Tremolo",
    },
    texts={
        "en": "Alternate quickly between the note and the one in parentheses, to the end of the dashed line.",
        "de": "Schnell zwischen der Note und der eingeklammerten wechseln, bis zum Ende der gestrichelten Linie.",
        "fr": "Alterner rapidement la note et celle entre parenthèses, jusqu’à la fin de la ligne en tirets.",
        "it": "Alternare rapidamente la nota e quella tra parentesi, fino alla fine della linea tratteggiata.",
    },
    texts_where={
        "waves": {
            "en": (
                "Alternate between the note and the one in parentheses as the wave above shows: faster where it "
                "is closer."
            ),
            "de": (
                "Zwischen der Note und der eingeklammerten wechseln, wie die Wellenlinie darüber zeigt: "
                "schneller, wo sie enger ist."
            ),
            "fr": (
                "Alterner la note et celle entre parenthèses suivant la ligne ondulée : plus vite là où elle est "
                "serrée."
            ),
            "it": (
                "Alternare la nota e quella tra parentesi come mostra la linea ondulata: più in fretta dove è "
                "fitta."
            ),
        },
    },
)
