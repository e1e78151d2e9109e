"""XML without surprises: no entities, nothing from elsewhere, and limits on number, depth and length."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any
from xml.parsers import expat

MAX_ELEMENTS = 4_000_000
MAX_DEPTH = 64
MAX_TEXT = 20_000  # characters in one element
# Messages of expat that a musician could not do anything with.
_WORDS = {
    "encoding specified in XML declaration is incorrect": "this is not the encoding that its first line names",
    "no element found": "the file ends before its end",
    "unclosed token": "the file ends before its end",
}


class NotMusicXmlError(ValueError):
    """A file that is no MusicXML, or more than is read (`too_large`). `line` in the XML, 0 if unknown."""

    def __init__(self, message: str, line: int = 0, *, too_large: bool = False) -> None:
        super().__init__(message)
        self.line = line
        self.too_large = too_large


class Element:
    """One element, with the line that it begins on."""

    __slots__ = ("attributes", "children", "line", "tag", "text")

    def __init__(self, tag: str, attributes: dict[str, str], line: int) -> None:
        self.tag = tag
        self.attributes = attributes
        self.children: list[Element] = []
        self.text = ""
        self.line = line

    def get(self, name: str) -> str:
        """An attribute, "" if it is missing."""
        return self.attributes.get(name, "")

    def find(self, tag: str) -> Element | None:
        """The first child called `tag`."""
        for child in self.children:
            if child.tag == tag:
                return child
        return None

    def says(self, tag: str) -> str:
        """The text of the first child called `tag`, without white space around it; "" if there is none."""
        child = self.find(tag)
        return child.text.strip() if child is not None else ""

    def all(self, tag: str) -> list[Element]:
        """The children called `tag`."""
        return [child for child in self.children if child.tag == tag]

    def every(self, tag: str) -> Iterator[Element]:
        """Everything called `tag` inside, in order."""
        for child in self.children:
            if child.tag == tag:
                yield child
            yield from child.every(tag)


type Done = Callable[[Element, list[Element]], bool]


def parse(pieces: Iterable[bytes], watched: frozenset[str], done: Done) -> Element:
    """Read XML, and give its root element.

    watched   names of elements at whose end `done` is called, with the elements they are in, from the root; where
              it says True, the element has been dealt with and is left out of the tree

    NotMusicXmlError, with its line, for anything that is not well formed, has entities, or is beyond the limits.
    """
    parser = expat.ParserCreate()
    parser.buffer_text = True
    parser.SetParamEntityParsing(expat.XML_PARAM_ENTITY_PARSING_NEVER)  # nor is the DTD of a DOCTYPE asked for
    stack: list[Element] = [Element("", {}, 0)]
    count = 0

    def start(tag: str, attributes: dict[str, str]) -> None:
        nonlocal count
        count += 1
        if count > MAX_ELEMENTS or len(stack) > MAX_DEPTH:
            what = f"{MAX_ELEMENTS:,} elements" if count > MAX_ELEMENTS else f"{MAX_DEPTH} elements in each other"
            raise NotMusicXmlError(f"more than {what}, the limit", parser.CurrentLineNumber, too_large=True)
        stack.append(Element(tag, attributes, parser.CurrentLineNumber))

    def end(_tag: str) -> None:
        element = stack.pop()
        if element.tag not in watched or not done(element, stack[1:]):
            stack[-1].children.append(element)

    def text(data: str) -> None:
        element = stack[-1]
        if len(element.text) < MAX_TEXT and (element.text or not data.isspace()):
            element.text = (element.text + data)[:MAX_TEXT]

    def refuse(*_: Any) -> int:
        raise NotMusicXmlError("entities are not read", parser.CurrentLineNumber)

    parser.StartElementHandler = start
    parser.EndElementHandler = end
    parser.CharacterDataHandler = text
    parser.EntityDeclHandler = refuse
    parser.ExternalEntityRefHandler = refuse
    try:
        for piece in pieces:
            parser.Parse(piece, False)
        parser.Parse(b"", True)
    except expat.ExpatError as error:
        what = expat.ErrorString(error.code) or "not well formed"
        raise NotMusicXmlError(f"line {error.lineno}: {_WORDS.get(what, what)}", error.lineno) from None
    except (ValueError, LookupError) as error:
        if isinstance(error, NotMusicXmlError):
            raise
        raise NotMusicXmlError("this file names an encoding that is not read; save it as UTF-8", 1) from None
    return stack[0].children[0]


def whole(data: bytes) -> Element:
    """The tree of a short text."""
    return parse([data], frozenset(), lambda _element, _inside: False)
