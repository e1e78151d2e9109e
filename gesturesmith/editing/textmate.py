"""A TextMate grammar of the language, for editors that colour by one. Its words come from the language's tables."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable

from gesturesmith.editing.tables import tables
from gesturesmith.lang import values
from gesturesmith.lang.contour import contour
from gesturesmith.lang.keys import IN_BLOCK, SETTINGS, Key, Read
from gesturesmith.lang.play import play
from gesturesmith.lang.tokens import PARTNER

SCOPE = "source.gesture"
_LETTER = r"[\p{L}\p{M}\p{N}_]"
# A note as it is typed, with signs that are read as the language's own.
_NOTE = r"[A-G](?:##|bb|[𝄪𝄫♮]|[#b♯♭]?[\^v𝄲𝄳/\\↑↓]?)[0-9](?:[+\-−][0-9]+c)?(?!" + _LETTER + r"|[#^♮♯])"
_NUMBER = r"[0-9]+(?:\.[0-9]+|/[0-9]+)?"

type Pattern = dict[str, object]


def textmate() -> str:
    """The grammar as JSON, ending in a line break."""
    return json.dumps(_grammar(), ensure_ascii=False, indent=2) + "\n"


def _grammar() -> Pattern:
    words = tables()
    blocks = "|".join(words.blocks)
    keys: dict[str, Key] = {name: key for row in (SETTINGS, *IN_BLOCK.values()) for name, key in row.items()}
    begins = rf"^[ \t]*(?:{_either(keys)})[ \t]*:(?!:)"
    named = r"[\p{L}][\p{L}\p{M}\p{N}-]*"
    end = rf"(?={begins}|^[ \t]*{named}[ \t]*:(?!:)|^(?:{blocks})\b)"

    def entry(names: Iterable[str], kind: str, *includes: str) -> Pattern:
        return {
            "begin": rf"^[ \t]*({_either(names)})[ \t]*(:)(?!:)",
            "beginCaptures": {
                "1": {"name": "variable.parameter.key.gesture"},
                "2": {"name": "punctuation.separator.key-value.gesture"},
            },
            "end": end,
            "name": f"meta.entry.{kind}.gesture",
            "patterns": [{"include": f"#{name}"} for name in ("comment", "text", *includes)],
        }

    def reading(*reads: Read) -> list[str]:
        return sorted(name for name, key in keys.items() if key.read in reads)

    techniques = reading(values.names, values.one_technique)
    instruments = reading(values.instrument)
    contours, plays = reading(contour), reading(play)
    free = reading(values.title)
    rest = sorted({*keys} - {*techniques, *instruments, *contours, *plays, *free})
    points = ("turn", "note", "time", "line", "height", "mark", "level", "word", "number")
    return {
        "name": "Gesture",
        "scopeName": SCOPE,
        "fileTypes": ["gesture"],
        "patterns": [
            {"include": "#comment"},
            {
                "match": rf"^({blocks})[ \t]+({named})",
                "captures": {
                    "1": {"name": "keyword.control.block.gesture"},
                    "2": {"name": "entity.name.section.gesture"},
                },
            },
            {"match": rf"^({blocks})(?!{_LETTER}|[ \t]*:)", "name": "keyword.control.block.gesture"},
            {"include": "#text"},
            entry(techniques, "techniques", "technique", "plus"),
            entry(instruments, "instrument", "instrument"),
            entry(contours, "contour", *points),
            entry(plays, "play", "entry", *points),
            entry(free, "title"),
            entry(rest, "value", "rule", "note", "time", "range", "height", "level", "value", "word", "number"),
            {
                # The line of a part in a passage, under its name.
                "begin": rf"^[ \t]+({named})[ \t]*(:)(?!:)",
                "beginCaptures": {
                    "1": {"name": "entity.name.section.part.gesture"},
                    "2": {"name": "punctuation.separator.key-value.gesture"},
                },
                "end": end,
                "name": "meta.entry.line.gesture",
                "patterns": [{"include": f"#{name}"} for name in ("comment", "text", "entry", *points)],
            },
        ],
        "repository": {
            "comment": {
                "match": r"(?:^[ \t]*|(?<=  )|(?<=\t))#.*$",
                "name": "comment.line.number-sign.gesture",
            },
            "text": {"match": _texts(), "name": "string.quoted.gesture"},
            "note": {
                "patterns": [
                    _row(rf"{_no_letter_before()}x{_NOTE}", "constant.other.note.about.gesture"),
                    _row(rf"{_no_letter_before()}{_NOTE}", "constant.other.note.gesture"),
                ]
            },
            "time": _row(rf"@{_NUMBER}", "constant.numeric.time.gesture"),
            "line": _row("|".join((*map(re.escape, words.lines), ",")), "keyword.operator.line.gesture"),
            "range": _row(r"\.\.|[<>,]", "keyword.operator.gesture"),
            "plus": _row(r"\+", "keyword.operator.gesture"),
            "turn": {
                "match": rf"({_word(('as', 'without'))})[ \t]+({named}(?:[ \t]*\+[ \t]*{named})*)",
                "captures": {
                    "1": {"name": "keyword.other.gesture"},
                    "2": {"patterns": [{"include": "#technique"}, {"include": "#plus"}]},
                },
            },
            "technique": _row(_word(words.techniques), "support.function.technique.gesture"),
            "instrument": _row(_word(words.instruments), "support.class.instrument.gesture"),
            "rule": _row(_word(words.rules), "support.constant.rule.gesture"),
            "height": _row(_word(words.heights), "constant.language.height.gesture"),
            "mark": _row(_word(words.marks), "storage.modifier.mark.gesture"),
            "level": _row(_word(words.levels), "constant.language.level.gesture"),
            "word": _row(_word(words.words), "keyword.other.gesture"),
            "value": _row(_word((*words.values, *words.marks)), "constant.language.value.gesture"),
            "entry": _row(
                rf"(?<=[:,])[ \t]*(?:tempo|meter|key|mark|double bar)(?!{_LETTER}|-)",
                "keyword.other.change.gesture",
            ),
            "number": _row(rf"(?<!{_LETTER}){_NUMBER}%?", "constant.numeric.gesture"),
        },
    }


def _row(match: str, name: str) -> Pattern:
    return {"match": match, "name": name}


def _either(words: Iterable[str]) -> str:
    """One of some words, the longest first."""
    return "|".join(re.escape(word) for word in sorted(words, key=lambda word: (-len(word), word)))


def _no_letter_before() -> str:
    return rf"(?<!{_LETTER}|-)"


def _word(words: Iterable[str]) -> str:
    """One of some words, not as part of a longer one, of which hyphens are part."""
    return rf"{_no_letter_before()}(?:{_either(words)})(?!{_LETTER}|-{_LETTER})"


def _texts() -> str:
    """A quoted text in any of its quotes, or one that lacks the last."""
    row = [rf"{first}(?:[^{last}\\]|\\.)*(?:{last}|$)" for first, last in PARTNER.items()]
    return "|".join(row)
