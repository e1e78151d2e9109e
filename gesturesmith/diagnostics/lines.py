"""A user's line as a terminal can show it: nothing hidden, the caret under the right character."""

from __future__ import annotations

import unicodedata

from gesturesmith.source import Span

WIDEST = 100  # columns shown; a longer line is cut around its caret
_TAB = 4
# Characters not marked as hidden by any Unicode category, which terminals still do not show.
_BLANK = frozenset("\u115f\u1160\u3164\uffa0")


def visible(text: str) -> str:
    """`text` with control, formatting and direction characters spelled out (`<U+202E>`); tabs become spaces."""
    return "".join(_shown(sign) for sign in text)


def _shown(sign: str) -> str:
    if sign == "\t":
        return " " * _TAB
    if sign in _BLANK or unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"):
        return f"<U+{ord(sign):04X}>"
    return sign


def width(text: str) -> int:
    """The columns of printable text in a terminal: two for East Asian wide characters, none for combining ones."""
    return sum(_width(sign) for sign in text)


def _width(sign: str) -> int:
    if unicodedata.combining(sign) or unicodedata.category(sign) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(sign) in "WF" else 1


def excerpt(line: str, span: Span) -> tuple[str, str]:
    """The line and, below it, the carets of `span`, both cut to `WIDEST` columns around the carets."""
    start, end = span.column - 1, max(span.end_column - 1, span.column)
    near = max(0, start - WIDEST), end + WIDEST  # a line may be megabytes long: look only near the caret
    before, marked, after = (
        visible(line[near[0] : start]),
        visible(line[start:end]),
        visible(line[end : near[1]]),
    )
    cut_before, cut_after = near[0] > 0, near[1] < len(line)
    if len(marked) > WIDEST * 2 // 3:
        marked, after, cut_after = marked[: WIDEST * 2 // 3], "", True
    room = WIDEST - len(marked)
    if len(before) + len(after) > room:
        keep_after = min(len(after), max(room // 3, room - len(before)))
        keep_before = room - keep_after
        cut_before, before = (True, before[-keep_before:]) if len(before) > keep_before else (cut_before, before)
        cut_after, after = (True, after[:keep_after]) if len(after) > keep_after else (cut_after, after)
    before = "…" + before if cut_before else before
    after = after + "…" if cut_after else after
    past_end = max(0, start - len(line)) if not cut_before else 0
    carets = " " * (width(before) + past_end) + "^" * max(1, width(marked))
    return (before + marked + after).rstrip(), carets
