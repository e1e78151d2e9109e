"""A glissando through the partials of one tube length; the valves stay as they are."""

from gesturesmith.evidence import HOUSE, PRACTICE, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="harmonic-gliss",
    layer="motion",
    path="partials",
    moves="lip",
    kin=("chromatic", "fingered-gliss", "lip-gliss", "slide-gliss"),
    points=(2, None),
    needs_line=True,
    tone="needs",
    takes={
        "pitch": "sweep the harmonics",
        "lips": "sweep the harmonics",
        "tube": "stay the same",
        "harmonics": "stay clear",
    },
    limits={
        "shortest_ms": Limit(Sourced(120, HOUSE, "in less the harmonics run together"), unit="ms", side="below")
    },
    skill=Sourced(0.25, HOUSE, "the lip runs up slots it knows"),
    effort=Sourced(1.2, HOUSE, "the lip crosses many partials"),
    flow=Sourced(1.15, HOUSE, "a sweep is carried by more air"),
    look=Look(
        word="harm. gliss.",
        sign="gliss.",
        small_start=True,
        partials=True,
        reason=(
            "Drawn from notehead to notehead. Sources differ in the line: Stone (from memory), SMuFL "
            "wiggleGlissando and the MusicXML glissando let a wave stand for distinct notes between and a "
            "straight line for a continuous slide; many parts use either for both. The composer chooses the "
            "line, the word says what is meant. An unmeasured start is a small head; the harmonics between "
            "are shown on notes pages and sheets, where there is time to read them."
        ),
    ),
    sources=(
        Sourced(
            "a glissando of the horn through its harmonics",
            PRACTICE,
            "D. Hill, Extended Techniques for the Horn, contents",
        ),
        Sourced(
            "glissando: distinct notes between; slide: continuous", PUBLISHED, "MusicXML 4.0, glissando and slide"
        ),
    ),
    called=(
        "gliss",
        "glissando",
        "natural gliss",
        "natural glissando",
        "overtone gliss",
        "Obertonglissando",
        "Naturton-Glissando",
        "glissando naturel",
        "glissando naturale",
    ),
    means="a sweep through the harmonics of one tube",
    labels={
        "de": Label(word="Naturtongliss."),
        "fr": Label(word="gliss. d’harmoniques"),
        "it": Label(word="gliss. di armonici"),
    },
    title={
        "en": "Harmonic glissando",
        "de": "Naturtonglissando",
        "fr": "Glissando d’harmoniques",
        "it": "Glissando di armonici",
    },
    texts={
        "en": (
            "Sweep with the lip through the harmonics of one fingering, without moving the valves, and "
            "arrive in tempo."
        ),
        "de": (
            "Mit den Lippen durch die Naturtöne eines einzigen Griffs gleiten, ohne die Ventile zu "
            "bewegen, und im Tempo ankommen."
        ),
        "fr": (
            "Balayer avec les lèvres les harmoniques d’un seul doigté, sans bouger les pistons, et "
            "arriver en mesure."
        ),
        "it": (
            "Percorrere con le labbra gli armonici di una sola posizione, senza muovere i pistoni, e "
            "arrivare a tempo."
        ),
    },
    texts_where={
        "slide": {
            "en": (
                "Sweep with the lip through the harmonics of one slide position, without moving the "
                "slide, and arrive in tempo."
            ),
            "de": (
                "Mit den Lippen durch die Naturtöne einer einzigen Lage gleiten, ohne den Zug zu "
                "bewegen, und im Tempo ankommen."
            ),
            "fr": (
                "Balayer avec les lèvres les harmoniques d’une seule position, sans bouger la coulisse, "
                "et arriver en mesure."
            ),
            "it": (
                "Percorrere con le labbra gli armonici di una sola posizione, senza muovere la "
                "coulisse, e arrivare a tempo."
            ),
        },
        "single": {
            "en": "Sweep with the lip through the harmonics, and arrive in tempo.",
            "de": "Mit den Lippen durch die Naturtöne gleiten und im Tempo ankommen.",
            "fr": "Balayer les harmoniques avec les lèvres et arriver en mesure.",
            "it": "Percorrere gli armonici con le labbra e arrivare a tempo.",
        },
    },
)
