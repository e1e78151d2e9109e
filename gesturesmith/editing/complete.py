"""What may be written at a place: words of the language, by their own names and by those of the trade."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import cache
from typing import Literal

from gesturesmith import instruments, rules, techniques
from gesturesmith.editing.examples import begins, examples
from gesturesmith.editing.match import matched, meant
from gesturesmith.editing.place import Place, headings, key_of, lines_of, parts_of, place, window
from gesturesmith.kinds import BlockKind
from gesturesmith.lang import changes, heading, meanings, parse, playing, values
from gesturesmith.lang.contour import contour
from gesturesmith.lang.keys import IN_BLOCK, SETTINGS, Key
from gesturesmith.lang.nodes import Contour, Note
from gesturesmith.lang.play import play
from gesturesmith.lang.tokens import Token
from gesturesmith.lang.trade_words import NOTE_VALUES, SAID
from gesturesmith.lang.words import BLOCKS, SIGNS
from gesturesmith.source import Source, folded
from gesturesmith.values import frozen

type OfferKind = Literal[
    "block", "key", "value", "technique", "instrument", "pitch", "height", "word", "line", "name", "rule"
]

_WORDS_IN_A_NAME = 4  # of what is typed, looked at together: "mit dem Dämpfer"
_LONGEST_NAME = 40  # characters
_WORDLIKE = ("word", "note", "number", "percent", "harmonic", "valves", "paper")
_BARE_NOTE = re.compile(r"[xX]?[^\W\d_]{1,5}[#b^v♯♭]{0,2}\Z")
_OCTAVES = (2, 3, 4, 5, 6)
_INTERVALS = ("m2", "M2", "m3", "M3", "P4", "P5", "m6", "M6", "m7", "M7", "P8")
_FIRST_PITCHES = (("C4", "exactly this pitch; C4 is middle C"), ("xC4", "about this pitch"))
_NEW = "new"  # name of a gesture that is begun by one of its keys


@frozen(kw_only=True)
class CompletionOffer:
    """Something that may be written.

    word     what is shown
    kind     what it is
    help     what it means, in one line
    insert   the text in place of what was typed
    said     the trade's name that led to it, "" if its own did
    """

    word: str
    kind: OfferKind
    help: str
    insert: str
    said: str = ""


@frozen
class Completion:
    """What may be written at a cursor; each `insert` replaces the text from column `start` to the cursor. With
    another letter there may be others."""

    start: int
    offers: tuple[CompletionOffer, ...] = ()


@frozen
class _Typed:
    """What is being typed, or part of it; `guess`: whether words are also offered that it resembles."""

    start: int  # index in the line
    text: str
    guess: bool = False


@frozen
class _Candidate:
    """An offer before it is compared with what is typed; `names`: what else the trade calls it."""

    offer: CompletionOffer
    names: tuple[str, ...] = ()


def complete(source: Source, line: int, column: int) -> Completion:
    """What may be written at a cursor, the likeliest first; nothing in comments, texts and names to be invented."""
    lines = lines_of(source)
    at = place(lines, line, column)
    if at.where in ("nothing", "heading"):
        return Completion(at.column)
    found: list[tuple[int, CompletionOffer]] = []
    typings = tuple(_typings(at))
    for said in (*typings, *(replace(one, guess=True) for one in typings)):
        if at.where == "key":
            some = _keys(at, lines, said)
        else:
            before = tuple(tok for tok in at.before if tok.line < at.line or tok.start < said.start)
            some = _values(at, lines, before, said)
        found = [(said.start, offer) for offer in some]
        if some:
            break
    if at.where == "value" and not any(offer.word.startswith(at.text[start:]) for start, offer in found):
        found = [*_corrected(at), *found]
        if at.bare:
            body = _Typed(*_body(at))
            found += [(body.start, offer) for offer in _keys(at, lines, body)]
    return _aligned(at, found)


def _typings(at: Place) -> Iterator[_Typed]:
    """What is being typed, as several words or fewer; "" after a space."""
    if at.where == "key":
        yield _Typed(*_body(at))
        return
    end = at.column - 1
    row = [tok for tok in at.before if tok.line == at.line]
    if not row or row[-1].end != end or (row[-1].kind not in _WORDLIKE and row[-1].kind != "bad"):
        yield _Typed(end, "")
        return
    last: list[Token] = []
    for tok in reversed(row):
        if tok.kind not in _WORDLIKE or len(last) == _WORDS_IN_A_NAME:
            break
        last.insert(0, tok)
    starts = [tok.start for tok in last]
    if len(row) == len(at.before) and end - row[0].start <= _LONGEST_NAME:
        starts = [row[0].start, *starts]  # "horn in F/Bb"
    yield from (_Typed(start, at.text[start:]) for start in dict.fromkeys(starts))


def _body(at: Place) -> tuple[int, str]:
    """Where the line begins after its indentation, and its text up to the cursor."""
    start = len(at.text) - len(at.text.lstrip(" \t"))
    return start, at.text[start:]


def _aligned(at: Place, found: list[tuple[int, CompletionOffer]]) -> Completion:
    """All offers with one start: the first of theirs."""
    start = min((one for one, _ in found), default=at.column - 1)
    offers = (replace(o, insert=at.text[start:one] + o.insert) if one > start else o for one, o in found)
    return Completion(start + 1, tuple({(o.word, o.kind): o for o in reversed(tuple(offers))}.values())[::-1])


def _chosen(said: _Typed, row: Iterable[_Candidate]) -> list[CompletionOffer]:
    """Those that fit what is typed, the best first; if none does and guesses are wanted, those it resembles."""
    row = tuple(row)
    return _fitting(said.text, row) or (_near(said.text, row) if said.guess else [])


def _fitting(said: str, row: Iterable[_Candidate], worst: int = 4) -> list[CompletionOffer]:
    """Those that fit what is typed, the best first, none worse than `worst`."""
    found = []
    for one in row:
        match = matched(said, one.offer.word, one.names)
        if match is not None and match.rank <= worst:
            found.append((match.rank, replace(one.offer, said=match.name)))
    return [offer for _, offer in sorted(found, key=lambda pair: (pair[0], pair[1].word != said))]


def _near(said: str, row: tuple[_Candidate, ...]) -> list[CompletionOffer]:
    """Those that were perhaps meant with a slip of the fingers, at most three."""
    near = meant(said, tuple(one.offer.word for one in row))
    return [one.offer for word in near for one in row if one.offer.word == word]


# --- the beginning of a line -----------------------------------------------------------------------------


def _keys(at: Place, lines: tuple[str, ...], said: _Typed) -> list[CompletionOffer]:
    """Keys, blocks, and keys with the value that is typed."""
    block: BlockKind | Literal[""] = "" if at.margin else at.block
    there = IN_BLOCK[block] if block else SETTINGS
    row = [
        _candidate(name, "key", _first_sentence(key.value), f"{name}: ", names=SAID.get(name, ()))
        for name, key in there.items()
    ]
    if block == "passage":
        parts = sorted(parts_of(lines))
        row += [_candidate(name, "key", "what this part plays", f"{name}: ") for name in parts]
    if at.margin or not at.block:
        row += [_candidate(word, "block", meanings.BLOCKS[word], f"{word} ") for word in BLOCKS]
    found = _fitting(said.text, row)
    if len(said.text) > 1:
        found += _with_values(there, said.text)
        if at.margin:
            found += _begun(lines, said.text)
        elif not found:
            settings = _with_values(SETTINGS, said.text)
            found += (replace(one, help=f"{one.help}; a setting, at the margin") for one in settings)
    return found or (_near(said.text, tuple(row)) if said.guess else [])


def _with_values(there: dict[str, Key], said: str) -> Iterator[CompletionOffer]:
    """Keys with the value that was typed where a key is expected: `mute: straight` for "con sordino"."""
    for name, key in there.items():
        if key.read is values.names:
            row: Iterable[_Candidate] = _techniques()
        elif key.read is values.instrument:
            row = _instruments()
        elif key.read is values.lasts:
            row = _note_values("")
        elif key.read is contour and name == "contour":
            row = _pitches_meant(said)
        else:
            row = _fixed(key)
        for offer in _fitting(said, row, worst=3):
            text = f"{name}: {offer.word}"
            yield replace(offer, word=text, insert=text)


def _begun(lines: tuple[str, ...], said: str) -> Iterator[CompletionOffer]:
    """A gesture that begins with what was typed at the margin; a contour goes on in its line."""
    taken = heading.names(headings(lines))
    name = next(one for n in range(len(taken) + 2) if (one := f"{_NEW}-{n}" if n else _NEW) not in taken)
    for offer in _with_values(IN_BLOCK["gesture"], said):
        after = "" if offer.kind == "pitch" else "\n  "
        word = f"gesture … {offer.word}"
        yield replace(offer, word=word, insert=f"gesture {name}\n  {offer.insert}{after}")


# --- values ----------------------------------------------------------------------------------------------


def _values(at: Place, lines: tuple[str, ...], before: tuple[Token, ...], said: _Typed) -> list[CompletionOffer]:
    parts = parts_of(lines) if at.block == "passage" else frozenset[str]()
    key = key_of(at.key, at.block, parts)
    if key is None:
        return []
    if key.read is contour:
        return _in_contour(at, before, said)
    if key.read is play:
        return _in_play(at, key, lines, before, said)
    if key.read in (values.names, values.one_technique):
        return _chosen(said, _techniques())
    if key.read is values.instrument:
        return _chosen(said, _instruments())
    if key.read is values.allow:
        return _chosen(said, _rules()) if not before else []
    if key.names:
        return _chosen(said, _blocks(lines, key.names, at))
    row = [*_fixed(key)]
    if key.read is playing.trill:
        row += [_word(name, "the interval") for name in _INTERVALS]
    if not before:
        row = [one for one in row if begins(one.offer.word, at.key, key.read)]
        row += [_candidate(text, "value", _first_sentence(key.value)) for text in examples(at.key, at.block)]
        if "beats" in key.words and len(said.text) > 1:
            row = [*_note_values(""), *row]
    return _chosen(said, row)


def _in_contour(at: Place, before: tuple[Token, ...], said: _Typed) -> list[CompletionOffer]:
    last = before[-1] if before else None
    previous = before[-2] if len(before) > 1 else None
    if last is None or last.kind == "line" or (last.text in meanings.GROWTH and previous is not None):
        row = [*_pitches(said.text), *_heights()]
        if not said.text:
            row = [*(_candidate(pitch, "pitch", help_) for pitch, help_ in _FIRST_PITCHES), *row]
        if last is not None and last.text.startswith("~"):
            row += [_word(word, help_) for word, help_ in meanings.GROWTH.items()]
        return _chosen(said, row)
    if last.text in ("as", "without") or (last.text == "+" and _turning(before)):
        return _chosen(said, _techniques())
    if last.text == "for":
        return _chosen(said, _note_values(" "))
    if last.text in ("say", "@") or last.text in ("random", "seed", "partial"):
        return []
    if last.text in ("of", "in"):
        return _chosen(said, _pitches(said.text))
    if _drawn(before):
        return _chosen(said, [_form(word) for word in ("in", "seed")])
    return _after_point(said)


def _after_point(said: _Typed, *, playing_on: bool = False) -> list[CompletionOffer]:
    """Words after a point, lines to the next, and what the trade's names for a technique lead to."""
    row = [_form(word) for word in ("for", "as", "say")]
    if not playing_on:
        lines = ((sign, meanings.LINE_SIGNS[sign]) for sign in SIGNS.values())
        row = [_candidate(sign, "line", help_, f"{sign} ", names=SAID.get(sign, ())) for sign, help_ in lines] + row
        row += [_form("without"), _candidate("ad lib", "word", _help_of("lib"))]
    row += [_word(word, help_) for word, help_ in meanings.POINT_WORDS.items()]
    if playing_on:
        row += [_word(word, help_) for word, help_ in meanings.PLAYERS.items()]
    found = _fitting(said.text, row)
    if len(said.text) > 1:
        found += [offer for offer in _chosen(said, _note_values("for ")) if offer.said]
        for offer in _chosen(said, _techniques()):
            if not techniques.get(offer.word).needs_line:
                text = f"as {offer.word}"
                found.append(replace(offer, word=text, insert=text))
            elif not playing_on:
                help_ = f"a slide is a line to the next point, and a key says how: technique: {offer.word}"
                found.append(replace(offer, word=f"-- ({offer.word})", kind="line", help=help_, insert="-- "))
    return found or _chosen(said, row)


def _in_play(
    at: Place, key: Key, lines: tuple[str, ...], before: tuple[Token, ...], said: _Typed
) -> list[CompletionOffer]:
    cut = max((n for n, tok in enumerate(before) if tok.text in (",", "/")), default=-1)
    item = before[cut + 1 :]
    if not item:
        row = [*_blocks(lines, key.names, at), *_pitches(said.text)]
        if not said.text:
            row.append(_candidate("C4 for 1", "pitch", "a pitch with its length in beats; C4 is middle C"))
        row.append(
            _candidate("rest", "word", "silence, with its beats: rest 4", "rest ", names=("pause", "tacet", "r"))
        )
        row += [_form(word) for word in ("tempo", *changes.TURNS, "meter", "key", "mark")]
        row.append(_candidate("double bar", "word", _help_of("double"), names=("barline",)))
        return _chosen(said, row)
    first, last = item[0], item[-1]
    if last.text in ("as",) or (last.text == "+" and _turning(item)):
        return _chosen(said, _techniques())
    if last.text in meanings.DIRECTIONS:
        return _chosen(said, [_word(name, "the interval") for name in _INTERVALS])
    if last.text in ("for", "rest", "over"):
        return _chosen(said, _note_values(" "))
    if first.text in changes.TURNS:
        wanted = {1: ("to",), 3: ("over",)}.get(len(item), ())
        units = [_word(word, meanings.LENGTHS[word]) for word in ("beats", "bars")] if len(item) > 4 else []
        return _chosen(said, [*(_form(word) for word in wanted), *units])
    if first.text == "tempo":
        return _chosen(said, _fixed(SETTINGS["tempo"]))
    if first.text == "key":
        return _chosen(said, [_word(word, help_) for word, help_ in meanings.MODES.items()])
    if first.text == "rest":
        return _chosen(said, [_word("fermata", meanings.MARKS["fermata"])])
    if first.text in ("mark", "meter", "double", "say"):
        return []
    names = {folded(one.offer.word) for one in _blocks(lines, key.names, at)}
    if folded(first.text) in names:
        both = {**meanings.DIRECTIONS, **meanings.PLAYERS}
        return _chosen(said, [_word(word, help_) for word, help_ in both.items()]) if len(item) == 1 else []
    return _after_point(said, playing_on=True)


def _turning(before: tuple[Token, ...]) -> bool:
    """Whether the techniques after an `as` go on."""
    for tok in reversed(before):
        if tok.text == "as":
            return True
        if tok.kind != "word" and tok.text != "+":
            return False
    return False


def _drawn(before: tuple[Token, ...]) -> bool:
    """Whether random points are being written."""
    row = [tok.text for tok in before[-4:]]
    return "random" in row[:-1] and before[-1].kind in ("number", "note") and "seed" not in row


# --- words -----------------------------------------------------------------------------------------------


def _offer(word: str, kind: OfferKind, help_: str, insert: str | None = None) -> CompletionOffer:
    return CompletionOffer(word=word, kind=kind, help=help_, insert=word if insert is None else insert)


def _candidate(
    word: str, kind: OfferKind, help_: str, insert: str | None = None, *, names: tuple[str, ...] = ()
) -> _Candidate:
    return _Candidate(_offer(word, kind, help_, insert), names)


def _word(word: str, help_: str) -> _Candidate:
    return _candidate(word, "word", help_, names=SAID.get(word, ()))


def _fixed(key: Key) -> tuple[_Candidate, ...]:
    return tuple(_candidate(word, "value", help_, names=SAID.get(word, ())) for word, help_ in key.words.items())


def _form(word: str) -> _Candidate:
    """A word of a form of points or entries; something follows it."""
    return _candidate(word, "word", _help_of(word), f"{word} ", names=SAID.get(word, ()))


@cache
def _help_of(word: str) -> str:
    found = (form for form in (*meanings.POINTS, *meanings.ENTRIES) if word in form.words)
    form = next(found)
    return f"{_plain(form.written)}: {_first_sentence(form.means)}"


def _first_sentence(markdown: str) -> str:
    """One line of plain text: as far as the first sentence or semicolon goes."""
    return re.split(r"[.;:](?= )", _plain(markdown), maxsplit=1)[0]


def _plain(markdown: str) -> str:
    return markdown.replace("`", "").replace("*", "")


@cache
def _techniques() -> tuple[_Candidate, ...]:
    return tuple(
        _candidate(name, "technique", techniques.get(name).title["en"], names=techniques.names_of(name))
        for name in techniques.names()
    )


@cache
def _instruments() -> tuple[_Candidate, ...]:
    plainest = sorted(instruments.names(), key=lambda name: (name.count("-"), name))
    return tuple(
        _candidate(name, "instrument", instruments.get(name).name, names=instruments.names_of(name))
        for name in plainest
    )


@cache
def _rules() -> tuple[_Candidate, ...]:
    return tuple(
        _candidate(name, "rule", rules.get(name).doc.strip().split("\n")[0], f"{name} ") for name in rules.names()
    )


def _blocks(lines: tuple[str, ...], kinds: tuple[BlockKind, ...], at: Place) -> tuple[_Candidate, ...]:
    """The names of blocks of these kinds, in file order, with their titles; not the block with the cursor."""
    found = []
    own = window(lines, at.line)
    for row in headings(lines):
        if row.key in kinds and row.content.number != own:
            name, _, title = row.content.raw[row.value :].strip(" \t:").partition(" ")
            titled = f" {title.strip()}" if title.strip() else ""
            found.append(
                _candidate(name, "name", f"{row.key}{titled}", names=(title.strip(' "'),) if titled else ())
            )
    return tuple(found)


@cache
def _note_values(before: str) -> tuple[_Candidate, ...]:
    """Lengths by the names of note values, after "" (a length with its unit), "for " or " " (a number)."""
    found: dict[str, list[str]] = {}
    for said, beats in NOTE_VALUES.items():
        found.setdefault(beats, []).append(said)
    rows = []
    for beats, names in found.items():
        unit = "beat" if beats in ("1", "1/2", "1/4", "3/4") else "beats"
        text = {"": f"{beats} {unit}", "for ": f"for {beats}", " ": beats}[before]
        rows.append(_candidate(text, "value", f"a {names[0]}, where a quarter is the beat", names=tuple(names)))
    return tuple(rows)


def _heights() -> list[_Candidate]:
    row = [_candidate(word, "height", help_, names=SAID.get(word, ())) for word, help_ in meanings.HEIGHTS.items()]
    row += [_candidate("r", "height", "silence", names=("rest", "pause", "silence"))]
    return [*row, *(_form(word) for word in ("random", "partial"))]


def _pitches(said: str) -> list[_Candidate]:
    """The octaves of a letter that is being typed."""
    if not _BARE_NOTE.match(said):
        return []
    names = [one.offer.word[:-1] for one in _pitches_meant(f"{said}4")]
    row = (f"{name}{octave}" for name in dict.fromkeys(names) for octave in _OCTAVES)
    helps = ((pitch, "middle C" if pitch == "C4" else "this pitch") for pitch in row)
    return [_candidate(pitch, "pitch", help_, names=(said,)) for pitch, help_ in helps]


def _pitches_meant(said: str) -> list[_Candidate]:
    """The notes that a word with an octave stands for, in this notation or another."""
    if not said[-1:].isdigit():
        return []
    tree, errors = parse(Source("", f"gesture a\n  contour: {said}"))
    value = tree.blocks[0].entries[0].value if not errors else None
    plain = isinstance(value, Contour) and isinstance(value.points[0].height, Note) and len(value.points) == 1
    near = errors[0].nearest if len(errors) == 1 else (said,) if plain else ()
    return [_candidate(pitch, "pitch", "this pitch", names=(said,)) for pitch in near if pitch[-1].isdigit()]


def _corrected(at: Place) -> Iterator[tuple[int, CompletionOffer]]:
    """What the language says to write instead of the word at the cursor, each with its index in the line."""
    head = f"{at.block} a" if at.block else ""
    rows = [*filter(None, (head,)), *at.opening, at.text]
    for error in parse(Source("", "\n".join(rows)))[1]:
        if error.span.line == len(rows) and error.span.end_column - 1 == len(at.text.rstrip()):
            start = error.span.column - 1
            for text in error.nearest:
                yield start, _offer(text, "value", f"for {at.text[start:]}")
