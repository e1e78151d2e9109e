"""SVG as text: elements whose attributes and texts are escaped. Numbers have one digit, so that files repeat."""

from __future__ import annotations

import re
from collections.abc import Sequence
from html import escape  # xml.sax would import a client for networks

# Told apart by shape and word as well: line widths and dashes, numbers, labels.
INK, SOFT, FAINT, REACH, HEARD, CARE, REFUSED = (
    "#1d2733", "#5b6773", "#d5dbe1", "#2b7a6b", "#3b62b5", "#9a5b00", "#b3261e",
)  # fmt: skip

# XML 1.0, 2.2: these characters are not allowed in a document at all, not even as references.
NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")

type Point = tuple[float, float]


def number(value: float) -> str:
    """A number with at most one digit after the point."""
    text = f"{value:.1f}"
    return text.removesuffix(".0") if text != "-0.0" else "0"


def element(name: str, inside: str = "", /, **attributes: str | float) -> str:
    """An element; underscores in the names of attributes stand for hyphens. `inside` is SVG already."""
    parts = (
        f" {key.replace('_', '-')}={_attribute(value if isinstance(value, str) else number(value))}"
        for key, value in attributes.items()
    )
    opening = f"<{name}{''.join(parts)}"
    return f"{opening}>{inside}</{name}>" if inside else f"{opening}/>"


def escaped(text: str) -> str:
    """A text for an element, without what XML does not allow."""
    return escape(NOT_XML.sub("", text), quote=False)


def _attribute(text: str) -> str:
    """A text in quotes, in which white space stays as it is."""
    inner = escape(text, quote=False).replace("\n", "&#10;").replace("\r", "&#13;").replace("\t", "&#9;")
    if '"' not in inner:
        return f'"{inner}"'
    return f"'{inner}'" if "'" not in inner else '"' + inner.replace('"', "&quot;") + '"'


def words(text: str, x: float, y: float, **attributes: str | float) -> str:
    """A line of text."""
    standard: dict[str, str | float] = {"x": x, "y": y, "font_size": 11.0, "fill": INK}
    return element("text", escaped(text), **(standard | attributes))


def box(x: float, y: float, width: float, height: float, **attributes: str | float) -> str:
    """A rectangle."""
    return element("rect", x=x, y=y, width=width, height=height, **attributes)


def path(points: Sequence[Point], stroke: str = INK, width: float = 2, **attributes: str | float) -> str:
    """A line through points."""
    d = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)
    standard: dict[str, str | float] = {"d": d, "fill": "none", "stroke": stroke, "stroke_width": width}
    return element("path", **(standard | attributes))


def document(parts: Sequence[str], width: float, height: float, title: str, description: str) -> str:
    """A picture with its title and description, for those who cannot see it."""
    told = element("title", escaped(title)) + element("desc", escaped(description))
    ground = box(0, 0, width, height, fill="#ffffff")
    return element(
        "svg",
        told + ground + "".join(parts),
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {number(width)} {number(height)}",
        width=width,
        height=height,
        role="img",
        font_family="sans-serif",
    )
