"""The lists and ranges of an exercises block."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from gesturesmith.kinds import Unit
from gesturesmith.lang import lengths
from gesturesmith.lang.messages import listed, shown
from gesturesmith.lang.nodes import Amount, Note, Range, Series, Word
from gesturesmith.lang.notes import note
from gesturesmith.lang.playing import dynamics_item
from gesturesmith.lang.reader import Reader
from gesturesmith.lang.tokens import Token
from gesturesmith.lang.values import band_item, bpm
from gesturesmith.lang.words import CHOICES, ORDERS, PACES, STROKES

type _Item = Note | Amount

_LAST_BAR = 9999


def _listed[T](reader: Reader, item: Callable[[Reader], T], more: str) -> tuple[T, ...]:
    """Items separated by commas, to the end of the value; `more` describes an item."""
    items = [item(reader)]
    while reader.tok.text == ",":
        comma = reader.next()
        if reader.at_end() or reader.tok.text == ",":
            reader.fail("bad-list", comma.span, f"a comma with nothing after it: add {more}, or remove the comma")
        items.append(item(reader))
    return tuple(items)


def _list_or_range[T: _Item](
    reader: Reader, item: Callable[[Reader], T], step: Callable[[Reader], Amount], what: str
) -> Series:
    """A list, or one range `A..B by N`."""
    first = reader.tok
    head = item(reader)
    if reader.tok.text == "..":
        value = _range(reader, first, head, item, step)
        return Series((value,), value.span)
    if reader.tok.text in ("--", "-", "–", "...") or (reader.tok.kind == "word" and reader.tok.text == "to"):
        reader.fail("bad-list", reader.tok.span, f"a range has two dots and a step: {first.text}..… by 1")
    items: tuple[T, ...] = (head,)
    if reader.tok.text == ",":
        comma = reader.next()
        if reader.at_end() or reader.tok.text == ",":
            reader.fail("bad-list", comma.span, f"a comma with nothing after it: add {what}, or remove the comma")
        items += _listed(reader, item, what)
    if reader.tok.text == "..":
        reader.fail("bad-list", reader.tok.span, "write a list or one range, not both")
    if reader.tok.kind in ("note", "number"):
        reader.fail("bad-list", reader.tok.span, "put a comma between the items of a list")
    if reader.tok.text == "by":
        reader.fail("bad-list", reader.tok.span, f"`by` belongs to a range: {first.text}..… by 1")
    value_of_list = Series(items, reader.span_from(first))
    reader.finish(f"a list of {what} with commas, or a range")
    return value_of_list


def _range[T: _Item](
    reader: Reader, first: Token, head: T, item: Callable[[Reader], T], step: Callable[[Reader], Amount]
) -> Range:
    reader.next()
    last = item(reader)
    if reader.tok.text != "by":
        if reader.tok.kind not in ("end", "word", "line"):
            reader.unexpected("`by` and the step")
        reader.fail("bad-list", reader.tok.span, f"in what steps? Add `by`: {shown(first.text)[1:-1]}..… by 1")
    reader.next()
    by = step(reader)
    value = Range(head, last, by, reader.span_from(first))
    if reader.tok.text == ",":
        reader.fail("bad-list", reader.tok.span, "write a list or one range, not both")
    reader.finish("a range A..B by N")
    return value


def _step(reader: Reader) -> Amount:
    tok = reader.tok
    return Amount(reader.positive("a step above zero"), "", tok.span)


def start(reader: Reader) -> Series:
    """Notes, or a range of notes with a step in semitones."""
    return _list_or_range(reader, lambda r: note(r, "a pitch such as G4"), _semitones, "pitches")


def _semitones(reader: Reader) -> Amount:
    tok = reader.tok
    step = reader.positive("a step in semitones, such as 1")
    if reader.tok.text in ("semitone", "semitones"):
        reader.fail("unknown-unit", reader.tok.span, f"a number alone counts semitones: by {tok.text}")
    return Amount(step, "", tok.span)


def lasts(reader: Reader) -> Series:
    """Lengths; a unit after the last one applies to all."""
    first = reader.tok

    def length(r: Reader) -> Amount:
        tok = r.tok
        value = r.positive("a number, with beats or s after the last")
        unit: Unit = r.unit(("beats", "s")) if r.tok.text not in ("by", "to") else ""
        return Amount(value, unit, tok.span)

    series = _list_or_range(reader, length, length, "lengths")
    if isinstance(series.items[0], Range):
        return Series((_range_with_unit(reader, series.items[0], first),), series.span)
    items = [i for i in series.items if isinstance(i, Amount)]
    unit = items[-1].unit
    if not unit:
        _no_unit(reader, first)
    return Series(tuple(i if i.unit else replace(i, unit=unit) for i in items), series.span)


def _range_with_unit(reader: Reader, value: Range, first: Token) -> Range:
    """The range, with one unit for its ends and its step."""
    ends = [q for q in (value.first, value.last, value.by) if isinstance(q, Amount)]
    units = {q.unit for q in ends if q.unit}
    if not units:
        _no_unit(reader, first)
    if len(units) > 1:
        reader.fail("unknown-unit", value.span, "one unit for a whole range: beats or s")
    low, high, by = (replace(q, unit=min(units)) for q in ends)
    return Range(low, high, by, value.span)


def _no_unit(reader: Reader, first: Token) -> None:
    reader.fail("missing-unit", first.span, "beats or s? Put the unit after the last number: 8, 6, 4 beats")


def tempo(reader: Reader) -> Series:
    """Beats per minute."""
    return _list_or_range(reader, bpm, _step, "tempos")


def stretch(reader: Reader) -> Series:
    """Factors on intervals, above zero."""

    def factor(r: Reader) -> Amount:
        tok = r.tok
        return Amount(r.positive("a factor such as 1/2 or 3/2"), "", tok.span)

    return _list_or_range(reader, factor, _step, "factors")


def graces(reader: Reader) -> Series:
    """Numbers of grace notes, 0 for none."""
    return _list_or_range(reader, lambda r: r.whole("how many grace notes: 0, 1, 2", 0), _step, "counts")


def strokes(reader: Reader) -> Series:
    """Ways to repeat a note, separated by commas."""
    first = reader.tok
    items = _listed(reader, lambda r: r.choice(STROKES, "a way to repeat a note"), "a way to repeat a note")
    value = Series(items, reader.span_from(first))
    reader.finish("ways to repeat a note, with commas between")
    return value


def dynamics(reader: Reader) -> Series:
    """Dynamics, each as in a gesture, separated by commas."""
    first = reader.tok
    items = _listed(reader, dynamics_item, "dynamics")
    return Series(items, reader.span_from(first))


def band(reader: Reader) -> Series:
    """Bands separated by commas; `G4..F5` is one."""
    first = reader.tok
    items = _listed(reader, band_item, "a band")
    if reader.tok.text == "by":
        reader.fail("bad-list", reader.tok.span, "list bands with commas: G4..F5, C4..G4")
    value = Series(items, reader.span_from(first))
    reader.finish("bands with commas between")
    return value


def order(reader: Reader) -> Word:
    """`easiest first`, `hardest first`, `as listed`, `mixed`."""
    return _phrase(reader, ORDERS, "an order")


def pace(reader: Reader) -> Word:
    """`as fast as possible`, `irregular`."""
    return _phrase(reader, PACES, "a way to repeat")


def choose(reader: Reader) -> Word:
    """`one`, `any order`."""
    return _phrase(reader, CHOICES, "a way to choose among boxes")


def keep(reader: Reader) -> Amount | Word:
    """How many variants to keep: a number, `all` or `one page`."""
    if reader.tok.kind in ("number", "line", "sign"):
        value = reader.whole("how many variants to keep, `all` or `one page`")
        reader.finish("a number, `all` or `one page`")
        return value
    return _phrase(reader, ("all", "one page"), "a way to keep variants")


def _phrase(reader: Reader, options: tuple[str, ...], what: str) -> Word:
    """One of several phrases."""
    first = reader.tok
    if first.kind != "word":
        reader.unexpected(listed(options))
    words = [reader.next().text]
    while reader.tok.kind == "word":
        words.append(reader.next().text)
    said = " ".join(words)
    span = reader.span_from(first)
    if said not in options:
        near = reader.notes.nearest(said.replace("-", " "), options)
        reader.fail("unknown-word", span, f"{shown(said)} is not {what}: write {listed(near or options)}", near)
    reader.finish(f"one of {listed(options)}")
    return Word(said, span)


def players(reader: Reader) -> Amount:
    """The number of players: one or two."""
    value = reader.whole("1 or 2")
    if value.value > 2:
        reader.fail("out-of-range", value.span, "one or two players read from one line: give more players parts")
    reader.finish("1 or 2")
    return value


def bar_number(reader: Reader) -> Amount:
    """The number of a bar."""
    value = reader.whole("the number of the first bar, such as 12")
    if value.value > _LAST_BAR:
        reader.fail("out-of-range", value.span, f"bar numbers run from 1 to {_LAST_BAR}")
    reader.finish("one bar number")
    return value


def pickup(reader: Reader) -> Amount:
    """The length of a first bar that is not whole, in beats."""
    value = lengths.length(reader, "the length of the first bar in beats: 1 beat")
    reader.finish("one length in beats")
    return value


def count(reader: Reader) -> Amount:
    """A whole number from 1."""
    value = reader.whole("a number such as 2")
    if value.value > 1000:
        reader.fail("out-of-range", value.span, f"{Fraction(value.value)} times is too many: at most 1000")
    tok = reader.tok
    if tok.text in ("times", "x", "time"):
        reader.fail("too-much", tok.span, f"write the number alone: {reader.key.text}: {reader.back().text}")
    reader.finish("one whole number")
    return value
