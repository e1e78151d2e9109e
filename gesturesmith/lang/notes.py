"""Note names: their exact form, and a message for each kind of mistake."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from typing import NoReturn

from gesturesmith.lang.nodes import Note
from gesturesmith.lang.reader import Reader
from gesturesmith.lang.tokens import Token

_NOTE = re.compile(r"(x?)([A-G])(##|bb|[𝄪𝄫♮]|[#b]?[\^v/\\]?)([0-9])(?:([+-])([0-9]+)(.*))?\Z")
_ALTER = {
    "": Fraction(0), "♮": Fraction(0), "#": Fraction(1), "b": Fraction(-1), "##": Fraction(2), "bb": Fraction(-2),
    "𝄪": Fraction(2), "𝄫": Fraction(-2), "^": Fraction(1, 2), "v": Fraction(-1, 2), "#^": Fraction(3, 2),
    "#v": Fraction(1, 2), "b^": Fraction(-1, 2), "bv": Fraction(-3, 2), "/": Fraction(1, 4), "\\": Fraction(-1, 4),
    "#/": Fraction(5, 4), "#\\": Fraction(3, 4), "b/": Fraction(-3, 4), "b\\": Fraction(-5, 4),
}  # fmt: skip
_MAX_CENTS = 1200

type _Mistake = tuple[str, str, tuple[str, ...]]


@lru_cache(4096)
def _decode(text: str) -> tuple[str, Fraction, int, int, bool] | _Mistake:
    """Letter, alteration, octave, cents and whether an x precedes; otherwise what is wrong."""
    match = _NOTE.match(text)
    if match is None:
        return ("bad-note", f"`{text}` is not a note: write a note such as G4 or Bb3", ())
    about, letter, sign, octave, direction, digits, unit = match.groups()
    cents = 0
    if direction:
        name = f"{about}{letter}{sign}{octave}"
        if unit != "c":
            fix = f"{letter}{sign}{octave}{direction}{digits[:4]}c"
            return ("cents-without-c", f"cents need a c right after the number: write {fix}", (fix,))
        if about:
            fix = f"write {name} alone, or {name[1:]}{direction}{digits[:4]}c"
            return ("cents-on-x", f"an x-note is approximate, so it takes no cents: {fix}", ())
        if len(digits) > 5 or int(digits) > _MAX_CENTS:
            return ("out-of-range", f"more than {_MAX_CENTS} cents away: name a nearer note instead", ())
        cents = int(direction + digits)
    return letter, _ALTER[sign], int(octave), cents, bool(about)


_LOOSE = re.compile(
    r"(?P<x>[xX]?)(?P<letter>[A-Ha-h])(?P<sign>(?:[#b^v♮𝄪𝄫])*)(?P<octave>-?[0-9]+)(?P<after>[#b^v♮]*)\Z"
)
_GERMAN = re.compile(r"([xX]?)([A-Ha-h])(isis|eses|is|es|ses|s)([0-9])\Z")
_GERMAN_SIGN = {"is": "#", "es": "b", "s": "b", "isis": "##", "eses": "bb", "ses": "bb"}
_NO_OCTAVE = re.compile(r"x?[A-G](?:##|bb|[#b]?[\^v]?)\Z")
_MINUS_OCTAVE = "octaves run from 0 to 9 (C4 is middle C): none below 0 can be written"


def like_a_note(text: str) -> bool:
    """Whether a word was probably meant as a note."""
    return len(text) <= 20 and bool(_LOOSE.match(text) or _GERMAN.match(text) or _NO_OCTAVE.match(text))


@lru_cache(512)
def mistake(text: str) -> _Mistake | None:
    """The rule, message and nearest notes for a word that was meant as a note; None for any other word."""
    if len(text) > 20:
        return None
    german = _GERMAN.match(text)
    if german:
        letter = german[2].upper().replace("H", "B")
        fix = f"{german[1].lower()}{letter}{_GERMAN_SIGN[german[3]]}{german[4]}"
        return ("bad-note", f"accidentals are signs here: write {fix} for `{text}`", (fix,))
    if _NO_OCTAVE.match(text):
        return ("bad-note", f"`{text}` has no octave: write {text}4 for the octave from middle C up", (f"{text}4",))
    match = _LOOSE.match(text)
    if match is None:
        return None
    x, letter, sign, octave, after = match.groups()
    if letter in "Hh":
        near = (f"{x}B{octave}", f"{x}Bb{octave}")
        return ("note-h", f"there is no note H: write {near[0]} for H, {near[1]} for the German B", near)
    if octave.startswith("-"):
        return ("octave-range", _MINUS_OCTAVE, ())
    if len(octave) > 1:
        return ("octave-range", "octaves run from 0 to 9 (C4 is middle C): end the note with one digit", ())
    plain = f"{x.lower()}{letter.upper()}"
    if after:
        fix = f"{plain}{after}{octave}"
        if sign or not _NOTE.match(fix):
            return (
                "bad-note",
                f"`{text}` is not a note: accidentals go before the octave, as in F#4",
                (),
            )
        return ("accidental-order", f"the accidental goes before the octave: write {fix}", (fix,))
    return _sign_mistake(text, plain, sign, octave)


def _sign_mistake(text: str, plain: str, sign: str, octave: str) -> _Mistake:
    """What is wrong with the case or accidentals of a note-like word."""
    if _NOTE.match(f"{plain}{sign}{octave}"):
        fix = f"{plain}{sign}{octave}"
        if fix[1:] == text[1:] and text[0] == "X":
            return ("bad-note", f"the x before a note is lower-case: write {fix}", (fix,))
        flat = f"{plain}b{octave}" if plain[-1:] == "B" and not sign else ""
        german = f", or {flat} for the German b" if flat else ""
        return ("lower-case-note", f"note names are capitals: write {fix}{german}", (fix, flat) if flat else (fix,))
    if sign[:2] in ("##", "bb") and len(sign) == 3 and sign[2] in "^v":
        near = (f"{plain}{sign[:2]}{octave}", f"{plain}{sign[0]}{sign[2]}{octave}")
        what = f"write {near[0]}, or {near[1]} after one sign, or name the neighbouring note"
        return ("quarter-after-double", f"a quarter tone cannot follow a double sharp or flat: {what}", near)
    if len(sign) == 2 and sign[0] in "^v" and sign[1] in "#b":
        fix = f"{plain}{sign[1]}{sign[0]}{octave}"
        return ("accidental-order", f"the quarter-tone sign comes after the sharp or flat: write {fix}", (fix,))
    allowed = "one of #, b, ##, bb, ^, v, or # or b with ^ or v after it"
    return ("bad-note", f"`{text}` has accidentals that cannot be combined: {allowed}", ())


def note(reader: Reader, wanted: str) -> Note:
    """The note at the cursor."""
    tok = reader.tok
    if tok.kind != "note":
        not_a_note(reader, tok, wanted)
    reader.next()
    decoded = _decode(tok.text)
    if len(decoded) == 3:
        reader.fail(decoded[0], tok.span, decoded[1], decoded[2])
    return Note(*decoded, tok.span)


def not_a_note(reader: Reader, tok: Token, wanted: str) -> NoReturn:
    """Give up: with the message for this mistake if `tok` was meant as a note, else because `wanted` is missing."""
    after = reader.ahead()
    if tok.kind == "word" and _NO_OCTAVE.match(tok.text) and after.start == tok.end and after.text in ("+", "-"):
        octave = reader.tokens[reader.i + 2].text
        sharp, quarter = ("#", "^") if after.text == "+" else ("b", "v")
        near = tuple(f"{tok.text[0]}{sign}{octave}" for sign in (quarter, sharp))
        reader.fail("bad-note", tok.span, f"write {near[0]} for a quarter tone, {near[1]} for a semitone", near)
    if tok.kind == "word" and after.start == tok.end and after.text in ("/", "\\"):
        letter, octave = tok.text[:1], reader.tokens[reader.i + 2].text
        near = tuple(f"{sign}{after.text}{octave}" for sign in (letter, f"{letter}#"))
        if _NOTE.match(near[0]):
            what = f"an eighth-tone sign follows the letter or a single sharp or flat: {near[0]}, {near[1]}"
            reader.fail("bad-note", tok.span, what, near)
    found = mistake(tok.text) if tok.kind == "word" else None
    if found:
        reader.fail(found[0], tok.span, found[1], found[2])
    if tok.kind == "word" and tok.text in ("x", "X") and reader.ahead().kind == "note":
        reader.fail("bad-note", tok.span, f"no space after x: write x{reader.ahead().text}")
    reader.unexpected(wanted)
