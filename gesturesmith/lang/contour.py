"""Contours: points and the lines between them. An unreadable point does not hide the next one."""

from __future__ import annotations

from fractions import Fraction
from typing import NoReturn

from gesturesmith import techniques
from gesturesmith.kinds import one_of
from gesturesmith.lang import drawn, graces, habits, lengths, pitches
from gesturesmith.lang.messages import listed, short, shown
from gesturesmith.lang.nodes import (
    Amount,
    Contour,
    Harmonic,
    Height,
    JustNote,
    LineNode,
    Note,
    PointNode,
    PointText,
    Rest,
    Text,
    Word,
)
from gesturesmith.lang.notes import like_a_note, not_a_note, note
from gesturesmith.lang.reader import Reader, UnreadableError
from gesturesmith.lang.tokens import Token
from gesturesmith.lang.words import (
    AD_LIB,
    COVERS,
    EXTREMES,
    GRACE,
    GROWTH,
    HEIGHTS,
    LEVELS,
    LINES,
    MARKS,
    MAX_SYLLABLE,
    POINT_WORDS,
    SIGNS,
    SILENT_MARKS,
    STROKES,
)

_PERCENT = {word: Fraction(percent) for word, percent in HEIGHTS.items()}
_ALL_HEIGHTS = (*HEIGHTS, *EXTREMES)
_POINT_FORMS = "a point, such as G4, xG4, high, 35% or r"


def contour(reader: Reader) -> Contour:
    """A whole contour, to the end of the value."""
    first = reader.tok
    points: list[PointNode] = []
    lines: list[LineNode] = []
    beats: Fraction | None = None
    _no_line_here(reader, "a contour starts with a point, not with a line")
    while True:
        if drawn.begins(reader):
            _drawn(reader, points, lines)
        else:
            point = _point_or_skip(reader)
            if point:
                points.append(point)
        if reader.at_end():
            break
        line = _line(reader)
        _no_line_here(reader, "two lines in a row: put one line, or a comma, between two points")
        if reader.at_end():
            _ends_with_line(reader, line)
        lines.append(line)
    if not reader.failed:
        _check_silence(reader, points, lines)
        points, lines = graces.at_their_notes(reader, points, lines)
        points, beats = lengths.placed(reader, points, lines)
    return Contour(tuple(points), tuple(lines), reader.span_from(first), beats)


def _drawn(reader: Reader, points: list[PointNode], lines: list[LineNode]) -> None:
    """Random points, added with the lines between them."""
    try:
        some, between = drawn.points(reader, _line)
        if not (reader.at_end() or _is_line(reader.tok)):
            what = "a line, a comma or nothing: random points take neither words nor times"
            reader.unexpected(what)
        points += some
        lines += between
    except UnreadableError:
        while not reader.at_end() and not _is_line(reader.tok):
            reader.next()


def _is_line(tok: Token) -> bool:
    return tok.kind == "line" and tok.text in LINES


def _no_line_here(reader: Reader, message: str) -> None:
    """Report a line where none is allowed, once, and skip it."""
    if not _is_line(reader.tok):
        return
    rule = "two-lines" if message.startswith("two") else "loose-line"
    reader.error(rule, reader.tok.span, message)
    while _is_line(reader.tok):
        reader.next()


def _ends_with_line(reader: Reader, line: LineNode) -> NoReturn:
    what = "a comma" if line.kind == "none" else f"the line {SIGNS[line.kind]}"
    reader.fail("loose-line", line.span, f"{what} needs a point after it: add one, or remove the sign")


def _line(reader: Reader) -> LineNode:
    """The line at the cursor, with its growth."""
    tok = reader.next()
    kind = LINES[tok.text]
    word = reader.tok
    if word.kind != "word" or word.text not in GROWTH:
        return LineNode(kind, "", tok.span)
    reader.next()
    if kind != "wavy":
        reader.error(
            "unknown-word", word.span, f"only a wavy line can be `{word.text}`: write ~~ {word.text}", ("~~",)
        )
    return LineNode(kind, one_of(GROWTH, word.text), tok.span.to(word.span))


def _point_or_skip(reader: Reader) -> PointNode | None:
    """A point; if it is faulty, report its errors and move to the next line or the end."""
    try:
        point = _point(reader)
        if reader.at_end() or _is_line(reader.tok):
            return point
        _after_point(reader)
    except UnreadableError:
        while not reader.at_end() and not _is_line(reader.tok):
            reader.next()
    return None


def _point(reader: Reader) -> PointNode:
    first = reader.tok
    where = height(reader)
    at: Amount | None = None
    for_: Amount | None = None
    as_: tuple[Word, ...] = ()
    without: tuple[Word, ...] = ()
    marks: tuple[Word, ...] = ()
    texts: tuple[PointText, ...] = ()
    while True:
        kind = reader.tok.kind
        if kind == "at":
            if at:
                reader.fail("said-twice", reader.tok.span, f"this point already has a place, {at.value}: keep one")
            at = place(reader)
        elif kind == "word" and reader.tok.text == "for":
            if for_:
                reader.fail("said-twice", reader.tok.span, "one `for` per point")
            reader.next()
            for_ = lengths.length(reader, "the length of the point in beats: C5 for 3/2")
        elif kind == "word" and reader.tok.text == "ad" and reader.ahead().text == "lib":
            texts = _ad_lib(reader, texts)
        elif kind == "word" and reader.tok.text == "without":
            without = (*without, _without(reader, without))
        elif is_point_text(reader.tok):
            texts = point_text(reader, texts)
        elif kind == "word":
            as_, marks = point_word(reader, as_, marks)
        else:
            break
    if isinstance(where, Rest):
        _check_rest(reader, marks)
    _check_changes(reader, as_, without)
    return PointNode(
        height=where,
        at=at,
        for_=for_,
        as_=as_,
        without=without,
        marks=marks,
        texts=texts,
        span=reader.span_from(first),
    )


def height(reader: Reader) -> Note | JustNote | Harmonic | Height | Rest:
    """The height of a point: a note, another form of pitch, a height in the band, an extreme or silence."""
    tok = reader.tok
    if tok.kind == "note":
        return note(reader, _POINT_FORMS)
    if pitches.begins(reader):
        return pitches.pitch(reader)
    if tok.kind == "percent":
        reader.next()
        percent = reader.value_of(tok, tok.text[:-1])
        if percent > 100:
            reader.fail("out-of-range", tok.span, f"{tok.text} is outside the band: 0% is its bottom, 100% its top")
        return Height(tok.text, percent, tok.span)
    if tok.kind == "word":
        if tok.text in _PERCENT:
            reader.next()
            return Height(tok.text, _PERCENT[tok.text], tok.span)
        if tok.text in EXTREMES:
            reader.next()
            return Height(tok.text, None, tok.span)
        if tok.text == "r":
            return Rest(reader.next().span)
    return _no_height(reader, tok)


def _no_height(reader: Reader, tok: Token) -> NoReturn:
    """Report why `tok` cannot begin a point."""
    habits.no_point(reader, tok)
    text, after = tok.text, reader.ahead()
    if tok.kind == "number":
        if after.text == "%":
            reader.fail("bad-number", tok.span.to(after.span), f"no space before %: write {short(text)}%")
        hint = "a height takes a %, and a decimal a point, not a comma"
        reader.fail("bad-number", tok.span, f"{short(text)} is not a point: {hint}")
    if tok.kind == "word":
        rest = text[1:]
        silent = rest == "r"
        if text[0] in "xX" and len(text) < 12 and (silent or rest in _ALL_HEIGHTS or rest.isdigit()):
            what = "silence has no pitch" if silent else "a height is approximate already"
            plain = f"{rest}%" if rest.isdigit() else rest
            reader.fail("x-before-height", tok.span, f"{what}, so no x stands before it: write {plain}", (plain,))
        if text in ("x", "X") and (after.kind == "percent" or after.text in (*_ALL_HEIGHTS, "r")):
            reader.fail("x-before-height", tok.span, f"no x before a height or r: write {after.text}")
        if text in ("rest", "R"):
            reader.fail("unknown-word", tok.span, "silence in a contour is `r`", ("r",))
        if text in POINT_WORDS or text in ("as", "without", "say"):
            more = ' "f"' if text == "say" else ""
            reader.fail(
                "unknown-word", tok.span, f"`{text}` goes after a point, not instead of one: G4 {text}{more}"
            )
        if like_a_note(text):
            not_a_note(reader, tok, _POINT_FORMS)
        near = reader.notes.nearest(text, _ALL_HEIGHTS)
        what = f"write {listed(near)}" if near else f"write a note such as G4, {listed(_ALL_HEIGHTS)}, 35% or r"
        reader.fail("unknown-word", tok.span, f"{shown(text)} is neither a note nor a height: {what}", near)
    reader.unexpected(_POINT_FORMS)


def place(reader: Reader) -> Amount:
    """`@T`; its unit is that of `lasts`."""
    tok = reader.next()
    value = reader.value_of(tok, tok.text[1:])
    unit = reader.tok
    if unit.kind == "word" and unit.text in ("s", "beat", "beats", "sec", "seconds", "ms"):
        reader.fail(
            "bad-place", unit.span, f"a place has no unit of its own, it counts in that of `lasts`: {tok.text}"
        )
    if unit.text == "%" and unit.start == tok.end:
        reader.fail("bad-place", unit.span, "a place counts beats or seconds from the start of the gesture: @2")
    return Amount(value, "", tok.span)


def point_word(
    reader: Reader, as_: tuple[Word, ...], marks: tuple[Word, ...]
) -> tuple[tuple[Word, ...], tuple[Word, ...]]:
    """Read one `as` or word after a point and add it to what the point has."""
    tok = reader.tok
    if tok.text == "as":
        if as_:
            names = " + ".join(word.text for word in as_)
            reader.fail(
                "said-twice", tok.span, f"one `as` per point: this one already turns to `{names}`; join with +"
            )
        return _turned_to(reader), marks
    if tok.text not in POINT_WORDS:
        _unknown_point_word(reader, tok)
    _once(reader, tok, marks)
    reader.next()
    return as_, (*marks, Word(tok.text, tok.span))


def _turned_to(reader: Reader) -> tuple[Word, ...]:
    """The techniques after an `as`, joined by `+`."""
    found: tuple[Word, ...] = ()
    while True:
        sign = reader.next()
        if reader.tok.kind not in ("word", "note"):
            reader.unexpected(f"a technique after `{sign.text}`, such as `as air`")
        technique = _technique(reader)
        if any(technique.text == word.text for word in found):
            reader.fail("said-twice", technique.span, f"`{technique.text}` is there twice: keep one")
        found = (*found, technique)
        if len(found) > 1 and "ordinary" in (found[0].text, technique.text):
            reader.fail("said-twice", technique.span, "`as ordinary` ends every technique: nothing is joined to it")
        if reader.tok.text != "+":
            return found


def _technique(reader: Reader) -> Word:
    """The name of a technique; names of several words are left to the model, which knows the techniques."""
    first = reader.tok
    name = reader.word("a technique")
    while reader.tok.kind == "word" and name.text not in techniques.names():
        both = f"{name.text} {reader.tok.text}"
        if not techniques.called(both):
            break
        reader.next()
        name = Word(both, reader.span_from(first))
    return name


def _ad_lib(reader: Reader, before: tuple[PointText, ...]) -> tuple[PointText, ...]:
    """`ad lib`: from here on the contour is only a suggestion."""
    first = reader.next()
    last = reader.next()
    if reader.tok.text == "." and reader.tok.start == last.end:
        reader.next()
    if any(not other.said for other in before):
        reader.fail(
            "said-twice", first.span, "`ad lib` and the point's own text are both printed above it: keep one"
        )
    return (*before, PointText(said=False, text=Text(AD_LIB, reader.span_from(first))))


def is_point_text(tok: Token) -> bool:
    """Whether a quoted text begins here: text above a point, or a syllable after `say`."""
    return tok.kind == "text" or (tok.kind == "word" and tok.text == "say")


def point_text(reader: Reader, before: tuple[PointText, ...]) -> tuple[PointText, ...]:
    """Add text above a point or a syllable under it to what the point has: at most one of each."""
    first = reader.tok
    said = first.kind == "word"
    if said:
        reader.next()
        if reader.tok.kind != "text":
            reader.fail("text-needs-quotes", first.span, 'a syllable stands in quotes after `say`: say "f"')
    text = reader.one_text()
    what = "syllable" if said else "text"
    if any(other.said is said for other in before):
        reader.fail("said-twice", text.span, f"this point already has a {what}: keep one")
    if not text.text.strip():
        reader.fail("incomplete", text.span, f"an empty {what}: write it between the quotes, or remove them")
    if said and len(text.text) > MAX_SYLLABLE:
        reader.fail(
            "out-of-range",
            text.span,
            f"a syllable of {len(text.text)} letters: {MAX_SYLLABLE} fit under a note. Longer words stand above "
            'it, without `say`: C5 "words"',
        )
    return (*before, PointText(said, text))


def _without(reader: Reader, before: tuple[Word, ...]) -> Word:
    """The technique that a `without` ends."""
    reader.next()
    if reader.tok.kind not in ("word", "note"):
        reader.unexpected("a technique after `without`, such as `without growl`")
    technique = _technique(reader)
    if any(technique.text == other.text for other in before):
        reader.fail("said-twice", technique.span, f"`{technique.text}` already ends at this point: keep one")
    if reader.tok.text == "+":
        reader.fail("too-much", reader.tok.span, "one technique after `without`: write `without` before each")
    return technique


def _check_changes(reader: Reader, as_: tuple[Word, ...], without: tuple[Word, ...]) -> None:
    """A technique cannot begin and end at the same point, and `as ordinary` leaves nothing to end."""
    names = [word.text for word in as_]
    for ended in without:
        if ended.text in names:
            reader.fail("said-twice", ended.span, f"`{ended.text}` begins and ends at this point: keep one")
        if "ordinary" in names:
            reader.fail(
                "said-twice", ended.span, f"`as ordinary` ends every technique, `{ended.text}` as well: keep one"
            )


def _once(reader: Reader, tok: Token, marks: tuple[Word, ...]) -> None:
    """Each word at most once, and at most one dynamic."""
    level = tok.text in LEVELS
    repeated = tok.text in STROKES
    for mark in marks:
        if mark.text == tok.text:
            reader.fail("said-twice", tok.span, f"this point already has `{tok.text}`: keep one")
        if repeated and mark.text in STROKES:
            reader.fail("said-twice", tok.span, f"one way to repeat a note: this one already has `{mark.text}`")
        if level and mark.text in LEVELS:
            reader.fail("said-twice", tok.span, f"one dynamic per point: this one already has `{mark.text}`")
        if mark.text in COVERS and tok.text in COVERS:
            reader.fail("said-twice", tok.span, f"this point is already `{mark.text}`: keep one")
        if {mark.text, tok.text} == {"inhale", "exhale"}:
            reader.fail("said-twice", tok.span, f"the air goes one way: this point already has `{mark.text}`")


def _unknown_point_word(reader: Reader, tok: Token) -> NoReturn:
    text = tok.text
    if text in _ALL_HEIGHTS or text == "r" or like_a_note(text):
        _two_points(reader, tok)
    habits.after_point(reader, tok)
    if text in GROWTH:
        reader.fail("unknown-word", tok.span, f"`{text}` goes right after a wavy line: ~~ {text}", ("~~",))
    if text == "at":
        reader.fail("bad-place", tok.span, "a place is written with @ right before the number: @2")
    near = reader.notes.nearest(text, (*MARKS, *COVERS, *LEVELS, GRACE, *STROKES, "without", "say"))
    changes = "`as` or `without` with a technique"
    own = listed((*MARKS, *COVERS, GRACE, *STROKES))
    wanted = listed(near) if near else f"{own}, a dynamic, {changes}, or @ with a place"
    reader.fail("unknown-word", tok.span, f"{shown(text)} is not a word for a point: write {wanted}", near)


def _two_points(reader: Reader, tok: Token) -> NoReturn:
    habits.tuplet_ratio(reader, reader.back().span)
    reader.fail("missing-line", tok.span, "put a comma (a new attack) or a line such as -- between two points")


def _after_point(reader: Reader) -> NoReturn:
    """Report what follows a point but is neither a word, a time, a line nor the end."""
    tok = reader.tok
    if tok.kind in ("note", "percent"):
        _two_points(reader, tok)
    if tok.text in ("(", "[", "{"):
        habits.tuplet_ratio(reader, reader.back().span)
    habits.after_point(reader, tok)
    if tok.text in ("-", "~", "_", ":", "."):
        fix = {"-": "--", "~": "~~", "_": "__", ":": "::", ".": ".."}[tok.text]
        reader.fail("unexpected-sign", tok.span, f"a line is two signs: {fix}", (fix,))
    if tok.kind == "line":
        reader.fail(
            "unexpected-sign", tok.span, f"{shown(tok.text)} is not a line: write {listed(tuple(SIGNS.values()))}"
        )
    if tok.text == "@":
        reader.fail("bad-place", tok.span, "no space after @: write @2, @2.5 or @5/2")
    if tok.text == "+":
        reader.fail(
            "unexpected-sign",
            tok.span,
            "+ is the word `closed`; cents are joined to the note (C4+31c), and a technique follows `as`",
            ("closed",),
        )
    if tok.text in ("<", ">"):
        reader.fail("unexpected-sign", tok.span, f"{tok.text} belongs in `dynamics`, as in p {tok.text} f")
    if tok.kind == "number":
        point, number = short(reader.back().text), short(tok.text)
        ways = f"{point} for {number} for a length in beats, or {point}@{number} for a time"
        reader.fail("bad-place", tok.span, f"unclear number: write {ways}")
    reader.unexpected("a line, a comma or nothing")


def _check_rest(reader: Reader, marks: tuple[Word, ...]) -> None:
    for mark in marks:
        if mark.text not in SILENT_MARKS:
            reader.fail("unknown-word", mark.span, f"silence takes no `{mark.text}`, only {listed(SILENT_MARKS)}")


def _check_silence(reader: Reader, points: list[PointNode], lines: list[LineNode]) -> None:
    for line, before, after in zip(lines, points, points[1:], strict=False):
        if line.kind != "none" and (isinstance(before.height, Rest) or isinstance(after.height, Rest)):
            way = "from" if isinstance(before.height, Rest) else "to"
            reader.error(
                "line-at-silence", line.span, f"no line leads {way} silence: put a comma next to r", (",",)
            )
