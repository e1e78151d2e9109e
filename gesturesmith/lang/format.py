"""Text to canonical text: the same gestures and comments, with uniform spacing and signs.

The order of keys, the words and the line breaks inside a value stay as written. Signs become those of the
language (`#`, `b`, `^`, `v`, `--`), quotes become straight, plain titles get theirs, indentation is two spaces a
level; there is one empty line between blocks and never more than one elsewhere.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

from gesturesmith.kinds import LineRole
from gesturesmith.lang.keys import pattern
from gesturesmith.lang.layout import SourceLine, classify_lines
from gesturesmith.lang.parse import parse
from gesturesmith.lang.tokens import PLAIN, Token, quoted, tokenize, unquoted
from gesturesmith.lang.words import LINES, PLAIN_TEXTS, SIGNS
from gesturesmith.source import Source
from gesturesmith.values import frozen

_STEP = "  "
_CONTOURS = ("contour", "sing")
_NATURAL = str.maketrans({"♮": "", "𝄪": "##", "𝄫": "bb"})


@frozen
class WrittenLine:
    """A line to write: its kind as in `classify_lines`, its indentation level, whether it belongs to a block."""

    kind: LineRole
    depth: int
    text: str
    in_block: bool

    def __str__(self) -> str:
        return f"{_STEP * self.depth}{self.text}" if self.text else ""


def format_text(source: Source) -> str:
    """The canonical form; an unreadable file is returned unchanged."""
    if parse(source)[1]:
        return source.text
    written = _spaced(list(_written(list(classify_lines(source.lines)))))
    return "".join(f"{line}\n" for line in written)


def _written(lines: list[SourceLine]) -> Iterator[WrittenLine]:
    """Every line in its canonical form, empty lines as found."""
    in_block = False
    key = ""
    goes_on = _goes_on(lines)
    for line, before_more in zip(lines, goes_on, strict=True):
        if line.kind == "blank":
            yield WrittenLine("blank", 0, "", in_block)
        elif line.kind == "comment":
            depth = (in_block + before_more) if line.indent else 0
            yield WrittenLine("comment", depth, line.content.raw[line.start :].rstrip(), in_block)
        elif line.kind == "heading":
            in_block = True
            yield WrittenLine("heading", 0, _joined(f"{line.key} ", *_parts(line, PLAIN_KEY)), True)
        elif line.kind == "more":
            yield WrittenLine("more", in_block + 1, _joined("", *_parts(line, key)), in_block)
        else:
            in_block = in_block and not line.margin
            key = line.key
            yield WrittenLine("entry", int(in_block), _joined(f"{key}: ", *_parts(line, key)), in_block)


PLAIN_KEY = "name"  # for headings: no key is called this, so their tokens are the plain ones


def _goes_on(lines: list[SourceLine]) -> list[bool]:
    """For each line, whether the next line that is neither blank nor a comment continues a value."""
    found = [False] * len(lines)
    more = False
    for i in range(len(lines) - 1, -1, -1):
        found[i] = more
        if lines[i].kind not in ("blank", "comment"):
            more = lines[i].kind == "more"
    return found


def _parts(line: SourceLine, key: str) -> tuple[str, str]:
    """The value on a line and its comment."""
    form = PLAIN if key == PLAIN_KEY else pattern(key)
    tokens, comment = tokenize(line.content, line.value, form)
    raw = line.content.raw
    plain = key in PLAIN_TEXTS and tokens and tokens[0].kind != "text"
    value = quoted(raw[tokens[0].start : tokens[-1].end]) if plain else _value(tokens, key)
    return value, raw[comment:].rstrip() if comment >= 0 else ""


def _joined(head: str, value: str, comment: str) -> str:
    text = f"{head}{value}".rstrip()
    return f"{text}  {comment}" if comment else text


def _value(tokens: list[Token], key: str) -> str:
    """Tokens joined with the right spaces."""
    text = ""
    before: Token | None = None
    for n, tok in enumerate(tokens):
        if before and _apart(before, tok, key) and not _in_band(tokens[max(0, n - 3) : n + 1]):
            text += " "
        text += _sign(tok, key)
        before = tok
    return text


def _in_band(tokens: list[Token]) -> bool:
    """Whether the last token joins a band, as in `in G4..C5`."""
    words = [tok.text for tok in tokens]
    return (words[-1:] == [".."] and words[-3:-2] == ["in"]) or (words[:1] == ["in"] and words[-2:-1] == [".."])


def _apart(before: Token, tok: Token, key: str) -> bool:
    """Whether a space belongs between two tokens."""
    if tok.text == ",":
        return False
    if ".." in (tok.text, before.text) and key not in _CONTOURS:
        return False
    if tok.kind == "at":
        return before.kind == "word" and key in _CONTOURS and before.text not in _HEIGHT_WORDS
    return True


_HEIGHT_WORDS = frozenset({"low", "mid", "high", "highest", "lowest", "r"})


def _sign(tok: Token, key: str) -> str:
    """A token as the language writes it."""
    if tok.kind == "text":
        return quoted(unquoted(tok.text))
    if tok.kind == "line" and tok.text in LINES:
        return SIGNS[LINES[tok.text]]
    if tok.kind == "note":
        return tok.text.translate(_NATURAL)
    if tok.kind == "valves":
        return tok.text.replace("–", "-")
    if tok.kind in ("word", "paper"):
        plain = unicodedata.normalize("NFC", tok.text)
        return plain.lower() if key == "paper" else plain
    return tok.text


def _spaced(lines: list[WrittenLine]) -> list[WrittenLine]:
    """One empty line before every block (and the comments right above it), and never two in a row."""
    out: list[WrittenLine] = []
    for line in lines:
        if line.kind == "blank":
            if out and out[-1].kind not in ("blank", "heading"):
                out.append(line)
            continue
        if line.kind == "heading" or (line.kind == "entry" and not line.in_block and _after_block(out)):
            _part(out)
        out.append(line)
    while out and out[-1].kind == "blank":
        out.pop()
    return out


def _after_block(out: list[WrittenLine]) -> bool:
    """Whether the last line that is neither blank nor a comment belongs to a block."""
    for line in reversed(out):
        if line.kind not in ("blank", "comment"):
            return line.in_block
    return False


def _part(out: list[WrittenLine]) -> None:
    """Add an empty line above the unindented comments at the end of `out`, if there is none."""
    at = len(out)
    while at and out[at - 1].kind == "comment" and not out[at - 1].depth:
        at -= 1
    if at and out[at - 1].kind != "blank":
        out.insert(at, WrittenLine("blank", 0, "", False))
