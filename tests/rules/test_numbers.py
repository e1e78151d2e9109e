"""Where a limit begins, and how values are computed: changing any number a little makes a test fail.

The limits are those of the instrument, whatever they are; the docstring of each rule and `rules.shared` say what is
done with them.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from rules.checking import checked, figures, findings, horn

from gesturesmith import instruments
from gesturesmith.diagnostics import Severity
from gesturesmith.evidence import DERIVED, HOUSE, PLAYER, PRACTICE, PUBLISHED, Limit, Sourced
from gesturesmith.model.gesture import LEVELS
from gesturesmith.rules.shared import account, limits

HORN = instruments.get("horn")
HEAD = "instrument: horn\npitches: written\ntempo: 60\n\n"


def limit(narrow, wide=None, kind=PUBLISHED, *, source="a page", means=""):
    far = None if wide is None else Sourced(wide, kind, "another page")
    return Limit(Sourced(narrow, HOUSE, source), far, "unit", means)


def value(name):
    return HORN.limits[name].narrow.value


# --- limits -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "measured", "severity"),
    [
        (PUBLISHED, 10, None),
        (PUBLISHED, 10.01, Severity.CAUTION),
        (PUBLISHED, 20, Severity.CAUTION),
        (PUBLISHED, 20.01, Severity.REFUSED),
        (PRACTICE, 20.01, Severity.CAUTION),
        (PRACTICE, 20 * limits.FAR, Severity.CAUTION),
        (PRACTICE, 20 * limits.FAR + 0.01, Severity.REFUSED),
    ],
)
def test_above_and_below_are_the_same_upside_down(kind, measured, severity):
    up = limits.above(limit(10, 20, kind), measured)
    down = limits.below(limit(1 / 10, 1 / 20, kind), 1 / measured)
    assert (up.severity if up else None) == severity
    assert (down.severity if down else None) == severity
    if severity is Severity.REFUSED:
        assert (up.limit, up.evidence.source, up.caveat) == (20, "another page", "")
        assert (down.limit, down.evidence.source, down.caveat) == (1 / 20, "another page", "")
    elif severity is not None:
        assert (up.limit, up.evidence.source) == (10, "a page")
        assert (down.limit, down.evidence.source) == (1 / 10, "a page")


@pytest.mark.parametrize(
    ("there", "named"),
    [
        (limit(10), []),
        (limit(10, 10), []),
        (Limit(Sourced(10, PLAYER, "measured"), Sourced(20, PLAYER, "measured")), []),
        (limit(10, 20), [20]),
        (limit(10, 20, DERIVED), [20]),
        (limit(10, 20, means="beyond 20 nobody has tried"), [20]),
    ],
)
def test_what_the_wide_reading_is_said_to_be(there, named):
    caveat = limits._caveat(there, "up")
    assert figures(caveat) == named
    assert bool(caveat) == bool(named)
    if there.wide is None or there.wide.value > 10:
        assert limits.above(there, 11).caveat == caveat


def test_what_nothing_can_pass_is_said_otherwise_than_what_readings_differ_about():
    own = "beyond 20 nobody has tried"
    said = [
        limits._caveat(there, "up") for there in (limit(10, 20), limit(10, 20, DERIVED), limit(10, 20, means=own))
    ]
    assert len({*said}) == 3
    assert own in said[2]


def test_no_limit_says_nothing():
    assert limits.above(None, 1e9) is None
    assert limits.below(None, -1e9) is None
    assert limits.louder(None, 9) is None
    assert limits.softer(None, -1) is None


def test_levels_only_caution_and_niente_is_no_level():
    for place in (6, Fraction(13, 2)):  # f, and half way to ff
        assert limits.louder(limit("f"), place) is None
    for place in (3, Fraction(5, 2), Fraction(1, 3), 0):  # p, half way to pp, next to niente, niente
        assert limits.softer(limit("p"), place) is None
    for excess, level in (
        (limits.louder(limit("f"), 7), "f"),
        (limits.louder(limit("f"), Fraction(66, 10)), "f"),
        (limits.softer(limit("p"), 2), "p"),
        (limits.softer(limit("p"), Fraction(24, 10)), "p"),
    ):
        assert (excess.severity, excess.limit, excess.evidence.source) == (Severity.CAUTION, level, "a page")


# --- what playing takes -------------------------------------------------------------------------------------


def played(body, repeat=""):
    gestures = "gesture a\n  contour: C5\n  lasts: 4 beats\n  dynamics: mf\n"
    report = checked(f"{HEAD}{gestures}gesture b\n  {body}\npassage p\n  play: {repeat or 'b'}\n")
    return report.passage_cases["p"]


def takes(body):
    return account.effort(played(body).cases[0])


def test_weight_is_register_times_level():
    step, high = value("effort_louder"), value("effort_high")
    mf = LEVELS.index("mf")
    assert account.weight(HORN, "middle", mf) == value("effort_middle")
    assert account.weight(HORN, "high", mf) == high
    assert account.weight(HORN, "high", mf + 2) == pytest.approx(high * (1 + 2 * step))
    assert account.weight(HORN, "high", mf - 1) == pytest.approx(high * max(0.5, 1 - step))
    assert account.weight(HORN, "high", 0) >= high * 0.5
    assert account.weight(HORN, "nowhere", mf) == 1.0


def test_effort_is_seconds_times_weight_and_silence_pays_back():
    plain = takes("contour: C5\n  lasts: 8 beats\n  dynamics: mf")
    high = account.weight(HORN, "high", LEVELS.index("mf"))
    assert plain == pytest.approx(8 * high)
    assert takes("contour: C5, r@2, C5@6\n  lasts: 8 beats\n  dynamics: mf") == pytest.approx(4 * high - 4)
    assert takes("contour: C5, C4@4\n  lasts: 8 beats\n  dynamics: mf") == pytest.approx(
        4 * high + 4 * account.weight(HORN, "middle", LEVELS.index("mf"))
    )
    flutter = takes("technique: flutter-tongue\n  contour: C5\n  lasts: 8 beats\n  dynamics: mf")
    technique = played("technique: flutter-tongue\n  contour: C5\n  lasts: 8 beats").cases[0].gesture.techniques[0]
    factor = technique.effort.value if technique.effort is not None else 1.0
    assert flutter == pytest.approx(plain * factor)


def test_a_technique_that_tires_tires_by_its_factor():
    """Of all techniques at least one has a factor, and it is used."""
    for name in ("brassy", "growl", "shake", "lip-trill", "flutter-tongue"):
        case = played(f"technique: {name}\n  contour: C5\n  lasts: 8 beats\n  dynamics: mf").cases[0]
        effort = case.gesture.techniques[0].effort
        if effort is not None:
            high = account.weight(HORN, "high", LEVELS.index("mf"))
            assert account.effort(case) == pytest.approx(8 * high * effort.value)
            return
    pytest.fail("no technique tires")


def owed(passage):
    return [round(owes, 6) for _, owes, _ in account.account(passage)]


def test_rests_pay_back_at_the_ratio_and_never_more_than_is_owed():
    four = 4 * account.weight(HORN, "high", LEVELS.index("mf"))
    ratio = account.rest_ratio(played("contour: C5"))
    assert ratio == value("rest_ratio")
    after = [four, four - ratio, 2 * four - ratio, 0, four]
    assert owed(played("contour: C5", "a, rest 1, a, rest 60, a")) == pytest.approx(after)


def test_repeats_are_played_as_often_as_they_are():
    four = 4 * account.weight(HORN, "high", LEVELS.index("mf"))
    thrice = played("contour: C5", "a, a\n  repeat: 3")
    assert [item.played for item, _ in account.played_out(thrice)] == ["a"] * 6
    assert owed(thrice) == pytest.approx([four * n for n in range(1, 7)])


def test_a_passage_of_rests_alone_has_a_ratio():
    """It has no instrument: a second pays back a second."""
    passage = played("contour: C5", "a, rest 4")
    rests = type(passage)(passage=passage.passage, cases=(None,) * len(passage.cases))
    assert account.rest_ratio(rests) == 1.0


# --- findings, number by number ---------------------------------------------------------------------------------


def only(text, rule):
    found = [f for f in findings(text, suggestions=True) if f.rule == rule]
    assert len(found) == 1, [f.rule for f in found]
    return found[0]


def number(finding):
    (one,) = finding.numbers
    return one.name, one.value, one.limit, one.unit


def edits(finding):
    return [edit.new.strip() for suggestion in finding.suggestions for edit in suggestion.edits]


def test_a_chromatic_run_is_counted_in_semitones():
    limit = value("chromatic_per_s_middle")
    found = only(horn("technique: chromatic\ncontour: C4 -- C5\nlasts: 1/2 beats"), "run-too-fast")
    assert figures(found.text)[:4] == [12, 0.5, 24, limit]
    assert number(found) == ("notes a second", 24, limit, "notes a second")
    assert edits(found) == ["lasts: 1 beat", "technique: fingered-gliss"]
    slow = Fraction(12) / Fraction(limit)
    enough = findings(horn(f"technique: chromatic\ncontour: C4 -- C5\nlasts: {slow} beats"))
    assert "run-too-fast" not in [f.rule for f in enough]


def test_slurs_are_counted_over_two_changes_of_fingering():
    """The fastest of three notes; two on one fingering are a lip slur and do not concern the fingers."""
    limit = value("chromatic_per_s_high")
    fast = Fraction(1, 16)
    times = (0, 1, 2, 3, 3 + fast, 3 + 2 * fast, 4)
    notes = ("A4", "B4", "D5", "C#5", "D#5", "B4", "D5")
    contour = " __ ".join(f"{note}@{at}" if at else note for note, at in zip(notes, times, strict=True))
    found = only(horn(f"contour: {contour}\nlasts: 5 beats"), "run-too-fast")
    assert figures(found.text)[:2] == [16, limit]
    assert number(found) == ("notes a second", 16, limit, "notes a second")
    assert found.span.column == 12 + contour.index("C#5")
    tongued = contour.replace(" __ ", ", ")
    assert not [f for f in findings(horn(f"contour: {tongued}\nlasts: 5 beats")) if f.rule == "run-too-fast"]
    one_tube = f"C4 __ G4@1 __ C4@{1 + fast} __ G4@{1 + 2 * fast}"
    assert not [f for f in findings(horn(f"contour: {one_tube}\nlasts: 4 beats")) if f.rule == "run-too-fast"]
    vague = contour.replace("D#5", "xD#5")
    assert not [f for f in findings(horn(f"contour: {vague}\nlasts: 5 beats")) if f.rule == "run-too-fast"]


def slurred(*notes):
    """Findings of a run of slurred notes, each with its time in beats."""
    contour = " __ ".join(f"{note}@{at}" if at else note for note, at in notes)
    lasts = notes[-1][1] + 1
    return [f for f in findings(horn(f"contour: {contour}\nlasts: {lasts} beats")) if f.rule == "run-too-fast"]


def group(start, gap, *notes):
    return tuple((note, Fraction(start) + n * gap) for n, note in enumerate(notes))


def test_one_change_of_fingering_is_no_run():
    """Written C4 and G4 stand on one fingering, D4 and D#4 on others: a change to and fro, or on, is counted."""
    fast = Fraction(1, 16)
    assert slurred(*group(0, fast, "C4", "G4", "D4")) == []
    assert slurred(*group(0, fast, "D4", "C4", "G4")) == []
    assert len(slurred(*group(0, fast, "C4", "D4", "C4"))) == 1
    assert len(slurred(*group(0, fast, "C4", "D4", "D#4"))) == 1


@pytest.mark.parametrize("gaps", [(Fraction(1, 16), Fraction(1, 20)), (Fraction(1, 20), Fraction(1, 16))])
def test_the_fastest_run_is_told_wherever_it_stands(gaps):
    """After a slow one, one on a single fingering, and another that is also too fast."""
    first, second = gaps
    found = slurred(
        *group(0, Fraction(1), "C4", "D4", "D#4"),
        *group(4, Fraction(1, 16), "C4", "G4", "C5"),
        *group(6, first, "C4", "D4", "D#4"),
        *group(8, second, "C4", "D4", "D#4"),
    )
    assert [f.numbers[0].value for f in found] == [20]
    assert found[0].severity is Severity.CAUTION
    assert found[0].evidence == HORN.limits["chromatic_per_s_middle"].narrow


def test_what_is_struck_within_a_gesture_is_left_to_it():
    """The rate across gestures is also checked after it."""
    text = (
        f"{HEAD}gesture many\n  technique: double-tongue\n  contour: C5\n  attacks: 4\n  lasts: 1/3 beats\n"
        "gesture quick\n  technique: single-tongue\n  contour: C5\n  lasts: 1/12 beats\n"
        "passage p\n  play: many, rest 2, quick, quick, quick, quick\n"
    )
    found = only(text, "attacks-too-fast")
    assert (found.where, found.numbers[0].value) == ("quick", 12)
    assert found.evidence == HORN.limits["single_tongue_per_s_high"].narrow


def test_attacks_across_gestures():
    """Three attacks make a rate; within one gesture, that gesture's own finding covers it."""
    limit = round(1.5 * value("single_tongue_per_s_high"), 1)  # three are a burst
    single = "technique: single-tongue\n  contour: C5"
    text = (
        f"{HEAD}gesture slow\n  {single}\n  lasts: 1 beat\ngesture quick\n  {single}\n  lasts: 1/12 beats\n"
        "passage p\n  play: slow, slow, quick, quick, slow, slow\n"
    )
    found = only(text, "attacks-too-fast")
    assert found.where == "quick"
    assert figures(found.text)[:2] == [12, limit]
    assert "high register" in found.text
    assert number(found) == ("attacks a second", 12, limit, "attacks a second")
    assert found.span.column == 21
    assert found.severity is Severity.CAUTION
    alone = f"{HEAD}gesture quick\n  {single}\n  lasts: 1/12 beats\npassage p\n  play: quick, quick, rest 1\n"
    assert findings(alone) == []


def test_attacks_across_gestures_lie_where_they_are_struck():
    """The second attack of one gesture and both of the next: 11/12, 1 and 13/12 beats."""
    text = (
        f"{HEAD}gesture late\n  technique: single-tongue\n  contour: C5, C5@11/12\n  lasts: 1 beat\n"
        "gesture early\n  technique: single-tongue\n  contour: C5, C5@1/12\n  lasts: 1 beat\n"
        "passage p\n  play: early, rest 1, late, early\n"
    )
    passage = checked(text).report.passages[0]
    found = [f for f in passage.findings if f.rule == "attacks-too-fast"]
    assert [(f.where, f.numbers[0].value) for f in found] == [("late", 12)]


def test_attacks_of_points_are_averaged_over_two_gaps():
    contour = "C5, D5@1, C5@13/12, D5@7/6, C5@2"
    found = only(horn(f"technique: single-tongue\ncontour: {contour}\nlasts: 4 beats"), "attacks-too-fast")
    assert found.numbers[0].value == 12
    assert found.span.column == 12 + contour.index("D5@1")
    assert edits(found) == ["technique: double-tongue"]
    # One short note among long ones is not a rate.
    assert findings(horn("technique: single-tongue\ncontour: C5, D5@1, C5@13/12, D5@2\nlasts: 4 beats")) == []


def test_fewer_attacks_are_offered():
    found = only(horn("technique: single-tongue\ncontour: C5\nattacks: 9\nlasts: 1 beat"), "attacks-too-fast")
    assert edits(found) == ["attacks: 7", "lasts: 2 beats", "technique: double-tongue"]
    found = only(horn("contour: C5\nattacks: 15\nlasts: 1 beat"), "attacks-too-fast")
    assert edits(found) == ["attacks: 12", "lasts: 2 beats"], "the player tongues as fast as can be already"
    kiss = only(horn("technique: kiss\ncontour: C5\nattacks: 20\nlasts: 1 beat"), "attacks-too-fast")
    assert number(kiss)[1:3] == (20, 3)
    assert edits(kiss) == ["attacks: 3", "lasts: 7 beats"]
    shaped = only(
        horn("technique: single-tongue\ncontour: C5\nattacks: 9 accelerating\nlasts: 1 beat"), "attacks-too-fast"
    )
    assert [words for words in edits(shaped) if words.startswith("attacks")] == ["attacks: 6 accelerating"]
    scoop = only(
        horn("technique: scoop + single-tongue\ncontour: C5\nattacks: 9\nlasts: 1 beat"), "attacks-too-fast"
    )
    assert edits(scoop)[-1] == "technique: scoop + double-tongue"
    single = only(horn("technique: single-tongue\ncontour: C5\nattacks: 9\nlasts: 1 beat"), "attacks-too-fast")
    assert edits(single)[-1] == "technique: double-tongue"
    two = horn("technique: single-tongue\ncontour: C5\nattacks: 2\nlasts: 1/9 beats")
    assert not findings(two), "two attacks are an upbeat and no rate"


@pytest.mark.parametrize(
    ("contour", "lasts", "seconds", "way"),
    [
        ("C5, r@1, C4@2", "30 beats", 28, "lasts: 7 beats"),
        ("C5 breath, C4@2", "30 s", 28, "lasts: 7 s"),
        ("C4, r@28, C5@29", "30 beats", 28, ""),
    ],
)
def test_a_phrase_goes_from_breath_to_breath(contour, lasts, seconds, way):
    """Its litres: seconds times the flow of register and level."""
    found = only(horn(f"contour: {contour}\nlasts: {lasts}\ndynamics: ff"), "breath-too-short")
    litres = seconds * account.air_flow(HORN, "middle", LEVELS.index("ff"))
    breath = value("breath_litres")
    assert number(found) == ("air", pytest.approx(litres), breath, "L")
    assert found.span.column == 12 + contour.index("C4")
    assert edits(found) == ([way] if way else [])


def test_air_that_nobody_has_is_refused():
    """At the least flow any source gives, far beyond the widest breath."""
    breath, least = HORN.limits["breath_litres"].wide.value, value("breath_flow_least")
    most = int(breath * limits.FAR / least)
    just = only(horn(f"contour: C4\nlasts: {most:g} s\ndynamics: pp"), "breath-too-short")
    assert just.severity is Severity.CAUTION
    over = only(horn(f"contour: C4\nlasts: {most + 1:g} s\ndynamics: pp"), "breath-too-short")
    assert over.severity is Severity.REFUSED
    assert number(over) == ("air", pytest.approx((most + 1) * least), breath, "L")


def test_level_between_two_that_a_flow_is_given_for():
    mf, ff, f = (LEVELS.index(level) for level in ("mf", "ff", "f"))
    low, high = value("breath_flow_middle_mf"), value("breath_flow_middle_ff")
    assert account.air_flow(HORN, "middle", f) == pytest.approx(low + (high - low) * (f - mf) / (ff - mf))
    assert account.air_flow(HORN, "middle", len(LEVELS) - 1) == high
    assert account.air_flow(HORN, "middle", 0) == value("breath_flow_middle_pp")
    assert account.air_flow(HORN, "nowhere", f) == 0.0


def test_a_swell_takes_what_lies_on_its_way():
    """From mf to ff, 4 beats: half a step louder each beat; and down to niente no less than the softest weighs."""
    step, high = value("effort_louder"), value("effort_high")
    assert takes("contour: C5\n  lasts: 4 beats\n  dynamics: mf < ff") == pytest.approx(4 * high * (1 + step))
    assert takes("contour: C5, C5@2\n  lasts: 4 beats\n  dynamics: mf < ff@2 > mf") == pytest.approx(
        4 * high * (1 + step)
    )
    # 0.5 from n to p, then even to 1 at mf: at a steady pace three fifths of the time and two.
    assert takes("contour: C5\n  lasts: 5 beats\n  dynamics: mf > n") == pytest.approx(high * (3 * 0.5 + 2 * 0.75))
