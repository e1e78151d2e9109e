"""A short doit: off the note, upwards by about a step."""

from gesturesmith.evidence import HOUSE, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Look, Technique

TECHNIQUE = Technique(
    key="short-doit",
    layer="edge-off",
    moves="lip",
    kin=("doit", "ordinary"),
    takes={"end": "go off upward a little"},
    limits={
        "shortest_ms": Limit(Sourced(250, HOUSE, "the note itself must be heard first"), unit="ms", side="below"),
        "room_above_cents": Limit(Sourced(150, HOUSE, "about a step"), unit="cents", side="none"),
    },
    skill=Sourced(0.2, HOUSE, "a small rise"),
    effort=Sourced(1.1, HOUSE, "further from the note than plain playing"),
    flow=Sourced(1.0, HOUSE, "as plain playing"),
    look=Look(
        edge="short-doit",
        reason=(
            "A short curve upward off the head (SMuFL brassDoitShort); its length on the page is what tells it "
            "from the doit and the long doit."
        ),
    ),
    sources=(Sourced("brassDoitShort", PUBLISHED, "SMuFL 1.4"),),
    called=("kurzer Doit", "doit court", "doit corto"),
    title={
        "en": "Short doit",
        "de": "Kurzer Doit",
        "fr": "Doit court",
        "it": "Doit breve",
    },
    texts={
        "en": "Let the note rise a little at its very end, about a step.",
        "de": "Den Ton ganz am Ende ein wenig nach oben wegziehen, etwa einen Ton weit.",
        "fr": "Laisser monter la note un peu, tout à la fin, d’environ un ton.",
        "it": "Lasciar salire la nota di poco, proprio alla fine, di circa un tono.",
    },
)
