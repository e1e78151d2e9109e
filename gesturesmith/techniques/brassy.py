"""Brassy (cuivré): the tone forced until it has a metallic edge."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="brassy",
    layer="tone",
    moves="air and lip",
    kin=("ordinary",),
    tone="needs",
    takes={"tone": "be forced"},
    limits={
        "shortest_ms": Limit(Sourced(80, HOUSE, "in less it is heard as an accent"), unit="ms", side="below"),
        "longest_s": Limit(Sourced(15, HOUSE, "full force all the time"), unit="s"),
        "softest": Limit(
            Sourced("mf", HOUSE, "the edge comes with force; stopped, it comes earlier"),
            unit="level",
            side="softer",
        ),
    },
    skill=Sourced(0.25, HOUSE, "a controlled extreme of the tone"),
    effort=Sourced(1.4, HOUSE, "full force"),
    flow=Sourced(1.25, HOUSE, "full force"),
    tiring=True,
    loud=True,
    look=Look(
        word="cuivré",
        cancel="ord.",
        reason=(
            "The French word is read by players everywhere (Read, from memory); German parts have "
            '"schmetternd" for the same. A glyph is not in use.'
        ),
    ),
    sound=Sound(colour="brassy"),
    sources=(Sourced("cuivré, schmetternd", MEMORY, "Read, Thesaurus of Orchestral Devices"),),
    called=("cuivrez", "blare", "blaring", "blechern", "metallic", "edgy"),
    labels={
        "de": Label(word="schmetternd", over="nicht schmetternd"),
    },
    title={
        "en": "Brassy (cuivré)",
        "de": "Schmetternd (cuivré)",
        "fr": "Cuivré",
        "it": "Squillante (cuivré)",
    },
    texts={
        "en": "Force the tone until it takes on a hard, metallic edge.",
        "de": "Den Ton forcieren, bis er hart und metallisch schmettert.",
        "fr": "Forcer le son jusqu’à lui donner un éclat dur et métallique.",
        "it": "Forzare il suono fino a ottenere uno squillo duro e metallico.",
    },
)
