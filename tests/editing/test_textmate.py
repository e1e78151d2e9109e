"""The grammar for editors is up to date, and an independent reader of such grammars (textmate-grammar-python, with
Oniguruma) colours whole files with it as our own tokeniser reads them."""

from __future__ import annotations

import json
import logging
from functools import cache
from pathlib import Path

import generate
import pytest
from sampling import sample
from textmate_grammar.parsers.base import LanguageParser

from gesturesmith import instruments, techniques
from gesturesmith.editing.tables import tables
from gesturesmith.lang import meanings
from gesturesmith.lang.keys import EVERY_KEY, pattern
from gesturesmith.lang.layout import classify_lines
from gesturesmith.lang.tokens import tokenize
from gesturesmith.lang.words import BLOCKS, LINES

DOCS = Path(__file__).parent.parent.parent / "docs"
FILES = sorted((*DOCS.glob("demo/*.gesture"), *DOCS.glob("gallery/*.gesture")))


@cache
def grammar() -> LanguageParser:
    logging.getLogger("textmate_grammar").setLevel(logging.CRITICAL)
    return LanguageParser(json.loads(generate.GRAMMAR.read_text("utf-8")))


def coloured(text: str) -> dict[tuple[int, int], tuple[str, str]]:
    """The stretches that have a colour of their own, by line and index: the text and the innermost scope."""
    element = grammar().parse_string(text)
    if element is None:
        return {}
    return {place: (shown, scopes[-1]) for place, shown, scopes in element.flatten()}


def scopes(line: str) -> dict[str, str]:
    """What each stretch of one line in a gesture is."""
    found = coloured(f"gesture a\n{line}\n")
    return {shown.strip(): scope.removesuffix(".gesture") for (row, _), (shown, scope) in found.items() if row == 1}


def test_the_grammar_is_up_to_date():
    assert not generate.stale_grammar(), "run: python docs/generate.py"


def test_a_grammar_that_differs_is_found(monkeypatch, tmp_path):
    monkeypatch.setattr(generate, "GRAMMAR", tmp_path / "other.json")
    assert generate.stale_grammar()
    generate.GRAMMAR.write_text(generate.textmate().replace("bend", "bent"), "utf-8")
    assert generate.stale_grammar()


# What a token is to the tokeniser, and the beginning of its scope in the grammar.
_KINDS = {
    "note": "constant.other.note",
    "at": "constant.numeric.time",
    "text": "string.quoted",
    "percent": "constant.numeric",
}


@pytest.mark.parametrize("path", sample(FILES, 3), ids=lambda path: path.stem)
def test_files_are_coloured_as_they_are_read(path: Path):
    text = path.read_text("utf-8")
    found = coloured(text)
    wrong = []
    seen = 0
    key = ""
    for line in classify_lines(tuple(text.split("\n"))):
        number = line.content.number - 1
        if line.kind == "comment":
            wrong += [line.content.raw] if "comment" not in found[number, line.start][1] else []
            continue
        if line.kind == "blank":
            continue
        key = line.key if line.kind != "more" else key
        if line.kind == "entry" and key in EVERY_KEY and "variable.parameter" not in found[number, line.start][1]:
            wrong.append(line.content.raw)
        tokens, comment = tokenize(line.content, line.value, pattern(key))
        if comment >= 0 and "comment" not in found[number, comment][1]:
            wrong.append(line.content.raw[comment:])
        plain = key in ("title", "subtitle", "composer", "part", "fingering", "paper")
        for tok in tokens:
            wanted = _KINDS.get(tok.kind, "")
            if tok.kind == "line" and key in ("contour", "sing") and tok.text in LINES:
                wanted = "keyword.operator.line"
            if tok.kind == "word" and key == "technique":
                wanted = "support.function.technique"
            if not wanted or (plain and tok.kind != "text"):
                continue
            seen += 1
            shown, scope = found.get((number, tok.start), ("", ""))
            if not scope.startswith(wanted) or not shown.startswith(tok.text[:1]):
                wrong.append(f"{line.content.raw}: {tok.text} is {scope or 'nothing'}")
    assert wrong == []
    assert seen > 10


@pytest.mark.parametrize(
    ("line", "said", "scope"),
    [
        ("  contour: C5 as bend -- D5", "bend", "support.function.technique"),
        ("  contour: C5 as muted + bells-up, D5", "bells-up", "support.function.technique"),
        ("  contour: C5, D5 without growl", "growl", "support.function.technique"),
        ("  contour: xC5 ~~ growing D5", "xC5", "constant.other.note.about"),
        ("  contour: xC5 ~~ growing D5", "~~", "keyword.operator.line"),
        ("  contour: xC5 ~~ growing D5", "growing", "storage.modifier.mark"),
        ("  contour: F♯4, G𝄲4", "F♯4", "constant.other.note"),
        ("  contour: C4+31c", "C4+31c", "constant.other.note"),
        ("  contour: C5 accent, low", "low", "constant.language.height"),
        ("  contour: C5 sfz", "sfz", "constant.language.level"),
        ("  contour: C5 for 3/2", "3/2", "constant.numeric"),
        ("  contour: C5 for 3/2", "for", "keyword.other"),
        ("  contour: C5 @2", "@2", "constant.numeric.time"),
        ('  contour: C5 "no # comment"', '"no # comment"', "string.quoted"),
        ("  text: „leise“  # a comment", "„leise“", "string.quoted"),
        ("  text: „leise“  # a comment", "# a comment", "comment.line.number-sign"),
        ("  lasts: 4 beats", "beats", "keyword.other"),
        ('  allow: outside-range "why"', "outside-range", "support.constant.rule"),
        ("  play: call, mark A, C4 for 1", "mark", "keyword.other.change"),
        ("  mute: cup", "cup", "constant.language.value"),
        ("  horn-1: call, rest 2", "horn-1", "entity.name.section.part"),
        ("  nonsense: 4", "nonsense", "entity.name.section.part"),
    ],
)
def test_words_have_their_colours(line: str, said: str, scope: str):
    assert scopes(line).get(said, "") == scope


def test_a_value_that_goes_on_keeps_its_colours():
    found = coloured("gesture a\n  contour: C5,\n    D5 as bend,\n    E5\n  lasts: 4 beats\n")
    assert found[2, 4][1].startswith("constant.other.note")
    assert found[2, 10][1].startswith("support.function.technique")
    assert found[4, 2][1].startswith("variable.parameter")


@pytest.mark.parametrize("word", ["bend-2", "unbend", "C5x", "xylophone", "asbestos"])
def test_parts_of_longer_words_have_none(word: str):
    assert scopes(f"  contour: {word}").get(word, "meta").startswith("meta")


def test_every_word_of_the_language_is_in_the_grammar():
    text = generate.GRAMMAR.read_text("utf-8").replace("\\\\", "")
    words = tables()
    every = {*BLOCKS, *EVERY_KEY, *techniques.names(), *instruments.names(), *words.words, *words.marks}
    every |= {*words.levels, *words.heights, *meanings.MUTES, *meanings.NOTEHEADS, *meanings.POINT_WORDS}
    assert [word for word in sorted(every) if word not in text] == []
    names = dict.fromkeys(techniques.names(), "support.function.technique")
    names |= dict.fromkeys(meanings.MUTES, "constant.language.value")
    assert [
        w
        for w, scope in names.items()
        if scopes(f"  {'technique' if 'tech' in scope else 'mute'}: {w}")[w] != scope
    ] == []
