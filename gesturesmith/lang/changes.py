"""Entries of `play:` that are not played: a new tempo, meter or key, and marks at a place."""

from __future__ import annotations

from typing import get_args

from gesturesmith.kinds import TempoTurn, one_of
from gesturesmith.lang.messages import shown
from gesturesmith.lang.nodes import (
    Amount,
    DoubleBarNode,
    GradualNode,
    KeyNode,
    MarkNode,
    PlayItem,
    Tempo,
    TimeSignature,
)
from gesturesmith.lang.reader import Reader
from gesturesmith.lang.tokens import Token
from gesturesmith.lang.values import key_item, meter_item, tempo_item
from gesturesmith.lang.words import PLAYERS

TURNS: tuple[TempoTurn, ...] = get_args(TempoTurn)
_ABBREVIATED = {
    "accel": "accelerando", "stringendo": "accelerando", "string": "accelerando", "rit": "ritardando",
    "ritard": "ritardando", "rall": "ritardando", "rallentando": "ritardando", "allargando": "ritardando",
    "ritenuto": "ritardando",
}  # fmt: skip
_LONGEST_MARK = 12  # letters of a rehearsal mark: our own judgement
# What else is typed for an entry, and how it is written.
_MEANT = {
    "letter": "mark A", "rehearsal": "mark A", "figure": "mark 1", "segno": 'mark "Segno"', "time": "meter 3/4",
    "barline": "double bar", "bar": "double bar", "doublebar": "double bar", "faster": 'tempo "Faster" 96',
    "slower": 'tempo "Slower" 60', "fermata": "it after a note or a rest: rest 2 fermata",
    "signature": "key Eb major",
}  # fmt: skip
_WORDS = frozenset(("tempo", "meter", "key", "mark", "double", *TURNS, *_ABBREVIATED))
_AFTER_NAME = frozenset((",", "/", "up", "down", *PLAYERS))


def begins(reader: Reader) -> bool:
    """Whether such an entry begins at the cursor: a gesture of this name is played, unless more follows."""
    tok, after = reader.tok, reader.ahead()
    if tok.kind != "word" or tok.text not in _WORDS:
        return False
    return tok.text not in reader.notes.names or not (after.kind == "end" or after.text in _AFTER_NAME)


def meant(reader: Reader) -> None:
    """Give up at a word that other trade words stand for, if no gesture has that name."""
    tok, after = reader.tok, reader.ahead()
    if tok.kind == "number" and tok.text.endswith(("/4", "/8")) and after.text != "of":
        reader.fail("bad-change", tok.span, f"a new meter is written meter {tok.text}")
    if tok.text == "a" and after.text == "tempo":
        reader.fail("bad-change", tok.span, "say which tempo it goes back to: tempo 60")
    if tok.kind != "word" or tok.text.casefold() in reader.notes.names:
        return
    if tok.text.casefold() in _MEANT:
        reader.fail("bad-change", tok.span, f"write {_MEANT[tok.text.casefold()]}")


def change(reader: Reader) -> PlayItem:
    """The entry at the cursor."""
    first = reader.next()
    found = _of(reader, first)
    return PlayItem(change=found, span=reader.span_from(first))


def _of(reader: Reader, first: Token) -> Tempo | GradualNode | TimeSignature | KeyNode | MarkNode | DoubleBarNode:
    match first.text:
        case "tempo":
            return tempo_item(reader)
        case "meter":
            if reader.tok.text == "free":
                what = "within a passage bars go on: end it here and begin another with `meter: free`"
                reader.fail("bad-change", reader.tok.span, what)
            return meter_item(reader)
        case "key":
            return key_item(reader)
        case "mark":
            return _mark(reader)
        case "double":
            tok = reader.tok
            if tok.text != "bar":
                reader.unexpected("`bar`: a double bar line is written `double bar`")
            reader.next()
            return DoubleBarNode(reader.span_from(first))
        case _:
            return _gradual(reader, first)


def _gradual(reader: Reader, first: Token) -> GradualNode:
    """`accelerando to 96 over 8`."""
    turn = _ABBREVIATED.get(first.text, first.text)
    whole = f"{turn} to {'96' if turn == TURNS[0] else '60'} over 8"
    if turn != first.text:
        reader.fail("bad-change", first.span, f"in full, to which tempo and over how many beats: {whole}", (whole,))
    if reader.tok.text != "to":
        where = reader.tok.span if reader.tok.kind != "end" else first.span
        reader.fail("bad-change", where, f"to which tempo, and over how many beats? Write {whole}")
    reader.next()
    to = tempo_item(reader)
    if to.words is not None:
        what = f"the words belong to the new tempo: {whole}, and after these beats tempo {to.words.text!r} 96"
        reader.fail("bad-change", to.words.span, what.replace("'", '"'))
    if reader.tok.text != "over":
        where = reader.tok.span if reader.tok.kind != "end" else first.span
        reader.fail("bad-change", where, f"over how many beats? Write {whole}")
    reader.next()
    tok = reader.tok
    value = reader.positive("how many beats it takes: over 8")
    unit = reader.unit(("beats", "bars"))
    return GradualNode(one_of(TURNS, turn), to, Amount(value, unit or "beats", tok.span), reader.span_from(first))


def _mark(reader: Reader) -> MarkNode:
    """`mark A`, `mark 12`, `mark "Coda"`."""
    tok = reader.tok
    if tok.kind == "text":
        said = reader.one_text().text.strip()
        if not 0 < len(said) <= _LONGEST_MARK:
            what = f'a rehearsal mark has 1 to {_LONGEST_MARK} letters; words go above a note: C4 for 2 "…"'
            reader.fail("bad-change", tok.span, what)
    elif tok.kind in ("word", "number") and len(tok.text) <= _LONGEST_MARK:
        said = reader.next().text
    elif tok.kind in ("word", "number"):
        reader.fail("bad-change", tok.span, f"a rehearsal mark has at most {_LONGEST_MARK} letters")
    else:
        if tok.kind == "note":
            reader.fail("bad-change", tok.span, f"{shown(tok.text)} is a pitch: the letter alone, mark A")
        if tok.text == "," or tok.kind == "end":
            reader.fail("bad-change", tok.span, "which letter or number? mark A")
        reader.unexpected("the letter, the number or a short text of a rehearsal mark: mark A")
    return MarkNode(said, tok.span)
