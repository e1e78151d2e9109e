"""A trill of colour: two fingerings of the same pitch."""

from gesturesmith.evidence import HOUSE, PRACTICE, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="timbre-trill",
    layer="valves",
    moves="valves or slide",
    kin=("ordinary",),
    trill="same",
    takes={
        "valves": "go right down",
        "fingering": "alternate between two of one pitch",
        "slide": "alternate between two positions",
        "tube": "alternate",
        "trill": "alternate in colour",
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
        "drift_cents": Limit(Sourced(25, HOUSE, "further apart it is heard as a trill of pitch"), unit="cents"),
    },
    skill=Sourced(0.2, HOUSE, "fingers only"),
    effort=Sourced(1.05, HOUSE, "fingers only"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        word="timbre",
        trill="trill",
        fingering=True,
        reason=(
            'The trill sign with the word "timbre", and both fingerings below, because the sign alone asks '
            "for the note above."
        ),
    ),
    sound=Sound(waves_hz=Sourced(6.0, HOUSE, "as a valve trill")),
    sources=(
        Sourced(
            "tremolo of like and unlike fingerings", PRACTICE, "D. Hill, Extended Techniques for the Horn, contents"
        ),
    ),
    called=(
        "tr",
        "trill",
        "Triller",
        "trille",
        "trillo",
        "bisb",
        "bisbigl",
        "colour trill",
        "color trill",
        "enharmonic trill",
        "Farbtriller",
        "tremolo de timbre",
    ),
    means="two fingerings of one pitch in turn",
    labels={
        "de": Label(word="Klangfarbe"),
        "it": Label(word="timbro"),
    },
    title={
        "en": "Timbre trill",
        "de": "Klangfarbentriller",
        "fr": "Trille de timbre (bisbigliando)",
        "it": "Trillo di timbro (bisbigliando)",
    },
    texts={
        "en": ("Alternate quickly between the two fingerings given; the pitch stays, only the colour changes."),
        "de": (
            "Schnell zwischen den beiden angegebenen Griffen wechseln; die Tonhöhe bleibt, nur die "
            "Klangfarbe ändert sich."
        ),
        "fr": ("Alterner rapidement les deux doigtés indiqués ; la hauteur reste la même, seul le timbre change."),
        "it": "Alternare rapidamente le due posizioni indicate; l’altezza rimane, cambia solo il timbro.",
    },
    texts_where={
        "waves": {
            "en": (
                "Alternate between two fingerings of the note, faster where the wave is closer; only the colour "
                "changes."
            ),
            "de": (
                "Zwischen zwei Griffen des Tons wechseln, schneller, wo die Wellenlinie enger ist; nur die "
                "Klangfarbe ändert sich."
            ),
            "fr": (
                "Alterner deux doigtés de la note, plus vite là où la ligne ondulée est serrée ; seul le timbre "
                "change."
            ),
            "it": (
                "Alternare due posizioni della nota, più in fretta dove la linea ondulata è fitta; cambia solo il"
                " timbro."
            ),
        },
        "slide": {
            "en": (
                "Alternate quickly between the two slide positions given; the pitch stays, only the colour changes."
            ),
            "de": (
                "Schnell zwischen den beiden angegebenen Lagen wechseln; die Tonhöhe bleibt, nur die "
                "Klangfarbe ändert sich."
            ),
            "fr": (
                "Alterner rapidement les deux positions indiquées ; la hauteur reste la même, seul le "
                "timbre change."
            ),
            "it": "Alternare rapidamente le due posizioni indicate; l’altezza rimane, cambia solo il timbro.",
        },
        "single": {
            "en": (
                "Alternate quickly between two ways of playing the note; the pitch stays, only the colour changes."
            ),
            "de": (
                "Schnell zwischen zwei Arten wechseln, den Ton hervorzubringen; die Tonhöhe bleibt, nur "
                "die Klangfarbe ändert sich."
            ),
            "fr": (
                "Alterner rapidement deux manières de produire la note ; la hauteur reste la même, seul "
                "le timbre change."
            ),
            "it": "Alternare rapidamente due modi di produrre la nota; l’altezza rimane, cambia solo il timbro.",
        },
    },
)
