"""`trill`: what a trill goes to; and both fingerings of a trill."""

from __future__ import annotations

import pytest

from gesturesmith.checker import check_text
from gesturesmith.model.reading import read
from gesturesmith.score import gesture_score
from gesturesmith.score.marks import Fingering, SecondNote, TrillSign
from gesturesmith.source import Source
from gesturesmith.tones import perform

HEAD = "instrument: {}\npitches: written\ntempo: 60\ngesture a\n  {}\n"


def text(body: str, instrument: str = "horn") -> str:
    return HEAD.format(instrument, body.replace("; ", "\n  "))


def checked(body: str, instrument: str = "horn"):
    made = check_text(Source("a", text(body, instrument)), suggestions=False)
    assert made.report.errors == ()
    return made


def printed(body: str, instrument: str = "horn") -> str:
    made = checked(body, instrument)
    found = []
    for event in gesture_score(made.cases["a"], made.reading.piece.settings).events:
        for mark in event.marks:
            if isinstance(mark, TrillSign):
                found.append(f"tr {mark.to.name if mark.to else ''}".strip())
            elif isinstance(mark, SecondNote):
                found.append(f"({mark.to.name})")
            elif isinstance(mark, Fingering):
                found.append(mark.name)
    return " ".join(found)


@pytest.mark.parametrize(
    ("body", "instrument", "marks"),
    [
        ("trill: half; contour: C5, E5", "trumpet", "tr Db5 tr F5"),
        ("trill: whole; contour: C5, E5", "trumpet", "tr D5 tr F#5"),
        ("trill: M2; contour: B4", "trumpet", "tr C#5"),
        ("technique: valve-trill; trill: Eb5; contour: C5", "trumpet", "tr (Eb5)"),
        ("technique: valve-trill; trill: Db5; contour: C5, C5", "trumpet", "tr Db5 tr Db5"),
        ("technique: lip-trill; trill: whole; contour: C5", "horn", "tr D5"),
        ("technique: shake; trill: m3; contour: Bb4", "horn", "(Db5)"),
        ("contour: C5, D5 as valve-trill; trill: half", "trumpet", "tr Eb5"),
        ("trill: whole; contour: D4", "trombone", "tr E4"),
        ("tremolo: A4; contour: C5", "trumpet", "(A4)"),
        ("technique: tremolo; tremolo: m3; contour: C5, D5", "trumpet", "(Eb5) (F5)"),
    ],
)
def test_signs(body, instrument, marks):
    fingerless = [word for word in printed(body, instrument).split("  ") if word]
    assert " ".join(fingerless).replace("  ", " ").startswith(marks), fingerless


def test_without_valves_it_is_one_by_the_lip():
    for instrument, key in (("trumpet", "valve-trill"), ("trombone", "lip-trill")):
        gesture = checked("trill: whole; contour: D4", instrument).reading.piece.gestures[0]
        assert [t.key for t in gesture.techniques] == [key]


@pytest.mark.parametrize(("second", "cents"), [("half", 100), ("whole", 200), ("m3", 300)])
def test_it_sounds_at_its_interval(second, cents):
    case = checked(f"technique: valve-trill; trill: {second}; contour: C5", "trumpet").cases["a"]
    (tone,) = perform(case.gesture, case.realisation).tones
    (wave,) = tone.waves
    assert wave.kind == "trill"
    assert abs(wave.cents[0][1] - cents) < 40


@pytest.mark.parametrize(
    ("body", "instrument", "found"),
    [
        ("technique: valve-trill; trill: m3; contour: C5", "trumpet", []),
        ("technique: valve-trill; trill: M3; contour: C5", "trumpet", ["reaches about 300"]),
        ("technique: lip-trill; trill: whole; contour: C5", "horn", []),
        ("technique: lip-trill; trill: half; contour: C5", "horn", ["the next harmonic lies"]),
        ("technique: lip-trill; trill: m3; contour: Bb4", "horn", ["reaches about 210"]),
        ("tremolo: F5; contour: C5", "trumpet", []),
        ("tremolo: A5; contour: C5", "trumpet", ["reaches about 500"]),
        ("tremolo: F3; contour: Bb2", "trombone", ["reaches about 500"]),
        ("tremolo: B2; contour: Bb2", "trombone", ["positions a second"]),
        ("technique: timbre-trill; contour: C5; fingering: F 0 / Bb 0", "horn", []),
        ("technique: timbre-trill; contour: C5; fingering: F 0 / F 2", "horn", ["cents apart"]),
    ],
)
def test_findings(body, instrument, found):
    said = [f.text for f in checked(body, instrument).report.gestures[0].findings]
    assert [w for w in found if not any(w in text for text in said)] == []
    assert len(said) == len(found), said


def test_both_fingerings_are_printed_and_played():
    assert "F 0 / Bb 1" in printed("technique: timbre-trill; contour: C5; fingering: F 0 / Bb 1")
    each = "technique: timbre-trill; contour: C5, G4; fingering: F 0 / Bb 0, F 0 / Bb 1"
    names = [p.other.name for p in checked(each).cases["a"].realisation.points if p.other is not None]
    assert names == ["Bb 0", "Bb 1"]


@pytest.mark.parametrize(
    ("body", "rule"),
    [
        ("trill: third; contour: C5", "unknown-word"),
        ("trill: C4; contour: C5", "trill-below"),
        ("trill: D5; contour: C5, E5", "trill-of-many"),
        ("trill: half; contour: xC5", "trill-nowhere"),
        ("technique: timbre-trill; trill: half; contour: C5", "trill-on-itself"),
        ("contour: C5; fingering: F 0 / Bb 1", "fingering-pair"),
        ("trill: half whole; contour: C5", "too-much"),
    ],
)
def test_mistakes(body, rule):
    errors = read(Source("a", text(body))).errors
    assert [e.rule for e in errors] == [rule], [e.message for e in errors]


def test_it_moves_with_the_music_and_is_told():
    body = text("trill: half; contour: C5", "trumpet") + "passage p\n  play: a up M2\n"
    made = check_text(Source("a", body), suggestions=False)
    (item,) = made.reading.piece.passages[0].items
    assert item.gesture.points[0].trill.cents == 100
    words = gesture_score(made.cases["a"], made.reading.piece.settings).description
    assert "C5 trilled with Db5 at 0" in words
