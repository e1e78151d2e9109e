"""A trill by the valves, with the note above."""

from gesturesmith.evidence import HOUSE, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="valve-trill",
    layer="valves",
    moves="valves",
    kin=("lip-trill", "shake"),
    needs="valves",
    trill="above",
    takes={
        "valves": "go right down",
        "fingering": "trill",
        "tube": "change with the trill",
        "trill": "trill by the valves",
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
        "shortest_ms": Limit(Sourced(250, HOUSE, "two or three strokes"), unit="ms", side="below"),
        "widest_cents": Limit(Sourced(300, HOUSE, "wider it is a tremolo of two notes"), unit="cents"),
    },
    skill=Sourced(0.15, HOUSE, "fingers that every player trains"),
    effort=Sourced(1.05, HOUSE, "fingers only"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        trill="trill",
        reason=(
            "The ordinary trill sign (SMuFL ornamentTrill) with the small accidental of the note "
            "above: without further words a player uses the valves, and the accidental shows which "
            "second it is. Over tied notes its own thin waves continue to the end of the last."
        ),
    ),
    sound=Sound(waves_hz=Sourced(6.0, HOUSE, "three strokes, down or up, in the shortest note it is asked on")),
    sources=(Sourced("valve trill", PUBLISHED, "SMuFL 1.4 brassValveTrill"),),
    called=("tr", "trill", "Triller", "trille", "trillo", "finger trill"),
    means="the valves go between the note and the one above",
    title={
        "en": "Valve trill",
        "de": "Ventiltriller",
        "fr": "Trille de pistons",
        "it": "Trillo con i pistoni",
    },
    texts={
        "en": "Trill with the valves to the note above.",
        "de": "Mit den Ventilen zur oberen Nebennote trillern.",
        "fr": "Triller avec les pistons vers la note supérieure.",
        "it": "Trillare con i pistoni con la nota superiore.",
    },
    texts_where={
        "waves": {
            "en": "Trill with the valves to the note shown, faster where the wave is closer.",
            "de": "Mit den Ventilen zu dem angegebenen Ton trillern, schneller, wo die Wellenlinie enger ist.",
            "fr": "Triller avec les pistons vers la note indiquée, plus vite là où la ligne ondulée est serrée.",
            "it": "Trillare con i pistoni con la nota indicata, più in fretta dove la linea ondulata è fitta.",
        },
        "interval": {
            "en": "Trill with the valves to the note shown.",
            "de": "Mit den Ventilen zu dem angegebenen Ton trillern.",
            "fr": "Triller avec les pistons vers la note indiquée.",
            "it": "Trillare con i pistoni con la nota indicata.",
        },
    },
)
