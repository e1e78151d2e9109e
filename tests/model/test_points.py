"""Resolved points: how they are reached, their height, techniques and words."""

from fractions import Fraction

import pytest

from gesturesmith import instruments
from gesturesmith.model.gesture import attack_times
from gesturesmith.model.levels import level_at
from gesturesmith.units import Spelling, spell

F = Fraction

HORN = instruments.get("horn")


def name(cents):
    """The written name of a sounding pitch on the horn."""
    return spell(cents - HORN.sounding.cents).name


# contour -> how each point is reached, with h for a held arrival and s for a line that stops
REACHED = {
    "G4": "attack",
    "G4, C5": "attack attack",
    "G4 __ C5": "attack slur",
    "G4 ~~ C5": "attack line-s",
    "G4 ~~ C5@3": "attack line-h",
    "G4 ~~ C5@4": "attack line-s",
    "G4 ~~ C5 ~~ D5": "attack line line-s",
    "G4 ~~ C5, D5": "attack line-h attack",  # the arrival rests until the next attack
    "G4 ~~ C5, r": "attack line-h silence",
    "G4 ~~ C5 __ D5": "attack line-h slur",
    "r, G4": "silence attack",
    "G4, r, C5": "attack silence attack",
    "G4 -> C5": "attack line-s",
    "G4 :: C5": "attack line-s",
    "G4 .. C5": "attack line-s",
}


@pytest.mark.parametrize(("contour", "expected"), REACHED.items())
def test_how_points_are_reached(gesture, contour, expected):
    made = gesture(f"contour: {contour}", "lasts: 4 beats")
    assert " ".join(p.reached + "-h" * p.held + "-s" * p.stops for p in made.points) == expected


def test_lines_keep_their_kind_and_growth(gesture):
    made = gesture("contour: G4 -- A4 ~~ growing B4 :: C5 .. D5 -> E5 __ F5, G5 ~~ fading A5")
    assert [(s.kind, s.growth) for s in made.segments] == [
        ("straight", ""), ("wavy", "growing"), ("broken", ""), ("dotted", ""), ("arrow", ""), ("slur", ""),
        ("none", ""), ("wavy", "fading"),
    ]  # fmt: skip
    assert [s.slides for s in made.segments] == [True] * 5 + [False, False, True]


def test_a_written_pitch_sounds_a_fifth_lower_on_the_horn(gesture):
    (point,) = gesture("contour: F#^4").points
    assert point.pitch.written == Spelling("F", F(3, 2), 4)
    assert point.pitch.sounding == Spelling("B", F(1, 2), 3)
    assert point.sounding_cents == 5950  # B3 quarter sharp
    assert point.kind == "pitch"
    assert not point.about


def test_cents_are_kept(gesture):
    (point,) = gesture("contour: C4+31c").points
    assert point.pitch.written.name == "C4+31c"
    assert point.pitch.sounding.name == "F3+31c"
    assert point.sounding_cents == 5331


def test_an_x_makes_a_pitch_approximate(gesture):
    made = gesture("contour: xG4 ~~ C5")
    assert [(p.kind, p.about) for p in made.points] == [("pitch", True), ("pitch", False)]


@pytest.mark.parametrize(
    ("height", "percent", "cents"),
    [("low", 0, 6000), ("mid", 50, 6500), ("high", 100, 7000), ("35%", 35, 6350), ("12.5%", F(25, 2), 6125)],
)
def test_heights_divide_the_band_in_cents(gesture, height, percent, cents):
    """Written G4..F5 sounds C4..Bb4: 6000 to 7000 cents."""
    (point,) = gesture(f"contour: {height}", "band: G4..F5").points
    assert (point.kind, point.percent, point.sounding_cents, point.about) == ("height", percent, cents, True)
    assert point.pitch is None


@pytest.mark.parametrize("register", ["low", "middle", "high", "top"])
def test_a_register_is_a_band_of_the_instrument(gesture, register):
    made = gesture("contour: low, high", f"band: {register}")
    limits = HORN.register(register)
    assert (made.band.register, made.band.low.written, made.band.high.written) == (
        register,
        limits.low,
        limits.high,
    )
    assert [name(p.sounding_cents) for p in made.points] == [limits.low.name, limits.high.name]


def test_highest_and_lowest_are_the_edges_of_the_usual_range(gesture):
    made = gesture("contour: highest, lowest")
    low, high = HORN.usual_range.value
    assert [(p.kind, p.extreme, p.sounding_cents, p.about) for p in made.points] == [
        ("extreme", "highest", high, True),
        ("extreme", "lowest", low, True),
    ]


def test_silence_has_no_pitch(gesture):
    made = gesture("contour: G4, r")
    assert made.points[1].sounding_cents is None
    assert made.sounding_points == made.points[:1]


# technique, contour -> the techniques in force at each point
IN_FORCE = [
    (None, "G4, C5", ["ordinary", "ordinary"]),
    ("stopped", "G4, C5", ["stopped", "stopped"]),
    ("stopped + growl", "G4", ["growl stopped"]),
    (None, "G4 as air -- C5", ["air", "air"]),
    (None, "G4, C5 as air", ["ordinary", "air"]),
    ("stopped", "C5 as air -- C5@2 without air -- C5@4", ["air stopped", "stopped", "stopped"]),
    ("stopped", "C5 as air -- C5@2 as ordinary -- C5@4", ["air stopped", "ordinary", "ordinary"]),
    ("stopped", "Bb4, Bb4 as ordinary, Bb4", ["stopped", "ordinary", "ordinary"]),  # the gesture's own ends as well
    ("stopped", "Bb4, Bb4 without stopped, Bb4 as stopped", ["stopped", "ordinary", "stopped"]),
    ("stopped", "G4 as muted, A4 as ordinary", ["muted", "ordinary"]),  # the same layer: one for the other
    ("stopped + growl", "G4, A4 without growl, B4 as growl without stopped", ["growl stopped", "stopped", "growl"]),
    ("stopped", "G4, r as ordinary, A4", ["stopped", "ordinary", "ordinary"]),
    # A line keeps sliding the way it did; a way of moving the pitch ends with its lines.
    ("lip-gliss + growl", "E5 -- C5 as ordinary -- D5, E5",
     ["growl lip-gliss", "lip-gliss", "lip-gliss", "ordinary"]),
    ("bend", "E5, F5 as ordinary", ["bend", "ordinary"]),
    ("lip-gliss", "E5 -- C5 without lip-gliss -- D5", ["lip-gliss", "ordinary", "ordinary"]),
    (None, "G4 as air, A4 as flutter-tongue", ["air", "air flutter-tongue"]),
    (None, "G4 as air, A4 as brassy", ["air", "brassy"]),
    (None, "G4 as air, A4 as stopped, B4", ["air", "air stopped", "air stopped"]),  # layers add up
    (None, "G4 as air, A4 as stopped, B4 as ordinary", ["air", "air stopped", "ordinary"]),
    ("growl", "G4 as stopped, A4 as flutter-tongue, B4 as ordinary, C5 as muted",
     ["growl stopped", "flutter-tongue growl stopped", "ordinary", "muted"]),
]  # fmt: skip


@pytest.mark.parametrize(("technique", "contour", "expected"), IN_FORCE)
def test_techniques_in_force(gesture, technique, contour, expected):
    made = gesture(f"contour: {contour}", *([f"technique: {technique}"] if technique else []))
    assert [" ".join(sorted(t.key for t in p.techniques)) for p in made.points] == expected


def test_what_an_as_turns_to_is_kept(gesture):
    made = gesture("contour: C5 as air -- D5 as ordinary -- E5")
    assert [p.turns_to for p in made.points] == [("air",), ("ordinary",), ()]
    assert [t.key for t in made.techniques] == ["ordinary"]


def test_marks_and_dynamics_at_points(gesture):
    made = gesture("contour: G4 accent ff, A4 staccato tenuto, B4@2 as air p", "lasts: 4 beats")
    assert [p.marks for p in made.points] == [("accent",), ("staccato", "tenuto"), ()]
    assert [p.dynamic for p in made.points] == ["ff", "", "p"]
    assert [(m.level, m.at, m.join) for m in made.dynamics] == [("ff", 0, ""), ("p", 2, "")]
    assert [level_at(made, F(x)) for x in (0, 1, 2, 3)] == ["ff", "ff", "p", "p"]


# dynamics of four beats -> level@time joins
DYNAMICS = {
    "ff": "ff@0",
    "f@2": "f@2",
    "n < mf": "n@0< mf@4",
    "p < f@3 > p": "p@0< f@3> p@4",
    "p < f > p": "p@0< f@2> p@4",
    "p f": "p@0 f@2",
    "p@1 < f": "p@1< f@4",
    "p < f@4": "p@0< f@4",
    "sfz p < f": "sfz@0 p@2< f@4",
    "p < mf < f@3": "p@0< mf@3/2< f@3",
}


@pytest.mark.parametrize(("dynamics", "expected"), DYNAMICS.items())
def test_dynamics_share_the_time(gesture, dynamics, expected):
    made = gesture("contour: G4", "lasts: 4 beats", f"dynamics: {dynamics}")
    assert " ".join(f"{m.level}@{m.at}{m.join}" for m in made.dynamics) == expected


def test_dynamics_in_seconds(gesture):
    made = gesture(
        "contour: G4", "lasts: 4 s", "dynamics: p < f@3", top="instrument: horn\npitches: written\ntempo: 90\n"
    )
    assert [m.at for m in made.dynamics] == [0, F(9, 2)]


@pytest.mark.parametrize(
    ("fingering", "tubes"),
    [("F 1-2", ("F 1-2",)), ("Bb 0, F 2-1, 3", ("Bb 0", "F 1-2", "3")), ("1-2", ("1-2",)), ("long 3", ("long 3",))],
)
def test_fingerings_as_tubes_are_named(gesture, fingering, tubes):
    made = gesture("contour: G4, A4, B4", f"fingering: {fingering}")
    assert (made.fingering.mode, made.fingering.tubes) == ("given", tubes)


@pytest.mark.parametrize("fingering", ["F 0, F 1", "F 0, F 2, F 1"])
def test_fingerings_count_sounding_points(gesture, fingering):
    """A silence needs none; one written for it anyway belongs to no sound."""
    made = gesture("contour: G4, r, A4", f"fingering: {fingering}")
    assert made.fingering.tubes == ("F 0", "F 1")


@pytest.mark.parametrize("mode", ["auto", "held"])
def test_fingering_modes(gesture, mode):
    assert gesture("contour: G4", f"fingering: {mode}").fingering.mode == mode


def test_the_mute_is_straight_where_none_is_named(gesture):
    assert gesture("contour: G4", "technique: muted").mute == "straight"
    assert gesture("contour: G4, A4 as muted").mute == "straight"
    assert gesture("contour: G4", "technique: muted", "mute: cup").mute == "cup"
    assert gesture("contour: G4").mute is None


def test_the_sung_line_has_its_own_points_in_the_same_time(gesture):
    made = gesture("contour: F3", "technique: multiphonic", "sing: C4 -- D4@2 -- C4", "lasts: 4 beats")
    assert [(p.pitch.written.name, p.at) for p in made.sing.points] == [("C4", 0), ("D4", 2), ("C4", 4)]
    assert [s.kind for s in made.sing.segments] == ["straight", "straight"]
    assert made.sing.points[-1].stops


def test_everything_else_of_a_block(gesture):
    made = gesture(
        "contour: G4", "attacks: 8 slowing", "fallback: chromatic", 'text: "lazily"', 'footnote: "One."',
        'note: "Two."', "notehead: diamond", 'allow: outside-range "agreed"',
    )  # fmt: skip
    assert (made.attacks.count, made.attacks.shape, made.fallback) == (8, "slowing", "chromatic")
    assert (made.text, made.footnote, made.note, made.notehead) == ("lazily", "One.", "Two.", "diamond")
    assert [(a.rule, a.reason) for a in made.allows] == [("outside-range", "agreed")]
    assert made.spans["attacks"].line == 5
    assert made.span_of("band") == made.span


def test_what_is_not_written_has_its_default(gesture):
    made = gesture("contour: G4")
    assert [t.key for t in made.techniques] == ["ordinary"]
    assert (made.band, made.dynamics, made.attacks, made.sing, made.fallback) == (None, (), None, None, None)
    assert (made.text, made.footnote, made.note, made.notehead, made.allows) == (None, None, None, "auto", ())
    assert (made.fingering.mode, made.fingering.tubes, made.in_seconds, made.tempo) == ("auto", (), False, 60)
    assert level_at(made, F(0)) == "mf"


# -- what engraving and rules read of a gesture ------------------------------------------------------------


def test_the_pitch_along_a_contour(gesture):
    made = gesture("contour: G4 ~~ D5@2, C5@3, r@7/2", "lasts: 4 beats")
    expected = {0: 6000, 1: 6350, 2: 6700, F(5, 2): 6700, 3: 6500, F(7, 2): None, 4: None}
    assert {at: made.cents_at(F(at)) for at in expected} == expected


def test_the_pitch_where_a_line_stops(gesture):
    made = gesture("contour: G4 ~~ D5", "lasts: 4 beats")
    assert [made.cents_at(F(at)) for at in (0, 1, 4)] == [6000, 6175, 6700]


def test_which_segments_slide(gesture):
    made = gesture("contour: G4 ~~ D5, C5 __ E5 -- F5")
    assert [(a.pitch.written.name, b.pitch.written.name, s.kind) for a, b, s in made.slides] == [
        ("G4", "D5", "wavy"),
        ("E5", "F5", "straight"),
    ]


def test_techniques_at_a_time(gesture):
    made = gesture("contour: G4, A4@2 as air, B4@3 as ordinary", "lasts: 4 beats")
    assert [made.techniques_at(F(t))[0].key for t in (0, 1, 2, F(5, 2), 3, 4)] == [
        "ordinary", "ordinary", "air", "air", "ordinary", "ordinary",
    ]  # fmt: skip


HELD = {
    "G4": "G4",
    "G4 ~~ D5": "",
    "G4 ~~ D5@1": "D5",
    "G4, r, D5 __ E5": "G4 D5 E5",
    "G4 ~~ A4 ~~ B4, C5": "B4 C5",
}


@pytest.mark.parametrize(("contour", "expected"), HELD.items())
def test_held_points_rest_on_their_pitch(gesture, contour, expected):
    made = gesture(f"contour: {contour}", "lasts: 4 beats")
    assert " ".join(p.pitch.written.name for p in made.held_points) == expected


# -- attacks ---------------------------------------------------------------------------------------------------

EVEN, SLOWER = (
    [F(0), F(1), F(2), F(3)],
    [F(0), F(1, 2), F(4, 3), F(5, 2)],
)  # gaps as 1 : 5/3 : 7/3 : 3 of four beats


# The language page, `attacks`: as many as there are separate notes, each note is one, spaced by the shape.
@pytest.mark.parametrize(
    ("contour", "attacks", "at"),
    [
        ("G4, A4, Bb4, C5", "4", EVEN),
        ("G4, A4, Bb4, C5", "4 slowing", SLOWER),
        ("G4, A4, Bb4, C5", "4 accelerating", [4 - t for t in (F(4), F(5, 2), F(4, 3), F(1, 2))]),
        ("G4, A4, Bb4@2, C5", "4", EVEN),
        ("G4, r, Bb4, C5", "3 slowing", SLOWER),
        ("G4, A4 __ Bb4, C5", "3 slowing", SLOWER),
        ("G4 -- A4, Bb4, C5", "3 slowing", SLOWER),
    ],
)
def test_each_separate_note_is_an_attack(gesture, contour, attacks, at):
    made = gesture(f"contour: {contour}", f"attacks: {attacks}", "lasts: 4 beats")
    assert [p.at for p in made.points] == at
    assert list(attack_times(made)) == [p.at for p in made.points if p.reached == "attack"]
    assert [p.until for p in made.points] == [*at[1:], 4]


# All on one sound, and none in a silence.
@pytest.mark.parametrize(
    ("contour", "times"),
    [
        ("G4", [0, 1, 2, 3]),
        ("G4 ~~ C5", [0, 1, 2, 3]),
        ("G4, r@2", [F(0), F(1, 2), F(1), F(3, 2)]),
        ("r, G4@2", [F(2), F(5, 2), F(3), F(7, 2)]),
    ],
)
def test_attacks_of_one_sound_lie_where_it_sounds(gesture, contour, times):
    assert list(attack_times(gesture(f"contour: {contour}", "attacks: 4", "lasts: 4 beats"))) == times


@pytest.mark.parametrize(
    ("technique", "contour", "expected"),
    [
        (None, "C5, D5", ["muted", "muted"]),
        ("growl", "C5, D5 without muted", ["growl muted", "growl"]),
        ("muted", "C5, D5", ["muted", "muted"]),
        (None, "C5, D5 as muted", ["ordinary", "muted"]),  # the points say when it is in
    ],
)
def test_a_mute_that_is_named_is_in(gesture, technique, contour, expected):
    keys = [f"contour: {contour}", "mute: plunger", *([f"technique: {technique}"] if technique else [])]
    made = gesture(*keys)
    assert [" ".join(sorted(t.key for t in p.techniques)) for p in made.points] == expected
    assert made.mute == "plunger"
