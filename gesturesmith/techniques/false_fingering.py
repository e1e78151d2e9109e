"""False fingerings: one pitch repeated on its usual and on another fingering by turns."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="false-fingering",
    layer="valves",
    trill="same",
    needs="valves",
    moves="valves",
    kin=("timbre-trill", "ordinary"),
    takes={
        "valves": "go right down",
        "fingering": "take the usual and another one by turns",
        "tube": "alternate",
        "trill": "alternate in colour",
    },
    limits={
        "shortest_ms": Limit(
            Sourced(150, HOUSE, "in less the two colours are not told apart"), unit="ms", side="below"
        ),
        "drift_cents": Limit(Sourced(35, HOUSE, "further apart it is heard as two pitches"), unit="cents"),
    },
    skill=Sourced(0.2, HOUSE, "other fingerings for a note whose place is known"),
    effort=Sourced(1.05, HOUSE, "fingers only"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        word="false fing.",
        cancel="ord.",
        fingering=True,
        reason=(
            "The word with both fingerings below; jazz parts have + and o over the notes by turns, which on "
            "these pages are the hand's signs."
        ),
    ),
    sound=Sound(waves_hz=Sourced(3.0, HOUSE, "as fast as the notes that are repeated")),
    sources=(Sourced("alternate or false fingerings on a repeated note", MEMORY, "common practice of jazz parts"),),
    called=("alternate fingerings", "alternate fingering", "alt fingering"),
    labels={
        "de": Label(word="Wechselgriffe", over="Griffe ord."),
        "fr": Label(word="faux doigtés", over="doigtés ord."),
        "it": Label(word="posizioni false", over="posizioni ord."),
    },
    title={
        "en": "False fingerings",
        "de": "Wechselgriffe auf einem Ton",
        "fr": "Faux doigtés alternés",
        "it": "Posizioni false alternate",
    },
    texts={
        "en": "Repeat the note with the two fingerings given, by turns; the pitch stays, the colour changes.",
        "de": (
            "Den Ton mit den beiden angegebenen Griffen im Wechsel wiederholen; die Tonhöhe bleibt, die Farbe "
            "ändert sich."
        ),
        "fr": (
            "Répéter la note en alternant les deux doigtés indiqués ; la hauteur reste la même, le timbre change."
        ),
        "it": "Ripetere la nota alternando le due posizioni indicate; l’altezza rimane, il timbro cambia.",
    },
)
