"""Tones: beginnings, ends, onsets and properties."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from realise.realised import gesture
from tones.performed import checked, passage, performed, shape, tones

from gesturesmith import instruments, techniques
from gesturesmith.model.gesture import LEVELS, attack_times
from gesturesmith.model.piece import Repeat
from gesturesmith.realise import realise
from gesturesmith.tones import perform, perform_passage
from gesturesmith.tones.clock import FERMATA
from gesturesmith.tones.material import ACCENTS, STROKE_S
from gesturesmith.tones.perform import BREATH_S, STACCATO


def only(contour: str, *more: str, **options):
    (tone,) = tones(contour, *more, **options)
    return tone


def times(found) -> list[tuple[float, float]]:
    return [(round(t.start, 3), round(t.end, 3)) for t in found]


def test_grace_notes_are_heard_as_quick_as_they_are():
    found = tones("D5, G4 grace, A4 grace __ C5@2", "lasts: 3 beats")
    assert times(found) == [(0, 1.8), (1.8, 1.9), (1.9, 2), (2, 3)]
    assert [t.onset for t in found] == ["attack", "attack", "attack", "slur"]


def test_each_repeat_of_a_note_is_heard():
    found = tones("D5, G4@1 eighths, A4@2", "lasts: 3 beats")
    assert times(found) == [(0, 1), (1, 1.5), (1.5, 2), (2, 3)]
    assert {t.onset for t in found} == {"attack"}


def test_a_box_is_repeated_for_all_its_time():
    text = (
        "instrument: trumpet\npitches: written\ntempo: 60\nbox b\n  play: C5 for 1, D5 for 1, rest 1\n  {more}"
        "lasts: 11 s\npassage p\n  play: G4 for 1, b, G4 for 2\n"
    )
    found = checked(text.replace("{more}", "")).passage_cases["p"]
    ways = [(one.gesture, one.realisation) if one is not None else None for one in found.cases]
    whole = perform_passage(found.passage, ways)
    starts = [round(t.start, 3) for t in whole.tones]
    assert starts == [0, 1, 2, 4, 5, 7, 8, 10, 11, 12]
    assert whole.seconds == pytest.approx(14)
    chosen = checked(text.replace("{more}", "play: E5 for 1\n  choose: one\n  ")).passage_cases["p"]
    ways = [(one.gesture, one.realisation) if one is not None else None for one in chosen.cases]
    assert [round(t.start, 3) for t in perform_passage(chosen.passage, ways).tones] == starts


# --- time -------------------------------------------------------------------------------------------------------


def test_notes_last_to_the_next_and_silence_is_silent():
    found = tones("C5, D5@1, r@2, E5@3", "lasts: 4 beats")
    assert times(found) == [(0, 1), (1, 2), (3, 4)]
    assert performed("C5, r@1", "lasts: 3 beats").seconds == 3


@pytest.mark.parametrize("tempo", [40, 60, 72, 133])
def test_beats_are_seconds_at_the_tempo(tempo):
    whole = performed("C5, D5, E5", "lasts: 6 beats", tempo=tempo)
    assert whole.seconds == pytest.approx(6 * 60 / tempo)
    assert sum(t.end - t.start for t in whole.tones) == pytest.approx(6 * 60 / tempo)


def test_seconds_are_seconds_at_any_tempo():
    assert performed("C5 -- D5", "lasts: 7 s", tempo=93).seconds == pytest.approx(7)


@pytest.mark.parametrize(
    ("contour", "more", "onsets"),
    [
        ("C5, D5", (), ["attack", "attack"]),
        ("C5 __ D5, E5", (), ["attack", "slur", "attack"]),
        ("C5 -- D5 -- E5", ("technique: half-valve",), ["attack"]),
        ("C5 -- D5 as growl -- E5", (), ["attack", "continued"]),
        ("C5, r, D5", (), ["attack", "attack"]),
        ("C5 breath __ D5", (), ["attack", "attack"]),
        ("C5 as kiss __ D5 as ordinary", (), ["attack", "attack"]),
        ("xC5, xD5", ("technique: split-attack",), ["split", "split"]),
        ("xC5 __ D5 as ordinary", ("technique: split-attack",), ["split", "slur"]),
    ],
)
def test_how_tones_begin(contour, more, onsets):
    assert [t.onset for t in tones(contour, "lasts: 6 beats", *more)] == onsets


def test_a_line_is_one_tone_through_its_points():
    tone = only("C5 -- D5@1 -- B4@3", "technique: half-valve", "lasts: 4 beats")
    assert shape(tone.pitch) == [(0, 6500), (1, 6700), (3, 6400), (4, 6400)]


@pytest.mark.parametrize("shape", ["", " accelerating", " slowing"])
def test_attacks_come_as_they_are_asked(shape):
    found = tones("C5", f"attacks: 5{shape}", "technique: double-tongue", "lasts: 3 beats")
    asked = attack_times(gesture("C5", f"attacks: 5{shape}", "lasts: 3 beats"))
    assert [t.start for t in found] == pytest.approx([float(a) for a in asked])
    assert all(a.end == b.start for a, b in pairwise(found))
    gaps = [b.start - a.start for a, b in pairwise(found)]
    assert {"": gaps[0] == pytest.approx(gaps[-1]), " accelerating": gaps[0] > gaps[-1]}.get(
        shape, gaps[0] < gaps[-1]
    )


def test_attacks_along_a_line_cut_it_and_do_not_move_it():
    whole = only("G4 -- C5", "technique: half-valve", "lasts: 2 beats")
    cut = tones("G4 -- C5", "technique: half-valve", "attacks: 4", "lasts: 2 beats")
    assert times(cut) == [(0, 0.5), (0.5, 1), (1, 1.5), (1.5, 2)]
    assert all(t.cents_at(t.start) == pytest.approx(whole.cents_at(t.start)) for t in cut)


def test_attacks_in_a_sound_that_goes_on_are_attacks():
    found = tones("G4 -- C5@2 as growl -- G4", "attacks: 8", "lasts: 4 beats")
    assert [t.onset for t in found] == ["attack"] * 4 + ["continued"] + ["attack"] * 3


def test_staccato_is_short_and_a_breath_takes_time_from_its_note():
    short, after = tones("C5 staccato, D5", "lasts: 2 beats")
    assert (short.end, after.start) == (STACCATO.value, 1)
    breath, after = tones("C5 breath, D5", "lasts: 2 beats")
    assert (breath.end, after.start) == (pytest.approx(1 - BREATH_S.value), 1)
    (breath, _) = tones("C5 breath, D5", "lasts: 1/4 beats")
    assert breath.end == pytest.approx(1 / 16), "never more than half of it"


def test_what_is_slurred_on_is_not_short():
    first, second = tones("C5 staccato __ D5 staccato", "lasts: 2 beats")
    assert (first.end, second.end) == (1, 1 + STACCATO.value)


def test_every_attack_of_a_staccato_note_is_short():
    found = tones("C5 staccato", "attacks: 4", "lasts: 2 beats")
    assert [t.end - t.start for t in found] == pytest.approx([0.5 * STACCATO.value] * 4)


def test_time_stands_on_a_fermata():
    whole = performed("C5, D5 fermata, E5", "lasts: 3 beats")
    extra = FERMATA.value
    assert times(whole.tones) == [(0, 1), (1, 2 + extra), (2 + extra, 3 + extra)]
    assert whole.seconds == 3 + extra
    assert [(h.beats, h.seconds) for h in whole.fermatas] == [(2, extra)]


def test_a_fermata_at_the_start_of_a_line_holds_the_pitch_there():
    tone = only("C5 fermata -- D5", "technique: half-valve", "lasts: 2 beats")
    held = 2 * FERMATA.value
    assert shape(tone.pitch) == [(0, 6500), (held, 6500), (held + 2, 6700)]


def test_a_fermata_where_a_line_stops_holds_it_there():
    whole = performed("C5 -- D5 fermata", "technique: half-valve", "lasts: 2 beats")
    (tone,) = whole.tones
    assert shape(tone.pitch) == [(0, 6500), (2, 6700), (whole.seconds, 6700)]
    assert whole.seconds > 2


# --- levels -----------------------------------------------------------------------------------------------------


def place(level: str) -> int:
    return LEVELS.index(level)


def test_a_hairpin_is_even_on_the_scale_of_levels_and_niente_is_nothing():
    tone = only("C5", "lasts: 4 beats", "dynamics: n < mf@2 > n@4")
    assert tone.level == ((0.0, 0.0), (2.0, place("mf")), (4.0, 0.0))


def test_what_gives_no_level_is_mf():
    assert {value for _, value in only("C5", "lasts: 1 beat").level} == {place("mf")}


def test_a_level_holds_to_the_next():
    tone = only("C5", "lasts: 4 beats", "dynamics: p f@2")
    assert tone.level == ((0.0, 3.0), (2.0, 3.0), (2.0, 6.0), (4.0, 6.0))


def test_a_stroke_is_loud_and_leaves_what_it_says():
    tone = only("C5", "lasts: 4 beats", "dynamics: fp")
    assert tone.level == ((0.0, place("f")), (STROKE_S.value, place("p")), (4.0, place("p")))


@pytest.mark.parametrize("mark", ACCENTS)
def test_an_accent_stands_out_and_is_over_soon(mark):
    _, tone = tones(f"C5 p, D5 {mark}", "lasts: 4 beats")
    assert tone.level[0] == (2.0, place("p") + ACCENTS[mark].value)
    assert tone.level[1:] == ((2 + STROKE_S.value, place("p")), (4.0, place("p")))


def test_an_accent_on_a_line_is_a_push_of_air():
    tone = only("C5 p -- D5@2 accent -- C5", "technique: half-valve", "lasts: 4 beats")
    assert shape(tone.level) == [(0, 3), (2, 3), (2, 4), (2 + STROKE_S.value, 3), (4, 3)]


def test_a_fall_gets_softer_and_a_doit_does_not():
    fall, doit = (only("C5 f", f"technique: {t}", "lasts: 2 beats") for t in ("fall", "doit"))
    assert fall.level[-1][1] < fall.level[0][1]
    assert doit.level[-1][1] == doit.level[0][1]


# --- what a tone is made of ---------------------------------------------------------------------------------------


def test_air_has_no_tone_but_keeps_what_is_fingered():
    tone = only("C5", "technique: air", "lasts: 2 beats")
    assert {value for _, value in tone.air} == {1.0}
    assert tone.pitch[0][1] == 6500


def test_breath_goes_over_into_tone_along_a_line_and_at_once_after_a_comma():
    first, second = tones("C5 as air -- C5 as ordinary", "lasts: 2 beats"), tones("C5 as air, C5 as ordinary")
    assert first[0].air == ((0.0, 1.0), (2.0, 0.0))
    assert {value for _, value in second[0].air} == {1.0}
    assert second[1].air == ()


def test_air_and_tone_is_part_of_both():
    tone = only("C5", "technique: air-tone", "lasts: 2 beats")
    assert all(0 < share < 1 for _, share in tone.air)


@pytest.mark.parametrize(("technique", "hz"), [("flutter-tongue", 25.0), ("growl", 25.0)])
def test_rolls_are_as_fast_as_their_limits_say(technique, hz):
    """Half way between the slowest and the fastest of the technique's own `cycles_hz`."""
    slowest, fastest = techniques.get(technique).limits["cycles_hz"].narrow.value
    (roll,) = only("C5 f", f"technique: {technique}", "lasts: 2 beats").rolls
    assert (roll.hz, roll.amount) == ((slowest + fastest) / 2, ((0.0, 1.0), (2.0, 1.0)))
    assert roll.hz == hz


def test_a_roll_comes_in_along_a_line():
    first, second = tones("C5 f -- D5@2 as flutter-tongue", "lasts: 4 beats")
    assert first.rolls[0].amount == ((0.0, 0.0), (2.0, 1.0))
    assert second.rolls[0].amount == ((2.0, 1.0), (4.0, 1.0))


@pytest.mark.parametrize(("technique", "shut"), [("stopped", 1.0), ("half-stopped", 0.5)])
def test_the_hand_shuts_the_bell(technique, shut):
    tone = only("C5", f"technique: {technique}", "lasts: 2 beats")
    assert tone.hand == ((0.0, shut), (2.0, shut))
    assert tone.pitch[0][1] == 6500, "what is written sounds"


def test_a_stopped_note_opens_along_a_line():
    first, second = tones("C5 as stopped -- C5@2 as ordinary, C5", "lasts: 4 beats")[:2]
    assert first.hand == ((0.0, 1.0), (2.0, 0.0))
    assert second.hand == ()


@pytest.mark.parametrize("mute", ["straight", "cup", "harmon"])
def test_a_mute_is_named(mute):
    tone = only("C5", f"mute: {mute}", "lasts: 2 beats")
    assert tone.mute == mute


def test_a_mute_is_in_as_long_as_points_say():
    assert [t.mute for t in tones("C5 as muted, r, C5 as ordinary", "mute: cup", "lasts: 30 beats")] == ["cup", ""]


@pytest.mark.parametrize(
    ("technique", "colour"), [("brassy", "brassy"), ("bells-up", "bell-raised"), ("half-valve", "half-valve")]
)
def test_colours_are_named(technique, colour):
    assert only("xC5 f", f"technique: {technique}", "lasts: 2 beats").colours == (colour,)


NOISES = {"slap-tongue": "slap", "kiss": "kiss", "valve-clicks": "click", "mouthpiece-pop": "pop"}


@pytest.mark.parametrize(("technique", "noise"), NOISES.items())
def test_noises_are_strokes_without_pitch(technique, noise):
    found = tones("low, high", f"technique: {technique}", "band: low", "lasts: 4 beats")
    limits = techniques.get(technique).limits
    shortest = limits["shortest_ms"].narrow.value / 1000 if "shortest_ms" in limits else 1 / 10
    assert [(t.start, t.noise, t.pitch) for t in found] == [(0, noise, ()), (2, noise, ())]
    assert [t.end - t.start for t in found] == pytest.approx([shortest] * 2)


def test_slaps_come_as_often_as_they_are_asked():
    found = tones("low", "technique: slap-tongue", "band: low", "attacks: 6 accelerating", "lasts: 3 beats")
    assert len(found) == 6
    assert all(t.noise == "slap" for t in found)


def test_a_noise_and_a_tone_by_turns():
    assert [t.noise for t in tones("C5, C5 as kiss, C5 as ordinary", "lasts: 3 beats")] == ["", "kiss", ""]


# --- trills and voices --------------------------------------------------------------------------------------------


def test_a_lip_trill_goes_to_the_next_harmonic():
    (wave,) = only("G5", "technique: lip-trill", "fingering: F 0", "lasts: 2 beats").waves
    assert wave.kind == "trill"
    assert [c for _, c in wave.cents] == pytest.approx([1200 * math.log2(13 / 12)] * 2)


def test_a_shake_goes_further_than_a_trill_lower_down():
    (wave,) = only("C5", "technique: shake", "fingering: F 0", "lasts: 2 beats").waves
    assert wave.cents[0][1] == pytest.approx(1200 * math.log2(9 / 8))


def test_a_valve_trill_goes_to_the_note_above():
    (wave,) = only("C5", "technique: valve-trill", "lasts: 2 beats").waves
    assert wave.cents[0][1] == pytest.approx(200, abs=35)


def test_a_stopped_trill_is_as_wide_as_an_open_one():
    for trill in ("valve-trill", "lip-trill"):
        (wave,) = only("C5", f"technique: {trill} + stopped", "lasts: 2 beats").waves
        assert wave.cents[0][1] == pytest.approx(200, abs=35)


def test_a_timbre_trill_stays_on_its_pitch():
    (wave,) = only("C5", "technique: timbre-trill", "lasts: 2 beats").waves
    assert wave.kind == "timbre"
    assert abs(wave.cents[0][1]) <= instruments.get("horn").limits["trill_other_cents"].narrow.value


def test_vibrato_comes_in_along_a_line_and_a_trill_at_its_point():
    first, second = tones("C5 -- C5@2 as vibrato", "lasts: 4 beats")
    assert first.waves[0].cents[0][1] == 0
    assert first.waves[0].cents[-1][1] == second.waves[0].cents[0][1] > 0
    first, second = tones("C5 -- C5@2 as valve-trill", "lasts: 4 beats")
    assert first.waves == ()
    assert second.waves[0].kind == "trill"


def test_a_trill_stays_as_wide_to_the_end_of_its_line():
    first, second = tones("C5 as valve-trill -- D5@2 as ordinary, D5", "lasts: 4 beats")[:2]
    widths = {round(cents) for _, cents in first.waves[0].cents}
    assert len(widths) == 1
    assert second.waves == ()


def test_a_split_tone_has_the_next_partial_beside_it():
    low, high = performed("G4", "technique: split-tone", "fingering: F 0", "lasts: 2 beats").tones
    assert (low.voice, high.voice) == ("played", "second")
    assert high.pitch[0][1] - low.pitch[0][1] == pytest.approx(1200 * math.log2(7 / 6), abs=3)
    assert (low.start, low.end) == (high.start, high.end)


def test_a_sung_line_goes_its_own_way():
    whole = performed("C4", "technique: multiphonic", "sing: G4 -- A4@2 -- G4", "lasts: 4 beats")
    (sung,) = [t for t in whole.tones if t.voice == "sung"]
    assert shape(sung.pitch) == [(0, 6000), (2, 6200), (4, 6000)]


def test_time_stands_once_for_what_is_played_and_sung():
    more = ("technique: multiphonic", "lasts: 2 beats")
    both = performed("C4 fermata", "sing: G4 fermata", *more)
    assert both.seconds == performed("C4 fermata", "sing: G4", *more).seconds
    assert both.seconds == performed("C4", "sing: G4 fermata", *more).seconds == 2 + 2 * FERMATA.value


def test_where_nothing_is_written_a_tenth_is_sung_in_an_octave_of_the_voice():
    low, high = instruments.get("horn").limits["sing_cents"].narrow.value
    for name in ("C3", "C4", "C5", "G5"):
        played, sung = performed(name, "technique: multiphonic", "lasts: 2 beats").tones
        interval = (sung.pitch[0][1] - played.pitch[0][1]) % 1200
        assert interval == pytest.approx(1200 * math.log2(5 / 4), abs=0.1)
        assert low <= sung.pitch[0][1] <= high


# --- passages -----------------------------------------------------------------------------------------------------


TWO = "gesture a\n  contour: C5, D5\n  lasts: 2 beats\ngesture b\n  contour: E5\n  lasts: 1 beat\n"


def test_a_passage_is_its_items_one_after_the_other():
    whole = passage(f"{TWO}passage p\n  play: a, rest 3, b, G4 for 2\n")
    assert [(t.start, t.end, t.gesture) for t in whole.tones] == [
        (0, 1, "a"), (1, 2, "a"), (5, 6, "b"), (6, 8, ""),
    ]  # fmt: skip
    assert whole.seconds == 8


def test_repeats_are_played_out():
    whole = passage(f"{TWO}passage p\n  play: a, b\n  repeat: 3\n")
    assert [t.start for t in whole.tones] == [0, 1, 2, 3, 4, 5, 6, 7, 8]
    assert whole.seconds == 9


def test_a_passage_has_its_own_tempo():
    assert passage(f"{TWO}passage p\n  tempo: 120\n  play: a, b\n").seconds == 1.5


def test_a_level_goes_on_into_what_gives_none():
    whole = passage("passage p\n  play: C5 for 1 p, D5 for 1, E5 for 1 f, F5 for 1\n")
    assert [t.level[0][1] for t in whole.tones] == [3, 3, 6, 6]


def test_a_level_goes_on_to_the_first_that_is_given_and_from_what_a_stroke_leaves():
    gestures = (
        "gesture a\n  contour: C5\n  lasts: 2 beats\n  dynamics: f@1\n"
        "gesture b\n  contour: C5\n  lasts: 2 beats\n  dynamics: fp\n"
    )
    whole = passage(f"{gestures}passage p\n  play: C5 for 1 pp, a, b, G4 for 1\n")
    assert shape(whole.tones[1].level) == [(1, 2), (2, 2), (2, 6), (3, 6)]
    assert whole.tones[-1].level[0][1] == place("p")


def test_a_stretch_may_be_repeated_alone():
    case = checked(f"instrument: horn\npitches: written\n{TWO}passage p\n  play: b, a, b\n").passage_cases["p"]
    ways = [(one.gesture, one.realisation) for one in case.cases]
    again = replace(case.passage, repeats=(Repeat(start=Fraction(1), end=Fraction(3), times=3),))
    assert [t.gesture for t in perform_passage(again, ways).tones] == ["b", *["a", "a"] * 3, "b"]
    assert perform_passage(again, ways).seconds == 8


def test_a_fermata_moves_all_that_comes_after_it():
    whole = passage("gesture a\n  contour: C5 fermata\n  lasts: 1 beat\npassage p\n  play: a, a, G4 for 1\n")
    assert [t.start for t in whole.tones] == [0, 2, 4]
    assert [h.beats for h in whole.fermatas] == [1, 2]
    assert whole.seconds == 5


def test_a_fallback_is_what_is_heard():
    text = (
        "instrument: trumpet\npitches: written\ngesture a\n  technique: stopped\n  contour: C5\n  fallback: growl\n"
    )
    case = checked(text).cases["a"]
    (tone,) = perform(case.gesture, case.realisation).tones
    assert tone.techniques == ("growl",)
    assert tone.hand == ()


def test_a_moved_gesture_is_heard_where_it_is_moved_to():
    whole = passage(f"{TWO}passage p\n  play: a up M2, a down 1\n")
    assert [t.pitch[0][1] for t in whole.tones] == [6700, 6900, 6400, 6600]


def test_nothing_of_a_gesture_is_lost_in_a_passage():
    alone = gesture("C5 -- D5@1, E5@2", "technique: half-valve", "lasts: 4 beats", "dynamics: p < f")
    whole = passage(
        "gesture a\n  technique: half-valve\n  contour: C5 -- D5@1, E5@2\n  lasts: 4 beats\n  dynamics: p < f\n"
        "passage p\n  play: rest 1, a\n"
    )
    by = Fraction(1)
    for one, two in zip(perform(alone, realise(alone)).tones, whole.tones, strict=True):
        assert [(t + by, c) for t, c in one.pitch] == list(two.pitch)
        assert [(t + by, c) for t, c in one.level] == list(two.level)


def test_the_tempo_changes_and_a_rest_is_held():
    text = (
        "instrument: trumpet\npitches: written\ntempo: 60\npassage p\n  play: C5 for 2, accelerando to 120 over 4, "
        "D5 for 2, E5 for 2, F5 for 1, rest 1 fermata, G5 for 1\n  repeat: 2\n"
    )
    found = checked(text).passage_cases["p"]
    whole = perform_passage(found.passage, [(c.gesture, c.realisation) if c else None for c in found.cases])
    half, end = 2 + 4 * math.log(1.5), 2 + 4 * math.log(2)  # 60 + 15 b beats a minute
    once = end + 0.5 + 0.5 * (1 + FERMATA.value) + 0.5
    starts = [0, 2, half, end, once - 0.5]
    assert [t.start for t in whole.tones] == pytest.approx([*starts, *(once + start for start in starts)])
    assert whole.seconds == pytest.approx(2 * once)
