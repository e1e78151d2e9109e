"""A sung line with dynamics that fall between the played notes: both have their place."""


def test_a_sung_line_with_dynamics_of_its_own_track(engraved):
    text = "instrument: horn\npitches: written\ngesture a\n  technique: multiphonic\n  contour: F3\n"
    made = engraved(text + "  sing: C4 -- D4\n  dynamics: n < mf > n\n  lasts: 4 beats\n")
    assert r"\new Voice" in made["a"].ly
    assert r"\mf" in made["a"].ly


def test_notes_that_meet_on_one_line_have_an_accidental_each(engraved):
    """A single flat before two heads on one line could belong to either; otherwise nothing is added."""
    head = "instrument: horn\npitches: written\n"
    gesture = "gesture a\n  technique: multiphonic\n  contour: {}\n  sing: {}\n  lasts: 4 beats\n"
    made = engraved(head + gesture.format("E3", "Eb3"))["a"].ly
    assert "e!1" in made
    assert "ef!1" in made
    assert "!" not in engraved(head + gesture.format("E3", "G3"))["a"].ly
    made = engraved(head + gesture.format("E3, F3", "A3, Eb3"))["a"].ly
    assert "!" not in made


def test_what_is_sung_has_its_head_where_a_point_turns_to_singing(engraved):
    """The footnote mentions the diamond, wherever in the gesture the voice comes in."""
    ly = engraved("gesture a\n  contour: C4, D4 as multiphonic\n  sing: r, A4@1\n  lasts: 2 beats\n")["a"].ly
    assert ly.count(r"\gsDiamond") == 1
