"""Checks a text from parsing to findings, for the tests of rules and checker."""

import re

from gesturesmith.checker import Checked, check_text
from gesturesmith.rules.shared.doc import PLAYERS
from gesturesmith.source import Source


def checked(text: str, *, suggestions: bool = False) -> Checked:
    """The result of checking a text, which must be readable."""
    source = Source("test.gesture", text)
    made = check_text(source, folder=PLAYERS, suggestions=suggestions)
    assert not made.report.errors, [e.message for e in made.report.errors]
    return made


def findings(text: str, *, suggestions: bool = False) -> list:
    """All findings of a text, those of passages after those of gestures."""
    report = checked(text, suggestions=suggestions).report
    return [f for said in (*report.gestures, *report.passages) for f in said.findings]


def codes(text: str) -> list[str]:
    return [f.code for f in findings(text)]


def figures(text: str) -> list[float]:
    """The numbers that a sentence names, in order; those of pitches and tubes are none."""
    return [float(n) for n in re.findall(r"(?<![\w.-])\d+(?:\.\d+)?(?![\w-])", text)]


def horn(body: str, *, tempo: int = 60) -> str:
    """A file for horn around the lines of one gesture `a`."""
    lines = "\n".join(f"  {line.strip()}" for line in body.strip().splitlines())
    return f"instrument: horn\npitches: written\ntempo: {tempo}\n\ngesture a\n{lines}\n"
