"""The values of settings and gesture keys, except contours, passages and exercise series."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from itertools import takewhile
from typing import get_args

from gesturesmith import techniques
from gesturesmith.kinds import one_of
from gesturesmith.lang import habits
from gesturesmith.lang.messages import listed, shown
from gesturesmith.lang.nodes import (
    AllowNode,
    Amount,
    BandNode,
    KeyNode,
    Names,
    Note,
    Paper,
    Tempo,
    Text,
    TimeSignature,
    Word,
)
from gesturesmith.lang.notes import mistake, note
from gesturesmith.lang.reader import Reader
from gesturesmith.lang.tokens import Token
from gesturesmith.lang.words import (
    AND,
    BEATS,
    MUTES,
    PAPER_MM,
    PAPERS,
    STAFF_MM,
    TEMPO_BPM,
    WORDINGS,
)
from gesturesmith.units import UNISON, KeySignature, Mode, Spelling, key_signature

_TITLE_SIGNS = frozenset("'’!?&()/°+")


def text(reader: Reader) -> Text:
    """A quoted text, to the end of the value."""
    value = reader.text()
    reader.finish("one text in quotes")
    return value


def title(reader: Reader) -> Text:
    """A text, in quotes or as plain words: letters, numbers and punctuation, on one line."""
    first = reader.tok
    plain = first.kind in ("word", "note", "number", "percent")
    while plain and not reader.at_end():
        tok = reader.next()
        plain = tok.line == first.line and (
            tok.kind in ("word", "note", "number", "percent", "harmonic", "valves", "line")
            or tok.text in _TITLE_SIGNS
        )
    if plain:
        return reader.typed(first)
    reader.i, reader.tok = 0, first
    return text(reader)


def language(reader: Reader) -> Amount:
    """The version of the language: 1."""
    value = reader.whole("the version of the language, 1")
    if value.value != 1:
        reader.fail("out-of-range", value.span, f"this program reads version 1 of the language, not {value.value}")
    reader.finish("one number")
    return value


def instrument(reader: Reader) -> Word | Text:
    """The name of a profile, or its quoted path."""
    if reader.tok.kind == "text":
        return text(reader)
    value = reader.phrase("an instrument such as horn, or the path of a profile in quotes")
    if reader.tok.text in (",", "+", "&", "/") or reader.tok.text in AND:
        what = f"each instrument needs a part of its own: part one, with instrument: {value.text} in it"
        reader.fail("too-much", reader.tok.span, f"{what}; a passage has a line for each part")
    if reader.tok.text in (".", "/", "\\", "..") or reader.tok.kind == "bad":
        reader.fail("text-needs-quotes", value.span, 'the path of a profile needs quotes: "my-horn.toml"')
    reader.finish("one name; several words are joined with a hyphen")
    return value


def _in_range(reader: Reader, value: Fraction, tok: Token, limits: tuple[int, int], what: str) -> None:
    low, high = limits
    if not low <= value <= high:
        reader.fail("out-of-range", tok.span, f"{tok.text} is out of range: {what} run from {low} to {high}")


def bpm(reader: Reader) -> Amount:
    """Quarter-note beats per minute."""
    tok = reader.tok
    value = reader.number("a number of beats per minute, such as 72")
    _in_range(reader, value, tok, TEMPO_BPM, "tempos")
    return Amount(value, "", tok.span)


def tempo(reader: Reader) -> Tempo:
    """Beats per minute, with an optional text before the number."""
    value = tempo_item(reader)
    if reader.tok.kind == "word" or reader.tok.text in ("=", "-", "–", "--"):
        extra = reader.tok
        reader.fail("too-much", extra.span, f"one number of beats per minute: tempo: {reader.back().text}")
    reader.finish("a number of beats per minute")
    return value


def tempo_item(reader: Reader) -> Tempo:
    """A tempo, whatever follows it."""
    first = reader.tok
    words = reader.text() if first.kind == "text" else None
    if words and (reader.at_end() or reader.tok.text == ","):
        reader.fail("incomplete", reader.tok.span, f"a tempo needs its number too: {first.text} 72")
    counted = _counted(reader)
    if reader.tok.kind == "word" and not words:
        shape = "a number of beats per minute, words in quotes before it, or the note that is the beat"
        own = list(takewhile(lambda t: t.text != ",", reader.tokens[reader.i :]))
        count = next((t.text for t in own if t.kind == "number"), "60")
        said = " ".join(t.text for t in own if t.kind == "word" and t.line == first.line)
        example = f'"{said[:30]}" {count}, dotted quarter = {count}'
        reader.fail("bad-number", first.span, f"{shown(first.text)} is not a tempo: {shape}: {example}")
    number = reader.tok
    value = bpm(reader)
    if reader.tok.kind == "text":
        reader.fail("too-much", reader.tok.span, f"the words come first: {reader.tok.text} {number.text}")
    return Tempo(words, value, reader.span_from(first), counted)


def _counted(reader: Reader) -> Fraction | None:
    """The note that a tempo names as its beat, `dotted quarter =`, in quarters; None if it names none."""
    first = reader.tok
    dotted = first.text == "dotted"
    name = reader.ahead() if dotted else first
    if name.kind != "word" or name.text not in BEATS:
        if dotted:
            reader.next()
            reader.unexpected(f"the note that is dotted: {listed(tuple(BEATS))}")
        return None
    if dotted:
        reader.next()
    reader.next()
    whole = f"{'dotted ' if dotted else ''}{name.text} = 60"
    if reader.tok.text != "=":
        reader.fail("incomplete", reader.tok.span, f"a beat needs an equals sign and a number: {whole}")
    reader.next()
    return BEATS[name.text] * (Fraction(3, 2) if dotted else 1)


def wording(reader: Reader) -> Names:
    """One or two languages for the standard texts."""
    first = reader.tok
    words = [reader.choice(WORDINGS, "a language of the page texts")]
    if reader.tok.text == ",":
        reader.next()
        second = reader.choice(WORDINGS, "a language of the page texts")
        if second.text == words[0].text:
            reader.fail("said-twice", second.span, f"`{second.text}` twice: name two different languages")
        words.append(second)
    elif reader.tok.kind == "word":
        reader.fail("bad-list", reader.tok.span, f"a comma between the two: {words[0].text}, {reader.tok.text}")
    value = Names(tuple(words), reader.span_from(first))
    reader.finish("one language, or two with a comma")
    return value


def meter(reader: Reader) -> TimeSignature:
    """`4/4` and the like, or `free`."""
    tok = reader.tok
    if tok.kind == "word" and tok.text == "free":
        reader.next()
        value = TimeSignature(None, None, tok.span)
    else:
        value = meter_item(reader)
    reader.finish("one meter")
    return value


def meter_item(reader: Reader) -> TimeSignature:
    """A time signature, whatever follows it."""
    tok = reader.tok
    if tok.kind != "number" or "/" not in tok.text or len(tok.text) > 6:
        if tok.kind in ("word", "number", "note"):
            reader.fail("bad-meter", tok.span, f"{shown(tok.text)} is not a meter: write 4/4, 3/8 or free")
        reader.unexpected("a meter, such as 4/4, or free")
    reader.next()
    beats, unit = (int(part) for part in tok.text.split("/"))
    if not 1 <= beats <= 64:
        reader.fail("bad-meter", tok.span, f"{tok.text}: a bar holds 1 to 64 of its note values")
    if unit not in (1, 2, 4, 8, 16, 32, 64):
        reader.fail("bad-meter", tok.span, f"{tok.text}: the lower number is 1, 2, 4, 8, 16, 32 or 64")
    return TimeSignature(beats, unit, tok.span)


_TONIC = re.compile(r"[A-G][#b]?\Z")
_NO_KEY = ("none", "open")


def key(reader: Reader) -> KeyNode:
    """`Eb major`, `F# minor`, `none`."""
    value = key_item(reader)
    reader.finish("one key")
    return value


def no_key(reader: Reader) -> KeyNode:
    """`none`, of a part."""
    value = key(reader)
    if value.key.mode:
        what = "a key belongs to a passage and holds for all its parts: here only `none`, for a part without one"
        reader.fail("bad-key", value.span, what)
    return value


def key_item(reader: Reader) -> KeyNode:
    """A key, whatever follows it."""
    first, mode = reader.tok, reader.ahead()
    if first.text in _NO_KEY:
        reader.next()
        return KeyNode(KeySignature(0), first.span)
    if first.kind != "word" or not _TONIC.match(first.text):
        said = first.text[:1].upper() + first.text[1:]
        if first.kind == "word" and _TONIC.match(said):
            what = f"keys are written with capitals: {said} minor, or {said} major"
            reader.fail("bad-key", first.span, what)
        if first.kind in ("word", "note", "number"):
            reader.fail(
                "bad-key", first.span, f"{shown(first.text)} is not a key: write Eb major, F# minor or none"
            )
        reader.unexpected("a key, such as Eb major, F# minor or none")
    reader.next()
    if mode.text not in get_args(Mode):
        what = f"major or minor? Write {first.text} major or {first.text} minor"
        reader.fail("bad-key", mode.span if mode.kind == "word" else first.span, what)
    reader.next()
    found = key_signature(first.text, one_of(get_args(Mode), mode.text))
    plain = found.transposed(UNISON)
    if plain != found:
        what = f"{first.text} {mode.text} would need more than seven signs: write {plain.name}"
        reader.fail("bad-key", first.span, what)
    return KeyNode(found, reader.span_from(first))


def paper(reader: Reader) -> Paper:
    """`a4`, `letter`, or width and height in mm."""
    first = reader.tok
    if first.kind in ("word", "paper"):
        name = first.text.lower()
        if name not in PAPERS:
            near = reader.notes.nearest(name, PAPERS)
            wanted = f"{listed(PAPERS)}, or width and height, such as 230 x 310 mm"
            reader.fail(
                "unknown-word", first.span, f"{shown(first.text)} is not a paper size: write {wanted}", near
            )
        reader.next()
        reader.finish("one paper size")
        return Paper(name, None, None, first.span)
    width = _length(reader, PAPER_MM, "paper sides")
    if reader.tok.text not in ("x", "X"):
        if reader.tok.kind not in ("end", "number", "sign", "word"):
            reader.unexpected("an x between width and height")
        reader.fail("incomplete", reader.tok.span, "width and height, with an x between: 230 x 310 mm")
    reader.next()
    height = _length(reader, PAPER_MM, "paper sides")
    value = Paper("", width, height, reader.span_from(first))
    reader.finish("width and height")
    return value


def _length(reader: Reader, limits: tuple[int, int], what: str) -> Fraction:
    """A length in mm; the unit is optional."""
    tok = reader.tok
    value = reader.number("a length in mm")
    _in_range(reader, value, tok, limits, f"{what} in mm")
    if reader.tok.kind == "word" and reader.tok.text not in ("x", "X"):
        reader.unit(("mm",))
    return value


def staff(reader: Reader) -> Amount:
    """Staff height in mm."""
    first = reader.tok
    value = _length(reader, STAFF_MM, "staff heights")
    quantity = Amount(value, "mm", reader.span_from(first))
    reader.finish("one height in mm")
    return quantity


def names(reader: Reader) -> Names:
    """Technique names joined by `+`."""
    first = reader.tok
    words = [reader.phrase("the name of a technique", techniques.called)]
    while reader.tok.text == "+":
        reader.next()
        words.append(reader.phrase("the name of a technique after +", techniques.called))
    value = Names(tuple(words), reader.span_from(first))
    tok = reader.tok
    if tok.text in (",", "&", "/") or tok.text in AND:
        reader.fail("unexpected-sign", tok.span, f"techniques are joined with +, not with {tok.text}")
    reader.finish("names joined with +")
    return value


def mute(reader: Reader) -> Word:
    """A mute's name; where its stem is, is said by a technique."""
    stem = any(tok.text in ("stem", "stems") for tok in reader.tokens[reader.i : reader.i + 3])
    if stem:
        where = "`stem-in`, `stem-half-out` or `stem-out`"
        reader.fail("unknown-word", reader.tok.span, f"the stem is a technique, and brings its mute: {where}")
    value = reader.choice(MUTES, "a mute")
    reader.finish("one word")
    return value


def one_technique(reader: Reader) -> Word:
    """One technique's name."""
    value = reader.phrase("the name of a technique", techniques.called)
    reader.finish("one technique")
    return value


def band(reader: Reader) -> BandNode:
    """A register's name or `PITCH..PITCH`, to the end of the value."""
    value = band_item(reader)
    tok = reader.tok
    if tok.kind == "word":
        reader.fail("too-much", tok.span, "a band is one register, or its lowest and highest pitch: G4..F5")
    reader.finish("one register or two pitches with .. between")
    return value


def band_item(reader: Reader) -> BandNode:
    """A register's name or `PITCH..PITCH`."""
    first = reader.tok
    wanted = "a register such as middle, or two pitches such as G4..F5"
    if first.kind == "word" and not mistake(first.text):
        word = reader.word(wanted)
        if reader.tok.text in ("..", "--", "-", "–"):
            reader.fail("bad-band", reader.tok.span, "only pitches have .. between them; write the register alone")
        return BandNode(word, None, None, first.span)
    low = _band_note(reader, wanted)
    sign = reader.tok
    if sign.text != "..":
        if sign.kind == "line" and sign.text != ",":
            reader.fail("bad-band", sign.span, f"two dots between the pitches of a band, not {sign.text}: ..")
        if sign.kind not in ("end", "word", "note") and sign.text != ",":
            reader.unexpected("two dots and the highest pitch")
        reader.fail("bad-band", sign.span, f"a band has a lowest and a highest pitch: {first.text}..F5")
    reader.next()
    high = _band_note(reader, "the highest pitch of the band")
    below, above = _cents(low.letter, low.alter, low.octave), _cents(high.letter, high.alter, high.octave)
    span = reader.span_from(first)
    if below == above:
        reader.fail("bad-band", span, "this band is empty: its two pitches are the same")
    if below > above:
        reader.fail("bad-band", span, f"the lower pitch comes first: {reader.back().text}..{first.text}")
    return BandNode(None, low, high, span)


@lru_cache(512)
def _cents(letter: str, alter: Fraction, octave: int) -> Fraction:
    return Spelling(letter, alter, octave).pitch_cents


def _band_note(reader: Reader, wanted: str) -> Note:
    tok = reader.tok
    value = note(reader, wanted)
    if value.about or value.cents:
        plain = tok.text.lstrip("x").split("+")[0].split("-")[0]
        reader.fail("bad-band", tok.span, f"the pitches of a band take no x or cents: {plain}", (plain,))
    return value


def lasts(reader: Reader) -> Amount:
    """A length in beats or seconds, above zero."""
    first = reader.tok
    if first.kind == "word":
        habits.length(reader)
    value = reader.positive("a number and a unit, such as 4 beats, 2 bars or 2.5 s")
    _no_decimal_comma(reader, first)
    unit = reader.unit(("beats", "s", "bars"))
    if not unit:
        if not reader.at_end():
            reader.finish("a number and a unit")
        reader.fail("missing-unit", first.span, f"{first.text} of what? Write {first.text} beats or {first.text} s")
    quantity = Amount(value, unit, reader.span_from(first))
    reader.finish("one length")
    return quantity


def _no_decimal_comma(reader: Reader, first: Token) -> None:
    comma, after = reader.tok, reader.ahead()
    if comma.text == "," and after.kind == "number" and comma.start == first.end and after.start == comma.end:
        fix = f"{first.text}.{after.text}"
        reader.fail("bad-number", comma.span, f"a decimal has a point: write {fix}", (fix,))


def allow(reader: Reader) -> AllowNode:
    """A rule's name and a reason in quotes."""
    first = reader.tok
    rule = reader.word("the name of a rule, then the reason in quotes")
    if reader.at_end():
        reason = f'{rule.text} "agreed with the player"'
        reader.fail("incomplete", reader.tok.span, f"say why, in quotes: allow: {reason}")
    value = AllowNode(rule, reader.text(), reader.span_from(first))
    reader.finish("a rule and one reason")
    return value


def a_name(reader: Reader) -> Word:
    """The name of a gesture."""
    value = reader.word("the name of a gesture")
    reader.finish("one name")
    return value
