"""A gesture divided in two: at a breath, a silence, a break of the slide, a change of technique."""

import pytest
from rules.checking import checked

from gesturesmith.diagnostics.edits import apply_edits
from gesturesmith.fixes.divide import cuts
from gesturesmith.fixes.tester import EditTester
from gesturesmith.judge.gesture import judge
from gesturesmith.model.reading import read
from gesturesmith.source import Source

HEAD = "instrument: {}\npitches: written\ntempo: 60\n\n"
PLAY = "\n\npassage all\n  play: call, rest 2, other,\n    call up M2, C4 for 1\n\ngesture other\n  contour: C4\n"


def divided(body, instrument="horn", number=0):
    """The text of a file with the gesture `call` and a passage, divided at its best place, or the next best."""
    rows = "\n".join(f"  {line}" for line in body.split("\n"))
    text = f'{HEAD.format(instrument)}gesture call "Call"  # a remark\n{rows}{PLAY}'
    source = Source("a", text)
    reading = read(source)
    assert not reading.errors
    piece = reading.piece
    judged = {g.name: judge(g) for g in piece.gestures}
    tester = EditTester(reading.tree, piece.settings, source.lines, judged)
    case = judged["call"].case
    made = tester.divider.divided(tester.block("call"), case.gesture, cuts(case)[number])
    assert made is not None
    edits = [*made.edits, *(e for edits in made.others.values() for e in edits)]
    return "\n".join(apply_edits(source.lines, edits)), case.gesture, made


def halves(text):
    made = checked(text)
    return [made.cases[f"call-{n}"].gesture for n in (1, 2)], made


def key(text, name, half):
    """The value of a key in one half."""
    block = text.split(f"gesture call-{half}")[1].split("\n\n")[0]
    return next((line.split(": ", 1)[1] for line in block.split("\n") if line.strip().startswith(f"{name}:")), None)


@pytest.mark.parametrize(
    ("body", "first", "second", "instrument"),
    [
        ("contour: C4, D4 breath, E4, F4, G4", "C4, D4", "E4, F4, G4", "horn"),
        ("contour: C4, D4, E4, F4", "C4, D4", "E4, F4", "horn"),
        ("contour: C4, D4, r, E4", "C4, D4", "E4", "horn"),
        ("contour: Bb2 -- F3 -- E3\ntechnique: slide-gliss", "Bb2", "F3 -- E3", "trombone"),
        ("contour: C5 ~~ E5 -- G5@3\nlasts: 4 beats", "C5 ~~ E5", "E5 -- G5@1.5", "horn"),
        ("contour: C5 as air, D5, E5 as ordinary, F5, G5", "C5 as air, D5", "E5, F5, G5", "horn"),
        ("contour: C4, D4, E4 without growl, F4\ntechnique: growl", "C4, D4", "E4, F4", "horn"),
        ('contour: C4 "far", D4 say "f" breath, E4 inhale', 'C4 "far", D4 say "f"', "E4 inhale", "horn"),
        ("contour: C5 accent, D5 tenuto@3, E5\nlasts: 6 beats", "C5 accent", "D5 tenuto, E5", "horn"),
    ],
)
def test_where_it_is_divided(body, first, second, instrument):
    text, whole, _ = divided(body, instrument)
    assert key(text, "contour", 1) == first
    assert key(text, "contour", 2) == second
    (one, two), made = halves(text)
    assert 'gesture call-1 "Call 1"  # a remark' in text
    assert two.title == "Call 2"
    assert {p.cents for g in (one, two) for p in (q.pitch for q in g.points) if p} == {
        p.pitch.cents for p in whole.points if p.pitch
    }
    played = [i.played for i in made.passage_cases["all"].passage.items if i.played]
    assert played == ["call-1", "call-2", "other", "call-1", "call-2"]


@pytest.mark.parametrize(
    "body",
    [
        "contour: C4, D4 breath, E4, F4, G4",
        "contour: C4@0, D4@1/3, E4@5, F4@6\nlasts: 7 beats",
        "contour: C5 -- D5, E5 ~~ F5 ~~ G5\nlasts: 9 beats",
        "contour: C5 __ D5, E5, G5\nlasts: 5 s",
        "contour: C4, D4, r, E4\nlasts: 8 beats",
    ],
)
def test_the_time_stays_as_it_was(body):
    text, whole, _ = divided(body)
    (one, two), made = halves(text)
    items = made.passage_cases["all"].passage.items
    start = next(i.at for i in items if i.played == "call-2")
    times = [p.at for p in one.points if p.kind != "silence"]
    times += [start + p.at for p in two.points]
    assert list(dict.fromkeys(times)) == [p.at for p in whole.points if p.kind != "silence"]
    assert start + two.beats == whole.beats


@pytest.mark.parametrize(
    ("dynamics", "first", "second"),
    [
        ("p < f", "p < mf", "mf < f"),
        ("p", "p", "p"),
        ("p@0 f@2", "p", "f"),
        ("p < f@1 > pp@3", "p < f@1 > mp", "mp > pp@1"),
        ("sfz@0 > p@2 < f", "sfz > p", "p < f"),
    ],
)
def test_dynamics_go_on_where_they_were(dynamics, first, second):
    text, _, _ = divided(f"contour: C4, D4, E4, F4\ndynamics: {dynamics}")
    assert (key(text, "dynamics", 1), key(text, "dynamics", 2)) == (first, second)
    checked(text)


def test_techniques_fingerings_and_texts_go_along():
    text, whole, _ = divided(
        "contour: C4, D4, E4 as stopped, F4\ntechnique: flutter-tongue\nfingering: 0, 1, 1-2, 1\n"
        'footnote: "Soft,"\n  "softer."\ntext: "calm"\nallow: hand-change-too-quick "quick hands"'
    )
    (one, two), _ = halves(text)
    assert [t.key for t in one.techniques] == ["flutter-tongue"]
    assert [t.key for t in two.techniques] == [t.key for t in whole.points[2].techniques]
    assert (one.fingering.tubes, two.fingering.tubes) == (("0", "1"), ("1-2", "1"))
    assert one.footnote == two.footnote == whole.footnote
    assert (one.text, two.text) == ("calm", None)
    assert one.allows
    assert two.allows


@pytest.mark.parametrize(
    "body",
    ["contour: C4, D4\nattacks: 8", "contour: C4 -- G4\ntechnique: multiphonic\nsing: C4 -- G4", "contour: C4"],
)
def test_what_is_not_divided(body):
    with pytest.raises((AssertionError, IndexError)):
        divided(body)


def test_nothing_is_divided_that_exercises_vary():
    text = (
        f"{HEAD.format('trombone')}gesture call\n  technique: slide-gliss\n  contour: Bb2 -- F3 -- E3\n\n"
        "exercises more\n  from: call\n  tempo: 60, 80\n"
    )
    made = checked(text, suggestions=True)
    alone = checked(text.split("exercises")[0], suggestions=True)
    words = [
        [s.words for f in m.report.gestures[0].findings for s in f.suggestions if s.words] for m in (made, alone)
    ]
    assert words[0] == []
    assert words[1] == ["two gestures, divided at the second note"]


def test_both_fingerings_of_a_trill_stay():
    body = (
        "technique: timbre-trill\ncontour: C5, G4 breath, C5, G4\n"
        "fingering: F 0 / Bb 0, F 0 / Bb 1, F 0, auto\nspeed: fast\nlasts: 8 beats"
    )
    text, _, _ = divided(body)
    assert key(text, "fingering", 1) == "F 0 / Bb 0, F 0 / Bb 1"
    assert key(text, "fingering", 2) == "F 0, auto"
    assert key(text, "speed", 2) == "fast"
