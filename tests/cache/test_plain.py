"""Values to JSON and back: equal to the original, and nothing else is ever created."""

from __future__ import annotations

import json
from enum import Enum
from fractions import Fraction
from pathlib import PurePosixPath
from typing import NamedTuple

import pytest

from gesturesmith import evidence
from gesturesmith.cache import value_format
from gesturesmith.cache.plain import _tests
from gesturesmith.diagnostics import changes, types
from gesturesmith.evidence import HOUSE, Sourced
from gesturesmith.source import Span


class Pair(NamedTuple):
    one: int
    other: tuple[int, ...]


FORM = value_format((Pair,), (types, changes, evidence))
FINDING = types.Finding(
    span=Span(3, 1, 9),
    text="too “high” ♯",
    evidence=Sourced(Fraction(7, 3), HOUSE, "our own"),
    severity=types.Severity.CAUTION,
    numbers=(types.Number(name="height", value=1.5, limit=Fraction(1, 2), unit="semitones"),),
    proposed_fixes=((changes.AttacksChange(3, ""), changes.LineChange(0, "wavy")),),
    suggestions=(types.Suggestion(edits=(types.Edit(3, "a", "b"),), verdict=types.Verdict.PLAYABLE),),
    until=Span(4, 1, 9),
)


@pytest.mark.parametrize(
    "value",
    [
        FINDING,
        (Pair(1, (2,)), (1, (2,))),
        (),
        [],
        ([1, 2.5, None, True], {"a": (1,)}),
        Fraction(-3, 4),
        PurePosixPath("a/b"),
        ("()", "{}", ["Span", 1, 2, 3]),  # what looks like an encoded value is a text or a list
        "\udcff",
        float("inf"),
    ],
)
def test_it_comes_back_as_it_was(value):
    again = FORM.loads(FORM.dumps(value))
    assert again == value
    assert repr(again) == repr(value)


@pytest.mark.parametrize("value", [{1, 2}, object(), b"bytes", value_format])
def test_what_has_no_form_is_not_written(value):
    with pytest.raises(TypeError):
        FORM.dumps((value,))


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"{",
        b"[]",
        b'["Popen", "rm"]',
        b'["os.system", "true"]',
        b'["Span", 1]',
        b'["Span", 1, 2, 3, 4]',
        b'["Verdict", "splendid"]',
        b'["LineChange", 0, "curly"]',
        b'["/", 1, 0]',
        b'["{}", 1]',
        b'[["Span"], 1]',
        b"\xff\xfe",
        b"[" * 100_000,
    ],
)
def test_what_is_not_ours_is_not_read(data):
    with pytest.raises(ValueError, match="not a value"):
        FORM.loads(data)


OTHERS = (None, True, 3, -1.5, "x", (), (1,), ("x", "y"), [], {}, {"a": 1}, Fraction(1, 3), Span(1, 1, 2), FINDING)


def test_every_field_of_every_form_is_tested():
    """A checksum does not reveal this: a list instead of a text would crash the run that reads it."""
    from gesturesmith.batch import record
    from gesturesmith.pipeline import gesture_cache

    for form in (record._FORM, gesture_cache._FORM):
        for name, cls in form.classes.items():
            if not issubclass(cls, Enum):
                assert [field for field, _ in _tests(cls, form.fields[name])] == list(form.fields[name])


@pytest.mark.parametrize("place", range(len(FORM.fields["Finding"])))
def test_no_field_takes_a_value_of_another_type(place):
    rows = json.loads(FORM.dumps(FINDING))
    name = FORM.fields["Finding"][place]
    good = getattr(FINDING, name)
    refused = 0
    for other in OTHERS:
        wrong = [*rows]
        wrong[place + 1] = json.loads(FORM.dumps(other))
        try:
            found = FORM.loads(json.dumps(wrong).encode())
        except ValueError:
            refused += 1
        else:
            assert other in ((), None) or type(getattr(found, name)) is type(good), (name, other)
    assert refused >= len(OTHERS) - 4
