"""Characters to tokens, one line at a time.

Signs that people type instead of the language's own (♯ for #, no-break spaces, …) are replaced one for one, so that
columns stay those of the file; quoted texts keep what was written. No pattern backtracks: a line of any length is
read in linear time.
"""

from __future__ import annotations

import re
from itertools import islice
from typing import NamedTuple
from unicodedata import normalize

from gesturesmith.kinds import TokenKind
from gesturesmith.source import Span

_SPACES = "\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000"
SAME = str.maketrans(
    dict.fromkeys(_SPACES, " ")
    | {"♯": "#", "♭": "b", "𝄲": "^", "𝄳": "v", "↑": "/", "↓": "\\", "−": "-", "‐": "-", "‑": "-", "×": "x"}
)
MAX_TOKENS = 100_000  # in one value; a passage of ten thousand items needs far fewer
# What never belongs in a gesture file, not even in texts: control characters, line separators, lone surrogates.
FORBIDDEN = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]")
_NAME = re.compile(r"[^\W\d_][\u0300-\u036f]*(?:-?[^\W_][\u0300-\u036f]*)*\Z")

_TEXT = (
    r'"(?:[^"\\]|\\.)*+"|“(?:[^”\\]|\\["\\]?)*+”|„(?:[^“\\]|\\["\\]?)*+“|«(?:[^»\\]|\\["\\]?)*+»'
    r'|”(?:[^”\\]|\\["\\]?)*+”|»(?:[^«\\]|\\["\\]?)*+«'
)
PARTNER = {'"': '"', "“": "”", "„": "“", "«": "»", "”": "”", "»": "«"}
_COMMON = rf"""
  | (?P<number>[0-9]+(?:\.[0-9]+|/[0-9]+)?)
  | (?P<at>@[0-9]+(?:\.[0-9]+|/[0-9]+)?)
  | (?P<line>-+>?|[–—]+>?|→|~+|:+|\.+|_+|,)
  | (?P<sign>[<>+])
  | (?P<text>{_TEXT})
  | (?P<open>["“„«”»])
  | (?P<hash>\#)
  | (?P<bad>[^ \t])
"""
_WORD = r"(?P<word>[^\W\d_](?:[^\W_]|[\#^♮𝄪𝄫\u0300-\u036f]|[-_](?=[^\W_]))*)"
# Valves of a tube, and with the number of a partial: `1-3`, `0:11`.
_TUBE = r"(?P<harmonic>[0-9](?:-[0-9])*:[0-9]{1,2}(?![0-9.]))|(?P<valves>[0-9](?:-[0-9])+(?![0-9.]))"
_NOTE = r"x?[A-G](?:\#\#|bb|[𝄪𝄫♮]|[\#b]?[\^v/\\]?)[0-9](?:[+-][0-9]+[^\W\d_]*)?(?![^\W_]|[\#^♮])"

PLAIN = re.compile(
    rf"[ \t]*(?:(?P<note>{_NOTE})|{_WORD}|{_TUBE}|(?P<percent>[0-9]+(?:\.[0-9]+|/[0-9]+)?%){_COMMON})", re.VERBOSE
)
# Here a letter may precede a number directly: `Bb0`, `210x297mm`.
LETTERS = r"(?P<word>[A-Za-zÀ-ÿ]+)"
FINGERS = re.compile(rf"[ \t]*(?:{LETTERS}|(?P<valves>[0-9]+(?:[-–][0-9]+)++){_COMMON})", re.VERBOSE)
SIZES = re.compile(rf"[ \t]*(?:(?P<paper>[ABab][0-9](?![0-9]))|{LETTERS}{_COMMON})", re.VERBOSE)


def is_name(text: str) -> bool:
    """Whether a word has the form of a name: letters of any script, digits 0 to 9, single hyphens in between."""
    if not _NAME.match(text):
        return False
    return text.isascii() or all(c in "0123456789-" or c.isalpha() or "\u0300" <= c <= "\u036f" for c in text)


class Token(NamedTuple):
    """A token with its line (from 1) and its columns (from 0, end exclusive)."""

    kind: TokenKind
    text: str
    line: int
    start: int
    end: int

    @property
    def span(self) -> Span:
        return Span(self.line, self.start + 1, self.end + 1)


def spanning(first: Token, last: Token) -> Span:
    """From `first` to the end of `last`, or of `first` itself if `last` is on another line."""
    end = last.end if last.line == first.line else first.end
    return Span(first.line, first.start + 1, end + 1)


class NormalisedLine(NamedTuple):
    """A line with its signs replaced (`text`) and as typed (`raw`)."""

    number: int
    text: str
    raw: str


_token = tuple.__new__  # twice as fast as calling Token, which counts here


def normalise(number: int, raw: str) -> NormalisedLine:
    """The line as the tokeniser reads it."""
    return NormalisedLine(number, raw if raw.isascii() else raw.translate(SAME), raw)


def starts_comment(text: str, at: int) -> bool:
    """Whether the `#` at `at`, after a value or heading, starts a comment: if two spaces or a tab precede it."""
    before = text[max(0, at - 2) : at]
    return before.endswith("\t") or (len(before) == 2 and not before.strip(" \t"))


def tokenize(line: NormalisedLine, start: int, pattern: re.Pattern[str]) -> tuple[list[Token], int]:
    """The tokens of a line from index `start` on, and the index of its comment (-1 without one).

    A lone `#` that does not start a comment ends the tokens as one of kind "hash"; a text without its closing
    quote is one of kind "open" and runs to the end of the line. Reading stops after `MAX_TOKENS`.
    """
    number, text, raw = line
    plain = text.isascii()
    found: list[Token] = []
    # Trailing white space is left out: it would be scanned again from each of its characters.
    for match in islice(pattern.finditer(text, start, len(text.rstrip(" \t"))), MAX_TOKENS):
        kind: TokenKind = match.lastgroup or "bad"  # type: ignore[assignment]  # the pattern's groups are kinds
        begin, end = match.span(kind)
        if kind == "text":
            found.append(_token(Token, (kind, raw[begin:end], number, begin, end)))
        elif kind == "open":
            found.append(Token(kind, raw[begin:].rstrip(), number, begin, len(raw.rstrip())))
            break
        elif kind == "hash":
            if starts_comment(text, begin):
                return found, begin
            found.append(Token(kind, "#", number, begin, end))
            if text[begin - 1] == " ":
                return found, begin
        else:
            # A letter with an accent may be one character or two, depending on the keyboard: one word either way.
            said = text[begin:end] if plain else normalize("NFC", text[begin:end])
            found.append(_token(Token, (kind, said, number, begin, end)))
    return found, -1


_ESCAPE = re.compile(r'\\(["\\])')


def unquoted(text: str) -> str:
    r"""The text between its quotes; `\"` is a quote and `\\` a backslash, nothing else is special."""
    inner = text[1:-1]
    return _ESCAPE.sub(r"\1", inner) if "\\" in inner else inner


def quoted(text: str) -> str:
    """A text in straight quotes; `unquoted` reverses it."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
