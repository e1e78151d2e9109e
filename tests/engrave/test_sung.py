"""A sung line beside dynamics that fall between the played notes: both have their place."""


def test_a_sung_line_with_dynamics_of_its_own_track(engraved):
    text = "instrument: horn\npitches: written\ngesture a\n  technique: multiphonic\n  contour: F3\n"
    made = engraved(text + "  sing: C4 -- D4\n  dynamics: n < mf > n\n  lasts: 4 beats\n")
    assert r"\new Voice" in made["a"].ly
    assert r"\mf" in made["a"].ly
