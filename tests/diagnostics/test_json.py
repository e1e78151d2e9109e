"""A report for programs has the form described on the language page, schema 2."""

import json
from dataclasses import replace
from fractions import Fraction

from diagnostics.reports import DEMANDS, ERROR, EXERCISE, FINDING, PASSAGE, file_report, gesture, report

from gesturesmith import __version__
from gesturesmith.diagnostics import Number, render_json


def rendered(*files):
    return json.loads(render_json(report(*files)))


def test_the_object():
    made = rendered(file_report(FINDING, errors=(ERROR,), passages=(PASSAGE,), exercises=(EXERCISE,)))
    assert made["schema"] == 2
    assert made["tool"] == __version__
    (file,) = made["files"]
    keys = {"file", "readable", "errors", "unread", "gestures", "passages", "exercises", "untried"}
    assert set(file) == keys
    assert file["file"] == "study.gesture"
    assert file["readable"] is False
    assert file["errors"] == [
        {
            "code": "GS101",
            "rule": "unknown-key",
            "line": 5,
            "column": 3,
            "end_column": 12,
            "message": "there is no key “tecnique” in a gesture",
            "nearest": ["technique"],
        }
    ]


def test_a_gesture():
    beacon, plain = rendered(file_report(FINDING))["files"][0]["gestures"]
    assert beacon["name"] == "beacon"
    assert beacon["line"] == 4
    assert (beacon["verdict"], plain["verdict"]) == ("with-care", "playable")
    assert beacon["difficulty"] is None
    assert beacon["realisation"]["points"] == [  # times are exact, as strings
        {"at": "3/2", "side": "F", "valves": "0", "partial": 8, "cents": 0}
    ]
    assert plain["findings"] == []


def test_difficulty_and_what_makes_it():
    hard = replace(gesture(), difficulty=37, demands=DEMANDS)
    passage = replace(PASSAGE, difficulty=41, demands=DEMANDS[:1])
    file = rendered(replace(file_report(passages=(passage,)), gestures=(hard,)))["files"][0]
    assert file["gestures"][0]["difficulty"] == 37
    height, level, response, _ = file["gestures"][0]["demands"]
    assert height == {
        "name": "height",
        "value": 10,
        "comfortable": [None, 0],
        "unit": "semitones",
        "share": 0.53,
    }
    assert (level["value"], level["comfortable"]) == ("ff", ["mp", "mf"])
    assert response["comfortable"] == [12, None]
    assert file["passages"][0]["difficulty"] == 41
    assert [d["name"] for d in file["passages"][0]["demands"]] == ["height"]


def test_a_finding():
    (finding,) = rendered(file_report(FINDING))["files"][0]["gestures"][0]["findings"]
    assert finding["code"] == "GS211"
    assert finding["rule"] == "partial-off-window"
    assert finding["severity"] == "caution"
    assert (finding["line"], finding["column"], finding["end_column"]) == (7, 20, 22)
    assert finding["message"] == FINDING.text
    assert finding["where"] == "third note (written C6)"
    assert finding["numbers"] == [{"name": "partial", "value": 16, "limit": 12, "unit": "partial"}]
    assert finding["evidence"] == {"kind": "house", "source": "our reading"}
    assert finding["suggestions"][0] == {
        "edits": [{"line": 8, "old": "fingering: F 0", "new": "fingering: Bb 0"}],
        "verdict": "playable",
        "changes_music": False,
    }


def test_numbers_are_json_numbers():
    numbers = (
        Number(name="a", value=Fraction(7, 2), limit=Fraction(4), unit="s"),
        Number(name="b", value=1.23456, unit="L"),
    )
    made = rendered(file_report(replace(FINDING, numbers=numbers)))
    shown = made["files"][0]["gestures"][0]["findings"][0]["numbers"]
    assert [(n["value"], n["limit"]) for n in shown] == [(3.5, 4), (1.23, None)]


def test_passages_and_exercises():
    file = rendered(file_report(passages=(PASSAGE,), exercises=(EXERCISE,)))["files"][0]
    assert file["passages"][0]["name"] == "opening"
    assert file["passages"][0]["verdict"] == "not-as-written"
    assert file["passages"][0]["findings"][0]["rule"] == "plays-refused"
    assert file["exercises"][0]["made"] == 12
    assert file["exercises"][0]["kept"] == []
    assert file["exercises"][0]["left_out"][0] == {"variant": "start 0", "reason": "too high"}


def test_the_variants_that_are_kept():
    exercise = replace(EXERCISE, kept=(("from G4", 12), ("from A4", 15)))
    made = rendered(file_report(exercises=(exercise,)))["files"][0]["exercises"][0]
    assert made["kept"] == [{"variant": "from G4", "difficulty": 12}, {"variant": "from A4", "difficulty": 15}]


def test_the_same_report_gives_the_same_bytes():
    assert render_json(report(file_report(FINDING))) == render_json(report(file_report(FINDING)))
