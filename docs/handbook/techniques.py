"""The techniques: each one's description, notation, limits and texts."""

from __future__ import annotations

from gesturesmith import techniques
from gesturesmith.lang.words import SIGNS
from gesturesmith.techniques.base import LAYERS, LIMIT_UNITS, PLAIN_END, Look, Technique
from handbook.markdown import LIMIT_HEAD, MADE, evidence_text, limit_rows, table

LAYER_TITLES = {
    "none": "Ordinary playing",
    "motion": "How the pitch moves",
    "edge-in": "Edges of a note: into it",
    "edge-off": "Edges of a note: off it",
    "valves": "Valves or slide",
    "bell": "Bell",
    "cover": "Bell or mute: open and closed",
    "stem": "Harmon mute: the stem",
    "tone": "Mouth: the tone",
    "tongue": "Mouth: the tongue",
    "voice": "Mouth: throat and voice",
    "lip": "Mouth: the lips",
    "attack": "How a note begins",
}
LANGUAGES = {"en": "English", "de": "German", "fr": "French", "it": "Italian"}
PITCHED = {
    "exact": "exact pitches can be asked for",
    "about": "the pitch is approximate by nature: write `x` before the notes",
    "none": "no pitch: heights only mean lower or higher",
}


def look_text(look: Look) -> str:
    """What is printed on the page, in words."""
    parts = []
    if look.head != "auto":
        parts.append(f"{look.head}-shaped noteheads" if look.head != "x" else "x-noteheads")
    if look.word:
        parts.append(f"“{look.word}”" + (" with a dashed line and a hook" if look.extent == "span" else ""))
    if look.line_word:
        parts.append(f"“{look.line_word}” on the line")
    if look.sign:
        parts.append(f"then “{look.sign}”")
    named = {
        "stopped": "+ over every note",
        "half-stopped": "the half-closed sign over every note",
        "double-dots": "two dots over the note",
        "triple-dots": "three dots over the note",
        "bend": "a V after the note",
        "hand": "hand signs with an arrow between them",
        "trill": "the trill sign",
        "tremolo": "a tremolo between two heads",
    }
    parts += [named[name] for name in (look.script, look.motion, look.trill) if name]
    if look.edge:
        parts.append(f"the sign “{look.edge.replace('-', ' ')}” at the edge of the note")
    if look.tremolo:
        parts.append("three slashes on the stem")
    if look.fingering:
        parts.append("the fingering below every note")
    if look.small_start:
        parts.append("a small head where it starts unmeasured")
    if look.sung_head:
        parts.append(f"{look.sung_head} heads for the sung line")
    ends = ["“o” over the next note"] if look.cancel_script == "open" else []
    ends += [f"“{look.cancel}”"] if look.cancel else []
    said = "; ".join(parts) or "nothing is added"
    alone = f"; with “{look.named_end}” where something else is in force" if look.cancel == PLAIN_END else ""
    return said + (f". It ends with {' or '.join(ends)}{alone}." if ends else ".")


def points_text(technique: Technique) -> str:
    fewest, most = technique.points
    count = f"{fewest} or more" if most is None else (str(fewest) if most == fewest else f"{fewest} to {most}")
    points = f"{count} point{'' if fewest == most == 1 else 's'}"
    kinds = [f"`{SIGNS[kind]}`" for kind in technique.lines]
    lines = f"lines of these kinds: {' '.join(kinds)}" if kinds else "lines of any kind"
    return f"{points} and {lines}" + ("; at least one line has to slide" if technique.needs_line else "")


INTRODUCTION = "\n\n".join(
    (
        "Techniques are joined with `+`; [another page](joining.md) says which go together. Layers only group "
        "them. The signs and words on the page are the same in every language; the texts for the player follow the "
        "page's `wording`. German, French and Italian are written to the best of our judgement.",
        "Limits from memory or our own judgement lead at most to *with care*. A value in brackets is only used in "
        "calculations. Limits that depend on the instrument (attacks per second by register, widths of bends) are "
        "listed with the [instruments](instruments.md).",
    )
)
LIMIT_NAMES = (
    "Names of limits: " + ", ".join(f"`{name}` ({unit})" for name, unit in sorted(LIMIT_UNITS.items())) + "."
)
PLACES = {
    "slide": "with a slide",
    "single": "with one tube only",
    "up": "upward",
    "sung": "with a line to sing",
    "breath": "beside breath without a tone",
    "waves": "with its waves drawn",
    "interval": "to a note that is named",
}


def technique_section(technique: Technique, *, heading: str = "###", named: bool = True) -> str:
    """One technique: description, notation, limits and texts; `named`: with its key."""
    parts = [
        f"{heading} {technique.title['en']}" + (f": `{technique.key}`" if named else ""),
        technique.texts["en"],
        f"- The player moves: {technique.moves}.",
        f"- The contour has {points_text(technique)}.",
        f"- Pitch: {PITCHED[technique.pitched]}.",
    ]
    if technique.kin:
        parts.append(f"- Replaced, if it is not possible, by: {', '.join(f'`{key}`' for key in technique.kin)}.")
    if technique.needs:
        parts.append(f"- Needs: {technique.needs}.")
    if technique.tiring or technique.loud:
        said = [w for w, yes in (("tiring", technique.tiring), ("loud", technique.loud)) if yes]
        parts.append(f"- Care: {' and '.join(said)}.")
    parts.append(f"- On the page: {look_text(technique.look)}")
    parts.append(f"- Reason: {technique.look.reason}")
    parts += [f"- Source: {s.value} ({evidence_text(s)})." for s in technique.sources]
    text = "\n".join([parts[0], "", parts[1], "", *parts[2:]])
    if technique.limits:
        text += "\n\n" + table(LIMIT_HEAD, limit_rows(technique.limits))
    wordings = [(LANGUAGES[code], technique.title[code], technique.texts[code]) for code in LANGUAGES]
    for place, texts in technique.texts_where.items():
        wordings += [(f"{LANGUAGES[code]}, {PLACES[place]}", "", texts[code]) for code in LANGUAGES]
    return text + "\n\n" + table(("wording", "title", "for the player"), wordings)


def techniques_page() -> str:
    found = [techniques.get(name) for name in techniques.names()]
    parts = [
        "# Techniques",
        MADE,
        INTRODUCTION,
        LIMIT_NAMES,
    ]
    for layer in LAYERS:
        parts.append(f"## {LAYER_TITLES[layer]}")
        parts += [technique_section(t) for t in found if t.layer == layer]
    return "\n\n".join(parts) + "\n"
