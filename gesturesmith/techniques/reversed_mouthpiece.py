"""The mouthpiece reversed: air blown through it the wrong way round."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Technique

TECHNIQUE = Technique(
    key="reversed-mouthpiece",
    layer="tone",
    tone="none",
    moves="breath through the turned mouthpiece",
    kin=("air",),
    takes={"mouthpiece": "be turned round"},
    limits={
        "shortest_ms": Limit(Sourced(100, HOUSE, "the noise needs a moment to be heard"), unit="ms", side="below"),
        "loudest": Limit(Sourced("f", HOUSE, "breath has no more to give"), unit="level", side="louder"),
    },
    skill=Sourced(0.1, HOUSE, "only breath"),
    effort=Sourced(0.4, HOUSE, "the lips rest"),
    flow=Sourced(2.0, HOUSE, "nothing holds the air back"),
    look=Look(
        head="diamond",
        word="mouthpiece reversed",
        cancel="ord.",
        over="tone",
        reason=(
            "A diamond head as for air, since breath is heard and the fingering colours it; the word says with "
            "what."
        ),
    ),
    sources=(Sourced("blowing through the reversed mouthpiece", MEMORY, "common practice of contemporary parts"),),
    called=("mouthpiece reversed",),
    labels={
        "de": Label(word="Mundstück umgedreht", over="Ton"),
        "fr": Label(word="embouchure retournée", over="son"),
        "it": Label(word="bocchino rovesciato", over="suono"),
    },
    title={
        "en": "Reversed mouthpiece",
        "de": "Mundstück umgedreht",
        "fr": "Embouchure retournée",
        "it": "Bocchino rovesciato",
    },
    texts={
        "en": "Turn the mouthpiece round, hold it at the tube and blow through it, without a tone.",
        "de": "Das Mundstück umdrehen, ans Rohr halten und ohne Ton hindurchblasen.",
        "fr": "Retourner l’embouchure, la tenir contre le tube et souffler à travers, sans son.",
        "it": "Rovesciare il bocchino, tenerlo contro il tubo e soffiarvi attraverso, senza suono.",
    },
)
