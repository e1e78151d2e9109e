"""Names of delivered files: safe on any system, with nothing of the user's removed needlessly."""

from __future__ import annotations

import pytest

from gesturesmith import instruments
from gesturesmith.model.piece import Settings
from gesturesmith.pipeline.naming import delivery_name, file_name, safe, unknown_fields


def settings(**fields: str) -> Settings:
    return Settings(instrument=instruments.get("horn"), pitches="written", **fields)


@pytest.mark.parametrize(
    ("pattern", "fields", "name"),
    [
        (
            "{composer}-{title}-{part}",
            {"composer": "A. Nobody", "title": "Fog Signals", "part": "Horn in F"},
            "A._Nobody-Fog_Signals-Horn_in_F",
        ),
        ("{composer}-{title}", {"title": "Fog"}, "Fog"),  # no dash before what is not there
        ("{composer}", {}, "study"),
        ("{title} ({file})", {"title": "Fog"}, "Fog_study"),
        ("{instrument}", {}, "horn"),
        ("{title}", {"title": "../../etc/passwd"}, "etcpasswd"),
        ("{title}", {"title": "Über Größe: „Nebel“ ♯1"}, "Über_Größe_Nebel_sharp1"),
        ("{title}", {"title": "Trumpet in B♭"}, "Trumpet_in_Bb"),
        ("{title}", {"title": "霧"}, "霧"),
        ("{title}", {"title": ".hidden."}, "hidden"),
        ("{title}", {"title": "con"}, "con_"),
        ("{title}", {"title": "NUL.x"}, "NUL_.x"),
        ("{title}", {"title": "\x1b[31m\n\u202e"}, "31m"),
        ("{title}", {"title": "???"}, "study"),
        ("parts/{title}", {"title": "Fog"}, "partsFog"),
    ],
)
def test_names(pattern, fields, name):
    assert delivery_name(pattern, settings(**fields), "study") == name


def test_the_part_is_named_by_the_instrument_where_it_has_no_name():
    assert delivery_name("{part}", settings(), "study") == safe(instruments.get("horn").part_in("en"))


def test_no_name_is_too_long_for_a_file():
    for letter in "aé霧":
        assert 100 < len(delivery_name("{title}", settings(title=letter * 500), "study").encode()) <= 120


@pytest.mark.parametrize("pattern", ["{titel}", "{title", "title}", "{}", "{title!r}", "{title.__class__}", "{0}"])
def test_what_there_is_not(pattern):
    assert unknown_fields(pattern)


def test_what_there_is():
    assert unknown_fields("{composer}-{title}-{part}-{subtitle}-{instrument}-{file} plain") == ()


@pytest.mark.parametrize("name", ["con", "NUL", "aux", "com1", "COM²", "lpt³", "Lpt0"])
def test_no_gesture_becomes_a_device(name):
    """Microsoft, "Naming Files, Paths, and Namespaces": these open a device, with any ending."""
    assert file_name(name) == safe(name) == f"{name}_"


@pytest.mark.parametrize("name", ["cone", "com", "com10", "beacon", "nu-l"])
def test_other_names_stay(name):
    assert file_name(name) == safe(name) == name
