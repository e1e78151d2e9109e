"""Try-out sheets: each trial lies where the checker has its limit, and what decided most is asked first."""

from __future__ import annotations

from fractions import Fraction

import pytest

import gesturesmith
from gesturesmith import instruments
from gesturesmith.diagnostics import Severity
from gesturesmith.exercises import trials
from gesturesmith.exercises.trials.base import lowered
from gesturesmith.exercises.tryout import Question, chosen, decided, limit_of, questions
from gesturesmith.judge.gesture import judge
from gesturesmith.pipeline.tryout import title
from gesturesmith.units import Spelling, spell
from gesturesmith.wording import languages

SAMPLE = ("horn", "trombone-f", "trumpet", "tuba", "natural-horn", "natural-trumpet")


def cautions(question: Question, place: int) -> set[str]:
    """What rests on the question's limit, at one of its trials."""
    limit = limit_of(instruments.get(question.trials[0].case.instrument.key), question.limit)
    assert limit is not None
    readings = {s.source for s in (limit.narrow, limit.wide) if s is not None}
    found = judge(question.trials[place].case.gesture).findings
    return {f.rule for f in found if f.severity is not Severity.ADVICE and f.evidence.source in readings}


@pytest.mark.parametrize("name", SAMPLE)
def test_the_easiest_passes_and_the_hardest_does_not(name: str) -> None:
    """The limit is tried by what the checker says of it, and of each kind there is at least one."""
    asked = questions(instruments.get(name))
    assert len(asked) > 20
    for question in asked:
        assert question.family.rule not in cautions(question, 0), question.limit
        assert question.family.rule in cautions(question, -1), question.limit
    first = chosen(instruments.get(name), {}, 5)
    assert len({q.family.limit for q in first}) == 5, "one of each kind first"


def test_every_family_is_asked_somewhere() -> None:
    there = {q.family.limit for n in ("horn", "trombone") for q in questions(instruments.get(n))}
    assert there == {trials.get(name).limit for name in trials.names()}


def test_what_decided_most_in_the_files_comes_first() -> None:
    split = "technique: split-attack\n  contour: xC4\n  attacks: 16\n  lasts: 2 s"
    bend = "technique: bend\n  contour: C5 -- A4 -- C5\n  lasts: 2 s"
    text = f"instrument: horn\npitches: written\ngesture a\n  {split}\ngesture b\n  {split}\ngesture c\n  {bend}"
    horn = instruments.get("horn")
    counts = decided([gesturesmith.check(text)], horn)
    assert counts["split_attack_per_s_middle"] == 2
    assert sum(n for name, n in counts.items() if name.startswith("bend_down")) >= 1
    assert chosen(horn, counts, 5)[0].limit == "split_attack_per_s_middle"


def test_techniques_are_asked_about_as_they_decided() -> None:
    growl = "technique: growl\n  contour: E4\n  lasts: 10 s"
    text = f"instrument: horn\npitches: written\ngesture a\n  {growl}\ngesture b\n  {growl}"
    counts = decided([gesturesmith.check(text)], instruments.get("horn"))
    assert counts["growl.longest_s"] == 2
    assert chosen(instruments.get("horn"), counts, 5)[0].limit == "growl.longest_s"


def test_what_is_published_is_not_counted() -> None:
    """Single tonguing in the middle register has a source; C7 lies beyond any."""
    text = "instrument: horn\npitches: written\ngesture a\n  contour: C7"
    assert decided([gesturesmith.check(text)], instruments.get("horn")) == {}


@pytest.mark.parametrize("language", languages())
def test_every_family_speaks_every_language(language: str) -> None:
    titles = [title(q, (language,)) for q in questions(instruments.get("horn"))]
    assert len(set(titles)) == len(titles)
    assert all(("{" not in text and text[0].isupper()) or text.startswith("fp") for text in titles)
    assert all(trials.get(name).ask[language].endswith(".") for name in trials.names())


@pytest.mark.parametrize("name", SAMPLE)
def test_a_run_lasts_as_long_as_its_one_head_says(name: str) -> None:
    """A line has one head, however long it is: in 7/4 of a beat nobody could play four notes to the beat."""
    runs = [q for q in questions(instruments.get(name)) if q.family.limit == "chromatic_per_s"]
    for beats in (trial.case.gesture.beats for run in runs for trial in run.trials):
        assert beats in {Fraction(n, 4) for n in (2, 3, 4, 6, 8, 12)}, beats


@pytest.mark.parametrize(
    ("cents", "pitch", "rest"), [(40, 6400, 40), (50, 6450, 0), (60, 6500, -40), (80, 6500, -20), (-60, 6300, 40)]
)
def test_a_bend_is_a_quarter_tone_or_written_from_the_nearest_semitone(cents: int, pitch: int, rest: int) -> None:
    """So that two of one row are not an E sharp and an F."""
    found: Spelling = lowered(spell(6400), -cents)
    assert (int(found.pitch_cents) - int(found.cents), found.cents) == (pitch, rest)
