"""Removes words from a gesture file, one at a time, and compares what a player sees and what the checker answers.

`words` finds every word of a file that can be removed or replaced; `seen` is the total result of a file. It shares
only the reader's tokens with the program, so that new words of the language are tried without being named here.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from itertools import chain

from gesturesmith import registry
from gesturesmith.backends.lilypond import EngravedMusic
from gesturesmith.checker import Checked, check_text
from gesturesmith.diagnostics import FileReport, Finding, Verdict
from gesturesmith.lang import parse, words
from gesturesmith.lang.keys import pattern
from gesturesmith.lang.layout import SourceLine, classify_lines
from gesturesmith.lang.tokens import PLAIN, Token, tokenize
from gesturesmith.model.reading import read
from gesturesmith.pipeline import notes
from gesturesmith.pipeline.music import engraved
from gesturesmith.pipeline.sheet import SheetOptions, compile_sheet
from gesturesmith.pipeline.text import compile_text
from gesturesmith.pipeline.types import NotesOptions, Options
from gesturesmith.sheets import page
from gesturesmith.source import Source
from gesturesmith.tones import Performance

type Ranges = tuple[tuple[int, int, int], ...]  # line from 0, columns from 0: the part of a file to remove

_CLASSES = (
    words.MARKS, words.LEVELS, words.MUTES, words.NOTEHEADS, words.PITCHES, words.HEIGHT_LOOKS, words.ACCIDENTALS,
    words.FINGERINGS, words.WORDINGS, words.PAPERS, words.SIDES, words.SHADES, words.SHAPES, words.REGISTERS,
    ("auto", "held"), ("yes", "no"), ("all", "one page", "2"), tuple(words.HEIGHTS),
    tuple(o for o in words.ORDERS), ("4/4", "3/4", "free"), ("up", "down"), words.PLAYERS,
)  # fmt: skip
_ENOUGH_LINES = 3  # of exercises: with fewer, neither their order nor the number to keep makes a difference
_LINES = ("--", "~~", "::", "..", "->", "__", ",")


# --- what a file comes to -----------------------------------------------------------------------------------


@dataclass(frozen=True, eq=False)
class Seen:
    """The total result of a file; files with equal results are the same to player and composer.

    slow   makes the pages that take longest: only where all else is the same are they looked at
    """

    pages: tuple[object, ...]
    said: tuple[object, ...]
    slow: Callable[[], object]

    @cached_property
    def last(self) -> object:
        return self.slow()

    def __eq__(self, other: object) -> bool:
        assert isinstance(other, Seen)
        return (self.said, self.pages) == (other.said, other.pages) and self.last == other.last

    __hash__ = None  # type: ignore[assignment]


@dataclass(frozen=True)
class Reading:
    """A readable file: its result, its findings, and its effective blocks: gestures and passages that are not
    refused, exercises with lines to choose from."""

    seen: Seen
    findings: tuple[Finding, ...]
    playable: frozenset[str]


def reading(text: str) -> Reading | None:
    """The result of a text; None if it has a mistake."""
    source = Source("words.gesture", text)
    checked = check_text(source, suggestions=False)
    piece, report = checked.reading.piece, checked.report
    if checked.parts and not report.errors:
        return _of_parts(source, checked)
    if report.errors or piece is None:
        return None
    musics = tuple(engraved(checked, report, piece.settings, Options(), None))
    pages = [_on_page(m) for m in musics]
    if musics:
        refused = tuple(
            s.name for s in chain(report.gestures, report.passages) if s.verdict is Verdict.NOT_AS_WRITTEN
        )
        pages.append(page.book(musics, piece.settings, output="page", refused=tuple((n, "") for n in refused)))
    if piece.exercises:
        sheets = compile_sheet((source,), SheetOptions())
        pages += [item.book for item in sheets.items]

    def notes_page() -> object:
        part = notes.part_of("words", "words", checked, piece.settings, (one.music for one in musics))
        return notes.notes_item((part,), NotesOptions()).book if musics else None

    findings, playable = _effective(report)
    played = (passage for passage in piece.passages if passage.name.casefold() in playable)
    boxes = frozenset(i.box.box.name.casefold() for one in played for i in one.items if i.box is not None)
    return Reading(Seen(tuple(pages), _said(report), notes_page), findings, playable | boxes)


def _of_parts(source: Source, checked: Checked) -> Reading:
    """The result of a file with parts: the score, the parts with cues, their pictures."""
    made = [*compile_text(source, Options(cues=True)).items, *compile_sheet((source,), SheetOptions()).items]
    pages = tuple((str(item.place), item.kind, item.book) for item in made)
    parts = tuple(f"{said.name} {said.part}" for said in (*checked.report.gestures, *checked.report.passages))

    def notes_page() -> object:
        items = compile_text(source, Options(notes=NotesOptions())).items
        return tuple(item.book for item in items if item.name.endswith("-notes"))

    findings, playable = _effective(checked.report)
    names = frozenset(part.name.casefold() for part in checked.reading.parts)
    return Reading(Seen(pages, (*parts, *_said(checked.report)), notes_page), findings, playable | names)


def _said(report: FileReport) -> tuple[str, ...]:
    said = [
        (g.name, g.title, g.verdict, g.difficulty, g.demands, g.realisation, *map(_without_place, g.findings))
        for g in report.gestures
    ]
    said += [(p.name, p.title, p.verdict, p.difficulty, *map(_without_place, p.findings)) for p in report.passages]
    said += [(e.name, e.title, e.made, e.kept, e.left_out) for e in report.exercises]
    return tuple(map(repr, said))


def _effective(report: FileReport) -> tuple[tuple[Finding, ...], frozenset[str]]:
    playable = (s.name for s in chain(report.gestures, report.passages) if s.verdict is not Verdict.NOT_AS_WRITTEN)
    varied = (e.name for e in report.exercises if len(e.kept) >= _ENOUGH_LINES)
    return (
        tuple(f for s in chain(report.gestures, report.passages) for f in s.findings),
        frozenset(name.casefold() for name in (*playable, *varied)),
    )


def _on_page(one: EngravedMusic) -> object:
    """The printed part of the music, without description and sound, which its player does not see."""
    return one.ly, replace(one.music, parts=(), description="", performance=Performance(tones=(), seconds=0.0))


def _without_place(finding: Finding) -> object:
    """A finding without its place in the text, which moves when a word is removed, and without suggestions."""
    return (finding.rule, finding.severity, finding.where, finding.text, finding.hint, finding.numbers)


# --- the words of a file ------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Word:
    """One word of a file, or a key with its value.

    key      the key it belongs to, "" for a heading
    block    name of its block, "" for a setting
    shown    its description, for people
    line, start, end   its place: line from 0, columns from 0
    ways     ranges whose removal removes it, the smallest first
    others   the same file with another value instead, if it may restate a default
    whole    whether it is a key with its value
    rests    whether it belongs to a rest in a passage, or joins one: the last bar is filled without it
    """

    key: str
    block: str
    shown: str
    line: int
    start: int
    end: int
    ways: tuple[Ranges, ...]
    others: tuple[str, ...]
    whole: bool
    rests: bool = False

    def texts(self, text: str) -> Iterator[str]:
        """The file without it."""
        for way in self.ways:
            yield without(text, way)


def without(text: str, gone: Ranges, instead: str = "") -> str:
    """A text with some ranges blanked out, and `instead` in place of the first."""
    lines = text.split("\n")
    first = min(gone)
    for number, start, end in sorted(gone, reverse=True):
        line = lines[number]
        put = instead if (number, start, end) == first else ""
        lines[number] = f"{line[:start]}{put}{line[end:]}"
    return "\n".join(lines)


@dataclass
class _Entry:
    """A key with its tokens over all its lines."""

    key: str
    block: str
    lines: list[SourceLine]
    tokens: list[Token]


def words_of(text: str) -> tuple[Word, ...]:
    """Every word of a file: each key with its value, each title, and each token of each value."""
    found: list[Word] = []
    for entry in _entries(text):
        if entry.key:
            found.append(_whole(text, entry))
        many = len(entry.tokens) > 1 or not entry.key
        if many:
            found += [_token(text, entry, n) for n in range(len(entry.tokens)) if entry.key or n]
    return tuple(found)


def _entries(text: str) -> list[_Entry]:
    found: list[_Entry] = []
    block = ""
    for line in classify_lines(tuple(text.split("\n"))):
        if line.kind == "heading":
            tokens, _ = tokenize(line.content, line.value, PLAIN)
            block = tokens[0].text if tokens else ""
            found.append(_Entry("", block, [line], tokens))
        elif line.kind == "entry":
            tokens, _ = tokenize(line.content, line.value, pattern(line.key))
            found.append(_Entry(line.key, "" if line.margin else block, [line], tokens))
        elif line.kind == "more":
            found[-1].tokens += tokenize(line.content, line.value, pattern(found[-1].key))[0]
            found[-1].lines.append(line)
    return found


def _whole(text: str, entry: _Entry) -> Word:
    rows = text.split("\n")
    numbers = [line.content.number - 1 for line in entry.lines]
    gone = tuple((n, 0, len(rows[n])) for n in numbers)
    first, last = entry.tokens[0], entry.tokens[-1]
    value = " ".join(t.text for t in entry.tokens)
    return Word(
        key=entry.key,
        block=entry.block,
        shown=f"{entry.key}: {value}",
        line=numbers[0],
        start=first.start,
        end=last.end if last.line == first.line else len(rows[numbers[0]]),
        ways=(gone,),
        others=tuple(without(text, _ranges(entry.tokens), f" {other}") for other in _whole_others(entry)),
        whole=True,
    )


def _ranges(tokens: list[Token]) -> Ranges:
    return tuple((t.line - 1, t.start, t.end) for t in tokens)


def _whole_others(entry: _Entry) -> Iterator[str]:
    """Other values of a key that has a default."""
    only = entry.tokens[0].text
    joined = " ".join(t.text for t in entry.tokens)
    for row in _CLASSES:
        if joined in row:
            yield from (o for o in row if o != joined)
    if entry.key in ("technique", "fallback"):
        yield from registry.names("gesturesmith.techniques")
    elif entry.key == "lasts" and entry.tokens[0].kind == "number":
        unit = entry.tokens[-1].text
        yield from (f"{Fraction(only) * share} {unit}" for share in (2, Fraction(3, 2), Fraction(1, 2)))
    elif entry.tokens[0].kind == "text" and len(entry.tokens) == 1:
        yield '"Another text"'
    elif entry.tokens[0].kind == "number" and len(entry.tokens) <= 2 and only.isdigit():
        yield from (str(int(only) + 1), str(int(only) * 2))


def _token(text: str, entry: _Entry, n: int) -> Word:
    """A token, removed alone or with neighbours, two or three at a time."""
    tokens = entry.tokens
    tok = tokens[n]
    runs = [(n, n + 1)]
    for size in (2, 3, 4):
        runs += [(i, i + size) for i in range(n - size + 1, n + 1) if i >= (0 if entry.key else 1)]
    ways = tuple(_ranges(tokens[a:b]) for a, b in runs if b <= len(tokens) and (a, b) != (0, len(tokens)))
    rest = _rest_at(tokens, n) if entry.key == "play" else []
    exchanged = next((t for t in rest if t.kind == "number"), tok)
    return Word(
        key=entry.key,
        block=entry.block,
        shown=tok.text,
        line=tok.line - 1,
        start=tok.start,
        end=tok.end,
        ways=ways,
        others=tuple(without(text, _ranges([exchanged]), other) for other in _token_others(entry.key, exchanged)),
        whole=False,
        rests=bool(rest),
    )


def _rest_at(tokens: list[Token], n: int) -> list[Token]:
    """The tokens of the rest that a token belongs to or joins to what precedes it; [] for none."""
    comma = tokens[n].text == ","
    end = next((i for i in range(n + 1, len(tokens)) if tokens[i].text == ","), len(tokens))
    start = n + 1 if comma else next((i for i in range(n, -1, -1) if tokens[i].text == ","), -1) + 1
    item = tokens[start:end]
    return item if item and item[0].text == "rest" else []


def _token_others(key: str, tok: Token) -> Iterator[str]:
    """Another time of a point, another fingering, another unit: values that may restate a default."""
    if tok.kind == "at":
        there = Fraction(tok.text[1:])
        yield from (
            f"@{there + by}" for by in (Fraction(1, 8), Fraction(1, 4), Fraction(-1, 8), 1) if there + by >= 0
        )
    elif tok.kind == "line" and key in ("contour", "sing"):
        yield from (line for line in _LINES if line != tok.text)
    elif key == "play" and tok.kind == "number":
        yield from (str(Fraction(tok.text) + by) for by in (1, 4))
    elif key == "fingering":
        yield from (o for row in (words.SIDES, words.SHADES) if tok.text in row for o in row if o != tok.text)
        yield from ("0", "1", "2", "1-2", "1-3", "3")


# --- words without effect -----------------------------------------------------------------------------------

# Rules whose findings say that the word at their place has no effect.
SAYS_SO = frozenset({"unused-allow", "sung-line-unused", "word-without-effect", "unused-fallback"})
# Keys with a default (the tables of the language page), which they may restate.
HAVE_A_VALUE = frozenset(
    (
        "instrument",
        "pitches",
        "tempo",
        "part",
        "wording",
        "words",
        "meter",
        "heights",
        "accidentals",
        "fingerings",
        "paper",
        "staff",
        "technique",
        "lasts",
        "attacks",
        "fingering",
        "mute",
        "notehead",
        "order",
        "keep",
        "mirror",
        "repeat",
        "times",
        "band",
    )
)
# Optional words, by the language page: the version of the language, of which there is only one; units that cannot
# be misunderstood.
OPTIONAL = frozenset({"beat", "beats", "mm"})


@dataclass(frozen=True)
class Trial:
    """The result for one word. `fate`: "counts", "restates", "said" (a finding says that it has no effect),
    "grammar" (the file is not valid without it) or "void"."""

    word: Word
    fate: str
    text: str


def blocks_of(text: str) -> Iterator[tuple[str, str]]:
    """Each block by name with the smallest file that contains it, what it plays and the settings; "" for the
    settings alone, with something that shows each of them."""
    source = Source("words.gesture", text)
    tree, errors = parse(source)
    assert not errors, errors[0]
    if any(block.kind == "part" for block in tree.blocks):  # parts hold together
        yield from ((block.name.text, text) for block in tree.blocks)
        yield "", text
        return
    lines = text.split("\n")
    starts = [b.span.line - 1 for b in tree.blocks]
    ends = {b.name.text.casefold(): b.last_line for b in tree.blocks}
    head = "\n".join(lines[: starts[0]] if starts else lines) + "\n"
    bodies = {
        b.name.text.casefold(): "\n".join(lines[start : ends[b.name.text.casefold()]]) + "\n"
        for b, start in zip(tree.blocks, starts, strict=True)
    }
    needs: dict[str, list[str]] = {}
    for block in tree.blocks:
        key = {"passage": "play", "exercises": "from", "box": "play"}.get(block.kind)
        values = [entry.value for entry in block.entries if entry.key.text == key]
        named = [t.casefold() for value in values for t in _names(value) if t.casefold() in bodies]
        needs[block.name.text.casefold()] = named

    def wanted(name: str, seen: tuple[str, ...] = ()) -> list[str]:
        return [w for n in needs[name] if n not in seen for w in wanted(n, (*seen, name))] + [name]

    for block in tree.blocks:
        name = block.name.text.casefold()
        if block.kind == "box":  # which is seen where a passage plays it
            name = next(other for other in needs if name in needs[other])
        yield block.name.text, head + "\n".join(bodies[n] for n in dict.fromkeys(wanted(name)))
    yield "", head + _probe(text)


def _names(value: object) -> list[str]:
    items = getattr(value, "items", None)
    if items is None:
        return [getattr(value, "text", "")]
    return [item.name.text for item in items if getattr(item, "name", None) is not None]


def _probe(text: str) -> str:
    """Something that shows every setting: a quarter tone, heights, a passage."""
    piece = read(Source("words.gesture", text)).piece
    assert piece is not None
    register = piece.settings.instrument.register("middle") or piece.settings.instrument.registers[0]
    low = register.low
    note = f"{low.letter}^{low.octave}"
    return (
        f"gesture the-heights\n  band: {register.name}\n  contour: low, high\n"
        f"gesture the-quarter-tone\n  technique: quarter-tones\n  contour: {note}, x{note}\n"
        f"passage the-passage\n  play: the-quarter-tone, rest 3\n"
    )


def trials(text: str) -> Iterator[Trial]:
    """Try every word of a file, except those of refused blocks, which are not on the page."""
    for name, small in blocks_of(text):
        base = reading(small)
        if base is None or (name and name.casefold() not in base.playable):
            continue
        seen: set[Ranges] = set()
        for word in words_of(small):
            if word.block == name and word.ways[:1] != () and word.ways[0] not in seen:
                seen.add(word.ways[0])
                yield Trial(word, _fate(small, base, word), small)


def _fate(text: str, base: Reading, word: Word) -> str:
    if any(f.rule in SAYS_SO and _stands_at(f, word) for f in base.findings):
        return "said"
    taken = _first_reading(word.texts(text))
    if taken is not None and taken.seen != base.seen:
        return "counts"
    if word.shown in OPTIONAL or word.key in ("language", "pitches") or _also_without_as(text, word):
        return "grammar"
    if taken is not None and not _may_restate(word):
        return "restates" if _says_less(text, word) else "void"
    others = [r for t in word.others if (r := reading(t)) is not None]
    if any(r.seen != base.seen for r in others):
        return "restates"
    return "void" if others else "grammar"


def _says_less(text: str, word: Word) -> bool:
    """Whether a word is allowed beside another key of its block that says more: `muted` beside `mute: cup`.

    Without that key the word must count, and some value of the key must have the same result as the word alone.
    """
    for key in words_of(text):
        if not key.whole or key.block != word.block or key.line == word.line:
            continue
        for alone in key.texts(text):
            said, unsaid = reading(alone), _first_reading(word.texts(alone))
            if said is None or unsaid is None or said.seen == unsaid.seen:
                continue
            instead = (_first_reading(word.texts(other)) for other in (text, *key.others))
            if any(r is not None and r.seen == said.seen for r in instead):
                return True
    return False


def _also_without_as(text: str, word: Word) -> bool:
    """Whether it is the `as` of a word that stands at a point without it as well: both are the same, as the
    language page says. The word itself is tried like every other."""
    after = re.match(r" *([\w-]+)", text.split("\n")[word.line][word.end :])
    return word.shown == "as" and after is not None and after[1] in words.COVERS


def _first_reading(texts: Iterable[str]) -> Reading | None:
    """The first readable one of several files."""
    return next((r for t in texts if (r := reading(t)) is not None), None)


def _may_restate(word: Word) -> bool:
    if word.whole:
        return word.key in HAVE_A_VALUE
    return word.rests or word.shown.startswith("@") or word.key == "fingering"


def _stands_at(finding: Finding, word: Word) -> bool:
    """Whether a finding is about a key, or names a word at its place."""
    if not word.whole and word.shown not in finding.text:
        return False
    span = finding.span
    return span.line - 1 == word.line and span.column - 1 < word.end and span.end_column - 1 > word.start
