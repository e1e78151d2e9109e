"""Open, closed and half-closed at points: the hand in a horn, a plunger, a harmon, a hand before the bell."""

from __future__ import annotations

import pytest

from gesturesmith.checker import check_text
from gesturesmith.score import gesture_score, passage_score
from gesturesmith.score.marks import HandTurnStart, Script
from gesturesmith.source import Source
from gesturesmith.tones import perform

HEAD = "instrument: {}\npitches: written\ntempo: 120\ngesture a\n  {}\n"


def checked(body: str, instrument: str = "trumpet"):
    made = check_text(Source("a", HEAD.format(instrument, body.replace("; ", "\n  "))), suggestions=False)
    assert made.report.errors == ()
    return made


def signs(body: str, instrument: str = "trumpet") -> str:
    made = checked(body, instrument)
    events = gesture_score(made.cases["a"], made.reading.piece.settings).events
    names = {"stopped": "+", "half-stopped": "half", "open": "o"}
    found = []
    for event in events:
        found += [names[m.sign] for m in event.marks if isinstance(m, Script)]
        found += [f"{names[m.here]}>{names[m.there]}" for m in event.marks if isinstance(m, HandTurnStart)]
    return " ".join(found)


def rules(body: str, instrument: str = "trumpet") -> list[str]:
    return [f.rule for f in checked(body, instrument).report.gestures[0].findings]


def forces(body: str, instrument: str = "trumpet") -> list[str]:
    points = checked(body, instrument).reading.piece.gestures[0].points
    return ["+".join(t.key for t in p.techniques) for p in points]


@pytest.mark.parametrize(
    ("body", "printed"),
    [
        ("contour: G4 closed, G4, G4 open, G4, G4 open", "+ + o o"),
        ("contour: G4 half-closed, G4 closed, G4 open", "half + o"),
        ("contour: G4 closed -- G4@2 open; lasts: 4 beats", "+>o"),
        ("contour: G4 open -> G4@2 half-closed -> G4@3 closed; lasts: 4 beats", "o>half half>+"),
        ("technique: closed; contour: G4, A4 open", "+ o"),
    ],
)
@pytest.mark.parametrize("instrument", ["trumpet", "horn"])
def test_signs(body, printed, instrument):
    assert signs(body, instrument) == printed


def test_on_the_horn_the_hand_does_it_and_beside_a_mute_the_plunger():
    words = "contour: C5 closed, C5 half-closed, C5 open, C5 as closed"
    assert forces(words, "horn") == ["stopped", "half-stopped", "ordinary", "stopped"]
    muted = ["muted+closed", "muted+half-closed", "muted", "muted+closed"]
    assert forces(f"mute: plunger; {words}", "horn") == muted
    assert forces(words) == ["closed", "half-closed", "ordinary", "closed"]
    assert forces("contour: C5 as stopped, C5 open", "horn") == ["stopped", "ordinary"]


@pytest.mark.parametrize(
    ("body", "instrument", "found"),
    [
        ("mute: plunger; contour: G4 closed, G4 open", "trumpet", []),
        ("mute: harmon; contour: G4 closed, G4 open", "trumpet", []),
        ("contour: G4 closed, G4 open", "trumpet", []),
        ("mute: cup; contour: G4 closed, G4 open", "trumpet", ["nothing-to-cover"]),
        ("contour: C3 closed, C3 open", "tuba", ["nothing-to-cover"]),
        ("mute: plunger; contour: C3 closed, C3 open", "tuba", []),
        ("contour: G4 closed, G4 closed, G4 open", "trumpet", ["word-without-effect"]),
        # + and o by turns on quarters at 120 and on sixteenths; not thirty-seconds
        ("contour: C5 closed, C5 open, C5 closed, C5 open", "horn", []),
        ("contour: G4 closed, G4 open, G4 closed, G4 open; lasts: 1 beats", "trumpet", []),
        ("contour: G4 closed, G4 open; lasts: 1/4 beats", "trumpet", ["hand-change-too-quick"]),
        ("mute: plunger; contour: G4 as muted, r, G4@2 as ordinary; lasts: 3 beats", "trumpet", []),
        ("mute: cup; contour: G4 as muted, r@1, G4@9 as ordinary; lasts: 10 beats", "trumpet",
         ["mute-change-too-quick"]),
        ("mute: straight; contour: G4 as muted, r@1, G4@9 as ordinary; lasts: 10 beats", "trumpet", []),
    ],
)  # fmt: skip
def test_findings(body, instrument, found):
    assert [r for r in rules(body, instrument) if r not in ("attacks-too-fast", "effect-too-short")] == found


def test_it_is_heard_as_how_far_it_is_shut():
    made = checked("mute: plunger; contour: G4 closed -- G4@2 open, G4 half-closed; lasts: 4 beats")
    case = made.cases["a"]
    tones = perform(case.gesture, case.realisation).tones
    assert [t.mute for t in tones] == ["plunger"] * 3
    assert [t.hand for t in tones] == [((0.0, 1.0), (1.0, 0.0)), (), ((1.5, 0.5), (2.0, 0.5))]


def test_it_is_told_in_words():
    made = checked("contour: G4 closed, G4 open")
    words = gesture_score(made.cases["a"], made.reading.piece.settings).description
    assert "G4 as Closed at 0, then G4 at 1, open" in words


def test_a_mute_that_goes_takes_what_closes_it_along():
    """No o stands over the first note without the plunger: there is nothing left to open."""
    text = (
        "instrument: trumpet\npitches: written\ngesture wah\n  mute: plunger\n  contour: G4 open, G4 closed\n"
        "passage p\n  play: wah, rest 8, C5 for 4\n"
    )
    made = check_text(Source("a", text), suggestions=False)
    music = passage_score(made.passage_cases["p"], made.reading.piece.settings)
    assert [mark.sign for mark in music.marks if isinstance(mark, Script)] == ["open", "stopped"]
    assert "senza sord." in [label.first for event in music.events for label in event.labels]
