"""LilyPond's messages as values, with the gesture each belongs to."""

from __future__ import annotations

import re
from typing import get_args

from gesturesmith.kinds import Ended, LogLevel, one_of
from gesturesmith.values import frozen

_LEVELS = get_args(LogLevel)
_SAID = rf"(?P<level>{'|'.join(_LEVELS)}): (?P<text>.*)$"
_PLACED = re.compile(rf"^(?P<file>.*?):(?P<line>\d+):\d+: {_SAID}")
_PLAIN = re.compile(rf"^{_SAID}")
_SCHEME = re.compile(r"^(?:.*?:\d+:\d+: |ERROR: )?(?P<text>(?:In procedure|Throw to key) .*)$")
_DOCUMENT = ("-", "<string>")  # read from standard input, or by a fork
_MARK = re.compile(r"^\s*% (?:gesture|passage) (?P<name>\S+)\s*$")
_MAX_MESSAGES = 1000  # messages, from the beginning and the end: enough to tell what failed
_MAX_MESSAGE_LENGTH = 200  # characters of a message: enough to recognise it, not a page


@frozen(kw_only=True)
class Message:
    """One message. `line` counts from 1 in the document; None if LilyPond gave none."""

    level: LogLevel
    text: str
    line: int | None


@frozen(kw_only=True)
class Failure:
    """A run that did not give the expected files. `gesture` is None only if nothing shows which one failed.

    >>> gesturesmith.render(text, "ly").failures
    ()
    """

    gesture: str | None
    summary: str


def read_log(log: str) -> tuple[Message, ...]:
    """The messages of a log, in order. Lines that Scheme adds are joined to their error.

    Of more than 1,000 the first 500 and the last 500.
    """
    found: list[Message] = []
    lines = iter(log.splitlines())
    for text in lines:
        if placed := _PLACED.match(text):
            line = int(placed["line"]) if placed["file"] in _DOCUMENT else None
            found.append(Message(level=one_of(_LEVELS, placed["level"]), text=_tidy(placed["text"]), line=line))
        elif plain := _PLAIN.match(text):
            found.append(Message(level=one_of(_LEVELS, plain["level"]), text=_tidy(plain["text"]), line=None))
        elif scheme := _SCHEME.match(text):
            said = scheme["text"] + (f" {next(lines, '')}" if text.endswith(":") else "")
            if found and found[-1].level == "error" and found[-1].text.startswith("Guile signaled"):
                said, line = f"{found[-1].text}: {said}", found.pop().line
            else:
                line = None
            found.append(Message(level="error", text=_tidy(said), line=line))
    return (
        tuple(found)
        if len(found) <= _MAX_MESSAGES
        else (*found[: _MAX_MESSAGES // 2], *found[-_MAX_MESSAGES // 2 :])
    )


def gesture_at(document: str, line: int | None) -> str | None:
    """The gesture or passage at a line of a document; None before the first."""
    if line is None:
        return None
    name = None
    for text in document.splitlines()[:line]:
        if mark := _MARK.match(text):
            name = mark["name"]
    return name


def failure(
    document: str, messages: tuple[Message, ...], ended: Ended, missing: tuple[str, ...] = ()
) -> Failure | None:
    """What failed, or None if a run ended well and nothing is missing.

    `missing` are the gestures whose picture was not made ("" for a page of many), in the document's order.
    LilyPond stops at the first thing it cannot engrave: without better information, the first missing one failed.
    """
    errors = [m for m in messages if m.level in ("error", "fatal error")]
    if not ended and not errors and not missing:
        return None
    placed = next((g for m in errors if (g := gesture_at(document, m.line))), None)
    named = placed or (missing[0] if missing else None) or None
    if ended == "timeout":
        return Failure(gesture=named, summary="LilyPond took too long and was stopped")
    if ended == "flood":
        return Failure(gesture=named, summary="LilyPond produced far more than music needs and was stopped")
    if ended == "full":
        return Failure(gesture=None, summary="the disk for temporary files is full")
    if ended == "stopped":
        return Failure(gesture=named, summary="LilyPond was killed")
    said = next((m.text for m in errors if m.level == "error"), "") or next((m.text for m in errors), "")
    return Failure(gesture=named, summary=f"LilyPond failed ({said})" if said else "LilyPond made no picture")


def _tidy(text: str) -> str:
    printable = "".join(c if c.isprintable() else " " for c in text)
    return printable if len(printable) <= _MAX_MESSAGE_LENGTH else printable[: _MAX_MESSAGE_LENGTH - 1] + "…"
