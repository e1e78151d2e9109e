"""SVG pictures of snippets: with title and description, and ids that depend only on the picture."""

from __future__ import annotations

import re
from html import escape

from gesturesmith.pictures.svg import NOT_XML
from gesturesmith.writers.base import Item, Writer, whole, with_checksum

_OPENING = re.compile(r"<svg\b[^>]*>")
# Each begins with plain letters, which `re` finds five times as fast.
_ID = re.compile(r' id="([^"]+)"')
_REFERENCES = (re.compile(r'(href="#)([^"]+)'), re.compile(r"(url\(#)([^)]+)"))
# A user's text as written by LilyPond's own backend (cairo draws glyphs), which escapes only `<` and `&`.
_TEXT = re.compile(r"<tspan>([^<]*)")


def _finish(item: Item, engraved: bytes) -> bytes:
    picture = whole(engraved, b"<", b"</svg>", "SVG").decode()  # a UnicodeDecodeError is a ValueError
    drawn = _TEXT.sub(lambda m: f"<tspan>{_escaped(m[1])}", picture)
    svg = _renumbered(drawn, item.name)
    opening = _OPENING.search(svg)
    if opening is None:
        raise ValueError("LilyPond's picture is not SVG")
    named = f"{item.name}-title {item.name}-desc" if item.description else f"{item.name}-title"
    head = f'{opening[0][:-1]} role="img" aria-labelledby="{_xml(named)}">\n'
    head += f'<title id="{_xml(item.name)}-title">{_xml(item.title or item.name)}</title>\n'
    if item.description:
        head += f'<desc id="{_xml(item.name)}-desc">{_xml(item.description)}</desc>\n'
    before, after = f"{svg[: opening.start()]}{head}<!-- ", f" -->{svg[opening.end() :]}"
    return with_checksum(before.encode(), after.encode())


def _renumbered(svg: str, prefix: str) -> str:
    """Number ids from 1 within this picture, prefixed by its name: several pictures may share a web page."""
    order = {old: f"{prefix}-{n}" for n, old in enumerate(dict.fromkeys(_ID.findall(svg)), start=1)}
    svg = _ID.sub(lambda m: f' id="{order[m[1]]}"', svg)
    for reference in _REFERENCES:
        svg = reference.sub(lambda m: m[1] + order.get(m[2], m[2]), svg)
    return svg


def _escaped(text: str) -> str:
    return text.replace(">", "&gt;").replace('"', "&quot;")


def _xml(text: str) -> str:
    return escape(NOT_XML.sub("", text))


WRITER = Writer(
    key="svg",
    about="a cropped picture of each gesture and passage, for the web and for print",
    kinds=("snippet", "picture", "score"),
    engraved=True,
    finish=_finish,
)
