"""How well a word that is being typed fits one that may be written, by any of its names."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from gesturesmith.lang.words import nearest
from gesturesmith.source import as_said
from gesturesmith.values import frozen

_LEAST = 2  # letters before other names are compared as a whole
_BEGUN = 3  # and before one that only begins so, or a word inside one, counts


@frozen
class Match:
    """How a word fits: 0 it is one of its names, 1 it begins so, 2 a part of it does, 3 one of its names begins so,
    4 a word in one does; `name` is the one in question, "" for the word itself."""

    rank: int
    name: str = ""


def matched(said: str, word: str, names: Iterable[str] = ()) -> Match | None:
    """How `word`, which the trade also calls `names`, fits what is typed; None if it does not."""
    low = said.casefold()
    own = word.casefold()
    if own == low:
        return Match(0)
    plain = as_said(said) if len(low) >= _LEAST else ""
    exactly = next((name for name in names if plain and _plain(name) == plain), None)
    if exactly is not None:
        return Match(0, exactly)
    if own.startswith(low):
        return Match(1)
    if len(low) < _LEAST:
        return None
    if any(part.startswith(low) for part in own.split("-")[1:]):
        return Match(2)
    if len(plain) < _BEGUN:
        return None
    found: Match | None = None
    for name in names:
        whole = _plain(name)
        if whole.startswith(plain):
            found = Match(3, name) if found is None or found.rank > 3 else found
        elif found is None and re.search(rf"\b{re.escape(plain)}", whole):
            found = Match(4, name)
    return found


def meant(said: str, words: tuple[str, ...]) -> tuple[str, ...]:
    """The words nearest to one with a slip of the fingers, at most three."""
    return nearest(said, words) if len(said) > _LEAST else ()


@cache
def _plain(name: str) -> str:
    return as_said(name)
