"""The standard texts of pages, by key and language. One file a language; a text may hold {fields} to fill in.

A technique's own texts win; `technique-KEY` and `title-KEY` in a language's file are for techniques that
bring none in that language.
"""

from __future__ import annotations

from collections.abc import Iterable

from gesturesmith import registry
from gesturesmith.techniques.base import Technique


def languages() -> tuple[str, ...]:
    """The languages there are, English first, then by their codes."""
    return tuple(sorted(registry.names(__name__), key=lambda code: (code != "en", code)))


def keys(language: str) -> tuple[str, ...]:
    """The keys a language holds, sorted; KeyError for a language there is not."""
    return tuple(sorted(_texts(language)))


def text(key: str, language: str, means: str = "") -> str:
    """The text under `key` in `language` ("en"), or the one for an instrument's `means` ("slide") where it has one;
    KeyError where either is unknown.
    """
    texts = _texts(language)
    return texts.get(f"{key}-{means}") or texts[key]


def together(texts: Iterable[str]) -> str:
    """A text in several languages as one; what two of them share stands once."""
    return " / ".join(dict.fromkeys(texts))


def said(key: str, languages: tuple[str, ...], means: str = "") -> str:
    """The text under `key` in several languages, together."""
    return together(text(key, language, means) for language in languages)


def technique_text(technique: Technique, language: str, *where: str) -> str:
    """What a technique asks of the player, in whole sentences, in `language`; in the words of the first place
    (`WHERE`) that it has words of its own for.
    """
    for place in where:
        if language in technique.texts_where.get(place, {}):
            return technique.texts_where[place][language]
    return technique.texts.get(language) or text(f"technique-{technique.key}", language)


def technique_title(technique: Technique, language: str) -> str:
    """The trade's name for a technique in `language`."""
    return technique.title.get(language) or text(f"title-{technique.key}", language)


def _texts(language: str) -> dict[str, str]:
    texts: dict[str, str] = registry.module(__name__, language).TEXTS
    return texts
