"""A cursor over the tokens of one value, with readers for the parts that values are made of.

`error` records a mistake and goes on; `fail` records it and gives up the value by `UnreadableError`, which is
caught where the value began and never leaves this package.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache
from typing import NoReturn

from gesturesmith.diagnostics.types import ReadError
from gesturesmith.kinds import Unit
from gesturesmith.lang.messages import RULES, listed, short, shown
from gesturesmith.lang.nodes import Amount, Text, Word
from gesturesmith.lang.tokens import PARTNER, Token, is_name, quoted, spanning, unquoted
from gesturesmith.lang.words import AND, UNITS, nearest, trade
from gesturesmith.source import Span

_MAX_NUMBER_LENGTH = 12  # characters; nothing musical needs more, and arithmetic stays fast
MAX_ERRORS = 1000  # reported for the form of one file, and as many for its meaning
_MAX_IN_VALUE = 25
MAX_TEXT_LENGTH = 2000  # characters in quotes: half a page of footnote
_MAX_LOOKED_UP = 300  # unknown words per file compared with known ones; comparing is slow


class UnreadableError(Exception):
    """A value was given up; its error is recorded."""


class ErrorList:
    """The errors of a file as they are found, and the names of its blocks (case-folded)."""

    __slots__ = ("block", "count", "errors", "looked_up", "names", "silent")

    def __init__(self, names: frozenset[str] = frozenset()) -> None:
        self.errors: list[ReadError] = []
        self.block: str | None = None
        self.names = names
        self.looked_up = 0
        self.count = 0  # of all errors, shown or not
        self.silent: set[int] = set()  # lines on which no more errors are shown

    def add(self, rule: str, span: Span, message: str, near: tuple[str, ...] = ()) -> None:
        """Record an error; after `MAX_ERRORS` only that there are more."""
        self.count += 1
        if span.line in self.silent:
            return
        if len(self.errors) < MAX_ERRORS:
            self.errors.append(
                ReadError(code=RULES[rule], rule=rule, span=span, message=message, nearest=near, gesture=self.block)
            )
        elif len(self.errors) == MAX_ERRORS:
            self.errors.append(and_more(span, self.block))

    @property
    def full(self) -> bool:
        """Whether no more errors are shown."""
        return len(self.errors) > MAX_ERRORS

    def nearest(self, word: str, options: tuple[str, ...]) -> tuple[str, ...]:
        """At most three of `options` close to `word`; none after the first `_MAX_LOOKED_UP` unknown words."""
        self.looked_up += 1
        return nearest(word, options) if self.looked_up <= _MAX_LOOKED_UP else ()


def and_more(span: Span, block: str | None) -> ReadError:
    """Replaces all errors after the first `MAX_ERRORS`."""
    rule, message = "too-many-errors", "there are more errors from here on: fix these first"
    return ReadError(code=RULES[rule], rule=rule, span=span, message=message, gesture=block)


class Reader:
    """The tokens of one value. The last token is always of kind "end"."""

    __slots__ = ("failed", "i", "key", "notes", "raw", "tok", "tokens")

    def __init__(self, tokens: list[Token], key: Word, notes: ErrorList, raw: str = "") -> None:
        self.tokens = tokens
        self.raw = raw  # its first line as it was typed
        self.i = 0
        self.tok = tokens[0]
        self.key = key
        self.notes = notes
        self.failed = 0

    def next(self) -> Token:
        """The token at the cursor; the cursor moves on."""
        tok = self.tok
        if tok.kind != "end":
            self.i += 1
            self.tok = self.tokens[self.i]
        return tok

    def at_end(self) -> bool:
        """Whether the value is at its end."""
        return self.tok.kind == "end"

    def ahead(self) -> Token:
        """The token after the one at the cursor."""
        return self.tokens[min(self.i + 1, len(self.tokens) - 1)]

    def back(self) -> Token:
        """The token before the one at the cursor."""
        return self.tokens[max(self.i - 1, 0)]

    def span_from(self, first: Token) -> Span:
        """From `first` to the token just read, on one line."""
        return spanning(first, self.tokens[self.i - 1])

    def error(self, rule: str, span: Span, message: str, near: tuple[str, ...] = ()) -> None:
        """Record a mistake and go on reading."""
        self.failed += 1
        if self.failed <= _MAX_IN_VALUE:
            self.notes.add(rule, span, message, near)
        elif self.failed > 2 * _MAX_IN_VALUE:
            raise UnreadableError

    def fail(self, rule: str, span: Span, message: str, near: tuple[str, ...] = ()) -> NoReturn:
        """Record a mistake and give up the value."""
        self.error(rule, span, message, near)
        raise UnreadableError

    def unexpected(self, wanted: str) -> NoReturn:
        """Give up: the token at the cursor is not `wanted` ("a point, such as G4")."""
        tok = self.tok
        if tok.kind == "end":
            self.fail("incomplete", tok.span, f"`{self.key.text}` is incomplete: add {wanted}")
        if tok.kind == "open":
            self.unclosed(tok)
        if tok.kind == "hash":
            self.fail("comment-spacing", tok.span, hash_message(tok))
        if tok.kind == "bad":
            self.fail("unexpected-sign", tok.span, f"{sign_name(tok.text)} has no meaning here: write {wanted}")
        if tok.kind in ("line", "sign"):
            self.fail("unexpected-sign", tok.span, f"{shown(tok.text)} is not allowed here: write {wanted}")
        if tok.kind == "text":
            self.fail("unexpected-sign", tok.span, f"a text in quotes is not allowed here: write {wanted}")
        self.fail("unexpected-sign", tok.span, f"{shown(tok.text)} is unknown here: write {wanted}")

    def unclosed(self, tok: Token) -> NoReturn:
        """Give up: a text without its closing quote."""
        self.fail(
            "unclosed-text",
            tok.span,
            f"unclosed text: put {PARTNER[tok.text[0]]} at its end, on the same line",
        )

    def finish(self, whole: str) -> None:
        """Give up if anything follows the value, which `whole` describes ("one word")."""
        tok = self.tok
        if tok.kind == "end":
            return
        if tok.kind in ("open", "hash", "bad"):
            self.unexpected("nothing more")
        self.fail("too-much", tok.span, f"unexpected {shown(tok.text)}: `{self.key.text}` takes {whole}")

    # -- what values are made of ------------------------------------------------------------------------

    def word(self, wanted: str) -> Word:
        """A bare word with the form of a name."""
        tok = self.tok
        if tok.kind == "note" and is_name(tok.text):  # `A4` where a name is wanted
            return Word(tok.text, self.next().span)
        if tok.kind == "text" and is_name(unquoted(tok.text)):
            self.fail("unknown-word", tok.span, f"no quotes around names: {short(unquoted(tok.text))}")
        if tok.kind != "word":
            self.unexpected(wanted)
        if not is_name(tok.text):
            self.fail("bad-name", tok.span, name_message(tok.text))
        self.next()
        return Word(tok.text, tok.span)

    def phrase(self, wanted: str, known: Callable[[str], object] = bool) -> Word:
        """A name with any further words and full stops, as in `con sord.`, whether known or not.

        known   tells whether a name that contains "and" is one name ("sing and play")
        """
        if self.tok.kind == "number" and self.ahead().kind == "word":
            self.next()
        first = self.tok
        text = self.word(wanted).text
        while self.tok.line == first.line and len(text) <= 40:
            tok = self.tok
            joined = tok.start == self.back().end
            word = tok.kind in ("word", "note", "number")
            if tok.text in AND and not (known is not bool and known(f"{text} {tok.text} {self.ahead().text}")):
                break
            after = self.ahead()
            stop = (
                joined
                and tok.text in (".", "'", "’")
                and (tok.text != "." or after.start > tok.end or after.kind == "end")
            )
            if not word and not stop:
                break
            text += self.next().text if joined else f" {self.next().text}"
        return Word(text, self.span_from(first))

    def typed(self, first: Token) -> Text:
        """The original text from `first` to the token just read, with its own spaces and signs."""
        said = self.raw[first.start : self.back().end]
        if len(said) > MAX_TEXT_LENGTH:
            self.fail(
                "out-of-range",
                first.span,
                f"a text of {len(said)} characters: at most {MAX_TEXT_LENGTH} fit on a page",
            )
        return Text(said, self.span_from(first))

    def choice(self, options: tuple[str, ...], what: str) -> Word:
        """One word of a fixed set; `what` names the set in the message ("a mute")."""
        tok = self.tok
        if tok.kind in ("word", "note", "paper") and tok.text in options:
            self.next()
            return Word(tok.text, tok.span)
        if tok.kind == "text" and unquoted(tok.text) in options:
            self.fail("unknown-word", tok.span, f"write it without quotes: {unquoted(tok.text)}")
        if tok.kind not in ("word", "note", "number"):
            self.unexpected(f"{listed(options)}")
        return self.unknown(tok, options, what)

    def unknown(self, tok: Token, options: tuple[str, ...], what: str) -> NoReturn:
        """Give up: `tok` is not one of `options`, which are listed if they are few."""
        line = [t.text for t in self.tokens[self.i : self.i + 3] if t.line == tok.line and t.kind == "word"]
        near = trade(" ".join(line), options) or self.notes.nearest(tok.text, options)
        wanted = listed(near) if near else listed(options)
        self.fail("unknown-word", tok.span, f"{shown(tok.text)} is not {what}: write {wanted}", near)

    def text(self) -> Text:
        """A quoted text; texts on the following lines are joined to it by a space."""
        first = self.tok
        if first.kind != "text":
            self._text_wanted(first)
        parts = [unquoted(self.next().text)]
        while self.tok.kind == "text":
            if self.tok.line == self.back().line:
                self.fail("too-much", self.tok.span, "one text per line: put both in one pair of quotes")
            parts.append(unquoted(self.next().text))
        return self._short_enough(" ".join(parts), first)

    def one_text(self) -> Text:
        """A single quoted text, without continuation."""
        return self._short_enough(unquoted(self.tok.text), self.next())

    def _short_enough(self, whole: str, first: Token) -> Text:
        if len(whole) > MAX_TEXT_LENGTH:
            said = f"a text of {len(whole)} characters: at most {MAX_TEXT_LENGTH} fit on a page"
            self.fail("out-of-range", first.span, said)
        return Text(whole, first.span)

    def _text_wanted(self, tok: Token) -> NoReturn:
        if tok.kind in ("open", "hash", "end"):
            self.unexpected("a text in quotes")
        line = [t for t in self.tokens[self.i : self.i + 9] if t.line == tok.line]
        words = " ".join(t.text for t in line).strip("'‘’‚ ")
        if len(line) > 8 or len(words) > 40 or any(t.kind in ("text", "open") for t in line):
            words = "…"
        self.fail("text-needs-quotes", tok.span, f"a text needs double quotes: {self.key.text}: {quoted(words)}")

    def number(self, wanted: str) -> Fraction:
        """A number in the language's notation, exact."""
        if self.tok.kind != "number":
            self._number_wanted(wanted)
        return self.value_of(self.next(), self.back().text)

    def value_of(self, tok: Token, digits: str) -> Fraction:
        """The value of the number `digits` in `tok`."""
        if len(digits) > _MAX_NUMBER_LENGTH:
            self.fail("bad-number", tok.span, f"number too long: at most {_MAX_NUMBER_LENGTH} characters")
        value = fraction(digits)
        if value is None:
            self.fail("zero-divisor", tok.span, f"{digits} divides by zero: the denominator is at least 1")
        following = self.tok
        if following.text == "." and following.start == tok.end:
            self.fail("bad-number", following.span, "a decimal point needs digits on both sides: 2.5")
        if following.text.startswith("/") and following.start == tok.end:
            self.fail("bad-number", following.span, "a fraction is two whole numbers with a slash: 3/2")
        return value

    def _number_wanted(self, wanted: str) -> NoReturn:
        tok, after = self.tok, self.ahead()
        if tok.text == "." and after.kind == "number":
            self.fail("bad-number", tok.span, f"a number starts with a digit: 0.{short(after.text)}")
        if tok.text in ("-", "+", "–") and after.kind == "number":
            self.fail("bad-number", tok.span, f"numbers have no sign: write {short(after.text)}")
        if tok.kind == "word" and tok.text[0] in "½¼¾⅓⅔":
            plain = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅔": "2/3"}[tok.text[0]]
            self.fail("bad-number", tok.span, f"write {shown(tok.text)} with a slash: {plain}")
        if tok.kind == "text":
            self.fail("bad-number", tok.span, f"no quotes around numbers: {shown(unquoted(tok.text))}")
        self.unexpected(wanted)

    def whole(self, wanted: str, least: int = 1) -> Amount:
        """A whole number, at least `least`."""
        tok = self.tok
        value = self.number(wanted)
        if value.denominator != 1:
            self.fail("bad-number", tok.span, f"{tok.text} is not a whole number: write {wanted}")
        if value < least:
            self.fail("out-of-range", tok.span, f"{tok.text} is too small: at least {least}")
        return Amount(value, "", tok.span)

    def positive(self, wanted: str) -> Fraction:
        """A number above zero."""
        tok = self.tok
        value = self.number(wanted)
        if not value:
            self.fail("out-of-range", tok.span, f"{tok.text} is not enough: write a number above zero")
        return value

    def unit(self, allowed: tuple[Unit, ...]) -> Unit:
        """The unit at the cursor, "" for none; `allowed` are units as nodes name them."""
        tok = self.tok
        if tok.kind == "percent" or (tok.kind == "bad" and tok.text == "%"):
            self.fail("unknown-unit", tok.span, f"% is not a unit here: write {listed(allowed)}", allowed)
        if tok.kind != "word":
            return ""
        unit = UNITS.get(tok.text)
        if unit is not None and unit in allowed:
            self.next()
            return unit
        near = self.notes.nearest(tok.text, allowed) or allowed
        return self.fail(
            "unknown-unit", tok.span, f"{shown(tok.text)} is not a unit here: write {listed(near)}", near
        )


@lru_cache(2048)
def fraction(digits: str) -> Fraction | None:
    """The number written `digits` (`4`, `2.5`, `5/2`), or None if it divides by zero."""
    if "/" in digits:
        top, bottom = digits.split("/")
        return Fraction(int(top), int(bottom)) if int(bottom) else None
    whole, _, decimals = digits.partition(".")
    return Fraction(int(whole + decimals), 10 ** len(decimals))


def hash_message(tok: Token) -> str:
    """What to do about a `#` that neither sharpens a note nor starts a comment."""
    return "a comment needs two spaces before its `#`; a sharp goes right after the letter, as in F#4"


def name_message(text: str) -> str:
    """Why `text` is not a name, and a name it could be."""
    plain = text.replace("_", "-")
    if plain != text and is_name(plain):
        return f"names are joined with a hyphen: write {shown(plain)}"
    return f"{shown(text)} is not a name: letters and digits, joined with single hyphens, a letter first"


def sign_name(text: str) -> str:
    """A sign as a sentence names it, even an invisible one."""
    if text == "'" or text in "‘’‚":
        return f"the quote {text} (texts need double quotes)"
    if text.isprintable() and text.strip():
        return f"`{text}`"
    return f"an invisible character (U+{ord(text):04X})"
