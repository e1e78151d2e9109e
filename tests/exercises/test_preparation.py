"""Around a line: its bars, its preparation, its rest, the warm-up."""

from __future__ import annotations

import pytest

from gesturesmith import instruments
from gesturesmith.exercises.preparation import barred, preparation, rest_s, warm_up
from gesturesmith.judge.gesture import judge
from gesturesmith.model.reading import read
from gesturesmith.source import Source


def case(lines: str, instrument: str = "horn"):
    text = f"instrument: {instrument}\npitches: written\ntempo: 60\ngesture a\n" + "".join(
        f"  {line}\n" for line in lines.split("\n")
    )
    reading = read(Source("a", text))
    assert not reading.errors
    return judge(reading.piece.gestures[0]).case


def names(prepared) -> list[str]:
    return [note.name for note in prepared.notes]


def test_the_last_bar_is_filled_with_a_rest() -> None:
    line = barred((case("contour: C5\nlasts: 5 beats"),), (4, 4), 1)
    assert [(item.at, item.beats, item.gesture is None) for item in line.passage.items] == [
        (0, 5, False),
        (5, 3, True),
    ]
    assert line.passage.repeats == ()


def test_several_gestures_each_begin_a_bar() -> None:
    one = case("contour: C5\nlasts: 2 beats")
    line = barred((one, one), (3, 4), 2)
    assert [item.at for item in line.passage.items if item.gesture is not None] == [0, 3]
    (repeat,) = line.passage.repeats
    assert (repeat.start, repeat.end, repeat.times) == (0, 6, 2)


def test_seconds_are_not_barred() -> None:
    line = barred((case("contour: C5 -- D5\ntechnique: lip-gliss\nlasts: 3 s"),), (4, 4), 1)
    assert line.passage.meter is None
    assert len(line.passage.items) == 1


def test_rest_as_much_as_you_play() -> None:
    """S. Wright, endurance sheet: rest as much as you play. Four beats at 60 of plain mf in the middle register
    cost four seconds; three times as much, twelve; in steps of five."""
    one = case("contour: C4\nlasts: 4 beats")
    assert rest_s(barred((one,), (4, 4), 1)) == 5
    assert rest_s(barred((one,), (4, 4), 3)) == 15


def test_high_and_loud_takes_more_rest() -> None:
    soft = rest_s(barred((case("contour: C4\nlasts: 8 beats\ndynamics: p"),), (4, 4), 1))
    loud = rest_s(barred((case("contour: Bb5\nlasts: 8 beats\ndynamics: ff"),), (4, 4), 1))
    assert loud > soft


def test_a_slide_is_prepared_by_its_plain_interval() -> None:
    assert names(preparation(case("technique: lip-gliss\ncontour: C5 -- E5 -- C5"))) == ["C5", "E5", "C5"]


def test_a_sweep_is_prepared_by_its_ladder() -> None:
    """G4 to G5 written are partials 6 to 12 of the open F side, by the harmonic series: G A# C D E F# G, with 11
    nearest to F#."""
    held = "technique: harmonic-gliss\ncontour: G4 ~~ G5\nlasts: 4 beats\nfingering: F 0"
    prepared = preparation(case(held))
    assert prepared.tube == "F 0"
    assert names(prepared) == ["G4", "Bb4", "C5", "D5", "E5", "F#5", "G5"]


def test_a_sweep_is_prepared_by_names_that_belong_together() -> None:
    """The partials of the seventh position are those of E: G#, not Ab; notes named in the line keep that name."""
    swept = "technique: harmonic-gliss\nfingering: 7\nlasts: 4 beats\ncontour: "
    assert names(preparation(case(f"{swept}E3 ~~ E4", "trombone"))) == ["E3", "G#3", "B3", "D4", "E4"]
    assert names(preparation(case(f"{swept}E3 ~~ Ab3", "trombone")))[-1] == "Ab3"


def test_a_trill_is_prepared_by_both_notes() -> None:
    assert names(preparation(case("technique: valve-trill\ncontour: C5\nlasts: 4 beats"))) == ["C5", "D5"]


def test_the_upper_note_of_a_trill_has_the_name_of_its_sign() -> None:
    """A trill goes to the next letter: tr with a sharp over F# is prepared by F# and G#, never by Ab."""
    for low, high in (("F#4", "G#4"), ("Ab4", "Bb4"), ("C#5", "D#5")):
        assert names(preparation(case(f"technique: valve-trill\ncontour: {low}\nlasts: 4 beats"))) == [low, high]


@pytest.mark.parametrize(
    "lines",
    [
        "contour: C5",
        "technique: slap-tongue\ncontour: xC4, xG4",
        "technique: half-valve\nband: C4..G5\ncontour: low ~~ high",
        "technique: double-tongue\ncontour: C5\nattacks: 8\nlasts: 2 beats",
    ],
)
def test_what_needs_no_preparation_has_none(lines: str) -> None:
    assert preparation(case(lines)) is None


@pytest.mark.parametrize("name", instruments.names())
def test_every_instrument_has_a_warm_up_without_effort(name: str) -> None:
    """Soft slurs between neighbouring partials, all playable."""
    line = warm_up(instruments.get(name))
    assert line is not None
    assert line.passage.meter == (4, 4)
    for one in line.cases:
        assert judge(one.gesture).findings == ()
        assert [p.reached for p in one.gesture.points] == ["attack", "slur", "slur"]
    assert len({p.tube.name for p in line.cases[0].realisation.points}) == 1


def test_a_long_row_of_notes_is_no_preparation() -> None:
    scale = " -- ".join(["C5", "D5"] * 7)
    assert preparation(case(f"technique: lip-gliss\ncontour: {scale}\nlasts: 14 beats")) is None


def test_the_warm_up_stands_in_the_clef_a_player_reads_first() -> None:
    """Written C4 to E4 on the horn, partials 4 and 5; on a single tube up its partials, below the seventh."""
    for name in instruments.names():
        line = warm_up(instruments.get(name))
        assert line is not None
        clef, lowest = instruments.get(name).clefs[-1 if instruments.get(name).sounding.cents == 0 else 0]
        written = [p.pitch.written.pitch_cents for one in line.cases for p in one.gesture.points]
        assert min(written) >= lowest, (name, clef)
    first = warm_up(instruments.get("horn")).cases[0].gesture
    assert [p.pitch.written.name for p in first.points] == ["C4", "E4", "C4"]
