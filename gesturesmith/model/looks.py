"""What a run asks of all its pages, in place of what their files say."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import TYPE_CHECKING

from gesturesmith.source import Source
from gesturesmith.values import frozen

if TYPE_CHECKING:  # a run that finds everything made reads no file
    from gesturesmith.lang import nodes

_OF_PARTS = ("wording",)  # settings that a part may have of its own


@frozen(kw_only=True)
class PageLook:
    """Settings that replace those of a file, as a file would say them; "" leaves a setting as it is.

    wording   one language, or two with a comma: `en, de`
    paper     `a4`, `letter`, or `WIDTH x HEIGHT mm`

    >>> PageLook(wording="de").problem("wording")
    ''
    >>> PageLook(paper="230 x").problem("paper")
    '`paper` is incomplete: add a length in mm'
    """

    wording: str = ""
    paper: str = ""

    def problem(self, key: str) -> str:
        """What is wrong with the value of a setting, in one sentence; "" for nothing."""
        from gesturesmith.lang import parse

        value = getattr(self, key)
        if not value.isprintable():
            return "this is more than one line"
        return next((error.message for error in parse(_said(key, value))[1]), "") if value else ""

    def on(self, tree: nodes.File) -> nodes.File:
        """The tree of a file with these settings."""
        asked = {entry.key.text: entry for entry in self._entries}
        if not asked:
            return tree
        kept = (entry for entry in tree.settings if entry.key.text not in asked)
        inside = asked.keys() & set(_OF_PARTS)
        blocks = tuple(
            replace(block, entries=tuple(e for e in block.entries if e.key.text not in inside))
            if block.kind == "part" and inside
            else block
            for block in tree.blocks
        )
        own = [_own_language(tree)] if "wording" in asked else []
        return replace(tree, settings=(*kept, *asked.values(), *own), blocks=blocks)

    @property
    def _entries(self) -> tuple[nodes.KeyEntry, ...]:
        from gesturesmith.lang import parse

        asked = ((f.name, getattr(self, f.name)) for f in fields(self))
        return tuple(entry for key, value in asked if value for entry in parse(_said(key, value))[0].settings[:1])


def _own_language(tree: nodes.File) -> nodes.KeyEntry:
    """The setting that says in which language the texts of a file are, whatever that of the page."""
    from gesturesmith.lang import nodes, parse

    entry = tree.get("wording") or parse(_said("wording", "en"))[0].settings[0]
    return replace(entry, key=replace(entry.key, text=nodes.OWN_LANGUAGE))


AS_WRITTEN = PageLook()


def _said(key: str, value: str) -> Source:
    return Source("", f"{key}: {value}")
