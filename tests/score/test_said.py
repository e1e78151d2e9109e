"""What is said at a point: words above it, a syllable under it, which way the air goes."""

from __future__ import annotations

from gesturesmith.checker import check_text
from gesturesmith.model.reading import read
from gesturesmith.score import gesture_score, passage_score
from gesturesmith.score.marks import BreathSign, Syllable, Words
from gesturesmith.source import Source
from gesturesmith.tones import perform

HORN = "instrument: horn\npitches: written\nmeter: 4/4\n"
SAID = """gesture a
  contour: C5 "inside the bell", r inhale, D5 say "f" as air, E5 exhale, r exhale say "ha"
  lasts: 5 beats
"""


def _checked(text: str):
    checked = check_text(Source("said", HORN + text), suggestions=False)
    assert checked.report.errors == ()
    assert checked.reading.piece is not None
    return checked, checked.reading.piece.settings


def _marks(text: str) -> list[tuple[float, str]]:
    checked, settings = _checked(text)
    events = gesture_score(checked.cases["a"], settings).events
    kinds = (BreathSign, Syllable, Words)
    return [(float(e.start), repr(mark)) for e in events for mark in e.marks if isinstance(mark, kinds)]


def test_marks_stand_at_notes_and_rests():
    assert _marks(SAID) == [
        (0.0, "Words(text='inside the bell')"),
        (1.0, "BreathSign(way='in')"),
        (2.0, "Syllable(text='f')"),
        (3.0, "BreathSign(way='out')"),
        (4.0, "BreathSign(way='out')"),
        (4.0, "Syllable(text='ha')"),
    ]


def test_rests_that_say_something_stay_apart():
    text = "gesture a\n  contour: C5, r inhale, r exhale, r, D5\n  lasts: 5 beats\n"
    assert [at for at, _ in _marks(text)] == [1.0, 2.0]


def test_a_rest_for_a_whole_bar_has_its_signs():
    checked, settings = _checked(
        'gesture a\n  contour: C5, r@4 inhale "breathe", D5@8\n  lasts: 12 beats\npassage p\n  play: a\n'
    )
    from gesturesmith.backends import lilypond

    ly = str(lilypond.engraved(passage_score(checked.passage_cases["p"], settings)).ly)
    assert '<> \\gsWord "breathe" \\gsInhale' in ly


def test_the_sung_line_has_syllables():
    text = (
        'gesture a\n  technique: multiphonic\n  contour: F3\n  sing: C4 say "la", D4 say "lo"\n  lasts: 2 beats\n'
    )
    assert [mark for _, mark in _marks(text)] == ["Syllable(text='la')", "Syllable(text='lo')"]
    errors = read(Source("a", HORN + text.replace('say "la"', "inhale"))).errors
    assert [e.rule for e in errors] == ["sung-line"]


def test_it_is_told_in_words():
    checked, settings = _checked(SAID)
    words = gesture_score(checked.cases["a"], settings).description
    assert "C5 at 0, with the words “inside the bell”, then silence at 1, breathing in" in words
    assert "D5 as Air only at 2, on the syllable “f”" in words


def test_it_is_heard():
    checked, _ = _checked(SAID)
    case = checked.cases["a"]
    tones = perform(case.gesture, case.realisation).tones
    assert [(t.start, t.voice, t.breath, t.syllable, bool(t.pitch)) for t in tones] == [
        (0.0, "played", "", "", True),
        (1.0, "played", "in", "", False),
        (2.0, "played", "", "f", True),
        (3.0, "played", "out", "", True),
        (4.0, "spoken", "out", "ha", False),
    ]
    assert tones[1].air == ((1.0, 1.0), (2.0, 1.0))


def test_what_is_breathed_in_fills_the_lungs_and_what_is_spoken_in_a_rest_does_not():
    # The note before the rest is too short to breathe from its end.
    long = "gesture a\n  contour: C4 ff __ D4@31/4, {}@8, C4@16\n  lasts: 24 beats\n"
    found = {}
    for rest in ("r", "r inhale", "r exhale", 'r say "ha"'):
        checked, _ = _checked(long.format(rest))
        found[rest] = sum(f.rule == "breath-too-short" for f in checked.report.gestures[0].findings)
    assert found["r exhale"] == found['r say "ha"'] == 1
    assert found["r"] == found["r inhale"] == 2
