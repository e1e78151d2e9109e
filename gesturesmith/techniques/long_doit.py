"""A long doit: off the note, far upwards."""

from gesturesmith.evidence import HOUSE, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="long-doit",
    layer="edge-off",
    moves="lip",
    kin=("doit", "ordinary"),
    takes={"end": "go off upward far"},
    limits={
        "shortest_ms": Limit(Sourced(900, HOUSE, "the note itself must be heard first"), unit="ms", side="below"),
        "room_above_cents": Limit(
            Sourced(1200, HOUSE, "an octave, as its instruction asks"), unit="cents", side="none"
        ),
    },
    skill=Sourced(0.35, HOUSE, "far beyond the note, without losing the tone"),
    effort=Sourced(1.15, HOUSE, "further from the note than plain playing"),
    flow=Sourced(1.1, HOUSE, "a long breath after the note"),
    look=Look(
        edge="long-doit",
        reason=(
            "A long curve upward off the head (SMuFL brassDoitLong); its length on the page is what tells it "
            "from the doit and the short doit."
        ),
    ),
    sound=Sound(edge_share=Sourced(0.75, HOUSE, "most of the note")),
    sources=(Sourced("brassDoitLong", PUBLISHED, "SMuFL 1.4"),),
    called=("langer Doit", "doit long", "doit lungo"),
    title={
        "en": "Long doit",
        "de": "Langer Doit",
        "fr": "Doit long",
        "it": "Doit lungo",
    },
    texts={
        "en": (
            "Hold the note briefly, then pull it away slowly and far upward, an octave or more; where it ends is "
            "free."
        ),
        "de": (
            "Den Ton kurz halten, dann langsam und weit nach oben wegziehen, eine Oktave oder mehr; das Ende ist "
            "frei."
        ),
        "fr": (
            "Tenir brièvement la note, puis la quitter lentement et loin vers l’aigu, d’une octave ou plus ; la "
            "fin est libre."
        ),
        "it": (
            "Tenere brevemente la nota, poi lasciarla lentamente e lontano verso l’alto, di un’ottava o più; la "
            "fine è libera."
        ),
    },
)
