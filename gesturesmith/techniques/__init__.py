"""Techniques, found by file name."""

from __future__ import annotations

import re
from functools import cache

from gesturesmith import registry
from gesturesmith.techniques.base import Technique


def names() -> tuple[str, ...]:
    """The keys of all techniques, sorted."""
    return registry.names(__name__)


def get(name: str) -> Technique:
    """The technique called `name`; KeyError if there is none."""
    technique: Technique = registry.module(__name__, name).TECHNIQUE
    return technique


def titled(word: str) -> tuple[str, ...]:
    """The techniques whose title, in any language, is `word`; if there are none, those whose title contains it.

    None if there are more than three: such a word identifies nothing.
    """
    whole, part = _titles()
    key = _plural(word)
    found = whole.get(key) or part.get(key, ())
    return found if len(found) <= 3 else ()


@cache
def _titles() -> tuple[dict[str, tuple[str, ...]], dict[str, tuple[str, ...]]]:
    whole: dict[str, tuple[str, ...]] = {}
    part: dict[str, tuple[str, ...]] = {}
    for name in names():
        for title in get(name).title.values():
            plain = title.split(" (")[0]
            whole[_plural(plain)] = tuple(dict.fromkeys((*whole.get(_plural(plain), ()), name)))
            for one in re.findall(r"[\w-]{4,}", title):
                part[_plural(one)] = tuple(dict.fromkeys((*part.get(_plural(one), ()), name)))
    return whole, part


def _plural(word: str) -> str:
    return word.casefold().rstrip("s")
