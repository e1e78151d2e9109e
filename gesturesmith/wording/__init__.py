"""The standard texts of pages, by key and language. One file per language; texts may contain {fields} to fill in.

A technique's own texts take precedence; `technique-KEY` and `title-KEY` in a language's file are for techniques
without texts in that language.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import fields

from gesturesmith import registry
from gesturesmith.techniques.base import Label, Look, Technique
from gesturesmith.values import frozen


def languages() -> tuple[str, ...]:
    """All languages, English first, then by code."""
    return tuple(sorted(registry.names(__name__), key=lambda code: (code != "en", code)))


def keys(language: str) -> tuple[str, ...]:
    """The keys of a language, sorted; KeyError for an unknown language."""
    return tuple(sorted(_texts(language)))


def text(key: str, language: str, means: str = "") -> str:
    """The text for `key` in `language` ("en"), or its variant for an instrument's `means` ("slide") if there is
    one; KeyError if either is unknown.
    """
    texts = _texts(language)
    return texts.get(f"{key}-{means}") or texts[key]


def together(texts: Iterable[str]) -> str:
    """A text in several languages as one; identical texts appear once."""
    return " / ".join(dict.fromkeys(texts))


def said(key: str, languages: tuple[str, ...], means: str = "") -> str:
    """The text for `key` in several languages, together."""
    return together(text(key, language, means) for language in languages)


def technique_text(technique: Technique, language: str, *where: str) -> str:
    """What a technique asks of the player, in complete sentences in `language`; for the first of the cases
    (`WHERE`) for which it has a text.
    """
    for place in where:
        if language in technique.texts_where.get(place, {}):
            return technique.texts_where[place][language]
    return technique.texts.get(language) or text(f"technique-{technique.key}", language)


@frozen(kw_only=True)
class PageWords:
    """Which words of techniques a page has: those of a `language`, "" for the international ones. `hand`: whether
    its player has a hand in the bell."""

    language: str = ""
    hand: bool = False

    def look(self, technique: Technique) -> Look:
        """How a technique looks on the page, with its words in the language as far as that has any."""
        label = technique.labels_of_hand.get(self.language) if self.hand else None
        label = label or technique.labels.get(self.language)
        return technique.look.labelled(label) if label is not None else technique.look

    def quoted(self, technique: Technique, told: str) -> str:
        """A text in any language that quotes the technique's international words, with those of the page."""
        look = self.look(technique)
        for key in _LABEL:
            before, after = getattr(technique.look, key), getattr(look, key)
            if before and before != after:
                told = re.sub(f"([“„«]\u00a0?){re.escape(before)}(?=\u00a0?[”“»])", rf"\1{after}", told)
        return told


_LABEL = tuple(field.name for field in fields(Label))


def technique_title(technique: Technique, language: str) -> str:
    """The trade name of a technique in `language`."""
    return technique.title.get(language) or text(f"title-{technique.key}", language)


def _texts(language: str) -> dict[str, str]:
    texts: dict[str, str] = registry.module(__name__, language).TEXTS
    return texts
