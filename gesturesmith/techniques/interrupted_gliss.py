"""An interrupted glissando: the sweep through the harmonics is cut again and again."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="interrupted-gliss",
    layer="motion",
    path="partials",
    points=(2, None),
    needs_line=True,
    tone="needs",
    moves="lip and breath",
    kin=("harmonic-gliss", "chromatic"),
    takes={
        "pitch": "sweep the harmonics in pieces",
        "lips": "sweep the harmonics in pieces",
        "tube": "stay the same",
        "harmonics": "stay clear",
        "breath": "be cut again and again",
    },
    limits={
        "shortest_ms": Limit(Sourced(600, HOUSE, "three or four pieces"), unit="ms", side="below"),
        "cycles_hz": Limit(
            Sourced((4, 6), HOUSE, "as fast as the breath can be cut and started"), unit="Hz", side="none"
        ),
        "cycle_periods": Limit(
            Sourced(3, HOUSE, "fewer periods in a piece leave no pitch"), unit="periods", side="below"
        ),
    },
    skill=Sourced(0.4, HOUSE, "a glissando that stops and finds its place again"),
    effort=Sourced(1.3, HOUSE, "the lip starts anew each time"),
    flow=Sourced(1.1, HOUSE, "a sweep is carried by more air"),
    look=Look(
        word="interrupted gliss.",
        sign="gliss.",
        reason=(
            "In words over the line: a broken line would say that the movement is only suggested, and rests "
            "would fix where it is cut."
        ),
    ),
    sources=(
        Sourced("interrupted among the ways of the glissando", MEMORY, "common practice of contemporary parts"),
    ),
    called=(
        "interrupted glissando",
        "broken gliss",
        "unterbrochenes Glissando",
        "glissando interrompu",
        "glissando interrotto",
    ),
    labels={
        "de": Label(word="unterbrochenes Gliss."),
        "fr": Label(word="gliss. interrompu"),
        "it": Label(word="gliss. interrotto"),
    },
    title={
        "en": "Interrupted glissando",
        "de": "Unterbrochenes Glissando",
        "fr": "Glissando interrompu",
        "it": "Glissando interrotto",
    },
    texts={
        "en": (
            "Sweep through the harmonics of one length of tube, but cut the air for a moment again and again on "
            "the way."
        ),
        "de": (
            "Durch die Naturtöne einer Rohrlänge gleiten, dabei die Luft unterwegs immer wieder kurz unterbrechen."
        ),
        "fr": (
            "Balayer les harmoniques d’une seule longueur de tube en coupant l’air un instant, à plusieurs "
            "reprises."
        ),
        "it": (
            "Percorrere gli armonici di una sola lunghezza del tubo interrompendo più volte l’aria per un istante."
        ),
    },
)
