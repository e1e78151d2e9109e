"""Notated parts as lines of gestures."""

from __future__ import annotations

from fractions import Fraction

import pytest
from importers.scores import FOUR, bars, note, partwise, tempo, words

from gesturesmith.importers.musicxml import read
from gesturesmith.importers.phrases import Phrase, PlayerLine, as_written, lines
from gesturesmith.importers.times import timetable
from gesturesmith.model.builder import make
from gesturesmith.units import Interval

SLUR = '<slur type="start"/>'
END = '<slur type="stop"/>'


def read_lines(*contents: str, name: str = "Horn in F", first: str = FOUR) -> tuple[PlayerLine, ...]:
    score = read(partwise(bars(*contents, first=first), names=(name,)))
    assert score.errors == ()
    return lines(score, score.parts[0], timetable(score))


def phrases(*contents: str, name: str = "Horn in F", first: str = FOUR) -> tuple[Phrase, ...]:
    (line,) = read_lines(*contents, name=name, first=first)
    for phrase in line.phrases:
        made, errors = make(phrase.gesture)
        assert errors == ()
        assert len(made.points) == len(phrase.places)
    return line.phrases


def shown(phrase: Phrase) -> str:
    """The points of a phrase as the language has them, with their times."""
    text = ""
    for point in phrase.gesture.points:
        line = {"none": ",", "slur": " __", "straight": " --", "wavy": " ~~"}[point.line]
        graces = "".join(f"{g.pitch.name} grace, " for g in point.graces)
        pitch = point.pitch.name if point.pitch is not None else "r"
        turns = f" as {point.turns_to}" if point.turns_to else ""
        ends = "".join(f" without {key}" for key in point.ends)
        at = f"@{point.at}" if point.at else ""
        marks = "".join(f" {mark}" for mark in point.marks)
        text += f"{line if text else ''} {graces}{pitch}{at}{turns}{ends}{marks}"
    return text.strip()


TABLE = [
    (note("C5") + note("D5") + note("r") + note("E5"), ["C5, D5@1", "E5"]),
    (note("C5", 4, '<tie type="start"/>') + note("C5", 4, '<tie type="stop"/>') + note("D5"), ["C5, D5@2"]),
    (note("C5", 4, SLUR) + note("D5") + note("E5", 4, END) + note("F5"), ["C5 __ D5@1 __ E5@2, F5@3"]),
    (note("G4", before="<grace/>") + note("C5"), ["G4 grace, C5"]),
    (note("C5", 4, "<technical><stopped/></technical>") + note("D5"), ["C5 as stopped, D5@1 without stopped"]),
    (note("C5", 4, "<articulations><accent/></articulations>"), ["C5 accent"]),
    (note("C5", 8, '<ornaments><tremolo type="single">2</tremolo></ornaments>'), ["C5 sixteenths"]),
    (note("C5", 2, '<ornaments><tremolo type="single">1</tremolo></ornaments>'), ["C5 sixteenths"]),
    (note("C5", 8, '<ornaments><tremolo type="unmeasured"/></ornaments>'), ["C5 unmeasured"]),
    (words("senza misura") + note("C5") + words("bouché") + note("D5"), ["C5, D5@1 as stopped"]),
    (words("flz.") + note("C5") + words("nat") + note("D5"), ["C5 as flutter-tongue, D5@1 without flutter-tongue"]),
]  # fmt: skip


@pytest.mark.parametrize(("content", "wanted"), TABLE)
def test_notes_become_phrases(content, wanted):
    assert [shown(p) for p in phrases(content)] == wanted


def test_three_strokes_are_a_flutter_unless_they_are_said_to_be_counted():
    strokes = '<ornaments><tremolo type="single">3</tremolo></ornaments>'
    (one,) = phrases(note("C5", 8, strokes))
    assert (one.gesture.techniques, shown(one)) == (("flutter-tongue",), "C5")
    (one,) = phrases(words("measured") + note("C5", 8, strokes))
    assert (one.gesture.techniques, shown(one)) == ((), "C5 thirty-seconds")


def test_techniques_of_all_notes_are_the_gestures_own():
    (one,) = phrases(words("con sord. (cup)") + note("C5") + note("D5"))
    assert (one.gesture.techniques, one.gesture.mute, shown(one)) == (("muted",), "cup", "C5, D5@1")


def test_a_word_holds_until_it_is_ended_across_rests_and_bars():
    found = phrases(
        words("gestopft") + note("C5") + note("r", 12), note("C5") + words("offen") + note("r"), note("C5")
    )
    assert [p.gesture.techniques for p in found] == [("stopped",), ("stopped",), ()]


def test_a_tie_across_a_bar_line():
    start, stop = '<tie type="start"/>', '<tie type="stop"/>'
    (one,) = phrases(note("r", 12) + note("C5", 4, start), note("C5", 8, stop))
    assert (one.at, one.lasts, [(p.bar, p.at) for p in one.places]) == (3, 3, [(0, 3)])


def test_chords_and_voices_are_players():
    chord = note("G5", 4) + note("E5", 4, before="<chord/>") + note("C5")
    other = "<backup><duration>8</duration></backup>" + note("C4", 8, voice="2")
    found = read_lines(chord + other)
    assert [[shown(p) for p in line.phrases] for line in found] == [["G5, C5@1"], ["E5"], ["C4"]]
    assert [(line.player, line.players) for line in found] == [(0, 3), (1, 3), (2, 3)]


def test_a_slide_is_that_of_the_instrument():
    slide = note("Bb3", 4, '<slide type="start" line-type="solid"/>') + note("F3", 4, '<slide type="stop"/>')
    (one,) = phrases(slide, name="Trombone")
    assert (shown(one), one.gesture.techniques) == ("Bb3 -- F3@1", ("slide-gliss",))
    (one,) = phrases(words("harm. gliss.") + slide)
    assert (shown(one), one.gesture.techniques) == ("Bb3 -- F3@1", ("harmonic-gliss",))
    (one,) = phrases(slide)
    assert one.gesture.techniques == ()


def direction(inside: str) -> str:
    return f"<direction><direction-type>{inside}</direction-type></direction>"


P, F = (direction(f"<dynamics><{level}/></dynamics>") for level in "pf")
LOUDER, OVER = (direction(f'<wedge type="{kind}"/>') for kind in ("crescendo", "stop"))
SOFTER = direction('<wedge type="diminuendo" niente="yes"/>')


@pytest.mark.parametrize(
    ("content", "levels"),
    [
        (P + note("C5") + note("D5"), [("p", 0, "")]),
        (P + LOUDER + note("C5") + note("D5") + OVER + F + note("E5"), [("p", 0, "<"), ("f", 2, "")]),
        (LOUDER + note("C5") + note("D5") + OVER + note("E5"), [("mf", 0, "<"), ("f", 2, "")]),
        (P + LOUDER + note("C5") + note("D5") + OVER, [("p", 0, "<"), ("mp", None, "")]),
        (F + SOFTER + note("C5") + note("D5") + OVER, [("f", 0, ">"), ("n", None, "")]),
        (direction("<dynamics><fp/></dynamics>") + note("C5"), [("fp", 0, "")]),
    ],
)
def test_levels_and_hairpins(content, levels):
    (one,) = phrases(content)
    assert [(n.level, n.at, n.join) for n in one.gesture.dynamics] == levels


def test_repeats_are_played_again_in_the_same_bars():
    again = '<barline location="right"><repeat direction="backward"/></barline>'
    found = phrases(note("C5") + note("r", 12) + again, note("D5"))
    assert [(shown(p), p.at, p.places[0].bar) for p in found] == [("C5", 0, 0), ("C5", 4, 0), ("D5", 8, 1)]


def test_times_follow_every_tempo():
    score = read(partwise(bars(tempo(60) + note("C5", 16), tempo(120) + note("C5", 16), note("C5", 16))))
    times = timetable(score)
    assert [times.seconds(Fraction(q)) for q in (0, 4, 8, 12)] == [0, 4, 6, 8]
    assert not times.assumed
    plain = timetable(read(partwise(bars(note("C5", 16), tempo(60) + note("C5", 16)))), Fraction(120))
    assert ([plain.seconds(Fraction(q)) for q in (4, 8)], plain.assumed) == ([2, 6], True)


def test_an_instrument_is_written_as_its_part():
    """A horn in E-flat: its written C sounds E-flat, and fingerings and registers follow the sound."""
    horn, other = as_written("horn", Interval(-4, Fraction(-700))), as_written("horn", Interval(-5, Fraction(-900)))
    for low, high in zip(horn.registers, other.registers, strict=True):
        assert high.low.pitch_cents - low.low.pitch_cents == 200
    assert {cents - 700: tube for cents, tube in horn.chart.items()} == {
        cents - 900: tube for cents, tube in other.chart.items()
    }
    assert horn.usual_range == other.usual_range


def test_long_lines_are_divided_at_a_tongued_note():
    found = phrases(*[note("C5", 2) * 8] * 120)
    assert max(len(p.places) for p in found) <= 400
    assert sum(len(p.places) for p in found) == 960


def test_words_for_an_edge_belong_to_its_signs():
    """`doit at once` says more than the sign, which stands at each note that has one."""
    sign = "<articulations><doit/></articulations>"
    (one,) = phrases(words("doit at once") + note("C5", 4, sign) + note("D5") + note("E5", 4, sign))
    assert shown(one) == "C5 as doit-at-once, D5@1 without doit-at-once, E5@2 as doit-at-once"


def test_with_a_plunger_the_signs_are_those_of_the_hand_before_it():
    closed = note("C5", 4, "<technical><stopped/></technical>")
    (one,) = phrases(words("con sord. (plunger)") + closed + words("open") + note("D5"))
    assert (one.gesture.techniques, one.gesture.mute) == (("muted",), "plunger")
    assert shown(one) == "C5 as closed, D5@1 without closed"


def test_techniques_that_go_together_stay_together():
    (one,) = phrases(words("con sord.") + note("C5") + words("bells up") + note("D5") + words("flz.") + note("E5"))
    assert shown(one) == "C5, D5@1 as bells-up+muted, E5@2 as flutter-tongue"


def test_a_way_of_sliding_holds_to_the_end_of_the_phrase():
    start, both, stop = (
        '<slide type="start"/>',
        '<slide type="stop"/><slide type="start"/>',
        '<slide type="stop"/>',
    )
    chain = note("C5", 4, start) + note("D5", 4, both) + note("E5", 4, stop)
    (one,) = phrases(words("lip gliss.") + chain)
    assert (one.gesture.techniques, shown(one)) == (("lip-gliss",), "C5 -- D5@1 -- E5@2")


def test_quarter_tones_are_played_as_such():
    raw = note("C5").replace("<octave>", "<alter>0.5</alter><octave>")
    (one,) = phrases(raw)
    assert one.gesture.techniques == ("quarter-tones",)
