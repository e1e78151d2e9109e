"""Tapping on the bell with finger or ring."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="bell-tap",
    layer="attack",
    lines=("none",),
    pitched="none",
    tone="none",
    moves="fingers of the free hand",
    kin=("mouthpiece-pop", "valve-clicks"),
    takes={"stroke": "be a tap on the bell", "breath": "stay in", "hand": "tap on the bell"},
    limits={
        "fastest_per_s": Limit(Sourced(7, HOUSE, "fingers of one hand"), unit="1/s"),
        "shortest_ms": Limit(Sourced(40, HOUSE, "a stroke"), unit="ms", side="below"),
        "loudest": Limit(Sourced("mf", HOUSE, "harder taps dent the bell"), unit="level", side="louder"),
    },
    skill=Sourced(0.05, HOUSE, "a finger that taps"),
    effort=Sourced(0.1, HOUSE, "the lips rest"),
    flow=Sourced(0.1, HOUSE, "no breath"),
    look=Look(
        head="x",
        word="tap bell",
        cancel="ord.",
        over="tone",
        reason=(
            "An x-head with the word, as for all noises without pitch (Stone, from memory); no glyph is in use "
            "for it."
        ),
    ),
    sound=Sound(noise="tap"),
    sources=(Sourced("tapping on the bell", MEMORY, "common practice of contemporary parts"),),
    called=("tap", "taps", "tapping", "tap on the bell", "tapping on the bell"),
    labels={
        "de": Label(word="auf den Schalltrichter klopfen", over="Ton"),
        "fr": Label(word="taper sur le pavillon", over="son"),
        "it": Label(word="battere sul padiglione", over="suono"),
    },
    title={
        "en": "Tapping on the bell",
        "de": "Auf den Schalltrichter klopfen",
        "fr": "Taper sur le pavillon",
        "it": "Battere sul padiglione",
    },
    texts={
        "en": "Tap gently on the bell with the nails in the rhythm given, without blowing.",
        "de": "Mit den Nägeln im angegebenen Rhythmus behutsam auf den Schalltrichter klopfen, ohne zu blasen.",
        "fr": "Taper doucement des ongles sur le pavillon, dans le rythme indiqué, sans souffler.",
        "it": "Battere con delicatezza sul padiglione con le unghie nel ritmo indicato, senza soffiare.",
    },
)
