"""Beginnings are announced once, continuations get reminders, ends are cancelled."""

from __future__ import annotations

import re

import pytest

from gesturesmith.score.marks import Script
from gesturesmith.score.technique_state import LONG_REST_BEATS

GESTURES = """
gesture plain
  contour: C5
gesture valve
  technique: half-valve
  contour: xC5
gesture gliss
  technique: fingered-gliss
  contour: G4 ~~ C5
gesture flz
  technique: flutter-tongue
  contour: C5
gesture growled
  technique: growl
  contour: C5
gesture shut
  technique: stopped
  contour: C5
gesture half
  technique: half-stopped
  contour: C5
gesture cup
  technique: muted
  mute: cup
  contour: C5
gesture straight
  technique: muted
  contour: C5
"""


def printed(ly: str, *, apart: bool = False) -> list[str]:
    """The words and spans of a score in order, on one system or (`apart`) with each note on its own system."""
    seen: set[str] = set()
    found = []
    for match in re.finditer(r"""gsSpan "([^"]*)"|gsSay #'\(((?:\("[^"]*" "[^"]*" "[^"]*"\) ?)+)\)""", ly):
        if match[1]:
            found.append(match[1])
            continue
        line = []
        for word, first, later in re.findall(r'\("([^"]*)" "([^"]*)" "([^"]*)"\)', match[2]):
            line.append(later if word in seen and not apart else first)
            seen.add(word)
        found.append(", ".join(w for w in line if w))
    return [w for w in found if w]


def words(engraved, play: str, *, apart: bool = False, more: str = "") -> list[str]:
    return printed(engraved(f"{GESTURES}passage one\n{more}  play: {play}\n")["one"].ly, apart=apart)


def test_a_word_once_and_its_end(engraved):
    assert words(engraved, "valve, valve, plain") == ["½ valve", "ord."]


def test_a_sign_after_the_word(engraved):
    assert words(engraved, "gliss, gliss") == ["valve gliss.", "gliss."]


def test_the_word_again_after_a_system_break(engraved):
    """With each gesture on its own system the word is printed on each, whatever its sign."""
    assert words(engraved, "valve, valve, plain", apart=True) == ["½ valve", "½ valve", "ord."]
    assert words(engraved, "gliss, gliss", apart=True) == ["valve gliss.", "valve gliss."]


def test_a_held_note_says_it_again_in_each_bar_that_may_open_a_system(engraved):
    ly = engraved(
        "gesture long\n  technique: air-tone\n  contour: C5\n  lasts: 12 beats\n"
        "passage one\n  meter: 4/4\n  play: long\n"
    )
    assert printed(ly["one"].ly) == ["air + tone"]
    assert printed(ly["one"].ly, apart=True) == ["air + tone"] * 3


def test_the_end_of_a_gradual_change_is_told(engraved):
    """The arrow's end says what holds from there; a following gesture need not repeat it."""
    text = (
        "gesture one\n  contour: C5 as stopped -- D5@2 as air -- E5\n  lasts: 4 beats\n"
        "gesture two\n  technique: air\n  contour: C5\n"
        "passage all\n  play: one, two\n"
    )
    ly = engraved(text)["all"].ly
    assert printed(ly[ly.index("gsTurn") :]).count("air") == 0


def test_a_span_goes_on_through_what_follows(engraved):
    ly = engraved(f"{GESTURES}passage one\n  play: growled, growled, rest 1, growled\n")["one"].ly
    assert ly.count(r"\gsSpan ") == 2
    assert ly.count(r"\gsSpanEnd") == 2


def test_the_word_again_after_a_long_rest(engraved):
    assert words(engraved, f"valve, rest {LONG_REST_BEATS}, valve") == ["½ valve", "½ valve"]
    assert words(engraved, f"valve, rest {LONG_REST_BEATS - 1}, valve") == ["½ valve"]


def _pair(engraved, one: str, two: str) -> str:
    text = "".join(f"gesture {n}\n  technique: {t}\n  contour: G5\n" for n, t in (("one", one), ("two", two)))
    return engraved(f"{text}passage all\n  play: one, two\n")["all"].ly


def test_what_replaces_needs_no_end(engraved):
    """A lip trill after vibrato, both made by the lips: the new word implies that the old one is over. A growl is
    compatible with a roll of the tongue, so it implies nothing about that."""
    assert printed(_pair(engraved, "vibrato", "lip-trill")) == ["vib.", "lip"]
    assert words(engraved, "flz, growled") == ["flz.", "non flz.", "growl"]
    assert words(engraved, "flz, valve") == ["flz.", "non flz., ½ valve"]


@pytest.mark.parametrize(
    ("first", "second", "expected"),
    [
        ("flutter-tongue + muted", "muted", "non flz."),
        ("flutter-tongue + muted", "flutter-tongue", "senza sord."),
        ("half-valve + flutter-tongue", "flutter-tongue", "valves ord."),
        ("half-valve + flutter-tongue", "half-valve", "non flz."),
        ("air + muted", "muted", "tone"),
        ("vibrato + stopped", "stopped", "non vib."),
        ("multiphonic + muted", "muted", "senza voce"),
        ("flutter-tongue + muted", "ordinary", "ord., senza sord."),
        ("half-valve + flutter-tongue", "ordinary", "ord."),
        ("vibrato + double-tongue", "double-tongue", "ord."),
        ("slap-tongue", "valve-clicks", "valve clicks"),
        ("slap-tongue", "flutter-tongue", "flz."),
        ("half-valve", "timbre-trill", "timbre"),
    ],
)
def test_what_is_over_is_named_where_something_else_is_in_force(first, second, expected, engraved):
    """ "ord." beside another way of playing would end it or contradict it, and what a noise makes way for needs no
    end at all (our own judgement; parts have "non vib.", "senza sord.", "ord.")."""
    contours = {"air + muted": "C5, D5", "slap-tongue": "C5", "valve-clicks": "C5"}
    text = "".join(
        f"gesture {name}\n  technique: {asked}\n  contour: {contours.get(asked, 'C5')}\n"
        for name, asked in (("one", first), ("two", second))
    )
    assert printed(engraved(f"{text}passage all\n  play: one, two\n")["all"].ly)[-1] == expected


@pytest.mark.parametrize(
    ("technique", "contour", "arrows"),
    [
        ("ordinary", "C5 as air -- C5@2 as half-valve -- C5@4", ['"air" "air, ½ valve"']),
        ("flutter-tongue + muted", "C5 -- D5@2 as air -- E5", ['"flz." "flz., air"']),
        ("muted", "C5 -- D5@2 as flutter-tongue -- E5", ['"" "flz."']),
        ("ordinary", "C5 -- D5@2 as flutter-tongue -- E5@4 as air", ['"ord." "flz."', '"flz." "flz., air"']),
        ("muted", "C5 -- D5@2 without muted -- E5", ['"con sord. (straight)" "senza sord."']),
        ("ordinary", "C5 -- D5@2 as muted -- E5", ['"ord." "con sord. (straight)"']),
        (
            "flutter-tongue + muted",
            "C5 -- D5@2 without muted -- E5",
            ['"flz., con sord. (straight)" "flz., senza sord."'],
        ),
        ("vibrato", "C5 -- C5@2 as ordinary -- C5", ['"vib." "ord."']),
        ("lip-trill", "G5 -- G5@2 as ordinary -- G5", ['"lip" "ord."']),
    ],
)
def test_an_arrow_says_at_each_end_all_that_holds_there(technique, contour, arrows, engraved):
    text = f"gesture one\n  technique: {technique}\n  contour: {contour}\n  lasts: 6 beats\n"
    assert re.findall(r'gsTurn ("[^"]*" "[^"]*")', engraved(text)["one"].ly) == arrows


@pytest.mark.parametrize(
    ("technique", "contour", "arrow"),
    [
        ("ordinary", "C5 -- D5@2 as growl -- C5@4", '"ord." ""'),
        ("ordinary", "C5 -- D5 as growl", '"ord." ""'),
        ("ordinary", "C5 -- D5@2 as shake -- C5@4", '"ord." ""'),
        ("growl", "C5 -- D5@2 without growl -- C5@4", '"" "ord."'),
        ("flutter-tongue + growl", "C5 -- D5@2 as ordinary -- C5@4", '"flz." "ord."'),
    ],
)
def test_what_has_a_dashed_line_over_it_is_said_once_where_an_arrow_leads_to_it_or_from_it(
    technique, contour, arrow, engraved
):
    """The arrow points at the word of the dashed line: twice, one above the other, it reads as two things to do."""
    ly = engraved(f"gesture one\n  technique: {technique}\n  contour: {contour}\n  lasts: 6 beats\n")["one"].ly
    assert re.findall(r'gsTurn ("[^"]*" "[^"]*")', ly) == [arrow]
    assert len(re.findall(r'gsSpan "(?:growl|shake)"', ly)) == 1


@pytest.mark.parametrize(
    ("play", "first"),
    [
        ("plain, rest 6, straight", "senza sord."),
        ("plain, flz", "ord."),
        ("flz, plain", "flz."),
        ("cup, rest 6, straight", "con sord. (cup)"),
        ("cup, rest 6, valve", "valves ord., con sord. (cup)"),
        ("plain, rest 6, straight, rest 6, plain", "con sord. (straight)"),
    ],
)
def test_what_holds_at_a_repeat_sign_is_taken_back_where_it_leads_to(play, first, engraved):
    """Otherwise the mute in use at the end would stay in the second time: only "senza sord." ends it."""
    assert words(engraved, play, more="  repeat: 2\n")[0] == first


def test_a_hand_in_the_bell_at_a_repeat_sign_is_opened_where_it_leads_to(engraved):
    text = f"{GESTURES}passage one\n  repeat: 2\n  play: plain, shut\n"
    assert re.findall(r"\\gs(Plus|Open)", engraved(text)["one"].ly) == ["Open", "Plus"]


def test_where_an_arrow_ends_on_another_system_nothing_is_said_twice(engraved):
    text = "gesture one\n  contour: C5 as air -- C5@2 as half-valve -- C5@4\n  lasts: 6 beats\n"
    assert printed(engraved(text)["one"].ly, apart=True)[:1] == ["air, ½ valve"]


@pytest.mark.parametrize(
    ("first", "second", "expected"),
    [
        ("hand-out|G5 -- A5", "lip-gliss|G4 -- C5", ["hand out", "hand in, lip gliss."]),
        ("bells-up|C5", "half-stopped|C5", ["bells up", "bells normal"]),
        ("bells-up|C5", "muted|C5", ["bells up", "bells normal, con sord. (straight)"]),
        ("hand-out|G5 -- A5", "flutter-tongue|C5", ["hand out", "hand in, flz."]),
        ("air|C5", "air-tone|C5", ["air", "air + tone"]),
    ],
)
def test_an_end_with_a_name_of_its_own_is_always_told(first, second, expected, engraved):
    text = "".join(
        f"gesture {name}\n  technique: {asked.split('|')[0]}\n  contour: {asked.split('|')[1]}\n"
        for name, asked in (("one", first), ("two", second))
    )
    assert printed(engraved(f"{text}passage all\n  play: one, two\n")["all"].ly) == expected


def test_ordinary_ends_what_the_gesture_itself_asks_for(engraved):
    """+ over stopped notes, o over the first open one (Read, Stone, Gould); then nothing but ordinary notes."""
    text = "gesture one\n  technique: stopped\n  contour: Bb4, Bb4 as ordinary, Bb4, Bb4 as stopped\n"
    signs = re.findall(r"\\gs(Plus|Open)", engraved(text)["one"].ly)
    assert signs == ["Plus", "Open", "Plus"]


def test_a_mute_that_is_named_is_announced(engraved):
    text = "gesture one\n  mute: plunger\n  contour: C5\n"
    assert printed(engraved(text)["one"].ly) == ["con sord. (plunger)"]


def test_a_mute_that_goes_in_and_out_is_told_each_time(engraved):
    """During a continuing growl. As in parts: con sord., senza sord., again con sord. with its mute."""
    text = (
        "gesture one\n  technique: growl + muted\n  mute: plunger\n"
        "  contour: C5, Eb5 without muted, C5 as muted, Bb4 without muted\n"
    )
    said = printed(engraved(text)["one"].ly)
    assert [w for w in said if w != "growl"] == [
        "con sord. (plunger)", "senza sord.", "con sord. (plunger)", "senza sord.",
    ]  # fmt: skip
    assert engraved(text)["one"].ly.count(r"\gsSpan ") == 1


def test_a_colour_of_the_tone_leaves_the_roll_of_the_tongue(engraved):
    """Three slashes on every stem: cuivré concerns the tone, flz. the tongue."""
    ly = engraved("gesture one\n  technique: flutter-tongue\n  contour: C5, C5 as brassy, C5\n")["one"].ly
    assert ly.count(r"\gsFlutter") == 3
    assert printed(ly) == ["flz.", "cuivré"]


def test_bells_that_rise_leave_the_hand_to_be_opened(engraved):
    text = f"{GESTURES}gesture bells\n  technique: bells-up\n  contour: C5\npassage one\n  play: shut, bells\n"
    assert engraved(text)["one"].ly.count(r"\gsOpen") == 1


def test_where_the_hand_arrives_its_sign_stands_once(engraved):
    """At the end of the arrow; the next note has its own."""
    ly = engraved("gesture one\n  contour: C5 -- E5@2 as stopped, C5@3\n  lasts: 4 beats\n")["one"].ly
    assert r"gsHandTurn #'(open stopped)" in ly
    assert ly.count(r"\gsPlus") == 1


def test_a_hand_that_opens_where_it_begins_to_turn_has_one_sign(engraved):
    text = f"{GESTURES}gesture turned\n  technique: hand-gliss\n  contour: C5 -- B4\n  lasts: 4 beats\n"
    assert r"\gsOpen" not in engraved(f"{text}passage one\n  play: shut, turned\n")["one"].ly


def test_a_hook_needs_no_word_after_it(engraved):
    assert words(engraved, "growled, plain") == ["growl"]


def test_stopped_is_opened_by_its_sign(engraved):
    ly = engraved(f"{GESTURES}passage one\n  play: shut, plain, plain\n")["one"].ly
    assert ly.count(r"\gsPlus") == 1
    assert ly.count(r"\gsOpen") == 1
    ly = engraved(f"{GESTURES}passage one\n  play: shut, half\n")["one"].ly
    assert r"\gsOpen" not in ly


@pytest.mark.parametrize("between", ["", "rest 1, "])
def test_a_hand_in_the_bell_makes_way_for_a_mute_without_being_opened(engraved, between):
    one = engraved(f"{GESTURES}passage one\n  play: shut, {between}straight\n")["one"]
    assert not any(isinstance(mark, Script) and mark.sign == "open" for mark in one.music.marks)
    assert printed(one.ly) == ["con sord. (straight)"]


def test_a_mute_is_announced_in_the_rest_before(engraved):
    ly = engraved(f"{GESTURES}passage one\n  play: plain, rest 6, straight, rest 6, plain\n")["one"].ly
    rests = re.findall(r'r1\n\s+\\gsSay #\'\(\("([^"]*)"', ly)
    assert rests == ["con sord. (straight)", "senza sord."]


def test_a_mute_that_changes_within_a_gesture_is_told_there(engraved):
    """Not in the rest before the gesture, but in a rest inside it."""
    head = f"{GESTURES}gesture out\n  technique: muted\n  contour: C5, "
    tail = "\npassage one\n  play: plain, rest 6, out\n"
    ly = engraved(f"{head}D5 as ordinary{tail}")["one"].ly
    assert re.findall(r"r1\n\s+\\gsSay #\'\((.*)\)", ly) == [
        '("con sord. (straight)" "con sord. (straight)" "con sord. (straight)")'
    ]
    assert re.search(r"d''4\n\s+\\gsSay #'\(\(\"senza sord\.\"", ly)
    ly = engraved(f"{head}r, D5 as ordinary{tail}")["one"].ly
    assert re.search(r"r4\n\s+\\gsSay #'\(\(\"senza sord\.\"", ly)


def test_another_mute_is_named(engraved):
    assert words(engraved, "straight, rest 7, cup") == ["con sord. (straight)", "con sord. (cup)"]


def test_a_gradual_change_is_two_words_and_an_arrow(engraved):
    ly = engraved("gesture one\n  contour: C5 as air -- D5@2 as ordinary -- E5\n  lasts: 4 beats\n")["one"].ly
    assert r'\gsTurn "air" "ord."' in ly
    assert r"\gsTurnEnd" in ly
    assert printed(ly) == []


def test_a_sudden_change_is_two_words(engraved):
    ly = engraved("gesture one\n  contour: C5 as air, D5 as ordinary\n")["one"].ly
    assert printed(ly) == ["air", "ord."]
    assert r"\gsTurn" not in ly


def test_the_word_of_a_line_is_on_the_first_of_lines_that_go_on(engraved):
    """Wave, arrow and arrow are one slide; after a new attack the next slide has its own word."""
    head = "instrument: trombone\npitches: written\n"
    contour = "F3 -- G3@2 -> F3@3 -> G3@4, F3@5 -- G3@6"
    ly = engraved(f"{head}gesture one\n  technique: slide-gliss\n  contour: {contour}\n  lasts: 7 beats\n")[
        "one"
    ].ly
    lines = re.findall(r"gsLine #'\((.*)\)", ly)
    assert [("word" in line) for line in lines] == [True, False, False, True]


def test_the_hand_is_shown_by_its_signs(engraved):
    ly = engraved("gesture one\n  technique: hand-gliss\n  contour: C5 -- B4@1 -- C5@2\n")["one"].ly
    assert re.findall(r"gsHandTurn #'\((.*?)\)", ly) == ["open stopped", "stopped open"]


def test_levels_of_one_layer_do_not_linger(engraved):
    """The mute is named in the language of the page."""
    head = "instrument: horn\npitches: written\nwording: de\n"
    ly = engraved(head + "gesture one\n  technique: muted\n  mute: cup\n  contour: C5\n")["one"].ly
    assert printed(ly) == ["con sord. (Cup)"]


def test_a_hand_that_opens_along_a_glissando_is_shown_once(engraved):
    """`as stopped` and the glissando are the same hand movement."""
    ly = engraved(
        "gesture opening\n  technique: hand-gliss\n  contour: B4 as stopped -- C5@2 as ordinary -- B4\n"
        "  lasts: 4 beats\n"
    )["opening"].ly
    assert re.findall(r"gsHandTurn #'\((\w+ \w+)\)", ly) == ["stopped open", "open stopped"]
    assert ly.count("gsHandTurnEnd") == 2


def test_a_mute_is_taken_out_whatever_comes(engraved):
    """A sign for the hand in the bell does not say that the mute is out."""
    assert words(engraved, "straight, rest 7, shut") == ["con sord. (straight)", "senza sord."]
    assert words(engraved, "shut, rest 7, straight") == ["con sord. (straight)"]


def test_a_long_line_says_it_again_where_it_only_goes_on(engraved):
    """Without bars a line may break between two points of a long contour, where no note begins."""
    ly = engraved("gesture long\n  technique: half-valve\n  contour: xC5 ~~ xD5@20\n  lasts: 24 beats\n")["long"].ly
    assert printed(ly) == ["½ valve"]
    assert len(printed(ly, apart=True)) > ly.count(r"\gsX")


@pytest.mark.parametrize(
    ("lasts", "signs"), [("4 beats", [r"\gsTrillTo"]), ("5 beats", [r"\gsTrillSpanTo", r"\gsTrillSpanEnd"])]
)
def test_a_trill_goes_on_in_waves_over_tied_notes(lasts, signs, engraved):
    text = f"meter: 4/4\ngesture one\n  technique: valve-trill\n  contour: G4\n  lasts: {lasts}\n"
    assert re.findall(r"\\gsTrill\w*", engraved(text)["one"].ly) == signs


@pytest.mark.parametrize(
    ("technique", "goal", "word"), [("lip-gliss", "E5", "lip gliss."), ("hand-gliss", "B4", "hand gliss.")]
)
def test_the_word_of_a_slide_is_not_said_again_when_it_is_over(technique, goal, word, engraved):
    """Tied into the next bar, which may open a system, the arrival is an ordinary note."""
    text = (
        f"meter: 4/4\ngesture one\n  technique: {technique}\n  contour: C5 -- {goal}@{{at}}\n  lasts: 8 beats\n"
        "passage all\n  play: rest 1, one\n"
    )
    assert printed(engraved(text.format(at=2))["all"].ly, apart=True) == [word]
    assert printed(engraved(text.format(at=6))["all"].ly, apart=True) == [word, word]


def test_dots_of_the_tongue_stand_where_it_strikes(engraved):
    ly = engraved("gesture one\n  technique: double-tongue\n  contour: C5 __ D5, E5\n")["one"].ly
    assert ly.count(r"\gsDots") == 2
