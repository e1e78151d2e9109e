"""Elements of a document, on the standard library."""

from __future__ import annotations

from fractions import Fraction
from xml.etree.ElementTree import Element, SubElement, indent, tostring

__all__ = ["Element", "add", "decimal", "document", "lone"]

_HEAD = (
    '<?xml version="1.0" encoding="UTF-8"?>\n'
    '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" '
    '"http://www.musicxml.org/dtds/partwise.dtd">\n'
)

type Value = str | int | None


def add(parent: Element, tag: str, text: Value = None, **attributes: Value) -> Element:
    """A new element at the end of another. An attribute's `_` stands for a hyphen; None leaves it out."""
    made = SubElement(parent, tag, _attributes(attributes))
    if text is not None:
        made.text = _allowed(str(text))
    return made


def lone(tag: str, text: Value = None, **attributes: Value) -> Element:
    """A new element."""
    made = Element(tag, _attributes(attributes))
    if text is not None:
        made.text = _allowed(str(text))
    return made


def decimal(number: Fraction) -> str:
    """A number in decimal digits, to a millionth."""
    return f"{float(round(number, 6)):.6f}".rstrip("0").rstrip(".")


def document(root: Element) -> tuple[str, str]:
    """A whole document: what comes before a comment at its head, and after it."""
    indent(root, " ")
    return _HEAD, f"\n{tostring(root, encoding='unicode')}\n"


def _attributes(given: dict[str, Value]) -> dict[str, str]:
    return {name.replace("_", "-"): _allowed(str(value)) for name, value in given.items() if value is not None}


def _allowed(text: str) -> str:
    """A text without characters that no document may contain, not even as references (XML 1.0, 2.2)."""
    return "".join(
        c for c in text if c in "\t\n\r" or " " <= c <= "\ud7ff" or "\ue000" <= c <= "\ufffd" or c >= "\U00010000"
    )
