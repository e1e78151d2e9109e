"""Cache keys: they include everything that makes a difference, and the program itself."""

from __future__ import annotations

from dataclasses import fields, replace
from pathlib import PurePosixPath

import pytest
from batch.conftest import HEAD

from gesturesmith.batch import Build
from gesturesmith.batch.record import build_key, item_key
from gesturesmith.cache import keys
from gesturesmith.lytext import code
from gesturesmith.pipeline import Options, compile_file
from gesturesmith.source import Source
from gesturesmith.values import counted, uncounted
from gesturesmith.writers import Item

ITEM = Item(
    output="s1", kind="snippet", place=PurePosixPath("a"), name="call", book=code("{ c'4 }"), document=code("")
)
OTHER = {
    "kind": "page",
    "name": "answer",
    "title": "Call",
    "author": "nobody",
    "description": "a call",
    "excerpts": ("call",),
    "book": code("{ d'4 }"),
}
SAME = {
    "output": "s2",
    "place": PurePosixPath("b"),
    "document": code("{ }"),
    "ily": code("{ }"),
    "drawing": "<svg/>",
    "systems": ("music",),
}
WORK = Build(name="a", compile=compile_file, sources=(Source("a", HEAD),), options=Options(), formats=("pdf",))


def test_every_field_of_an_item_is_tried():
    assert {*OTHER, *SAME} == {f.name for f in fields(Item)}


@pytest.mark.parametrize("name", OTHER)
def test_what_makes_a_difference_is_in_the_key(name, lilypond):
    assert item_key(replace(ITEM, **{name: OTHER[name]}), lilypond) != item_key(ITEM, lilypond)


@pytest.mark.parametrize("name", SAME)
def test_what_makes_none_is_not(name, lilypond):
    assert item_key(replace(ITEM, **{name: SAME[name]}), lilypond) == item_key(ITEM, lilypond)


@pytest.mark.parametrize(
    "key", [lambda lilypond: item_key(ITEM, lilypond), lambda lilypond: build_key(WORK, lilypond)]
)
def test_another_program_finds_nothing(key, lilypond, monkeypatch):
    before = key(lilypond)
    monkeypatch.setattr(keys, "fingerprint", lambda: "another")
    assert key(lilypond) != before


def test_a_field_that_is_left_out_says_why():
    for cls in (Item, Options):
        left_out = [f for f in fields(cls) if f.metadata]
        assert left_out
        assert all(f.metadata == uncounted(*f.metadata.values()) and "".join(f.metadata.values()) for f in left_out)
    assert [one.partition("=")[0] for one in counted(Options())] == ["pitches", "draft", "look"]
