"""`play:`: what a passage plays, item by item. An unreadable item does not hide the next one."""

from __future__ import annotations

from dataclasses import replace
from typing import NoReturn, get_args

from gesturesmith.kinds import Direction, one_of
from gesturesmith.lang import changes, habits, lengths, pitches
from gesturesmith.lang.contour import is_point_text, point_text, point_word
from gesturesmith.lang.graces import in_play
from gesturesmith.lang.messages import short, shown
from gesturesmith.lang.nodes import Amount, Note, Play, PlayItem, PointText, Word
from gesturesmith.lang.notes import like_a_note, not_a_note, note
from gesturesmith.lang.reader import Reader, UnreadableError
from gesturesmith.lang.tokens import Token
from gesturesmith.lang.words import EXTREMES, FERMATA, GRACE, HEIGHTS, LEVELS, PLAYERS
from gesturesmith.units import interval

_AN_ITEM = "a gesture's name, `rest 4`, or a pitch such as `C4 for 2`"
_MOVE_FORMS = "semitones (up 2) or an interval (up M2, down P5)"
_DIVIDED = "/"
_BRACKETS = ("(", "[", "{")
_MAX_SEMITONES = 127  # wider than any notation


def play(reader: Reader) -> Play:
    """The whole list."""
    first = reader.tok
    items = _items(reader)
    return Play(tuple(items if reader.failed else in_play(reader, items)), reader.span_from(first))


def _items(reader: Reader) -> list[PlayItem]:
    items: list[PlayItem] = []
    while True:
        try:
            items.append(_of_players(reader))
            if not reader.at_end() and reader.tok.text != ",":
                _after_item(reader, items[-1])
        except UnreadableError:
            while not reader.at_end() and reader.tok.text != ",":
                reader.next()
        if reader.at_end():
            return items
        comma = reader.next()
        if reader.at_end() or reader.tok.text == ",":
            reader.error("bad-list", comma.span, "a comma with nothing after it: add an item, or remove the comma")
            while reader.tok.text == ",":
                reader.next()
            if reader.at_end():
                return items


def _of_players(reader: Reader) -> PlayItem:
    """An item; `C5 / E4 for 2` divides two players, and a word says which of them plays."""
    if changes.begins(reader):
        return changes.change(reader)
    changes.meant(reader)
    item = _item(reader)
    tok = reader.tok
    if tok.text == _DIVIDED:
        habits.value_after_slash(reader)
        reader.next()
        below = _item(reader)
        if item.note is not None and item.for_ is None and below.for_ is not None:
            item = replace(item, for_=below.for_)
        if item.note is not None and item.for_ is None:
            reader.fail("bad-item", item.span, "how long? Write `for 2` (beats) before the `/`")
        levels = tuple(mark for mark in below.marks if mark.text in LEVELS)
        if item.note is not None and below.note is not None and not any(m.text in LEVELS for m in item.marks):
            item = replace(item, marks=(*item.marks, *levels))  # as its length, a level at the end is for both
        item = replace(item, below=below, span=item.span.to(below.span))
        tok = reader.tok
        if tok.text in PLAYERS:
            reader.fail("bad-item", tok.span, f"divided, both play: leave out `{tok.text}`")
    elif tok.kind == "word" and tok.text in PLAYERS:
        item = replace(item, who=reader.word(_AN_ITEM), span=item.span.to(tok.span))
        if reader.tok.kind == "text":
            reader.fail("bad-item", reader.tok.span, f"a text comes before `{tok.text}`, which ends the item")
    return item


def _item(reader: Reader) -> PlayItem:
    tok, after = reader.tok, reader.ahead()
    if tok.kind == "note" or pitches.begins(reader):
        return _pitch(reader)
    if tok.kind != "word":
        _no_item(reader, tok)
    if tok.text == "rest":
        reader.next()
        length = lengths.length(reader, "the length of the rest in beats: rest 4")
        held = (reader.word(_AN_ITEM),) if reader.tok.text == FERMATA else ()
        return PlayItem(rest=length, marks=held, span=reader.span_from(tok))
    if tok.text.casefold() not in reader.notes.names:
        if tok.text == "r" or (tok.text in ("rests", "Rest", "pause", "silence") and after.kind == "number"):
            count = after.text if after.kind == "number" else "4"
            reader.fail("bad-item", tok.span, f"silence in a passage is a rest with its beats: rest {count}")
        if tok.text in HEIGHTS or tok.text in EXTREMES:
            reader.fail("bad-item", tok.span, f"`{tok.text}` needs a gesture's band: play a gesture or a pitch")
        if like_a_note(tok.text):
            not_a_note(reader, tok, _AN_ITEM)
    name = reader.word(_AN_ITEM)
    if reader.tok.kind == "word" and reader.tok.text in ("up", "down"):
        move = one_of(get_args(Direction), reader.next().text)
        semitones, by = _distance(reader)
        return PlayItem(name=name, move=move, semitones=semitones, interval=by, span=reader.span_from(tok))
    return PlayItem(name=name, span=tok.span)


def _no_item(reader: Reader, tok: Token) -> NoReturn:
    if tok.kind == "number":
        reader.fail(
            "bad-item",
            tok.span,
            f"a number alone is not an item: write rest {short(tok.text)}, or C4 for {short(tok.text)}",
        )
    if tok.kind == "text":
        reader.fail("bad-item", tok.span, "play a gesture by its name, without quotes, not by its title")
    reader.unexpected(_AN_ITEM)


def _pitch(reader: Reader) -> PlayItem:
    """`C4 for N` with point words in any order."""
    first = reader.tok
    pitch = pitches.pitch(reader) if pitches.begins(reader) else note(reader, _AN_ITEM)
    if reader.tok.kind == "note" or reader.tok.text in _BRACKETS:
        habits.tuplet_ratio(reader, pitch.span)
    length: Amount | None = None
    as_: tuple[Word, ...] = ()
    marks: tuple[Word, ...] = ()
    texts: tuple[PointText, ...] = ()
    while reader.tok.kind in ("word", "text") and reader.tok.text not in PLAYERS:
        tok = reader.tok
        if is_point_text(tok):
            texts = point_text(reader, texts)
        elif tok.text == "for":
            if length:
                reader.fail("said-twice", tok.span, "one `for` per pitch")
            reader.next()
            length = lengths.length(reader, "the length of the pitch in beats: C4 for 2")
        elif tok.text == "without":
            reader.fail(
                "bad-item", tok.span, "a pitch in a passage begins as ordinary playing: no technique ends there"
            )
        elif tok.text in ("up", "down"):
            reader.fail("bad-item", tok.span, "only gestures and passages can be moved: write the pitch you want")
        else:
            as_, marks = point_word(reader, as_, marks)
    if reader.tok.kind == "at":
        reader.fail("bad-item", reader.tok.span, "items of a passage follow each other and have no place")
    grace = any(mark.text == GRACE for mark in marks)
    if grace and length is not None:
        reader.fail("bad-grace", length.span, "a grace note has no length of its own: leave out `for`")
    if length is None and not grace and reader.tok.text != _DIVIDED:
        name = first.text if isinstance(pitch, Note) else "it with its length, F 0:11"
        reader.fail("bad-item", pitch.span, f"how long? Write {name} for 2 (beats)")
    return PlayItem(note=pitch, for_=length, as_=as_, marks=marks, texts=texts, span=reader.span_from(first))


def _distance(reader: Reader) -> tuple[int | None, str]:
    """How far a gesture is moved: semitones or the name of an interval."""
    tok = reader.tok
    if tok.kind == "number":
        count = reader.whole("semitones")
        if count.value > _MAX_SEMITONES:
            reader.fail("out-of-range", tok.span, f"{tok.text} semitones is outside anything that can be written")
        if reader.tok.text in ("semitone", "semitones", "st"):
            reader.fail("unknown-unit", reader.tok.span, f"a number alone counts semitones: {tok.text}")
        return int(count.value), ""
    if tok.kind in ("word", "note"):
        if interval(tok.text) is None:
            names = "M2, m3, P4, A4, d5 and the like, or a number of semitones"
            reader.fail("bad-item", tok.span, f"{shown(tok.text)} is not an interval: write {names}")
        reader.next()
        return None, tok.text
    return reader.unexpected(_MOVE_FORMS)


def _after_item(reader: Reader, item: PlayItem) -> NoReturn:
    """Report what follows an item but is neither a comma nor the end."""
    tok = reader.tok
    if item.change is not None:
        reader.fail("bad-list", tok.span, "this changes from here on, for everything: put a comma after it")
    if tok.kind == "word" and item.name and tok.text == "for":
        hint = "a gesture is as long as its own `lasts` says"
        reader.fail("bad-item", tok.span, f"`for` belongs to pitches: {hint}")
    if tok.kind == "number" or tok.text in ("x", "times"):
        reader.fail("bad-item", tok.span, "to play it again, list it again, or write repeat: 2 for the whole")
    if tok.kind in ("word", "note"):
        reader.fail("bad-list", tok.span, "put a comma between the items of a passage")
    if tok.text in ("--", "~~", "__", "->", "::", ".."):
        reader.fail("bad-item", tok.span, "lines belong in the contour of a gesture; use commas here")
    reader.unexpected("a comma or nothing")
