"""Values that say how a gesture is played: dynamics, attacks, fingering."""

from __future__ import annotations

from dataclasses import replace
from typing import get_args

from gesturesmith.kinds import AttackShape, FingeringMode, Join, Shade, one_of
from gesturesmith.lang.contour import place
from gesturesmith.lang.messages import listed, short, shown
from gesturesmith.lang.nodes import (
    AttacksNode,
    Dynamics,
    Finger,
    FingeringNode,
    LevelNode,
    TrillNode,
    WaveNode,
    WavesNode,
)
from gesturesmith.lang.notes import note
from gesturesmith.lang.reader import Reader
from gesturesmith.lang.tokens import Token
from gesturesmith.lang.words import (
    ACCENTS,
    EACH,
    LEVELS,
    MARKS,
    SECONDS,
    SHADES,
    SHAPES,
    SIDES,
    SPEEDS,
    WAVES_PER_SECOND,
    WIDTHS,
)
from gesturesmith.units import interval

_SECOND = "`half`, `whole`, an interval such as m3, or the note it goes to"
_MODES: tuple[FingeringMode, ...] = ("auto", "held")  # the modes that are words


def dynamics(reader: Reader) -> Dynamics:
    """Levels joined by hairpins, to the end of the value."""
    value = dynamics_item(reader)
    if reader.tok.text == EACH:
        value = replace(value, each=_each(reader, value))
    if reader.tok.text == ",":
        reader.fail("unexpected-sign", reader.tok.span, "no comma between dynamics: p < f, or f@3 for a place")
    reader.finish("levels joined by < and >")
    return value


def _each(reader: Reader, value: Dynamics) -> bool:
    """`each` after one level that is an accent."""
    tok = reader.next()
    (first, *more) = value.levels
    if more or first.level not in ACCENTS:
        reader.fail("unknown-word", tok.span, f"`{EACH}` goes with one accent for every attack: fp {EACH}", ())
    if first.at is not None:
        reader.fail("bad-place", first.at.span, f"the places are those of the attacks: {first.level} {EACH}")
    return True


def dynamics_item(reader: Reader) -> Dynamics:
    """Levels joined by hairpins, up to a comma."""
    first = reader.tok
    levels = [_level(reader)]
    joins: list[Join] = []
    while reader.tok.text not in (",", EACH) and not reader.at_end():
        join: Join = one_of(get_args(Join), reader.next().text) if reader.tok.text in ("<", ">") else ""
        if not join and reader.tok.kind == "at":
            reader.fail("said-twice", reader.tok.span, "one place per level")
        levels.append(_level(reader, join))
        joins.append(join)
    return Dynamics(tuple(levels), tuple(joins), reader.span_from(first))


def _level(reader: Reader, join: str = "") -> LevelNode:
    tok = reader.tok
    if tok.kind == "word" and tok.text in LEVELS:
        reader.next()
        at = place(reader) if reader.tok.kind == "at" else None
        return LevelNode(tok.text, at, reader.span_from(tok))
    if tok.text in ("<", ">") or (tok.kind == "end" and join):
        sign = join or tok.text
        reader.fail("incomplete", tok.span, f"a hairpin needs a level at both ends: p {sign} f; n is niente")
    if tok.text == "@":
        reader.fail("bad-place", tok.span, "no space after @: f@3")
    if tok.kind == "number":
        reader.fail("bad-place", tok.span, f"a place is written with @ right after the level: f@{short(tok.text)}")
    if tok.kind != "word":
        reader.unexpected("a level from n, ppp to fff, or an accent such as sfz")
    if tok.text in MARKS:
        reader.fail("unknown-word", tok.span, f"`{tok.text}` is not a dynamic: put it after its point in `contour`")
    near = reader.notes.nearest(tok.text, (*LEVELS, "<", ">"))
    wanted = listed(near) if near else f"{listed(LEVELS)}; a hairpin is < or >: p < f"
    return reader.fail("unknown-word", tok.span, f"{shown(tok.text)} is not a dynamic: write {wanted}", near)


def attacks(reader: Reader) -> AttacksNode:
    """A whole number, and whether they speed up or slow down."""
    first = reader.tok
    count = reader.whole("the number of attacks")
    if count.value > 1000:
        reader.fail("out-of-range", first.span, f"{first.text} attacks: at most 1000 in one gesture")
    shape: AttackShape = ""
    if reader.tok.kind == "word":
        shape = one_of(SHAPES, reader.choice(SHAPES, "a way to spread attacks").text)
    value = AttacksNode(int(count.value), shape, reader.span_from(first))
    reader.finish("a number of attacks")
    return value


def fingering(reader: Reader) -> FingeringNode:
    """`auto`, `held`, or sides and valves, separated by commas."""
    first = reader.tok
    if first.kind == "word" and first.text in _MODES:
        reader.next()
        if first.text == "auto" and reader.tok.text == ",":
            reader.i, reader.tok = reader.i - 1, first
            return _one_per_point(reader)
        reader.finish(f"`{first.text}` alone, or fingerings with commas")
        return FingeringNode(one_of(_MODES, first.text), (), first.span)
    return _one_per_point(reader)


def _one_per_point(reader: Reader) -> FingeringNode:
    """Fingerings with commas between; `auto` leaves a point to the chart."""
    first = reader.tok
    items = [_pair(reader)]
    while reader.tok.text == ",":
        reader.next()
        items.append(_pair(reader))
    value = FingeringNode("given", tuple(items), reader.span_from(first))
    tok = reader.tok
    if tok.kind in ("number", "valves"):
        reader.fail("bad-fingering", tok.span, "valves are joined with hyphens (1-2), points separated by commas")
    if tok.kind == "word":
        reader.fail("bad-fingering", tok.span, f"a side goes before its valves: {tok.text} {reader.back().text}")
    if tok.text == "+":
        reader.fail(
            "bad-fingering", tok.span, f"valves are joined with hyphens: {reader.back().text}-{reader.ahead().text}"
        )
    reader.finish("fingerings separated by commas")
    return value


def _pair(reader: Reader) -> Finger:
    """A fingering, or both of a trill: F 0 / Bb 1."""
    one = _finger(reader)
    if reader.tok.text != "/":
        return one
    reader.next()
    return replace(one, other=_finger(reader))


def _finger(reader: Reader) -> Finger:
    first = reader.tok
    if first.text == "auto":
        reader.next()
        return Finger("", "auto", "", first.span)
    side = ""
    shade: Shade = ""
    while reader.tok.kind == "word" and reader.tok.text.lower() != "open":
        word = reader.choice((*SIDES, *SHADES), "a side or a shade of a fingering")
        if word.text in SIDES and not side:
            side = word.text
        elif word.text in SHADES and not shade:
            shade = one_of(SHADES, word.text)
        else:
            reader.fail(
                "said-twice", word.span, f"`{word.text}` is one too many: one side, and one of short and long"
            )
    tok = reader.tok
    if tok.text.lower() == "open":
        reader.fail("bad-fingering", tok.span, "without valves is 0, as in F 0", ("0",))
    if tok.kind not in ("number", "valves"):
        reader.unexpected("valves such as 1-2, 0 for none, or a slide position")
    reader.next()
    return Finger(side, _valves(reader, tok), shade, reader.span_from(first))


def _valves(reader: Reader, tok: Token) -> str:
    parts = sorted(tok.text.replace("–", "-").split("-"))
    if len(parts) == 1 and len(tok.text) > 1 and tok.text.isdigit() and len(tok.text) < 5 and "0" not in tok.text:
        fix = "-".join(tok.text)
        reader.fail("bad-fingering", tok.span, f"valves are joined with hyphens: write {fix}", (fix,))
    if any(len(p) != 1 for p in parts) or (len(parts) > 1 and "0" in parts):
        reader.fail(
            "bad-fingering", tok.span, f"{shown(tok.text)} is not a fingering: write 0 alone, or valves such as 1-3"
        )
    if len(set(parts)) < len(parts):
        reader.fail("bad-fingering", tok.span, "each valve once: write 1-2, or commas between the points")
    return "-".join(parts)


def trill(reader: Reader) -> TrillNode:
    """`half`, `whole`, an interval such as M2, or the note it goes to."""
    tok = reader.tok
    if tok.kind == "note":  # A4 is the note: nobody trills an augmented fourth
        to = note(reader, _SECOND)
        reader.finish("one note")
        return TrillNode(to, "", to.span)
    if tok.text in "ABCDEFG" and tok.kind == "word":
        reader.fail("unknown-word", tok.span, f"`{tok.text}` has no octave: write {tok.text}5", (f"{tok.text}5",))
    name = SECONDS.get(tok.text, tok.text)
    if tok.kind != "word" or interval(name) is None:
        if tok.kind != "word":
            reader.unexpected(_SECOND)
        near = reader.notes.nearest(tok.text, tuple(SECONDS))
        wanted = listed(near) if near else _SECOND
        reader.fail("unknown-word", tok.span, f"{shown(tok.text)} is not an interval: write {wanted}", near)
    reader.next()
    reader.finish("one interval")
    return TrillNode(None, name, tok.span)


def speed(reader: Reader) -> WavesNode:
    """Speeds of waves, joined by `<` (faster) and `>` (slower): words, or waves a second."""
    return _waves(reader, SPEEDS, "faster")


def width(reader: Reader) -> WavesNode:
    """Widths of waves, joined by `<` (wider) and `>` (narrower)."""
    return _waves(reader, WIDTHS, "wider")


def _waves(reader: Reader, words: tuple[str, ...], more: str) -> WavesNode:
    first = reader.tok
    marks = [_wave(reader, words)]
    joins: list[Join] = []
    while not reader.at_end():
        tok = reader.tok
        join: Join = one_of(get_args(Join), reader.next().text) if tok.text in ("<", ">") else ""
        if not join and tok.text not in words and tok.kind != "number":
            wanted = f"{words[0]} < {words[-1]}"
            reader.fail("unexpected-sign", tok.span, f"only < ({more}) and > stand between: {wanted}")
        marks.append(_wave(reader, words))
        joins.append(join)
        if join and _contradicts(marks[-2], marks[-1], join, words):
            fix = "<" if join == ">" else ">"
            reader.fail("unexpected-sign", tok.span, f"< means {more}, > the opposite: write {fix} here", (fix,))
    return WavesNode(tuple(marks), tuple(joins), reader.span_from(first))


# What people type for a change, and the sign for it.
_GETTING = {"accel": "<", "accelerando": "<", "accelerating": "<", "faster": "<", "wider": "<", "growing": "<"}
_GETTING |= {"rit": ">", "ritardando": ">", "slowing": ">", "slower": ">", "narrower": ">", "fading": ">"}


def _contradicts(one: WaveNode, two: WaveNode, join: Join, words: tuple[str, ...]) -> bool:
    """Whether a sign between two marks says the opposite; how fast a word is depends on the technique."""
    if (one.per_second is None) != (two.per_second is None):
        return False
    a, b = (mark.per_second if mark.per_second is not None else words.index(mark.word) for mark in (one, two))
    return a == b or (a < b) != (join == "<")


def _wave(reader: Reader, words: tuple[str, ...]) -> WaveNode:
    tok = reader.tok
    rate = None
    if tok.kind == "number" and words == SPEEDS:
        rate = reader.number("waves a second")
        low, high = WAVES_PER_SECOND
        if not low <= rate <= high:
            said = f"{tok.text} waves a second: between {low} and {high}; beats a minute are `tempo`"
            reader.fail("out-of-range", tok.span, said)
    else:
        if tok.text in _GETTING:
            course = f"{words[0]} < {words[-1]}" if _GETTING[tok.text] == "<" else f"{words[-1]} > {words[0]}"
            reader.fail("unknown-word", tok.span, f"a change goes from one to another: {course}")
        reader.choice(words, "a speed" if words == SPEEDS else "a width")
    at = place(reader) if reader.tok.kind == "at" else None
    return WaveNode("" if rate is not None else tok.text, rate, at, reader.span_from(tok))
