"""How the pitch gets from point to point. Expected numbers are arithmetic: partial n is 1200 log2 n cents above the
first (the harmonic series), a half step is 100 cents (equal temperament)."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from realise.realised import gesture
from tones.performed import performed, shape, steady, tones

from gesturesmith import instruments, techniques
from gesturesmith.realise import realise
from gesturesmith.tones import perform
from gesturesmith.tones.pitch import BLUR, DIP


def only(contour: str, *more: str, **options):
    (tone,) = tones(contour, *more, **options)
    return tone


def partial(fundamental: float, n: int) -> float:
    return fundamental + 1200 * math.log2(n)


def even(pitch) -> bool:
    """Whether a curve rises or falls at a constant rate."""
    (start, first), (end, last) = pitch[0], pitch[-1]
    return all(abs(c - first - (last - first) * (t - start) / (end - start)) < 1e-6 for t, c in pitch)


@pytest.mark.parametrize(
    ("technique", "contour"),
    [("half-valve", "xC5 {} xG5"), ("hand-out", "G5 {} C6"), ("bend", "C5 {} B4"), ("hand-gliss", "C5 {} B4")],
)
@pytest.mark.parametrize("line", ["--", "~~", "::", "..", "->", "~~ growing"])
def test_a_slide_is_even_whatever_line_draws_it(technique, contour, line):
    tone = only(contour.format(line), f"technique: {technique}", "lasts: 2 beats")
    assert even(tone.pitch)
    assert (tone.start, tone.end) == (0.0, 2.0)


def test_a_trombone_slides_evenly():
    tone = only("F3 -- D3", "technique: slide-gliss", "lasts: 2 beats", instrument="trombone")
    assert even(tone.pitch)
    assert shape(tone.pitch) == [(0, 5300), (2, 5000)]


def test_a_slide_breaks_where_it_changes_its_partial():
    """From partial 2 to 3: a fifth up, less the tone that is asked for, is how far the slide goes out. Half of it
    is heard on each partial, and the leap half way."""
    tone = only("Bb2 -- C3", "technique: slide-gliss", "lasts: 2 beats", instrument="trombone")
    half = (1200 * math.log2(3 / 2) - 200) / 2
    assert [t for t, _ in tone.pitch] == [0, 1, 1, 2]
    assert [c for _, c in tone.pitch] == pytest.approx([4600, 4600 - half, 4800 + half, 4800])


def test_against_the_grain_every_harmonic_falls_and_the_next_is_higher():
    """F3 in the first position is harmonic 3, Bb4 in the fifth harmonic 10: the slide goes out as far as harmonic
    10 is above Bb4 there. Each harmonic is left where the line is as far from it as from the next."""
    tone = only("F3 -- Bb4", "technique: against-the-grain", "lasts: 4 beats", instrument="trombone")
    pieces = list(zip(tone.pitch[::2], tone.pitch[1::2], strict=True))
    assert len(pieces) == 8
    out = 1200 * math.log2(10 / 3) - 1700
    for (start, first), (end, last) in pieces:
        assert last - first == pytest.approx(-out * (end - start) / 4, abs=2)
    for n, (one, two) in enumerate(pairwise(pieces), start=3):
        (left_at, left), (reached_at, reached) = one[1], two[0]
        assert left_at == reached_at
        assert reached - left == pytest.approx(1200 * math.log2((n + 1) / n), abs=0.1)
        line = 5300 + 1700 * left_at / 4
        assert line - left == pytest.approx(reached - line, abs=2)


def test_harmonics_are_those_of_the_tube():
    one = performed("C4 ~~ C6", "technique: harmonic-gliss", "fingering: F 0", "lasts: 2 beats").tones[0]
    fundamental = instruments.get("horn").tube("F 0").fundamental_cents
    assert steady(one.pitch) == [round(partial(fundamental, n)) for n in range(4, 17)]
    assert all(a[0] == b[0] or a[1] == b[1] for a, b in pairwise(one.pitch)), "steps, and nothing between them"


def test_harmonics_come_when_an_even_slide_would_pass_half_way():
    """The step from n to n + 1, in a sweep of an octave over a second, is at 1/2 log2 n(n + 1) - log2 first."""
    pitch = only("C4 -- C5", "technique: harmonic-gliss", "fingering: F 0", "lasts: 1 beat").pitch
    steps = [a[0] for a, b in pairwise(pitch) if a[0] == b[0]]
    assert steps == pytest.approx([math.log2(n * (n + 1)) / 2 - 2 for n in range(4, 8)], abs=1e-6)


def test_a_sweep_starts_and_lands_on_harmonics():
    """The seventh is a third of a half step flat of what is written."""
    one = gesture("C4 ~~ xBb4", "technique: harmonic-gliss", "fingering: F 0", "lasts: 2 beats")
    played = realise(one)
    pitch = perform(one, played).tones[0].pitch
    assert (pitch[0][1], pitch[-1][1]) == pytest.approx((played.starts_cents, played.lands_cents))
    assert 6300 - pitch[-1][1] == pytest.approx(1000 - 1200 * math.log2(7 / 4))


def test_stopped_harmonics_sound_higher_by_what_the_hand_does():
    plain = only("C4 ~~ C6", "technique: harmonic-gliss", "fingering: F 0", "lasts: 2 beats").pitch
    side = instruments.get("horn").sides[0]
    stopped = only("C#4 ~~ C#6", "technique: harmonic-gliss + stopped", "fingering: F 0", "lasts: 2 beats")
    assert steady(stopped.pitch) == [c + side.stopped_cents.value for c in steady(plain)]
    assert stopped.hand == ((0.0, 1.0), (2.0, 1.0))


def test_a_natural_horn_sweeps_the_harmonics_of_its_crook():
    """In E flat the horn sounds a sixth below what is written, on the harmonics of E flat 1."""
    pitch = only("C4 ~~ C5", "technique: harmonic-gliss", "lasts: 1 beat", instrument="natural-horn-eb").pitch
    assert steady(pitch) == [round(partial(2700, n)) for n in (4, 5, 6, 7, 8)]
    assert instruments.get("natural-horn-eb").sounding.cents == -900


def test_a_chromatic_run_has_every_half_step():
    pitch = only("C4 -- G4", "technique: chromatic", "lasts: 1 beat").pitch
    assert steady(pitch) == [5300 + 100 * n for n in range(8)]


def test_a_run_from_a_quarter_tone_goes_through_the_half_steps():
    pitch = only("C^4 -- E4", "technique: chromatic", "lasts: 1 beat").pitch
    assert steady(pitch) == [5350, 5400, 5500, 5600, 5700]


def test_a_fingered_glissando_has_what_the_fingerings_give():
    """Valves 2 3 on the horn: as long as both, so flat of the tempered note by what each adds to the other."""
    pitch = only("C4 -- G4", "technique: fingered-gliss", "lasts: 1 beat").pitch
    heard = steady(pitch)
    assert len(heard) == 8
    assert (heard[0], heard[-1]) == (5300, 6000)
    assert any(cents % 100 for cents in heard)
    assert all(abs(cents - 5300 - 100 * n) < 50 for n, cents in enumerate(heard))


def test_a_lip_glissando_is_between_a_slide_and_steps():
    pitch = only("C4 -- C5", "technique: lip-gliss", "lasts: 1 beat").pitch
    rests = sum(b[0] - a[0] for a, b in pairwise(pitch) if a[1] == b[1])
    assert rests == pytest.approx(1 - BLUR.value, abs=1e-6)
    assert all(a[0] < b[0] for a, b in pairwise(pitch)), "nothing leaps"


def test_a_bend_without_a_line_goes_down_and_comes_back():
    pitch = only("C5", "technique: bend", "lasts: 3 beats").pitch
    depth = DIP.value * instruments.get("horn").limits["bend_down_middle"].narrow.value
    assert [t for t, _ in pitch] == pytest.approx([0, 1, 2, 3])
    assert (pitch[0][1], pitch[1][1], pitch[3][1]) == (6500, 6500, 6500)
    assert 0 < 6500 - pitch[2][1] <= depth


def test_a_note_beside_the_lines_of_a_glissando_stays_where_it_is():
    *_, alone = tones("G4 -- C5, E5", "technique: lip-gliss", "lasts: 3 beats")
    assert {cents for _, cents in alone.pitch} == {6900}


def test_a_hand_glissando_without_a_line_closes():
    tone = only("C5", "technique: hand-gliss", "lasts: 2 beats")
    assert shape(tone.pitch) == [(0, 6500), (2, 6400)]


def test_the_hand_shuts_as_far_as_the_pitch_falls():
    """Fully closed, a note is a half step above the next partial down (Ericson, ASU)."""
    tone = only("C5 -- B4", "technique: hand-gliss", "fingering: F 0", "lasts: 2 beats")
    whole = 1200 * math.log2(8 / 7) - 100
    assert shape(tone.hand) == [(0, 0), (2, round(100 / whole, 2))]


def test_a_hand_out_of_the_bell_shuts_nothing():
    """Although one of these harmonics is sharp, which the hand would otherwise correct."""
    one = gesture("C3 -- D3@2 -- B2", "technique: hand-out", "lasts: 6 beats")
    played = realise(one)
    assert "hand" in {p.correction for p in played.points}
    assert perform(one, played).tones[0].hand == ()


@pytest.mark.parametrize(
    ("technique", "first"),
    [("scoop", 6500 - 75), ("plop", 6500 + 300), ("rip", 6500 - 700)],
)
def test_an_edge_leads_into_the_note(technique, first):
    tone = only("C5 ff", f"technique: {technique}", "lasts: 2 beats")
    shortest = shortest_s(technique)
    assert tone.pitch[0] == (0.0, first)
    assert tone.pitch[-1] == (2.0, 6500)
    arrives = next(t for t, c in tone.pitch if c == 6500)
    assert arrives == pytest.approx(shortest) if technique != "rip" else shortest / 2 < arrives < shortest


@pytest.mark.parametrize(("technique", "last"), [("fall", 6500 - 300), ("doit", 6500 + 200)])
def test_an_edge_leads_off_the_note(technique, last):
    tone = only("C5", f"technique: {technique}", "lasts: 2 beats")
    assert tone.pitch[0] == (0.0, 6500)
    assert tone.pitch[-1] == (2.0, last)
    assert max(t for t, c in tone.pitch if c == 6500) == pytest.approx(2 - shortest_s(technique))


def shortest_s(technique: str) -> float:
    return techniques.get(technique).limits["shortest_ms"].narrow.value / 1000


def test_a_rip_tears_through_harmonics_and_a_scoop_does_not():
    rip, scoop = (only("C5 ff", f"technique: {t}", "lasts: 2 beats").pitch for t in ("rip", "scoop"))
    assert any(a[0] == b[0] for a, b in pairwise(rip))
    assert not any(a[0] == b[0] for a, b in pairwise(scoop))


def test_a_spill_tumbles_down_harmonics_and_a_fall_slides():
    spill, fall = (only("C5 ff", f"technique: {t}", "lasts: 2 beats").pitch for t in ("spill", "fall"))
    assert any(a[0] == b[0] for a, b in pairwise(spill))
    assert not any(a[0] == b[0] for a, b in pairwise(fall))
    assert spill[-1][1] == 6500 - 1200


def test_a_flip_comes_back_and_a_turn_goes_to_both_sides():
    flip, turn = (only("C5", f"technique: {t}", "lasts: 2 beats").pitch for t in ("flip", "jazz-turn"))
    assert max(c for _, c in flip) == 6500 + 300
    assert flip[-1] == (2.0, 6500)
    assert {c for _, c in turn} == {6500, 6500 + 200, 6500 - 200}


@pytest.mark.parametrize(("technique", "held"), [("fall-at-once", 0.0), ("long-fall", 0.5), ("short-fall", 1.75)])
def test_how_long_a_note_is_held_before_it_falls(technique, held):
    pitch = only("C5", f"technique: {technique}", "lasts: 2 beats").pitch
    assert max(t for t, c in pitch if c == 6500) == pytest.approx(held)


def test_an_edge_never_takes_more_than_half_of_its_note():
    tone = only("C5", "technique: scoop", "lasts: 1/8 beats")
    assert next(t for t, c in tone.pitch if c == 6500) == pytest.approx(1 / 16)


def test_only_what_is_tongued_has_an_edge_into_it_and_only_the_end_one_off_it():
    first, second = tones("C5 __ E5", "technique: scoop + fall", "lasts: 2 beats")
    assert first.pitch[0][1] < 6500
    assert first.pitch[-1][1] == 6500
    assert second.pitch[0][1] == 6900
    assert second.pitch[-1][1] < 6900


@pytest.mark.parametrize(
    ("name", "cents"), [("C^5", 6550), ("Cv5", 6450), ("C5+31c", 6531), ("C5-14c", 6486), ("F#^5", 7150)]
)
def test_quarter_tones_and_cents_sound_as_they_are_written(name, cents):
    tone = only(name, "technique: quarter-tones", "lasts: 1 beat")
    assert tone.pitch[0][1] == cents


def test_a_written_part_sounds_transposed_and_a_sounding_one_does_not():
    assert only("C5", "lasts: 1 beat").pitch == only("F4", "lasts: 1 beat", pitches="sounding").pitch
    assert only("C5", "lasts: 1 beat", instrument="trumpet").pitch[0][1] == 7000
    assert only("C5", "lasts: 1 beat", instrument="trumpet-c").pitch[0][1] == 7200


def test_a_note_no_tube_gives_sounds_as_the_tube_has_it():
    """With a composer's fingering out of the lip's reach, the horn sounds its partial."""
    one = gesture("C#5", "fingering: F 0", "lasts: 1 beat")
    played = realise(one)
    (point,) = played.points
    assert abs(point.error_cents) > 50
    assert not point.correction
    assert perform(one, played).tones[0].pitch[0][1] == pytest.approx(6600 + point.error_cents)
