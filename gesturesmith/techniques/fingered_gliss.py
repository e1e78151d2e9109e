"""A glissando with fluttered valves, while the lip moves the pitch."""

from gesturesmith.evidence import HOUSE, PRACTICE, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="fingered-gliss",
    layer="motion",
    path="valves",
    moves="valves and lip",
    kin=("chromatic", "harmonic-gliss", "slide-gliss", "half-valve", "lip-gliss"),
    points=(2, None),
    needs_line=True,
    needs="valves",
    takes={
        "pitch": "slide under fluttering valves",
        "lips": "follow the line",
        "valves": "flutter",
        "fingering": "change at random",
        "tube": "change at random",
    },
    limits={
        "shortest_ms": Limit(Sourced(200, HOUSE, "two or three strokes of the valves"), unit="ms", side="below"),
        "narrowest_cents": Limit(
            Sourced(300, HOUSE, "in less than a minor third it is heard as a trill"),
            unit="cents",
            side="below",
        ),
    },
    skill=Sourced(0.35, HOUSE, "fingers and lip go by separate ways"),
    effort=Sourced(1.15, HOUSE, "lip and fingers work together"),
    flow=Sourced(1.1, HOUSE, "a sweep is carried by more air"),
    look=Look(
        word="valve gliss.",
        sign="gliss.",
        reason=(
            "Named after what moves, like the other glissandos. SMuFL has no sign for it; a trill "
            "line, used in some parts, would read as a trill, and only the contour is wavy here."
        ),
    ),
    sources=(Sourced("valve flutter glissando", PRACTICE, "D. Hill, Extended Techniques for the Horn, contents"),),
    called=("gliss", "glissando", "fingered glissando", "valve gliss", "valve glissando", "finger gliss"),
    means="the valves flutter while the lip slides",
    labels={
        "de": Label(word="Ventilgliss."),
        "fr": Label(word="gliss. de pistons"),
        "it": Label(word="gliss. con i pistoni"),
    },
    labels_of_hand={
        "fr": Label(word="gliss. de palettes"),
        "it": Label(word="gliss. con i cilindri"),
    },
    title={
        "en": "Valve-flutter glissando",
        "de": "Ventilglissando",
        "fr": "Glissando avec battement de pistons",
        "it": "Glissando con i pistoni",
    },
    texts={
        "en": "Flutter the valves quickly and at random while the lip follows the line.",
        "de": "Die Ventile schnell und ungeordnet bewegen, während die Lippen der Linie folgen.",
        "fr": "Agiter rapidement les pistons, au hasard, pendant que les lèvres suivent la ligne.",
        "it": "Muovere rapidamente i pistoni, a caso, mentre le labbra seguono la linea.",
    },
)
