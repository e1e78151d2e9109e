"""The composer's own texts in the languages of the page: `footnote: "…"` and `footnote.de: "…"`."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from gesturesmith.lang import nodes
from gesturesmith.lang.keys import TRANSLATED
from gesturesmith.lang.words import WORDINGS
from gesturesmith.values import frozen
from gesturesmith.wording import together


@frozen(kw_only=True)
class PageLanguages:
    """page: the languages of the page; own: that in which the file's texts without a language are written."""

    page: tuple[str, ...] = ("en",)
    own: str = "en"


ENGLISH = PageLanguages()


def page_languages(tree: nodes.File) -> PageLanguages:
    """The languages of a file, or of a part of it."""
    page = _named(tree, "wording") or ENGLISH.page
    own = _named(tree, nodes.OWN_LANGUAGE) or page
    return PageLanguages(page=page, own=own[0])


def _named(tree: nodes.File, key: str) -> tuple[str, ...]:
    entry = tree.get(key)
    return (
        tuple(w.text for w in entry.value.words)
        if entry is not None and isinstance(entry.value, nodes.Names)
        else ()
    )


def texts(block: nodes.Block, key: str, languages: PageLanguages) -> tuple[str | None, ...]:
    """A text of a gesture in each language of the page. Where it is missing: that without a language, else any."""
    there = dict(_given(block, key, languages))
    last = there.get(languages.own) or next(iter(there.values()), None)
    return tuple(there.get(language, last) for language in languages.page)


def text(block: nodes.Block, key: str, languages: PageLanguages) -> str | None:
    """A text of a gesture in the languages of the page, together; None if there is none."""
    return together(t for t in texts(block, key, languages) if t is not None) or None


def own_texts(block: nodes.Block, languages: PageLanguages) -> tuple[str, ...]:
    """What the composer tells the player, footnote and note, once in each language of the page."""
    both = zip(*(texts(block, key, languages) for key in ("footnote", "note")), strict=True)
    said = (" ".join(words for words in row if words is not None) for row in both)
    return tuple(dict.fromkeys(one for one in said if one))


def _given(block: nodes.Block, key: str, languages: PageLanguages) -> Iterator[tuple[str, str]]:
    """The texts that a gesture has, by language."""
    for language, name in ((languages.own, key), *((one, f"{key}.{one}") for one in WORDINGS)):
        entry = block.get(name)
        if entry is not None and isinstance(entry.value, nodes.Text):
            yield language, entry.value.text


def untranslated(tree: nodes.File) -> Iterator[tuple[str, str, str]]:
    """The texts that a language of the pages lacks: the language, the gesture, the key."""
    whole = page_languages(tree)
    of_parts = (
        nodes.File(block.entries, ()) for block in tree.blocks if block.kind == "part" and block.get("wording")
    )
    page = dict.fromkeys((*whole.page, *(one for part in of_parts for one in page_languages(part).page)))
    languages = replace(whole, page=tuple(page))
    for block in tree.blocks:
        for key in TRANSLATED if block.kind == "gesture" else ():
            there = dict(_given(block, key, languages))
            yield from ((one, block.name.text, key) for one in languages.page if there and one not in there)
