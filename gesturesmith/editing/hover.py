"""Help on the word at a place, from the texts of the language page and of techniques, instruments and rules."""

from __future__ import annotations

from gesturesmith import instruments, rules, techniques
from gesturesmith.editing.place import Place, headings, key_of, lines_of, parts_of, place, window
from gesturesmith.instruments.base import Instrument
from gesturesmith.lang import meanings, values
from gesturesmith.lang.contour import contour
from gesturesmith.lang.keys import SETTINGS, Key
from gesturesmith.lang.play import play
from gesturesmith.lang.tokens import Token
from gesturesmith.lang.words import BLOCKS, LINES
from gesturesmith.rules.shared.doc import sections
from gesturesmith.source import Source, Span, folded
from gesturesmith.units import spell
from gesturesmith.values import frozen

_FORMS = (*meanings.POINTS, *meanings.ENTRIES)
_MEASURED = {"percent": "low", "at": "…@T"}  # kinds of token without words, and how their form is found


@frozen(kw_only=True)
class Help:
    """What is said about a word.

    span    the word
    title   what it is, in plain text
    text    what it means, in Markdown, "" if the title says it
    more    the name by which `gesturesmith explain` says more, "" if it does not
    """

    span: Span
    title: str
    text: str = ""
    more: str = ""


def hover(source: Source, line: int, column: int) -> Help | None:
    """Help on the word that the cursor touches; None where there is nothing to say."""
    lines = lines_of(source)
    if not 1 <= line <= len(lines):
        return None
    raw = lines[line - 1]
    head = _first_word(raw)
    at = place(lines, line, head[1] + 1 if head is not None else 1)
    if head is not None and head[0] < column <= head[1] + 1:
        found = _of_key(at, lines, raw[head[0] : head[1]])
        if found is not None:
            return Help(span=Span(line, head[0] + 1, head[1] + 1), title=found.title, text=found.text)
    whole = place(lines, line, _end(lines, line, column))
    touched = [tok for tok in whole.before if tok.line == line and tok.start < column <= tok.end + 1]
    # Between two tokens without a space the cursor is at the second, as for a note before its line.
    tok = next((t for t in reversed(touched) if t.start == column - 1), touched[0] if touched else None)
    if tok is None or tok.kind in ("text", "open"):
        return None
    before = whole.before[: whole.before.index(tok)]
    if whole.where == "heading":
        return None if before else _block(lines, tok, tok.text, whole)
    found = _of_value(whole, lines, before, tok) if whole.where == "value" else None
    if found is None:
        return None
    return Help(span=tok.span, title=found.title, text=found.text, more=found.more)


def _end(lines: tuple[str, ...], line: int, column: int) -> int:
    """The column after the token that the cursor touches: the line is read as far as that."""
    raw = lines[line - 1]
    end = max(column - 1, 0)
    while end < len(raw) and not raw[end].isspace():
        end += 1
    return end + 1


def _first_word(raw: str) -> tuple[int, int] | None:
    """Where the first word of a line begins and ends."""
    start = len(raw) - len(raw.lstrip(" \t"))
    end = start
    while end < len(raw) and (raw[end].isalnum() or raw[end] in "-_."):
        end += 1
    return (start, end) if end > start else None


_NOWHERE = Span(1, 1, 1)


def _said(title: str, text: str = "", more: str = "") -> Help:
    return Help(span=_NOWHERE, title=title, text=text, more=more)


def _of_key(at: Place, lines: tuple[str, ...], word: str) -> Help | None:
    """A word that begins a line: a block or a key."""
    if at.where != "key":
        return None
    if word in BLOCKS and at.margin and f"{word}:" not in lines[at.line - 1]:
        return _said(word, meanings.BLOCKS[word])
    key = key_of(word, at.block, parts_of(lines) if at.block == "passage" else frozenset())
    return _key(word, key) if key is not None else None


def _key(name: str, key: Key) -> Help:
    value = key.value
    if value.startswith("as in the settings") and name in SETTINGS:
        value += f": {SETTINGS[name].value}"
    without = "It has to be there." if key.missing == "error" else f"Without it: {key.missing}."
    return _said(name, f"{value}\n\n{without}")


def _of_value(at: Place, lines: tuple[str, ...], before: tuple[Token, ...], tok: Token) -> Help | None:
    key = key_of(at.key, at.block, parts_of(lines) if at.block == "passage" else frozenset())
    if key is None:
        return None
    if key.read is contour:
        return _in_contour(before, tok)
    if key.read is play:
        return _in_play(at, lines, before, tok)
    if key.read in (values.names, values.one_technique):
        return technique_help(tok.text)
    if key.read is values.instrument:
        return instrument_help(tok.text)
    if key.read is values.allow:
        return rule_help(tok.text)
    if key.names:
        return _block(lines, tok, tok.text, at)
    word = next((one for one in key.words if one == tok.text or (" " in one and _in_phrase(at, tok, one))), "")
    if word:
        return _said(word, f"{key.words[word]}\n\n`{at.key}`: {_key(at.key, key).text}")
    return _key(at.key, key)


def _in_phrase(at: Place, tok: Token, phrase: str) -> bool:
    """Whether a token is part of a value of several words; the line is known as far as the token."""
    row = [one.text for one in at.before if one.line == tok.line]
    return phrase.split()[: len(row)] == row


def _in_contour(before: tuple[Token, ...], tok: Token) -> Help | None:
    if tok.kind == "word" and before and (before[-1].text in ("as", "without") or before[-1].text == "+"):
        return technique_help(tok.text)
    if tok.kind == "line":
        return _said(tok.text, meanings.LINE_SIGNS[tok.text]) if tok.text in LINES else None
    if tok.kind == "note":
        return _form("`xG4`" if tok.text.startswith("x") else "`G4`", tok.text)
    if tok.kind == "at":
        return _form("`…@T`", tok.text)
    if tok.kind == "percent":
        return _worded("low", tok.text)
    if tok.kind == "harmonic":
        return _worded("partial", tok.text)
    if tok.text in meanings.GROWTH:
        return _said(tok.text, meanings.GROWTH[tok.text])
    return _worded(tok.text, tok.text)


def _in_play(at: Place, lines: tuple[str, ...], before: tuple[Token, ...], tok: Token) -> Help | None:
    cut = max((n for n, one in enumerate(before) if one.text in (",", "/")), default=-1)
    item = before[cut + 1 :]
    if not item and tok.kind in ("word", "note"):
        found = _block(lines, tok, tok.text, at)
        if found is not None:
            return found
    if tok.text == "rest":
        return _said("rest", "silence, with its length in beats: `rest 4`")
    both = {**meanings.DIRECTIONS, **meanings.PLAYERS}
    if tok.text in both and item:
        return _said(tok.text, both[tok.text])
    if tok.text in meanings.MODES and item and item[0].text == "key":
        return _said(tok.text, meanings.MODES[tok.text])
    return _in_contour(before, tok) if tok.kind != "line" else None


def _form(written: str, title: str) -> Help | None:
    means = next(form.means for form in _FORMS if form.written == written)
    return _said(title, means)


def _worded(word: str, title: str) -> Help | None:
    """What the language page says about a word of points and entries, after what the word itself means."""
    form = next((form for form in _FORMS if word in form.words), None)
    if form is None:
        return None
    own = {**meanings.HEIGHTS, **meanings.POINT_WORDS}.get(title, "")
    return _said(title, f"{own}\n\n{form.written}: {form.means}" if own else f"{form.written}: {form.means}")


def _block(lines: tuple[str, ...], tok: Token, name: str, at: Place) -> Help | None:
    """The block of a name: its lines."""
    for row in headings(lines):
        found = row.content.text[row.value :].strip(" \t:").split(" ")[0]
        if folded(found) == folded(name):
            number = row.content.number
            body = [lines[number - 1]]
            for line in lines[number:]:
                if line[:1] not in ("", " ", "\t") or len(body) == _MOST_LINES:
                    break
                body.append(line)
            shown = "\n".join(body).rstrip()
            return Help(span=tok.span, title=f"{row.key} {found}", text=f"```gesture\n{shown}\n```")
    return None


_MOST_LINES = 12  # of a block that is shown


def technique_help(name: str) -> Help | None:
    """What a technique is, and what its page says to the player; None if there is none."""
    if name not in techniques.names():
        return None
    technique = techniques.get(name)
    called = f"\n\nAlso called {', '.join(technique.called)}." if technique.called else ""
    return _said(technique.title["en"], f"{technique.texts['en']}{called}", name)


def instrument_help(name: str) -> Help | None:
    """What an instrument is, how it is written and how far it goes; None if there is none."""
    if name not in instruments.names():
        return None
    instrument = instruments.get(name)
    usual, widest = (
        _range(instrument, *reading.value) for reading in (instrument.usual_range, instrument.widest_range)
    )
    text = f"{instrument.part_name}. Written {usual}; at the widest {widest}."
    return _said(instrument.name, text)


def _range(instrument: Instrument, low: int, high: int) -> str:
    return " to ".join(instrument.written(spell(cents)).name for cents in (low, high))


def rule_help(name: str) -> Help | None:
    """What a rule checks and why; None if there is none."""
    if name not in rules.names():
        return None
    rule = rules.get(name)
    parts = sections(rule.doc)
    checks, why = (" ".join(parts[head].split()) for head in ("Checks", "Why"))
    head = rule.doc.strip().splitlines()[0]
    return _said(f"{name} ({rule.code})", f"{head}\n\nChecks {checks}.\n\nWhy: {why}.", name)


__all__ = ["Help", "hover", "instrument_help", "rule_help", "technique_help", "window"]
