"""Bells up: the bell raised, for a direct and brighter sound."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="bells-up",
    layer="bell",
    moves="the instrument",
    kin=("ordinary",),
    hampers={
        "hand": Sourced("with care", HOUSE, "the hand that helps to hold up the bell works less well in it"),
    },
    limits={"longest_s": Limit(Sourced(30, HOUSE, "the arms tire, and the mouthpiece sits otherwise"), unit="s")},
    skill=Sourced(0.15, HOUSE, "the same notes with the mouthpiece in another place"),
    effort=Sourced(1.2, HOUSE, "arms and embouchure are in an unusual place"),
    flow=Sourced(1.1, HOUSE, "usually played out"),
    loud=True,
    look=Look(
        word="bells up",
        cancel="bells normal",
        reason=(
            'Words with their end, as orchestral parts have it ("Schalltrichter auf", "pavillons en l\'air"); '
            "no glyph is in use."
        ),
    ),
    sound=Sound(colour="bell-raised"),
    sources=(Sourced("Schalltrichter auf, as in the symphonies of Mahler", MEMORY, "common practice"),),
    called=(
        "bell up",
        "bells in the air",
        "Stürze hoch",
        "Schalltrichter hoch",
        "Schallbecher hoch",
        "pavillons en l’air",
        "campane in aria",
        "campana in aria",
    ),
    labels={
        "de": Label(word="Schalltrichter hoch", cancel="Schalltrichter normal"),
        "fr": Label(word="pavillon en l’air", cancel="pavillon normal"),
        "it": Label(word="padiglione in alto", cancel="padiglione normale"),
    },
    title={
        "en": "Bells up",
        "de": "Schalltrichter auf",
        "fr": "Pavillon en l’air",
        "it": "Padiglione in alto",
    },
    texts={
        "en": "Raise the bell and aim it towards the audience until “bells normal”.",
        "de": "Den Schalltrichter heben und ins Publikum richten, bis „bells normal“ steht.",
        "fr": "Lever le pavillon et le diriger vers le public jusqu’à « bells normal ».",
        "it": "Alzare il padiglione e dirigerlo verso il pubblico fino a «bells normal».",
    },
)
