"""Pitches not given by a note name: just intervals from one, and harmonics of a tube."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.lang.nodes import Finger, Harmonic, JustNote
from gesturesmith.lang.notes import note
from gesturesmith.lang.reader import Reader
from gesturesmith.lang.tokens import Token
from gesturesmith.lang.words import SIDES

_RATIO = (Fraction(1, 32), Fraction(32))  # five octaves either way
_MAX_PARTIAL = 64


def begins(reader: Reader) -> bool:
    """Whether such a pitch begins at the cursor: `7/4 of`, `F 0:11`, `0:11`, `partial 11`."""
    tok, after = reader.tok, reader.ahead()
    if tok.kind == "number":
        return after.text == "of"
    if tok.kind == "word":
        return (tok.text in SIDES and after.kind == "harmonic") or (
            tok.text == "partial" and after.kind == "number"
        )
    return tok.kind == "harmonic"


def pitch(reader: Reader) -> JustNote | Harmonic:
    """The pitch at the cursor."""
    tok = reader.tok
    if tok.kind == "number":
        return _just(reader)
    if tok.text == "partial":
        return _partial(reader)
    side = reader.next().text if tok.kind == "word" else ""
    valves, number = reader.next().text.split(":")
    return _harmonic(reader, tok, side, valves, int(number))


def _just(reader: Reader) -> JustNote:
    first = reader.next()
    ratio = reader.value_of(first, first.text)
    low, high = _RATIO
    if not low <= ratio <= high:
        reader.fail("out-of-range", first.span, f"{first.text} is no interval of use: from {low} to {high}")
    reader.next()
    of = note(reader, f"the note it is measured from: {first.text} of F2")
    if of.about:
        reader.fail("bad-note", of.span, "an interval from about a note is about a note too: write x and its name")
    return JustNote(ratio, of, reader.span_from(first))


def _partial(reader: Reader) -> Harmonic:
    first = reader.next()
    tok = reader.tok
    number = int(reader.whole("the number of a partial").value)
    if reader.tok.text != "of":
        reader.fail(
            "incomplete", reader.tok.span, f"of which tube? Write partial {tok.text} of F 0, or F 0:{tok.text}"
        )
    reader.next()
    side = reader.next().text if reader.tok.text in SIDES else ""
    if reader.tok.kind not in ("number", "valves"):
        reader.unexpected("the tube: F 0, Bb 1-3, or a slide position")
    return _harmonic(reader, first, side, reader.next().text, number)


def _harmonic(reader: Reader, first: Token, side: str, valves: str, number: int) -> Harmonic:
    span = reader.span_from(first)
    if not 1 <= number <= _MAX_PARTIAL:
        reader.fail("out-of-range", span, f"partials are numbered from 1 to {_MAX_PARTIAL}")
    return Harmonic(number, Finger(side, "-".join(sorted(valves.split("-"))), "", span), span)
