"""One `note` of MusicXML: its pitch, its length and everything written at it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction

from gesturesmith.importers.musicxml.numbers import pitch, whole_number
from gesturesmith.importers.musicxml.tree import Element
from gesturesmith.importers.notated import NotatedNote
from gesturesmith.kinds import LineKind

CHILDREN = frozenset({
    "grace", "chord", "pitch", "unpitched", "rest", "tie", "cue", "duration", "instrument", "footnote",
    "level", "voice", "type", "dot", "accidental", "time-modification", "stem", "notehead", "notehead-text",
    "staff", "beam", "notations", "lyric", "play", "listen",
})  # fmt: skip
_NOTATIONS = frozenset({
    "footnote", "level", "tied", "slur", "tuplet", "glissando", "slide", "ornaments", "technical",
    "articulations", "dynamics", "fermata", "arpeggiate", "non-arpeggiate", "accidental-mark",
    "other-notation",
})  # fmt: skip
_MARKS = {
    "accent": ("accent",),
    "strong-accent": ("marcato",),
    "stress": ("accent",),
    "staccato": ("staccato",),
    "staccatissimo": ("staccato",),
    "spiccato": ("staccato",),
    "tenuto": ("tenuto",),
    "detached-legato": ("tenuto", "staccato"),
    "breath-mark": ("breath",),
    "caesura": ("breath",),
}
# Signs that name a technique, as `NotatedNote.signs` has them.
_SIGNS = {
    "stopped": "stopped",
    "half-muted": "half-stopped",
    "open": "open",
    "open-string": "open",  # the same sign, chosen by mistake
    "double-tongue": "double-dots",
    "triple-tongue": "triple-dots",
    "brass-bend": "bend",
    "flip": "flip",
    "smear": "smear",
    "scoop": "scoop",
    "plop": "plop",
}
_EDGES = {"doit": "doit", "falloff": "fall"}
_LINE_TYPES: dict[str, LineKind] = {"solid": "straight", "wavy": "wavy", "dashed": "broken", "dotted": "dotted"}
_USUAL_LINES: dict[str, LineKind] = {"slide": "straight", "glissando": "wavy"}
_HEADS = frozenset({"x", "diamond", "triangle", "inverted triangle", "slash"})
_STEPS = {"half": "half", "whole": "whole", "unison": "same"}
_MAX_STROKES = 3


@dataclass(slots=True)
class OpenSlurs:
    """The slurs of a part that have begun and not ended: voice and number. `before`: the voices in which one was
    open before the chord that is being read."""

    numbers: set[tuple[str, str]] = field(default_factory=set)
    before: frozenset[str] = frozenset()


@dataclass(slots=True)
class _Found:
    """What the notations of a note say, as they are read."""

    marks: list[str] = field(default_factory=list)
    signs: list[str] = field(default_factory=list)
    fingering: list[str] = field(default_factory=list)
    line: LineKind = "none"
    named: str = ""
    strokes: int = 0
    other: str = ""
    tremolo: str = ""


def read_note(
    element: Element, at: Fraction, lasts: Fraction, slurs: OpenSlurs, ignored: Counter[str]
) -> tuple[NotatedNote | None, str]:
    """A note that sounds, or None if its pitch is no pitch; and which half of a two-note tremolo it is, "start",
    "stop" or "". Signs that say nothing to a brass player are counted in `ignored`."""
    raw = element.find("pitch")
    exact = raw is not None
    raw = raw if raw is not None else element.find("unpitched")
    written = pitch(raw) if raw is not None else None
    voice = element.says("voice") or "1"
    if element.find("chord") is None:
        slurs.before = frozenset(where for where, _ in slurs.numbers)
    slurred = voice in slurs.before
    found = _Found()
    for notations in element.all("notations"):
        for child in notations.children:
            _notation(child, found, slurs, voice, ignored)
    if written is None:
        return None, found.tremolo
    head = element.find("notehead")
    shape = head.text.strip() if head is not None else ""
    grace = element.find("grace") is not None
    bracketed = head is not None and head.get("parentheses") == "yes"
    if bracketed and not grace:
        found.signs.append("ghost")
    ties = [tie.get("type") for tie in element.all("tie")]
    note = NotatedNote(
        at=at,
        lasts=lasts,
        written=written,
        voice=voice,
        grace=grace,
        stops=grace and bracketed,
        tied="stop" in ties,
        ties="start" in ties,
        slurred=slurred,
        marks=tuple(dict.fromkeys(found.marks)),
        signs=tuple(dict.fromkeys(found.signs)),
        line=found.line,
        named=found.named,
        strokes=found.strokes,
        other=found.other,
        fingering=tuple(found.fingering),
        head=shape if shape in _HEADS else "",
        stem=element.says("stem") != "none",
        exact=exact,
    )
    return note, found.tremolo


def unknown(element: Element) -> Iterator[Element]:
    """Elements of a note that MusicXML does not have."""
    for child in element.children:
        if child.tag not in CHILDREN:
            yield child
        elif child.tag == "notations":
            yield from (inner for inner in child.children if inner.tag not in _NOTATIONS)


def _notation(child: Element, found: _Found, slurs: OpenSlurs, voice: str, ignored: Counter[str]) -> None:
    tag = child.tag
    if tag == "slur":
        number = child.get("number") or "1"
        if child.get("type") == "start":
            slurs.numbers.add((voice, number))
        elif child.get("type") == "stop":  # it may have crossed from another voice
            one = (voice, number)
            slurs.numbers = (
                slurs.numbers - {one}
                if one in slurs.numbers
                else {open for open in slurs.numbers if open[1] != number}
            )
    elif tag in _USUAL_LINES:
        if child.get("type") == "start":
            found.line = _LINE_TYPES.get(child.get("line-type"), _USUAL_LINES[tag])
            found.named = child.text.strip()
    elif tag == "fermata":
        found.marks.append("fermata")
    elif tag in ("articulations", "technical"):
        for sign in child.children:
            _sign(sign, found, ignored)
    elif tag == "ornaments":
        for sign in child.children:
            _ornament(sign, found, ignored)


def _sign(sign: Element, found: _Found, ignored: Counter[str]) -> None:
    tag = sign.tag
    if tag in _MARKS:
        found.marks += _MARKS[tag]
    elif tag in _SIGNS:
        # A long straight line up into the note is the sign of a rip.
        rip = tag == "scoop" and sign.get("line-shape") == "straight" and sign.get("line-length") == "long"
        found.signs.append("rip" if rip else _SIGNS[tag])
    elif tag in _EDGES:
        length = sign.get("line-length")
        found.signs.append(f"{length}-{_EDGES[tag]}" if length in ("short", "long") else _EDGES[tag])
    elif tag == "fingering":
        # A second choice, or the second one of a timbre trill, is not how the note begins.
        if "yes" in (sign.get("alternate"), sign.get("substitution")):
            ignored["second fingering"] += 1
        else:
            found.fingering.append(sign.text.strip())
    elif tag == "harmon-mute":
        closed = {"yes": "stopped", "no": "open", "half": "half-stopped"}
        found.signs.append(closed.get(sign.says("harmon-closed"), "stopped"))
    else:
        ignored[tag] += 1


def _ornament(sign: Element, found: _Found, ignored: Counter[str]) -> None:
    tag = sign.tag
    if tag == "trill-mark":
        found.signs.append("trill")
        found.other = _STEPS.get(sign.get("trill-step"), "")
    elif tag == "tremolo":
        kind, count = sign.get("type") or "single", whole_number(sign.text.strip() or "3")
        if kind in ("start", "stop"):
            found.tremolo = kind
        else:
            found.strokes = -1 if kind == "unmeasured" else max(0, min(_MAX_STROKES, count or 0))
    elif tag not in ("wavy-line", "accidental-mark"):
        ignored[tag] += 1
