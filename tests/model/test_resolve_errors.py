"""Every mistake of meaning: its rule, its line, and that all of a file come in one run."""

from __future__ import annotations

import pytest

from gesturesmith.lang import parse
from gesturesmith.model import messages
from gesturesmith.model.resolve import resolve
from gesturesmith.source import Source

HORN = "instrument: horn\npitches: written\n"
A = "gesture a\n  contour: G4 ~~ C5\n  lasts: 2 beats\n"

# rule -> (text, line it stands on)
MISTAKES = {
    "missing-instrument": ("pitches: written\n" + A, 1),
    "unknown-instrument": ("instrument: hron\npitches: written\n" + A, 1),
    "unreadable-profile": ('instrument: "nowhere.toml"\npitches: written\n' + A, 1),
    "missing-pitches": ("instrument: horn\n" + A, 1),
    "unknown-technique": (HORN + "gesture a\n  technique: stoped\n  contour: G4\n", 4),
    "unknown-register": (HORN + "gesture a\n  band: mddle\n  contour: low\n", 4),
    "unknown-rule": (HORN + 'gesture a\n  contour: G4\n  allow: outside-rnge "yes"\n', 5),
    "missing-contour": (HORN + "gesture a\n  lasts: 1 beat\n", 3),
    "missing-band": (HORN + "gesture a\n  contour: low, 35%\n", 4),
    "first-point-late": (HORN + "gesture a\n  contour: G4@1, A4@2\n", 4),
    "times-fall": (HORN + "gesture a\n  contour: G4, A4@2, B4@1, C5\n  lasts: 4 beats\n", 4),
    "past-end": (HORN + "gesture a\n  contour: G4 ~~ A4@9\n  lasts: 4 beats\n", 4),
    "no-slot-left": (HORN + "gesture a\n  contour: G4, A4@4\n  lasts: 4 beats\n", 4),
    "dynamics-twice": (HORN + "gesture a\n  contour: G4 ff, A4\n  dynamics: p < f\n", 4),
    "fingering-count": (HORN + "gesture a\n  contour: G4, A4, B4\n  fingering: F 0, F 1\n", 5),
    "missing-play": (HORN + A + "passage p\n  tempo: 60\n", 6),
    "unknown-name": (HORN + A + "passage p\n  play: a, b\n", 7),
    "exercises-played": (HORN + A + "exercises e\n  from: a\npassage p\n  play: e\n", 9),
    "plays-itself": (HORN + "passage p\n  play: q\npassage q\n  play: p\n", 6),
    "cannot-move": (HORN + "gesture a\n  band: low\n  contour: low\npassage p\n  play: a up 2\n", 7),
    "seconds-in-bars": (HORN + "gesture a\n  contour: G4\n  lasts: 2 s\npassage p\n  meter: 4/4\n  play: a\n", 8),
    "missing-from": (HORN + A + "exercises e\n  keep: 3\n", 6),
    "not-a-gesture": (HORN + A + "passage p\n  play: a\nexercises e\n  from: p\n", 9),
    "too-many-variants": (
        HORN + A + "exercises e\n  from: a\n  tempo: 20..300 by 1\n  lasts: 1..9 by 1 beats\n",
        6,
    ),
    "too-many-points": (HORN + "gesture a\n  contour: " + ", ".join(["G4"] * 501) + "\n", 4),
}


def errors_of(text: str):
    tree, syntax = parse(Source("test.gesture", text))
    assert syntax == (), syntax
    return resolve(tree)[1]


@pytest.mark.parametrize("rule", MISTAKES)
def test_each_mistake_is_told_at_its_place(rule):
    text, line = MISTAKES[rule]
    found = errors_of(text)
    assert rule in [e.rule for e in found]
    error = next(e for e in found if e.rule == rule)
    assert error.span.line == line
    assert error.code.startswith("GS1")
    assert error.message
    assert error.message[-1] != "."


def test_all_of_them_in_one_run():
    text = (
        HORN
        + "gesture a\n  technique: stoped\n  contour: low\n"
        + "gesture b\n  lasts: 2 beats\n"
        + "passage p\n  play: nowhere, p\n"
    )
    rules = [e.rule for e in errors_of(text)]
    assert {"unknown-technique", "missing-band", "missing-contour", "unknown-name", "plays-itself"} <= set(rules)


def test_a_passage_of_what_could_not_be_read_adds_no_error():
    tree, syntax = parse(Source("test.gesture", HORN + "gesture a\n  contour: H4\npassage p\n  play: a\n"))
    assert len(syntax) == 1
    piece, errors = resolve(tree)
    assert errors == ()
    assert piece is not None
    assert "a" in piece.unread


def test_codes_are_told_apart():
    codes = [code for code, _ in messages.RULES.values()]
    assert len(codes) == len(set(codes))
