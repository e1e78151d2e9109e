"""A spill: a fall through the harmonics of the fingering."""

from gesturesmith.evidence import HOUSE, MEMORY, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Look, Sound, Technique

TECHNIQUE = Technique(
    key="spill",
    layer="edge-off",
    moves="lip",
    kin=("fall", "ordinary"),
    takes={"end": "tumble down the harmonics"},
    limits={
        "shortest_ms": Limit(Sourced(400, HOUSE, "the note itself must be heard first"), unit="ms", side="below"),
        "room_below_cents": Limit(Sourced(1200, HOUSE, "harmonics to fall through"), unit="cents", side="none"),
    },
    skill=Sourced(0.3, HOUSE, "a fall that names the harmonics on its way"),
    effort=Sourced(1.05, HOUSE, "the lip lets go"),
    flow=Sourced(1.05, HOUSE, "a push of air at the end"),
    look=Look(
        edge="spill",
        reason=(
            "A jagged line downward off the head: a rough fall (SMuFL brassFallRoughMedium) goes from harmonic "
            "to harmonic, where the plain curve slides."
        ),
    ),
    sound=Sound(fades=True, through_harmonics=True),
    sources=(
        Sourced("brassFallRoughShort, brassFallRoughMedium, brassFallRoughLong", PUBLISHED, "SMuFL 1.4"),
        Sourced("spills among the horn's effects", MEMORY, "D. Hill, Extended Techniques for the Horn"),
    ),
    called=("rough fall",),
    title={
        "en": "Spill",
        "de": "Spill (durch die Naturtöne abfallen)",
        "fr": "Spill (chute par les harmoniques)",
        "it": "Spill (caduta per gli armonici)",
    },
    texts={
        "en": (
            "Hold the note, then tumble down through the harmonics of its fingering without stopping on any; "
            "where it ends is free."
        ),
        "de": (
            "Den Ton halten, dann durch die Naturtöne seines Griffs hinabstürzen, ohne auf einem zu bleiben; das "
            "Ende ist frei."
        ),
        "fr": (
            "Tenir la note, puis dégringoler à travers les harmoniques de son doigté sans s’arrêter sur aucun ; "
            "la fin est libre."
        ),
        "it": (
            "Tenere la nota, poi precipitare attraverso gli armonici della sua posizione senza fermarsi; la fine "
            "è libera."
        ),
    },
    texts_where={
        "slide": {
            "en": (
                "Hold the note, then tumble down through the harmonics of its slide position without stopping on "
                "any; where it ends is free."
            ),
            "de": (
                "Den Ton halten, dann durch die Naturtöne seiner Lage hinabstürzen, ohne auf einem zu bleiben; "
                "das Ende ist frei."
            ),
            "fr": (
                "Tenir la note, puis dégringoler à travers les harmoniques de sa position sans s’arrêter sur "
                "aucun ; la fin est libre."
            ),
            "it": (
                "Tenere la nota, poi precipitare attraverso gli armonici della sua posizione senza fermarsi; la "
                "fine è libera."
            ),
        },
        "single": {
            "en": (
                "Hold the note, then tumble down through the harmonics without stopping on any; where it ends is "
                "free."
            ),
            "de": (
                "Den Ton halten, dann durch die Naturtöne hinabstürzen, ohne auf einem zu bleiben; das Ende ist "
                "frei."
            ),
            "fr": (
                "Tenir la note, puis dégringoler à travers les harmoniques sans s’arrêter sur aucun ; la fin est "
                "libre."
            ),
            "it": "Tenere la nota, poi precipitare attraverso gli armonici senza fermarsi; la fine è libera.",
        },
    },
)
