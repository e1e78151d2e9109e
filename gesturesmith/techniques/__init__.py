"""Techniques, found by file name."""

from __future__ import annotations

import re
from functools import cache

from gesturesmith import registry
from gesturesmith.kinds import JoinVerdict
from gesturesmith.source import as_said
from gesturesmith.techniques.base import Joining, Technique, joining


def names() -> tuple[str, ...]:
    """The keys of all techniques, sorted."""
    return registry.names(__name__)


def get(name: str) -> Technique:
    """The technique called `name`; KeyError if there is none."""
    technique: Technique = registry.module(__name__, name).TECHNIQUE
    return technique


def joined_with(technique: Technique, verdict: JoinVerdict) -> tuple[tuple[Technique, Joining], ...]:
    """The techniques that go together with one, do not, or do so with care; ordinary playing excluded."""
    others = (get(name) for name in names())
    pairs = ((other, joining(technique, other)) for other in others if other.layer != "none" and other != technique)
    return tuple((other, pair) for other, pair in pairs if pair.verdict == verdict)


def called(word: str) -> tuple[str, ...]:
    """The techniques with this name in any language.

    By key, other names or whole title; else by a word of the title, if no more than three have it.
    """
    whole, part = _spoken()
    said = as_said(word)
    found = part.get(said, ())
    return whole.get(said) or (found if len(found) <= 3 else ())


def names_of(name: str) -> tuple[str, ...]:
    """What the trade calls a technique, in any language, its key first."""
    technique = get(name)
    return (name, *technique.called, *(title.split(" (")[0] for title in technique.title.values()))


def spoken() -> tuple[str, ...]:
    """All names of techniques, in the form given by `as_said`."""
    return tuple(_spoken()[0])


@cache
def _spoken() -> tuple[dict[str, tuple[str, ...]], dict[str, tuple[str, ...]]]:
    """The techniques by whole names, and by single words of their titles."""
    whole: dict[str, tuple[str, ...]] = {}
    part: dict[str, tuple[str, ...]] = {}

    def add(said: dict[str, tuple[str, ...]], words: str, name: str) -> None:
        said[as_said(words)] = tuple(dict.fromkeys((*said.get(as_said(words), ()), name)))

    for name in names():
        technique = get(name)
        for words in names_of(name):
            add(whole, words, name)
        for word in (word for title in technique.title.values() for word in re.findall(r"[\w-]{4,}", title)):
            add(part, word, name)
    return whole, part
