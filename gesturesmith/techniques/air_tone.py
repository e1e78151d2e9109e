"""Air and tone: a breathy tone."""

from gesturesmith.evidence import HOUSE, MEMORY, Limit, Sourced
from gesturesmith.techniques.base import Label, Look, Sound, Technique

TECHNIQUE = Technique(
    key="air-tone",
    layer="tone",
    moves="breath and lip",
    kin=("air", "ordinary"),
    tone="needs",
    takes={"tone": "be mixed with air"},
    limits={
        "shortest_ms": Limit(Sourced(150, HOUSE, "in less it is heard as a soft attack"), unit="ms", side="below"),
        "loudest": Limit(Sourced("mf", HOUSE, "beyond it the tone covers the air"), unit="level", side="louder"),
    },
    skill=Sourced(0.2, HOUSE, "the lip must hover between tone and breath"),
    effort=Sourced(0.9, HOUSE, "relaxed lips"),
    flow=Sourced(1.5, HOUSE, "part of the air is not used for tone"),
    look=Look(
        word="air + tone",
        cancel="ord.",
        over="tone",
        reason="Ordinary heads, since the pitch is there, with the word and its end; no glyph is in use.",
    ),
    sound=Sound(air=Sourced(0.5, HOUSE, "as much of the one as of the other")),
    sources=(Sourced("a breathy tone is asked for by word", MEMORY, "common practice"),),
    called=(
        "breath",
        "breathy",
        "half air",
        "subtone",
        "luftig",
        "halb Luft",
        "son et souffle",
        "détimbré",
        "mezzo soffio",
        "suono e soffio",
    ),
    labels={
        "de": Label(word="Luft + Ton", over="Ton"),
        "fr": Label(word="souffle + son", over="son"),
        "it": Label(word="soffio + suono", over="suono"),
    },
    title={
        "en": "Air and tone",
        "de": "Ton mit Luft",
        "fr": "Son mêlé de souffle",
        "it": "Suono con soffio",
    },
    texts={
        "en": "Let air be heard along with the tone, about half and half.",
        "de": "Neben dem Ton auch Luft hören lassen, etwa zu gleichen Teilen.",
        "fr": "Laisser entendre du souffle mêlé au son, à parts à peu près égales.",
        "it": "Far sentire aria insieme al suono, all’incirca in parti uguali.",
    },
)
