"""A rip: a fast, forceful run through the harmonics up into the note."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="rip",
    layer="edge-in",
    moves="lip",
    kin=("scoop", "ordinary"),
    takes={"beginning": "come through the harmonics below"},
    limits={
        "room_below_cents": Limit(
            Sourced(700, HOUSE, "a few harmonics to tear through"), unit="cents", side="none"
        ),
        "shortest_ms": Limit(
            Sourced(200, HOUSE, "the note must still be heard after the rip"), unit="ms", side="below"
        ),
        "softest": Limit(Sourced("mf", HOUSE, "a rip is carried by force"), unit="level", side="softer"),
    },
    skill=Sourced(0.3, HOUSE, "a run through the harmonics that must stop on its note"),
    effort=Sourced(1.2, HOUSE, "a burst upward"),
    flow=Sourced(1.2, HOUSE, "a burst of air"),
    loud=True,
    look=Look(
        edge="rip",
        reason=(
            "A steep line up to the head that is longer and straighter than a scoop; SMuFL has no glyph of "
            "that name (brassLiftShort is the nearest form, and means a lift). Sources differ: jazz parts "
            "draw it as a short glissando from nowhere, others write the harmonics as small notes, which asks "
            "for exact ones."
        ),
    ),
    sound=Sound(through_harmonics=True),
    sources=(Sourced("rip or smear", PRACTICE, "D. Hill, Extended Techniques for the Horn, contents"),),
    called=("whoop", "gliss into", "Hinaufreißen", "arraché", "strappata", "strappato"),
    means="a quick climb through the harmonics into the note",
    title={
        "en": "Rip",
        "de": "Rip (Hinaufreißen)",
        "fr": "Rip (montée arrachée)",
        "it": "Rip (strappata verso l’alto)",
    },
    texts={
        "en": (
            "Tear up into the note from far below, fast and with force, through the harmonics; the note "
            "itself comes on time."
        ),
        "de": (
            "Von weit unten schnell und mit Kraft durch die Naturtöne in den Ton hinaufreißen; der Ton "
            "selbst kommt genau auf den Schlag."
        ),
        "fr": (
            "Monter vers la note depuis le grave d’un geste rapide et énergique, à travers les "
            "harmoniques ; la note elle-même tombe sur le temps."
        ),
        "it": (
            "Salire di strappo verso la nota da molto sotto, con forza, attraverso gli armonici; la nota "
            "stessa arriva a tempo."
        ),
    },
)
