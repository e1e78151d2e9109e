"""Notes and points as written in other notations, and how to write them here."""

from __future__ import annotations

import re

from gesturesmith import techniques
from gesturesmith.lang.messages import listed
from gesturesmith.lang.reader import Reader
from gesturesmith.lang.tokens import Token, spanning
from gesturesmith.lang.trade_words import NOTE_VALUES
from gesturesmith.lang.words import MUTES, POINT_WORDS
from gesturesmith.source import Span, as_said

_SYLLABLES = {
    "do": "C",
    "ut": "C",
    "re": "D",
    "ré": "D",
    "mi": "E",
    "fa": "F",
    "sol": "G",
    "la": "A",
    "si": "B",
    "ti": "B",
}
_SYLLABLE = re.compile(rf"({'|'.join(_SYLLABLES)})([#b]?)([0-9]?)\Z", re.IGNORECASE)
_SPELT_OUT = re.compile(r"([A-Ga-g])[-_]?(flat|sharp)[-_]?([0-9])\Z", re.IGNORECASE)
_SIGN = {"flat": "b", "sharp": "#", "bémol": "b", "dièse": "#", "bemolle": "b", "diesis": "#"}
_NOTE_AFTER_SIGN = re.compile(r"([\^v])([A-G])([#b]?)([0-9])\Z")
_EXTREMELY = ("as high as", "as low as", "so hoch wie", "le plus haut", "le plus aigu")
_OCTAVE_OF_C1 = 3  # c' is C4
# By how many notes in the time of how many are said.
_TUPLETS = {
    "triplet": 3, "triplets": 3, "triole": 3, "triolet": 3, "terzina": 3, "duplet": 2, "quintuplet": 5,
    "quintole": 5, "quintolet": 5, "quintina": 5, "sextuplet": 6, "sextole": 6, "sextolet": 6, "sestina": 6,
    "septuplet": 7, "septole": 7, "septolet": 7, "settimina": 7, "tuplet": 5, "n-tole": 5,
}  # fmt: skip
_RATIO = re.compile(r"([0-9]+):[0-9]+")
# What a number after a slash may name: its length in quarters, and its name.
_VALUES = (
    (1, "4", "a whole note"), (2, "2", "a half note"), (4, "1", "a quarter note"), (8, "1/2", "an eighth"),
    (16, "1/4", "a sixteenth"), (32, "1/8", "a thirty-second"),
)  # fmt: skip
_GRACES = frozenset(
    ("acciaccatura", "appoggiatura", "grace", "gracenote", "vorschlag", "appoggiature", "acciaccature", "petite")
)


def no_point(reader: Reader, tok: Token) -> None:
    """Say how to write a point, if `tok` begins one in another notation."""
    text, after = tok.text, reader.ahead()
    joined = after.start == tok.end
    sign = _NOTE_AFTER_SIGN.match(f"{text}{after.text}" if text == "^" and joined else text)
    if sign:
        fix = f"{sign[2]}{sign[3]}{sign[1]}{sign[4]}"
        _say(reader, tok, f"the sign of a quarter tone goes after the letter: write {fix}", fix)
    if text in "([{" and after.kind in ("note", "word"):
        _say(
            reader,
            tok,
            "no brackets around points, and one note at a time: write G4, A4, or xG4 for about G4, or G4 as ghost",
        )
    if tok.kind != "word":
        return
    if text.lower() in _TUPLETS:
        many = _TUPLETS[text.lower()]
        example = f"C5 for 1/{many}, D5 for 1/{many} and so on"
        _say(reader, tok, f"tuplets follow from the lengths: {example}, or all of them with lasts: 1 beat")
    if text.lower() in _GRACES and after.kind == "note":
        _say(reader, tok, f"a word goes after its note: {after.text} grace", f"{after.text} grace")
    line = " ".join(t.text for t in reader.tokens[reader.i : reader.i + 5] if t.line == tok.line).lower()
    if any(line.startswith(said) for said in _EXTREMELY):
        fix = "lowest" if " low" in f" {line}" else "highest"
        _say(reader, tok, f"the end of what the player can do is one word: {fix}", fix)
    syllable = _SYLLABLE.match(text)
    if syllable:
        fix = f"{_SYLLABLES[syllable[1].lower()]}{syllable[2]}{syllable[3] or 4}"
        _say(reader, tok, f"notes are letters here, and C4 is middle C: write {fix} for {text}", fix)
    spelt = _SPELT_OUT.match(text)
    if spelt:
        fix = f"{spelt[1].upper()}{_SIGN[spelt[2].lower()]}{spelt[3]}"
        _say(reader, tok, f"a flat is b and a sharp #: write {fix}", fix)
    if joined and after.text in ("'", "’") and re.fullmatch(r"[A-Ga-g](is|es|s)?", text):
        strokes = 0
        while reader.tokens[reader.i + 1 + strokes].text in ("'", "’"):
            strokes += 1
        altered = {"is": "#", "es": "b", "s": "b"}.get(text[1:], "")
        fix = f"{text[0].upper()}{altered}{_OCTAVE_OF_C1 + strokes}"
        _say(reader, tok, f"octaves are numbers, and c′ is C4: write {fix}", fix)


def tuplet_ratio(reader: Reader, span: Span) -> None:
    """Say how tuplets are written, if a ratio such as `5:4`, at `span` and read as a harmonic, stands before a note
    or a bracket."""
    tok = reader.tok
    ratio = _RATIO.fullmatch(reader.back().text)
    if not ratio or not (tok.kind in ("note", "word") or tok.text in ("(", "[", "{")):
        return
    many = int(ratio[1])
    note = tok.text if tok.kind == "note" else "C5"
    if many > 1:
        ways = f"{note} for 1/{many} and so on in one beat, for 2/{many} in two"
        reader.fail("bad-item", span, f"no {ratio[0]}: the bracket follows from the lengths, {ways}")


def value_after_slash(reader: Reader) -> None:
    """Say how a length is written, if `/4` follows a note as its value."""
    tok, after = reader.tok, reader.ahead()
    point = reader.back().text
    if tok.text != "/" or not re.fullmatch(r"[1-9][0-9]{0,2}", after.text):
        return
    number = int(after.text)
    ways = [f"`{point} for {beats}` ({name})" for value, beats, name in _VALUES if value == number]
    ways += [f"`{point} for 1/{number}` (of a beat)"] if number > 1 else []
    where = spanning(reader.back(), after)
    reader.fail("bad-item", where, f"a length stands after `for`, in beats: {' or '.join(ways)}")


def after_point(reader: Reader, tok: Token) -> None:
    """Say what may follow a point, if `tok` is what other notations have there."""
    value_after_slash(reader)
    point, after = reader.back().text, reader.ahead()
    note = re.fullmatch(r"([A-G])([#b]?)([0-9])", point)
    joined = tok.start == reader.back().end
    if tok.text == "+" and joined and note:
        fix = f"{note[1]}{note[2]}^{note[3]}"
        _say(
            reader, tok, f"a quarter tone higher is {fix}, and cents are {point}+31c; a technique follows `as`", fix
        )
    if tok.text == "-" and joined and note and after.kind not in ("note", "word", "percent"):
        fix = f"{note[1]}{note[2]}v{note[3]}"
        _say(reader, tok, f"a quarter tone lower is {fix}, and cents are {point}-31c; held is {point} tenuto", fix)
    if tok.text == "." and joined and (after.text == "," or after.kind == "end"):
        _say(reader, tok, f"a dot on a note is a word here: {point} staccato")
    if tok.text == ">" and (after.text == "," or after.kind == "end"):
        _say(reader, tok, f"an accent is a word here: {point} accent; a hairpin belongs in `dynamics`: f > p")
    if tok.text in ("/", "&") or (
        tok.kind == "word" and tok.text in ("and", "und", "et", "e") and after.kind == "note"
    ):
        _say(reader, tok, "one note at a time: a comma between two notes, `sing:` for one that is sung")
    if tok.text in (";", "|"):
        _say(reader, tok, "a comma goes between notes; bars are drawn by themselves, from `meter`")
    if tok.text == "(" and techniques.called(after.text):
        _say(reader, tok, f"no brackets around words: {point} as {techniques.called(after.text)[0]}")
    if tok.text == "(" and after.text in POINT_WORDS:
        _say(reader, tok, f"no brackets around words: {point} {after.text}")
    if tok.text in ("cresc", "crescendo", "dim", "diminuendo", "decrescendo"):
        sign = "p < f" if tok.text.startswith("cresc") else "f > p"
        _say(reader, tok, f"a hairpin has a key of its own: dynamics: {sign}")
    if tok.text in _SIGN and note:
        fix = f"{note[1]}{_SIGN[tok.text]}{note[3]}"
        _say(reader, tok, f"a flat is b and a sharp #, before the octave: write {fix}", fix)
    if tok.kind == "word":
        _word(reader, tok, point)


def length(reader: Reader) -> None:
    """Say how to write a length, if a note value is named: `quarter note`, `zwei Schläge`."""
    line = [t for t in reader.tokens[reader.i : reader.i + 2] if t.line == reader.tok.line]
    for count in (2, 1):
        beats = NOTE_VALUES.get(as_said(" ".join(t.text for t in line[:count])))
        if beats is not None:
            fix = f"{beats} {'beat' if beats in ('1', '1/2', '1/4', '3/4') else 'beats'}"
            where = spanning(line[0], line[min(count, len(line)) - 1])
            reader.fail("unknown-word", where, f"lengths are numbers of beats: write {fix}", (fix,))


def _word(reader: Reader, tok: Token, point: str) -> None:
    """Words after a point that name a technique, or join it to the next."""
    line = [t for t in reader.tokens[reader.i : reader.i + 4] if t.line == tok.line]
    after = reader.ahead()
    if tok.text in ("x", "times") and after.kind == "number":
        what = f"attacks: {after.text} repeats a single note; otherwise it is written again, after a comma"
        _say(reader, tok, what)
    if tok.text in ("o", "O"):
        _say(reader, tok, "the sign o is a word here: write `open`", "open")
    if tok.text in ("note", "notes") and reader.back().text == "grace":
        _say(reader, tok, "the word is `grace` alone")
    if tok.text in MUTES:
        _say(reader, tok, f"a mute has a key of its own: mute: {tok.text}; at a point it goes in as muted")
    if tok.text == "to" and after.kind == "note":
        _say(reader, tok, f"between two notes goes a line, or a comma for a new attack: {point} -- {after.text}")
    for count in (3, 2, 1):
        words = line[:count]
        said = " ".join(t.text for t in words)
        beats = NOTE_VALUES.get(as_said(said))
        if beats is not None and all(t.kind == "word" for t in words):
            fix = f"for {beats}"
            reader.fail("unknown-word", spanning(words[0], words[-1]), f"how long, in beats: {point} {fix}", (fix,))
    for count in (3, 2, 1):
        words = line[:count]
        if any(t.kind != "word" for t in words):
            continue
        found = techniques.called(" ".join(t.text for t in words))
        if not found:
            continue
        if any(techniques.get(name).needs_line for name in found):
            where = (
                f"{point} -- {line[count].text}" if len(line) > count and line[count].kind == "note" else "G4 -- C5"
            )
            ways = listed(tuple(f"technique: {name}" for name in found))
            _say(reader, tok, f"a slide is a line between two points, {where}, and the gesture says how: {ways}")
        ways = listed(tuple(f"{point} as {name}" for name in found))
        _say(reader, tok, f"a technique follows `as`: write {ways}")


def _say(reader: Reader, tok: Token, message: str, *near: str) -> None:
    rule = "unknown-word" if tok.kind == "word" else "unexpected-sign"
    reader.fail(rule, tok.span, message, near)
