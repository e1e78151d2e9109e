"""Mouthpiece pop: the palm strikes the mouthpiece."""

from gesturesmith.evidence import HOUSE, PUBLISHED, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="mouthpiece-pop",
    layer="attack",
    moves="palm of the hand",
    kin=("kiss", "slap-tongue"),
    lines=("none",),
    pitched="none",
    tone="none",
    takes={"stroke": "be the palm's", "breath": "stay in", "mouthpiece": "be struck by the palm"},
    limits={
        "fastest_per_s": Limit(Sourced(4, HOUSE, "one hand"), unit="1/s"),
        "shortest_ms": Limit(Sourced(60, HOUSE, "a stroke"), unit="ms", side="below"),
        "loudest": Limit(Sourced("f", HOUSE, "harder strokes jam the mouthpiece"), unit="level", side="louder"),
    },
    skill=Sourced(0.05, HOUSE, "a stroke of the palm"),
    effort=Sourced(0.1, HOUSE, "the lips rest"),
    flow=Sourced(0.1, HOUSE, "no breath"),
    caution="caution-pop",
    look=Look(
        head="x",
        word="pop",
        cancel="ord.",
        over="tone",
        reason=(
            "x-heads with the word. SMuFL has windMouthpiecePop for it, but players know the word better than "
            "the glyph, and LilyPond's font lacks it. A stroke is over at once: it has one note value, and "
            "rests for the remainder."
        ),
    ),
    sound=Sound(noise="pop"),
    sources=(Sourced("windMouthpiecePop, U+E60A", PUBLISHED, "SMuFL 1.4"),),
    called=("pop", "popping", "hand pop", "palm pop", "Plopp", "cork pop"),
    labels={
        "de": Label(word="Plopp", over="Ton"),
        "fr": Label(word="coup sur l’embouchure", over="son"),
        "it": Label(word="colpo sul bocchino", over="suono"),
    },
    title={
        "en": "Mouthpiece pop",
        "de": "Mundstück-Plopp",
        "fr": "Coup sur l’embouchure",
        "it": "Colpo sul bocchino",
    },
    texts={
        "en": (
            "Strike the open mouthpiece with the palm of the hand, gently but crisply, so that the tube "
            "pops; the heights show only lower or higher."
        ),
        "de": (
            "Mit der flachen Hand leicht, aber knapp auf das offene Mundstück schlagen, sodass das Rohr "
            "ploppt; die Höhen zeigen nur tiefer oder höher."
        ),
        "fr": (
            "Frapper l’embouchure ouverte avec la paume, doucement mais nettement, pour faire résonner le "
            "tube ; les hauteurs indiquent seulement plus grave ou plus aigu."
        ),
        "it": (
            "Colpire il bocchino aperto con il palmo, leggermente ma con decisione, facendo risuonare il "
            "tubo; le altezze indicano solo più grave o più acuto."
        ),
    },
)
