"""How the instrument plays a gesture: fingerings, sweeps, bends, slides, trills; against charts from outside."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from realise.realised import gesture, partials, realised, tubes

from gesturesmith import instruments
from gesturesmith.acoustics.series import partial_cents
from gesturesmith.diagnostics import PointReport, RealisationReport, Verdict
from gesturesmith.instruments._build import valve_tubes
from gesturesmith.realise.gesture import realisation_report, realise
from gesturesmith.realise.ways import tuning_cost, ways
from gesturesmith.sheets.charts.quarter_tones import quarter_tones
from gesturesmith.units import spell

# The standard double-horn chart (Farkas type, from memory): F side up to written G4, B-flat side from Ab4.
# The low octave follows from the harmonic series of the F side.
CHART = """
F#2 F 1-2-3  G2 F 1-3  Ab2 F 2-3  A2 F 1-2  Bb2 F 1  B2 F 2  C3 F 0  C#3 F 1-2-3  D3 F 1-3  Eb3 F 2-3
E3 F 1-2  F3 F 1  F#3 F 2  G3 F 0  Ab3 F 2-3  A3 F 1-2  Bb3 F 1  B3 F 2  C4 F 0  C#4 F 1-2
D4 F 1  Eb4 F 2  E4 F 0  F4 F 1  F#4 F 2  G4 F 0  Ab4 Bb 2-3  A4 Bb 1-2  Bb4 Bb 1  B4 Bb 2
C5 Bb 0  C#5 Bb 2-3  D5 Bb 1-2  Eb5 Bb 1  E5 Bb 2  F5 Bb 0  F#5 Bb 2  G5 Bb 0  Ab5 Bb 2-3  A5 Bb 1-2
Bb5 Bb 1  B5 Bb 2  C6 Bb 0
"""
WORDS = CHART.split()
STANDARD = {WORDS[i]: f"{WORDS[i + 1]} {WORDS[i + 2]}" for i in range(0, len(WORDS), 3)}

# OEIS A309909, citing Kennan, The Technique of Orchestration (1952), pp. 136-141: lowest positions, the first
# seven the pedal notes E1 to Bb1, then E2 upward; here up to Bb4.
A309909 = [7, 6, 5, 4, 3, 2, 1, 7, 6, 5, 4, 3, 2, 1, 7, 6, 5, 4, 3, 2, 1, 5, 4, 3, 2, 1, 4, 3, 2, 1, 3, 2, 1]
A309909 += [3, 2, 3, 2, 1]


@pytest.mark.parametrize("tempo", [60, 200])
def test_a_chromatic_scale_is_the_standard_chart(tempo: int) -> None:
    """Written F#2 to C6 in quarters, slow and fast: saving movement is never worth leaving the chart."""
    found = realised(", ".join(STANDARD), tempo=tempo)
    assert dict(zip(STANDARD, tubes(found), strict=True)) == STANDARD
    assert all(p.standard and not p.given for p in found.points)
    assert not found.print_tube


def test_the_trombone_scale_is_oeis_a309909() -> None:
    names = [spell(Fraction(c)).name for c in [*range(2800, 3500, 100), *range(4000, 7100, 100)]]
    found = realised(", ".join(names), instrument="trombone")
    assert [int(p.tube.valves.split()[-1]) for p in found.points] == A309909
    assert all(abs(p.error_cents) < 15 for p in found.points)


@pytest.mark.parametrize("name", ["trumpet", "cornet", "flugelhorn", "trumpet-c"])
def test_a_trumpet_scale_takes_the_common_fingerings(name: str) -> None:
    """C major from C4, as in every elementary method."""
    found = realised("C4, D4, E4, F4, G4, A4, B4, C5", instrument=name)
    assert tubes(found) == ["0", "1-3", "1-2", "1", "0", "1-2", "2", "0"]


def test_written_and_sounding_files_are_played_alike() -> None:
    written = realised("F#^4 __ G4, Ab4 ~~ C5@3 ~~ xE5", "technique: ordinary")
    sounding = realised("B^3 __ C4, Db4 ~~ F4@3 ~~ xA4", "technique: ordinary", pitches="sounding")
    assert realisation_report(written) == realisation_report(sounding)


def test_double_tempo_with_double_length_changes_nothing() -> None:
    slow = realised("G4, A4, G4, A4", "lasts: 1 beat", tempo=60)
    fast = realised("G4, A4, G4, A4", "lasts: 2 beats", tempo=120)
    assert tubes(slow) == tubes(fast)


QUARTERS = [f"{letter}{sign}{octave}" for octave in (3, 4, 5) for letter in "CDEFGAB" for sign in ("^", "#^")]


@pytest.mark.parametrize("name", [n for n in QUARTERS if n[:2] not in ("E#", "B#")])
def test_a_quarter_tone_in_tune_is_found_where_there_is_one(name: str) -> None:
    """Compared with trying every usual partial of every tube."""
    found = realised(name, "technique: quarter-tones")
    point = found.points[0]
    errors = [
        abs(tube.fundamental_cents + partial_cents(n) - float(point.asked_cents))
        for tube in instruments.get("horn").tubes
        for n in range(tube.partials[0], tube.partials[1] + 1)
    ]
    assert (abs(point.error_cents) <= 15) == (min(errors) <= 15)
    assert point.correction in ([""] if min(errors) <= 15 else ["lip", "hand"])
    assert not point.standard
    assert found.print_tube


def test_a_quarter_tone_without_one_is_corrected() -> None:
    """On three valves most quarter tones below partial 7 need the lip."""
    point = realised("F^4", instrument="trumpet").points[0]
    assert abs(point.error_cents) > 15
    assert point.correction == ""  # beyond the lip, and no hand is free for the slide of the second valve
    assert point.error_cents == pytest.approx(51.955, abs=0.01)  # partial 3 of the second valve, F#4


def test_pure_thirds_are_found_on_the_fifth_partial() -> None:
    """14 cents below tempered E5 is a tenth partial, or a fifth."""
    point = realised("E5-14c").points[0]
    assert abs(point.error_cents) <= 15


# Harmonic glissando: the most partials whose ends the lip bridges (35 cents; 100 where approximate), then the least
# error.
@pytest.mark.parametrize(
    ("contour", "tube", "passed"),
    [
        ("G4 ~~ G5", "F 1-3", range(8, 17)),
        ("C5 ~~ C6", "F 1-2-3", range(11, 23)),
        ("C4 ~~ C5", "F 2-3", range(5, 11)),
        ("C4 ~~ E4", "F 0", range(4, 6)),
        ("G5 ~~ G4", "F 1-3", range(16, 7, -1)),
        ("xF#3 ~~ xF#5", "F 1-2-3", range(4, 17)),
        ("F#3 ~~ F#5", "F 2", range(3, 13)),
    ],
)
def test_a_sweep_takes_the_fullest_tube_that_has_its_ends(contour: str, tube: str, passed: range) -> None:
    found = realised(contour, "technique: harmonic-gliss")
    assert found.tube is not None
    assert found.tube.name == tube
    assert list(found.partials) == list(passed)
    assert found.print_tube
    ends = found.points[0], found.points[-1]
    assert all(abs(p.error_cents) <= (100 if contour[0] == "x" else 35) for p in ends)
    assert found.starts_cents == pytest.approx(float(ends[0].asked_cents) + ends[0].error_cents)
    assert found.lands_cents == pytest.approx(float(ends[1].asked_cents) + ends[1].error_cents)


@settings(max_examples=60)
@given(st.integers(40, 82), st.integers(40, 82))
def test_no_tube_would_have_been_better(low: int, high: int) -> None:
    """Compared with trying all tubes: the same number of partials, or no tube has both ends."""
    a, b = spell(Fraction(100 * low)).name, spell(Fraction(100 * high)).name
    if a == b:
        return
    found = realised(f"{a} ~~ {b}", "technique: harmonic-gliss")
    start, end = (Fraction(100 * n) - 700 for n in (low, high))
    counts = []
    for tube in instruments.get("horn").tubes:
        lowest, highest = tube.widest_partials
        errors = []
        for asked in (start, end):
            ladder = {
                n: tube.fundamental_cents + partial_cents(n) - float(asked) for n in range(lowest, highest + 1)
            }
            n = min(ladder, key=lambda k, ladder=ladder: abs(ladder[k]))
            errors.append((abs(ladder[n]), n))
        if all(e <= 35 for e, _ in errors):
            counts.append(abs(errors[0][1] - errors[1][1]) + 1)
    on_ladder = all(abs(p.error_cents) <= 35 for p in found.points)
    assert on_ladder == bool(counts)
    if counts:
        assert len(found.partials) == max(counts)


def test_approximate_ends_may_lie_a_semitone_off() -> None:
    exact, about = (realised(c, "technique: harmonic-gliss") for c in ("C4 ~~ E5", "xC4 ~~ xE5"))
    assert len(about.partials) >= len(exact.partials)
    assert all(abs(p.error_cents) <= 100 for p in about.points)


def test_ends_on_no_ladder_tell_where_the_player_is() -> None:
    found = realised("G#4 ~~ A5", "technique: harmonic-gliss")
    assert found.starts_cents != found.points[0].asked_cents
    assert any(abs(p.error_cents) > 15 for p in found.points)
    assert len(found.partials) >= 3


def test_a_bend_stays_on_its_partial() -> None:
    found = realised("E5 -- Eb5@1 -- E5", "technique: bend")
    assert partials(found) == [8, 8, 8]
    assert [p.correction for p in found.points] == ["", "lip", ""]
    assert found.points[1].error_cents == pytest.approx(100, abs=0.1)
    assert not found.print_tube


def test_a_lip_glissando_crosses_partials_on_one_tube() -> None:
    found = realised("xE5 :: xC5@1 :: xD5@2 .. xA4", "technique: lip-gliss")
    assert len(set(tubes(found))) == 1
    assert len(set(partials(found))) > 1


def test_a_hand_glissando_is_played_open_at_its_top() -> None:
    found = realised("B4 -- C5@1 -- Bb4", "technique: hand-gliss")
    assert len(set(tubes(found))) == len(set(partials(found))) == 1
    assert [p.correction for p in found.points] == ["hand", "", "hand"]
    assert all(p.error_cents >= -15 for p in found.points)


def test_a_hand_glissando_may_begin_and_end_with_the_bell_shut() -> None:
    """The pitch of the closed end is that of the open note lowered by the hand: it has no fingering of its own."""
    opening = realised("B4 as stopped -- C5 as ordinary", "technique: hand-gliss")
    closing = realised("C5 -- B4 as half-stopped", "technique: hand-gliss")
    assert [p.correction for p in opening.points] == ["hand", ""]
    assert opening.points[0].error_cents == pytest.approx(102, abs=0.1)
    assert [p.error_cents for p in closing.points] == [p.error_cents for p in reversed(opening.points)]
    assert len({p.partial for p in (*opening.points, *closing.points)}) == 1


def test_stopped_notes_are_fingered_a_semitone_lower_on_the_f_side() -> None:
    """banddirectorstalkshop.com: a semitone on the F side, three quarters of a tone on the B-flat side."""
    found = realised("C5, D5, F5, C4", "technique: stopped")
    assert tubes(found) == ["F 2", "F 1-2", "F 0", "F 2"]
    assert [p.fingered_cents for p in found.points] == [float(p.asked_cents) - 100 for p in found.points]
    assert not found.print_tube


def test_half_stopped_notes_are_fingered_a_semitone_higher() -> None:
    """Ericson, ASU: moderate stopping lowers any note a half step."""
    point = realised("C5", "technique: half-stopped").points[0]
    assert point.fingered_cents == float(point.asked_cents) + 100


def test_a_stopping_mute_is_fingered_like_a_stopped_note() -> None:
    assert tubes(realised("C5", "technique: muted", "mute: stopping")) == ["F 2"]
    assert tubes(realised("C5", "technique: muted")) == ["Bb 0"]


def test_held_is_one_tube_and_told() -> None:
    found = realised("G4, C5, E5, G5", "fingering: held")
    assert set(tubes(found)) == {"F 0"}
    assert found.tube is not None
    assert found.print_tube


def test_the_composers_fingering_is_kept_with_its_error() -> None:
    found = realised("G4, C5", "fingering: Bb 1, F 0")
    assert tubes(found) == ["Bb 1", "F 0"]
    assert found.points[0].error_cents == pytest.approx(-13.686, abs=0.001)
    assert all(p.given for p in found.points)
    assert found.print_tube


def test_a_fingering_without_a_side_takes_the_better_one() -> None:
    assert tubes(realised("G4", "fingering: 0")) == ["F 0"]
    assert tubes(realised("F5", "fingering: 0")) == ["Bb 0"]


def test_half_valves_hold_no_tube() -> None:
    found = realised("xG4 ~~ xD5@2 ~~ xF5", "technique: half-valve")
    assert found.tube is None
    assert not found.print_tube


@pytest.mark.parametrize("technique", ["slap-tongue", "kiss", "mouthpiece-pop", "valve-clicks"])
def test_without_a_pitch_there_is_no_fingering(technique: str) -> None:
    found = realised("low, high", f"technique: {technique}", "band: middle")
    assert tubes(found) == ["", ""]
    assert [p.asked_cents for p in found.points] == [None, None]


def test_a_fingered_glissando_has_a_pattern() -> None:
    found = realised("C4 ~~ G4", "technique: fingered-gliss")
    assert [t.name for t in found.pattern] == ["F 0", "F 1-2", "F 1", "F 2", "F 0", "F 1", "F 2", "F 0"]


def test_a_timbre_trill_has_two_fingerings_of_one_pitch() -> None:
    point = realised("C5", "technique: timbre-trill").points[0]
    assert point.other is not None
    assert point.tube is not None
    assert point.other.name != point.tube.name
    ladder = [point.other.fundamental_cents + partial_cents(n) for n in range(1, 25)]
    assert min(abs(c - float(point.asked_cents)) for c in ladder) <= 35


def test_a_valve_trill_has_the_fingering_above() -> None:
    point = realised("C5", "technique: valve-trill").points[0]
    assert point.other is not None
    ladder = [point.other.fundamental_cents + partial_cents(n) for n in range(1, 25)]
    assert min(abs(c - float(point.asked_cents) - 200) for c in ladder) <= 35


# M. Clayville 2011: a glissando must stay on one partial; Bartok's B to F does not lie on a B-flat trombone.
@pytest.mark.parametrize(
    ("contour", "breaks"), [("Bb2 -- F2", ()), ("B2 -- F3", ()), ("B2 -- F2", (1,)), ("D3 -- Bb2@1 -- A2", (1,))]
)
def test_a_slide_stays_on_its_partial_or_breaks(contour: str, breaks: tuple[int, ...]) -> None:
    found = realised(contour, "technique: slide-gliss", instrument="trombone")
    assert found.breaks == breaks
    if not breaks:
        assert len(set(partials(found))) == 1


@pytest.mark.parametrize(
    ("contour", "more", "numbers", "positions"),
    [
        ("F3 -- Bb4", "", [3, 10], ["1", "5"]),  # up: the slide goes out
        ("Bb4 -- F3", "", [10, 3], ["5", "1"]),
        ("F3 -- Bb4", "fingering: 1, 3", [3, 9], ["1", "3"]),
        ("F3 -- Bb4 -- D4", "fingering: 1, 3, 1", [3, 9, 5], ["1", "3", "1"]),
    ],
)
def test_against_the_grain_the_slide_goes_the_other_way(contour, more, numbers, positions) -> None:
    found = realised(contour, "technique: against-the-grain", *filter(None, [more]), instrument="trombone")
    assert (partials(found), tubes(found), found.breaks) == (numbers, positions, ())


@pytest.mark.parametrize("contour", ["E2 -- Bb2", "Bb2 -- E2"])
def test_what_has_one_position_leaves_no_way_against_the_grain(contour) -> None:
    """E2 is the seventh position alone, Bb2 the first: the slide could only go with the line."""
    assert realised(contour, "technique: against-the-grain", instrument="trombone").breaks == (1,)


@pytest.mark.parametrize(
    ("contour", "positions", "breaks"),
    [("F3 -- C3", ["1", "T 1"], ()), ("F3 -- G2", ["1", "T 6"], ()), ("F3 -- F2", ["1", "T 1"], (1,))],
)
def test_the_trigger_goes_on_where_the_slide_ends(contour, positions, breaks) -> None:
    """Partial 3: F3 to B2 with the slide, C3 to G2 with the trigger."""
    found = realised(contour, "technique: trigger-gliss", instrument="trombone-f")
    assert (tubes(found), found.breaks) == (positions, breaks)


@pytest.mark.parametrize(
    ("note", "instrument", "position"), [("Bb1", "trombone", "1"), ("F2", "horn", "Bb 0"), ("C3", "trumpet", "0")]
)
def test_a_pedal_tone_is_the_first_harmonic(note, instrument, position) -> None:
    found = realised(note, "technique: pedal", instrument=instrument)
    assert (partials(found), tubes(found)) == ([1], [position])


def test_the_slide_lies_between_positions() -> None:
    assert tubes(realised("G4", instrument="trombone")) == ["short 2"]
    point = realised("A^3", instrument="trombone").points[0]
    assert abs(point.error_cents) <= 15


def test_the_trigger_closes_the_gap() -> None:
    without = realised("C#2", instrument="trombone").points[0]
    assert abs(without.error_cents) > 100
    assert tubes(realised("C#2", instrument="trombone-f")) == ["T 5"]


def test_the_natural_horn_lowers_by_hand() -> None:
    found = realised("C5, B4, A4, F4", instrument="natural-horn")
    assert [p.correction for p in found.points] == ["", "hand", "hand", "hand"]
    assert [p.standard for p in found.points] == [True, False, False, False]  # its chart is the open notes
    assert all(p.error_cents >= -15 for p in found.points)
    assert not found.print_tube


@pytest.mark.parametrize(
    ("note", "partial", "error"),
    [("Bb4", 7, -31.2), ("F#5", 11, -48.7), ("Bb5", 14, -31.2), ("A5", 14, 68.8), ("G^3", 4, 450)],
)
def test_a_hand_taken_out_of_the_bell_lets_a_high_partial_up(note, partial, error) -> None:
    """naturalhorn.com, hand position: partial 7, Bb, and F# on the top line are played with the hand out; partial
    13 lies 59 cents below A, which is too much, and of low partials the page says nothing."""
    (point,) = realised(note, instrument="natural-horn").points
    assert (point.partial, point.correction) == (partial, "hand" if error < 400 else "")
    assert point.error_cents == pytest.approx(error, abs=0.1)


def test_a_mute_leaves_the_hand_no_way_into_the_bell() -> None:
    """Then Bb4 is lipped up from partial 7 instead of brought down from partial 8."""
    (point,) = realised("Bb4 as muted", instrument="natural-horn").points
    assert (point.partial, point.correction) == (7, "lip")


def test_a_tuba_player_draws_a_slide_for_the_sharp_low_notes() -> None:
    """1-2-3-4 is 175 cents sharp of its eleven semitones, low D on it 75: common practice draws a slide."""
    point = realised("D1", instrument="tuba").points[0]
    assert point.tube.valves == "1-2-3-4"
    assert point.error_cents == pytest.approx(75.3, abs=0.1)
    assert point.correction == "slide"


def test_the_third_slide_moves_the_choice() -> None:
    """With 2-3 exact, valve 3 is 16 cents flat, and its seventh partial a quarter tone in tune (18.8 - 16.3)."""
    horn = instruments.get("horn")
    top = horn.usual_range.value[1], horn.widest_range.value[1]
    drawn = replace(horn, key="drawn", tubes=valve_tubes(horn.sides, *top, third_slide="2-3"))
    asked = Fraction(2900 - 300 + 3350)  # the quarter tone below the seventh partial of F 3
    found = {w.tube.name: w for w in ways(drawn, asked) if w.partial == 7}
    assert found["F 3"].error == pytest.approx(18.826 - 16.302, abs=0.01)


def test_rests_are_no_points() -> None:
    found = realised("G4, r, C5")
    assert [p.index for p in found.points] == [0, 2]


def test_least_movement_decides_between_equal_ways() -> None:
    """A written D6 is on several tubes; after B-flat 1-2, in fast notes, the one with the least movement is
    chosen."""
    found = realised("D6, D5, D6", "lasts: 1/4 beat", tempo=240)
    ends = [found.points[0].tube, found.points[2].tube]
    assert ends[0] == ends[1]


@settings(max_examples=40)
@given(
    st.lists(st.integers(36, 88), min_size=1, max_size=6), st.sampled_from(["horn", "trumpet", "trombone", "tuba"])
)
def test_there_is_always_an_answer(keys: list[int], name: str) -> None:
    found = realised(", ".join(spell(Fraction(100 * k)).name for k in keys), instrument=name)
    assert len(found.points) == len(keys)
    assert all(p.tube is not None and p.partial >= 1 for p in found.points)
    assert len(realisation_report(found).points) == len(keys)


def test_the_report_is_as_the_language_page_shows() -> None:
    assert realisation_report(realised("xG4", "technique: half-valve")) == RealisationReport(
        techniques=("half-valve",),
        points=(PointReport(at=Fraction(0), side="F", valves="0", partial=6, cents=2),),
    )


def test_five_hundred_points_take_no_time() -> None:
    """Linear in the points: only a few thousand fingerings are compared."""
    long = gesture(", ".join(["G4", "A^4"] * 250))
    assert len(realise(long).points) == 500


@pytest.mark.parametrize("name", ["trumpet", "cornet", "horn", "horn-f", "euphonium", "tuba", "tuba-eb"])
def test_no_quarter_tone_is_lipped_up_by_more_than_a_little(name):
    """Buckner: lips bend down about half way to the next note, up only a little; what goes up further is told."""
    instrument = instruments.get(name)
    little = instrument.limits["lip_correction_up_cents"].narrow.value
    for one in quarter_tones(instrument):
        if one.correction == "lip" and one.error < 0:
            assert -one.error <= little
        if one.verdict is Verdict.PLAYABLE:
            assert one.error >= -little


def test_a_note_between_two_fingerings_is_lipped_down_from_the_higher():
    """Written C^5 on the trumpet lies as far above valve 1-2's note as below the next: the higher one is taken."""
    for name in ("trumpet", "horn"):
        tones = {one.note.name: one for one in quarter_tones(instruments.get(name))}
        assert tones["C^5"].error > 0
    assert tuning_cost(40.0, 15.0) < tuning_cost(-40.0, 15.0)
    assert tuning_cost(60.0, 15.0) < tuning_cost(-45.0, 15.0)
    assert tuning_cost(-98.0, 15.0) < tuning_cost(169.0, 15.0)  # far away, the nearest is the best available


def test_a_lip_glissando_is_fingered_so_that_the_lip_goes_down() -> None:
    """Open, C#4 would have to be lipped up by a semitone from C4; from 1-2-3 both are lipped down."""
    assert all(
        p.error_cents > 0 for p in realised("C4 -- C#4", "technique: lip-gliss", instrument="trumpet").points
    )
    on_partials = realised("C5 -- D5", "technique: lip-gliss").points
    assert [(p.tube.name, p.partial) for p in on_partials] == [("F 0", 8), ("F 0", 9)]
