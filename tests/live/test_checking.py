"""The first answer to a key, for which only the block at the cursor is checked, says what a check of all says."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from gesturesmith.checker import check, check_text
from gesturesmith.diagnostics import FileReport, report_object
from gesturesmith.live.checking import checked_quickly, checked_wholly
from gesturesmith.live.view import view
from gesturesmith.source import Source

FOLDER = Path(__file__).parents[2] / "docs" / "demo"
TEXT = (FOLDER / "not-as-written.gesture").read_text("utf-8").partition("\npassage")[0]


def bare(report: FileReport) -> dict[str, Any]:
    """What the page gets, without suggestions, which come later."""
    shown = report_object(report)
    for gesture in shown["gestures"]:
        for finding in gesture["findings"]:
            finding["suggestions"] = []
    return shown


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("C4 ~~ E4", "C4 ~~ E5"),  # now playable
        ("C4 ~~ E4", "C4 ~~ Q4"),  # now a mistake
        ("C4 ~~ E4", "C4 ~~ E"),
        ("technique: harmonic-gliss", "technique: harmonic-glis"),
        ("C4 ~~ E4", ""),  # no notes: the gesture cannot be read
        ("  lasts: 2 beats\n\n# Beyond", "  lasts: 2 beats  # so\n\n# Beyond"),
        ("gesture narrow-sweep", "gesture too-high"),  # a name that is taken
        ("gesture narrow-sweep", "gesture other"),
        ("gesture narrow-sweep", "gestre narrow-sweep"),
        ("  lasts: 2 beats\n\n# Beyond", "  lasts: 2 beats\n  text: \"so\"\n\n# Beyond"),  # another line
        ("  lasts: 2 beats\n\n# Beyond", "tempo: 60\n\n# Beyond"),  # a setting, which concerns every gesture
        ("instrument: horn", "instrument: tuba"),
        ("tempo: 72", "tempo: 10"),
        ("pitches: written", "pitches: wrtten"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("mistake_elsewhere", [False, True])
def test_it_says_the_same(old, new, mistake_elsewhere):
    text = TEXT.replace("technique: stopped + muted", "technique: stoped") if mistake_elsewhere else TEXT
    assert old in text
    changed = text.replace(old, new, 1)
    line = text[: text.index(old)].count("\n") + 1
    before = checked_wholly(Source("x", text), FOLDER, line)
    assert before.whole
    quick = checked_quickly(Source("x", changed), FOLDER, line, before)
    assert bare(quick.report) == bare(check_text(Source("x", changed), folder=FOLDER, suggestions=False).report)
    # And again upon the quick one, back to where it was.
    back = checked_quickly(Source("x", text), FOLDER, line, quick)
    assert bare(back.report) == bare(before.report)


def test_what_is_elsewhere_keeps_its_suggestions():
    line = TEXT[: TEXT.index("C4 ~~ E4")].count("\n") + 1
    before = checked_wholly(Source("x", TEXT), FOLDER, line)
    quick = checked_quickly(Source("x", TEXT.replace("C4 ~~ E4", "C4 ~~ E5")), FOLDER, line, before)
    assert [g.name for g in quick.checked.report.gestures] == ["narrow-sweep"]  # nothing else was checked
    there = {g.name: g for g in quick.report.gestures}
    assert there["too-high"].findings[0].suggestions


def test_the_sketch_is_of_the_block_at_the_cursor():
    seen = checked_wholly(Source("x", TEXT), FOLDER, TEXT[: TEXT.index("G6")].count("\n") + 1)
    shown = view(seen)
    assert shown["here"]["name"] == "too-high"
    (sketch,) = shown["sketches"]
    assert "Higher than the horn: written pitches over time" in sketch["svg"]
    assert view(checked_wholly(Source("x", TEXT), FOLDER, 1))["sketches"] == []


def test_a_passage_of_several_parts_has_a_picture_for_each():
    text = (
        'pitches: written\npart one "Horn 1"\n  instrument: horn\npart two "Trombone"\n  instrument: trombone\n'
        'passage duet "Duet"\n  one: G4 for 4\n  two: F3 for 4\n'
    )
    shown = view(checked_wholly(Source("x", text), FOLDER, 7))
    assert [one["part"] for one in shown["sketches"]] == ["Horn 1", "Trombone"]
    assert {said["part_title"] for said in shown["report"]["passages"]} == {"Horn 1", "Trombone"}


def test_trials_are_given_up_once_nobody_wants_them_and_what_is_finished_is_the_same():
    source = Source("x", TEXT)
    asked: list[int] = []
    full = check_text(source, folder=FOLDER)
    reading = full.reading
    check(reading, wanted=lambda: asked.append(1) is None)
    trials = len(asked)
    assert trials > 20
    for patience in (0, 1, trials // 2, trials - 1):
        asked.clear()
        report = check(reading, wanted=lambda most=patience: asked.append(1) is None and len(asked) <= most).report
        assert report.untried
        for cut, whole in zip(report.gestures, full.report.gestures, strict=True):
            assert cut.verdict == whole.verdict
            assert cut == whole or cut.name in report.untried
            assert all(
                set(a.suggestions) <= set(b.suggestions) for a, b in zip(cut.findings, whole.findings, strict=True)
            )
        finished = [g for g in report.gestures if g.name not in report.untried]
        assert bool(finished) == (patience > 1)
        assert len(asked) < trials + 2 * len(report.gestures)
    assert checked_wholly(source, FOLDER, 1, lambda: False) is None
