"""Scores judged: findings with part, bar and beat, each once, the worst first."""

from __future__ import annotations

import gc
from fractions import Fraction
from math import log
from random import Random

import pytest
from importers.scores import FOUR, bars, fingered, note, partwise, tempo, words
from sampling import count
from timing import took, within

import gesturesmith.cli.main
import gesturesmith.importers.judged
from gesturesmith.diagnostics import ScoreReport, Severity, Verdict, render_scores
from gesturesmith.importers.judged import judged
from gesturesmith.importers.musicxml import read
from gesturesmith.importers.times import timetable

_TRUMPET = FOUR.replace(
    "</attributes>", "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose></attributes>"
)
SLUR, OVER = '<slur type="start"/>', '<slur type="stop"/>'


def report(*contents: str, name: str = "Horn in F", first: str = FOUR, **options: Fraction) -> ScoreReport:
    return judged(read(partwise(bars(*contents, first=first), names=(name,))), "a.musicxml", **options)


def test_a_finding_names_bar_beat_and_note_and_is_said_once():
    """C6 is refused on no horn in F, Eb6 is the highest asked: the worst comes first."""
    said = report(tempo(60) + note("C5", 12) + note("E6"), note("r", 8) + note("G6", 4) + note("G6", 4))
    (part,) = said.parts
    (found,) = part.findings
    assert (found.rule, found.severity, part.verdict) == ("outside-range", Severity.REFUSED, Verdict.NOT_AS_WRITTEN)
    assert [(p.bar, p.beat, p.note) for p in found.places] == [("2", 3, "G6"), ("2", 4, "G6"), ("1", 4, "E6")]
    text = render_scores([said], colour=False)
    assert "not as written: Horn in F, bar 2, beat 3 (G6): outside-range" in text
    assert "also in bars 1, 2" in text or "also in bars 1 to 2" in text


def test_beats_are_those_of_the_meter():
    six = FOUR.replace("<beats>4", "<beats>6").replace("<beat-type>4", "<beat-type>8")
    (found,) = report(tempo(60) + note("r", 8) + note("G6", 2), first=six).parts[0].findings
    assert found.places[0].beat == 5


def test_where_there_is_no_place_to_breathe():
    """A slur over twelve slow bars; players breathe between tongued notes by themselves."""
    long = [note("C5", 16, SLUR), *[note("D5", 16)] * 10, note("C5", 16, OVER)]
    said = report(tempo(50) + note("C5", 16), *long, note("r", 16))
    (found,) = [f for f in said.parts[0].findings if f.rule == "breath-too-short"]
    assert (found.places[0].bar, found.places[0].until_bar) == ("1" if found.places[0].bar == "1" else "2", "13")
    assert found.text.startswith("no place to breathe: ")
    assert "from bar 2 to 13: breath-too-short" in render_scores([said], colour=False)
    tongued = report(tempo(50) + note("C5", 16), *[note("D5", 16)] * 11, note("r", 16))
    assert [f for f in tongued.parts[0].findings if f.rule == "breath-too-short"] == []


@pytest.mark.parametrize(
    ("part", "pitch", "text"),
    # Charts of fingerings: trumpet C#4 is 1-2-3; trombone E3 is 2.
    [("Trumpet in B-flat", "C#4", "0"), ("Trumpet in B-flat", "C#4", "12"), ("Trombone", "E3", "6")],
)
def test_a_fingering_that_gives_another_note_is_a_caution(part, pitch, text):
    asked = note(pitch, 8, fingered(text)) + note("r", 8)
    found = report(tempo(60) + asked, name=part, first=_TRUMPET if "B-flat" in part else FOUR).parts[0].findings
    assert [(f.rule, f.severity) for f in found] == [("fingering-misses-pitch", Severity.CAUTION)]


@pytest.mark.parametrize(
    ("part", "pitch", "text"),
    [
        ("Trumpet in B-flat", "C#4", "1-2-3"),
        ("Trumpet in B-flat", "C#4", "123"),
        ("Trumpet in B-flat", "G4", "0"),
        ("Trombone", "E3", "2"),
        ("Bass Trombone", "C3", "T1"),
    ],
)
def test_the_usual_fingerings_are_not_reported(part, pitch, text):
    asked = note(pitch, 8, fingered(text)) + note("r", 8)
    said = report(tempo(60) + asked, name=part, first=_TRUMPET if "B-flat" in part else FOUR)
    assert (said.parts[0].findings, said.left_out) == ((), ())


def test_a_fingering_that_contradicts_a_line_is_a_caution():
    """A glissando through harmonics keeps one tube: another fingering at its end is none that a horn can play."""
    start = words("harm. gliss.") + note("G4", 8, fingered("F 0") + '<glissando type="start" line-type="wavy"/>')
    stop = note("G5", 8, fingered("F 1") + '<glissando type="stop" line-type="wavy"/>')
    found = report(tempo(60) + start + stop, first=FOUR).parts[0].findings
    assert ("fingering-contradicts", Severity.CAUTION) in [(f.rule, f.severity) for f in found]


def test_fingerings_of_another_system_are_counted_and_not_judged():
    said = report(tempo(60) + note("C5", 8, fingered("p")) + note("D5", 8, fingered("9")))
    assert said.parts[0].findings == ()
    assert said.left_out == (("fingering that the instrument does not have", 2),)


def test_what_is_repeated_is_said_once():
    again = '<barline location="right"><repeat direction="backward" times="4"/></barline>'
    (found,) = report(tempo(60) + note("G6") + note("r", 12) + again).parts[0].findings
    assert len(found.places) == 1


def test_nothing_is_refused_for_a_tempo_that_is_only_assumed():
    fast = "".join(note("C5", 1) for _ in range(16))
    sixty_fourths = FOUR.replace("<divisions>4", "<divisions>32")
    for given, severity in ((None, Severity.CAUTION), (90, Severity.REFUSED)):
        said = report((tempo(given) if given else "") + fast * 8, first=sixty_fourths)
        found = next(f for f in said.parts[0].findings if f.rule == "attacks-too-fast")
        assert found.severity is severity
        assert ("(at the tempo assumed)" in found.text) == (given is None)
        assert said.tempo == (None if given else 90)
    assert report(fast, first=sixty_fourths, tempo=Fraction(20)).tempo == 20


def test_what_gets_faster_does_so_up_to_the_next_tempo():
    """60 to 120 in eight quarters: by 60/8 in each, so that they last the integral of 60 / (60 + 7.5 q), 8 ln 2
    seconds, and not the 8 s of a steady tempo."""
    score = read(
        partwise(bars(tempo(60) + words("accel.") + note("C5", 16), note("D5", 16), tempo(120) + note("E5", 16)))
    )
    times = timetable(score)
    assert float(times.seconds(Fraction(8))) == pytest.approx(8 * log(2), rel=2e-3)
    assert float(times.seconds(Fraction(12))) == pytest.approx(8 * log(2) + 2, rel=2e-3)
    assert (times.tempo(Fraction(8)), times.endless) == (120, 0)


@pytest.mark.parametrize(
    ("before", "after"), [("accel.", 40), ("rit.", 90), ("rit.", None), ("langsamer werden", 90), ("cédez", 90)]
)
def test_what_leads_to_no_tempo_changes_nothing_and_is_named(before, after):
    last = tempo(after) if after else words("a tempo") + tempo(40)
    said = report(tempo(60) + words(before) + note("C5", 16), last + note("E5", 16))
    assert said.left_out == (("accel. or rit. without a tempo to reach", 1),)


def test_a_horn_in_e_flat_is_judged_by_what_it_sounds():
    """Written D6 sounds F5 on a horn in E-flat, the top of the usual range, and G5 on one in F."""
    transpose = "<transpose><diatonic>{}</diatonic><chromatic>{}</chromatic></transpose></attributes>"
    for steps, semitones, verdict in ((-5, -9, Verdict.PLAYABLE), (-4, -7, Verdict.WITH_CARE)):
        first = FOUR.replace("</attributes>", transpose.format(steps, semitones))
        part = report(tempo(60) + note("D6", 4), first=first).parts[0]
        assert part.verdict is verdict
        assert part.written == ("in E-flat" if steps == -5 else "")


def test_players_of_one_part_are_judged_each():
    chord = note("G6", 4) + note("C5", 4, before="<chord/>")
    upper, lower = report(tempo(60) + chord).parts
    assert (upper.player, upper.verdict, lower.player, lower.verdict) == (
        1, Verdict.NOT_AS_WRITTEN, 2, Verdict.PLAYABLE,
    )  # fmt: skip


def test_each_repeat_that_strokes_stand_for_counts():
    strokes = '<ornaments><tremolo type="single">2</tremolo></ornaments>'
    said = report(tempo(200) + note("C5", 16, strokes))
    assert "attacks-too-fast" in {f.rule for f in said.parts[0].findings}
    assert "attacks-too-fast" not in {f.rule for f in report(tempo(200) + note("C5", 16)).parts[0].findings}


def test_what_could_not_be_read_is_named_and_the_rest_is_checked():
    said = report(tempo(60) + note("G6", 8) + "<blob/>" + note("C5", -4) + note("C5"))
    assert (said.readable, len(said.errors), said.parts[0].verdict) == (False, 2, Verdict.NOT_AS_WRITTEN)
    assert "cannot be read: line 2: unreadable-in-score" in render_scores([said], colour=False)


def dense(part: int, count: int) -> str:
    """Bars of sixteenths, slurred by fours, that no other part has."""
    chance = Random(part)
    heights = ("G4", "A4", "Bb4", "C5", "D5", "Eb5", "F5", "G5")
    four = (SLUR, "", "", OVER)
    made = ("".join(note(chance.choice(heights), 1, slur) for slur in four * 4) for _ in range(count))
    return bars(tempo(72) + next(made), *made)


def of_horns(*parts: str) -> bytes:
    return partwise(*parts, names=tuple(f"Horn {n}" for n in range(1, len(parts) + 1)))


@pytest.fixture
def collected_rarely():
    """Cycles are looked for as rarely as in a run of the program."""
    before = gc.get_threshold()
    gc.set_threshold(gesturesmith.cli.main._ALLOCATIONS)
    yield
    gc.set_threshold(*before)


@pytest.mark.usefixtures("collected_rarely")
def test_eight_parts_of_four_hundred_dense_bars():
    """51,200 notes are read and judged in 12 s: it takes 5 to 6, and less than twice that on a slow machine. No
    phrase returns, so that each is judged."""
    parts = count(1, 8)
    data = of_horns(*(dense(n, 400) for n in range(parts)))
    said = within(12.0 if parts == 8 else 2.5, lambda: judged(read(data), "dense.musicxml"))
    assert sum(p.notes for p in said.parts) == 6_400 * parts
    assert {p.verdict for p in said.parts} == {Verdict.WITH_CARE}


def test_four_times_the_bars_take_four_times_as_long():
    """They would take sixteen times as long if each were compared with all others."""
    short, long = (read(of_horns(dense(0, bars))) for bars in (40, 160))
    _, one = took(lambda: judged(short, "short.musicxml"))
    _, four = took(lambda: judged(long, "long.musicxml"))
    assert four < 8 * one


def test_what_several_players_have_is_judged_once(monkeypatch):
    made = []
    real = gesturesmith.importers.judged.judge
    monkeypatch.setattr(gesturesmith.importers.judged, "judge", lambda gesture: made.append(1) or real(gesture))
    phrase = note("C5", 4) + note("G6", 4) + note("r", 8)
    same = bars(tempo(60) + phrase, phrase)
    other = bars(tempo(60) + phrase, note("C5", 4) + note("A6", 4) + note("r", 8))
    said = judged(read(of_horns(same, same, other)), "a.musicxml")
    assert len(made) == 2
    assert [[(p.bar, p.note) for p in part.findings[0].places] for part in said.parts] == [
        [("1", "G6"), ("2", "G6")],
        [("1", "G6"), ("2", "G6")],
        [("2", "A6"), ("1", "G6")],
    ]


def test_the_same_phrase_at_another_tempo_is_another():
    four = "".join(note(p, 1) for p in ("C5", "D5") * 8)
    thirty_seconds = FOUR.replace("<divisions>4", "<divisions>8")
    said = report(tempo(60) + four, tempo(200) + four, first=thirty_seconds)
    found = next(f for f in said.parts[0].findings if f.rule == "attacks-too-fast")
    assert {place.bar for place in found.places} == {"2"}


def test_the_bass_clef_of_old_horn_parts():
    """Written G1 would sound C1, below every horn: meant is G2."""
    first = FOUR.replace(
        "</attributes>",
        "<clef><sign>F</sign></clef><transpose><diatonic>-4</diatonic><chromatic>-7</chromatic></transpose></attributes>",
    )
    old = report(tempo(60) + note("G1", 8) + note("C3", 8), first=first).parts[0]
    assert old.written == "its bass clef an octave low, as in old parts"
    assert old.verdict is Verdict.PLAYABLE
    new = report(tempo(60) + note("G2", 8) + note("C3", 8), first=first).parts[0]
    assert new.written == ""
