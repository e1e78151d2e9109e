"""Every mistake a line can have is explained, and the examples show what they claim."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from gesturesmith.explain.mistakes import codes, explain_mistake, mistake
from gesturesmith.lang.keys import EXERCISES, GESTURE, PASSAGE, SETTINGS
from gesturesmith.lang.messages import RULES as LANGUAGE
from gesturesmith.model.messages import RULES as MEANING
from gesturesmith.model.reading import read
from gesturesmith.source import Source

HEAD = "instrument: horn\npitches: written\n"
READING = Path(__file__).parents[2] / "gesturesmith" / "textfile.py"
# The reader reports these first, under another name.
EARLIER = {
    "empty-band": "bad-band",
    "upside-down-band": "bad-band",
    "no-length": "out-of-range",
    "height-outside-band": "out-of-range",
    "bad-range": "out-of-range",
}
WITHOUT_EXAMPLE = {
    "mixed-indentation", "control-character", "unreadable-file", "too-many-errors", "too-many-points",
    "too-many-gestures", "too-many-events", "too-many-exercises", "too-many-changes",
}  # fmt: skip


def whole(example):
    """A file around the lines of an example."""
    if not example.startswith(" "):
        top = "" if example.startswith(("instrument", "pitches")) else HEAD
        block = "" if "\n  " in example or "gesture" in example else "\ngesture a\n  contour: G4\n"
        return f"{top}{example}\n{block}"
    keys = {line.strip().split(":")[0] for line in example.split("\n")}
    if keys & ({*PASSAGE} - {*GESTURE}):
        return f"{HEAD}passage p\n{example}\n"
    if keys & ({*EXERCISES} - {*GESTURE} - {*SETTINGS}):
        return f"{HEAD}gesture a\n  contour: G4\nexercises e\n  from: a\n{example}\n"
    if "contour" in keys or "~~" in example:
        return f"{HEAD}gesture a\n{example}\n"
    return f"{HEAD}gesture a\n  contour: G4\n{example}\n"


def found(text):
    return [e.rule for e in read(Source("test.gesture", text)).errors]


@pytest.mark.parametrize("rule", codes())
def test_every_mistake_is_explained(rule):
    text = explain_mistake(rule)
    assert text.startswith(f"{rule}  ({codes()[rule]}")
    assert text == explain_mistake(codes()[rule]) == explain_mistake(codes()[rule].lower())
    assert mistake(rule).means.endswith(".")
    assert all(len(line) <= 100 for line in text.split("\n"))


def test_none_is_missing():
    assert {*LANGUAGE, *MEANING} <= {*codes()}
    files = dict(re.findall(r'"(GS1[0-9]{2})", (?:rule=)?"([a-z0-9-]+)"', READING.read_text("utf-8")))
    assert len(files) >= 4
    assert all(codes()[rule] == code for code, rule in files.items())
    assert len({*codes().values()}) == len(codes())


@pytest.mark.parametrize("rule", {**LANGUAGE, **MEANING})
def test_its_examples(rule):
    one = mistake(rule)
    if rule in WITHOUT_EXAMPLE:
        assert one.wrong == one.right == ""
        return
    wrong = found(whole(one.wrong))
    assert wrong == [EARLIER.get(rule, rule)]
    assert found(whole(one.right)) == []


def test_what_is_no_mistake():
    assert explain_mistake("no-such-mistake") is None
