"""A report for people: the order and form that composers get used to."""

from dataclasses import replace

from diagnostics.reports import DEMANDS, ERROR, EXERCISE, FINDING, PASSAGE, TEXT, file_report, gesture, report

from gesturesmith.diagnostics import Severity, Verdict, render_text
from gesturesmith.source import Span

EXPECTED = """\
with care: "Beacon", third note (written C6): partial-off-window
    7 |   contour: C5, G5, C6
      |                    ^^ partial 16 on the F side; 3 to 12 speak easily
  try: fingering: Bb 0                (checked: playable)
  why: gesturesmith explain partial-off-window
  study.gesture:7:20  GS211

study.gesture: 2 gestures: 1 playable, 1 with care
"""


def test_a_finding_in_its_fixed_order():
    assert render_text(report(file_report(FINDING)), colour=False) == EXPECTED


def test_a_hint_stands_only_where_nothing_checked_is_offered():
    text = render_text(report(file_report(replace(FINDING, suggestions=()))), colour=False)
    assert "  try:" not in text
    assert "  hint: nearest easy pitch on this side: G5\n" in text


def test_headings_say_the_severity_in_words():
    refused = replace(FINDING, severity=Severity.REFUSED, where="")
    advice = replace(FINDING, severity=Severity.ADVICE, span=Span(8, 3, 5))
    text = render_text(report(file_report(refused, advice)), colour=False)
    assert text.startswith('not as written: "Beacon": partial-off-window\n')
    assert '\nadvice: "Beacon", third note (written C6): partial-off-window\n' in text


def test_an_error_looks_like_a_finding():
    text = render_text(report(file_report(errors=(ERROR,))), colour=False)
    assert text.startswith(
        "cannot be read: beacon: unknown-key\n"
        "    5 |   technique: ordinary\n"
        "      |   ^^^^^^^^^ there is no key “tecnique” in a gesture\n"
        "  did you mean technique?\n"
        "  study.gesture:5:3  GS101\n"
    )
    assert "\nstudy.gesture: 1 error; what could be read was checked\n" in text


def test_all_is_said_in_file_order():
    later = replace(FINDING, span=Span(8, 3, 5), code="GS999")
    text = render_text(report(file_report(later, FINDING, errors=(ERROR,))), colour=False)
    assert text.index("GS101") < text.index("GS211") < text.index("GS999")


def test_passages_and_exercises_are_summed_up():
    text = render_text(report(file_report(passages=(PASSAGE,), exercises=(EXERCISE,))), colour=False)
    assert 'not as written: "Opening calls": plays-refused\n' in text
    assert "  1 passage: 1 not as written\n" in text
    assert text.endswith(
        "  exercises week-one: 12 variants, 5 left out\n"
        "    start 0: too high\n"
        "    start 1: too high\n"
        "    start 2: too high\n"
        "    and 2 more\n"
    )


def with_difficulties(*rows):
    """A file of gestures, each a name, a verdict and a difficulty with the same four reasons."""
    made = tuple(
        replace(gesture(name=name, title=None, verdict=verdict), difficulty=difficulty, demands=DEMANDS)
        for name, verdict, difficulty in rows
    )
    return render_text(report(replace(file_report(), gestures=made)), colour=False)


def test_difficulty_is_summed_up_in_a_line():
    text = with_difficulties(
        ("a", Verdict.PLAYABLE, 37),
        ("b", Verdict.WITH_CARE, 52),
        ("c", Verdict.PLAYABLE, 52),
        ("d", Verdict.NOT_AS_WRITTEN, 90),
    )
    assert "\n  difficulty 37 to 52 of 100; hardest: b (height, level, response)\n" in text
    equal = with_difficulties(("a", Verdict.PLAYABLE, 37), ("b", Verdict.PLAYABLE, 37))
    assert "\n  difficulty 37 of 100; hardest: a (height" in equal
    assert "\n  difficulty 37 of 100 (height, level, response)\n" in with_difficulties(("a", Verdict.PLAYABLE, 37))


def test_what_cannot_be_played_has_no_line_of_difficulty():
    assert "difficulty" not in with_difficulties(("a", Verdict.NOT_AS_WRITTEN, 37))


def test_exercises_tell_from_where_to_where_they_go():
    exercise = replace(EXERCISE, left_out=(), made=2, kept=(("from G4", 15), ("from A4", 12)))
    text = render_text(report(file_report(exercises=(exercise,))), colour=False)
    assert text.endswith("  exercises week-one: 2 variants, difficulty 12 to 15\n")


def test_a_long_message_goes_under_its_caret():
    long = replace(FINDING, text="word " * 40 + "end")
    lines = render_text(report(file_report(long)), colour=False).split("\n")
    assert lines[2] == "      |                    ^^"
    assert all(len(line) <= 116 for line in lines)
    assert lines[4].endswith("end")


def test_colour_only_where_it_is_asked_for():
    assert "\x1b" not in render_text(report(file_report(FINDING, errors=(ERROR,))), colour=False)
    coloured = render_text(report(file_report(FINDING)), colour=True)
    assert coloured.startswith('\x1b[1;33mwith care:\x1b[0m "Beacon"')


def test_nothing_of_the_users_text_reaches_the_terminal_unseen():
    wild = "\x1b]0;title\x07\u202e"
    spoiled = replace(FINDING, text=f"asked {wild}", where=f"note {wild}", hint=wild, suggestions=())
    made = file_report(spoiled, text=TEXT.replace("C5, G5, C6", f"C5, {wild}"))
    titled = replace(made, gestures=(replace(made.gestures[0], title=wild),))
    text = render_text(report(titled), colour=False)
    assert not any(sign in text for sign in "\x1b\x07\u202e")
    assert "<U+202E>" in text


def test_an_endless_line_takes_little_room():
    made = file_report(replace(FINDING, span=Span(1, 1_000_000, 1_000_002)), text="ab " * 700_000)
    assert len(render_text(report(made), colour=False)) < 1000


def test_files_stand_one_after_the_other():
    text = render_text(report(file_report(), file_report()), colour=False)
    assert text.count("study.gesture: 2 gestures") == 2
