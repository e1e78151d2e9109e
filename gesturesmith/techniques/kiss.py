"""Kiss: a smack of the lips into the mouthpiece, sucked inward."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="kiss",
    layer="attack",
    moves="lips",
    kin=("mouthpiece-pop", "slap-tongue"),
    lines=("none",),
    pitched="none",
    tone="none",
    takes={"stroke": "be a smack of the lips", "breath": "stay in"},
    hampers={
        "mouthpiece": Sourced("with care", HOUSE, "the air is drawn in for the smack and blown out again after it"),
    },
    limits={
        "fastest_per_s": Limit(Sourced(3, HOUSE, "the lips must close again each time"), unit="1/s"),
        "shortest_ms": Limit(Sourced(60, HOUSE, "a smack"), unit="ms", side="below"),
        "loudest": Limit(Sourced("f", HOUSE, "the lips have no more to give"), unit="level", side="louder"),
    },
    skill=Sourced(0.15, HOUSE, "a noise that is easily learnt"),
    effort=Sourced(0.5, HOUSE, "no held tone"),
    flow=Sourced(0.1, HOUSE, "air is drawn in, not blown"),
    look=Look(
        head="x",
        word="kiss",
        cancel="ord.",
        over="tone",
        reason=(
            "x-heads for a noise without pitch (Stone, Read; from memory), distinguished from other "
            "noises by its word. A noise ends at once: it has one note value, and rests for the "
            "remainder."
        ),
    ),
    sound=Sound(noise="kiss"),
    sources=(
        Sourced("x-noteheads for what has no pitch", MEMORY, "Stone, Music Notation in the Twentieth Century"),
    ),
    called=("lip smack", "smack", "kissing", "Kussgeräusch", "bruit de baiser"),
    labels={
        "de": Label(word="Kussgeräusch", over="Ton"),
        "fr": Label(word="bruit de baiser", over="son"),
        "it": Label(word="bacio", over="suono"),
    },
    title={
        "en": "Kiss (lip smack)",
        "de": "Kussgeräusch",
        "fr": "Bruit de baiser",
        "it": "Bacio (schiocco di labbra)",
    },
    texts={
        "en": "Smack the lips into the mouthpiece by drawing air in sharply, like a kiss.",
        "de": ("Mit den Lippen ins Mundstück schmatzen und dabei die Luft scharf einziehen, wie bei einem Kuss."),
        "fr": "Faire claquer les lèvres dans l’embouchure en aspirant brusquement l’air, comme un baiser.",
        "it": "Far schioccare le labbra nel bocchino aspirando bruscamente l’aria, come un bacio.",
    },
)
