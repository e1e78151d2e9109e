"""The meaning of lines: every example of the language page, and the exact syntax."""

from fractions import Fraction

import pytest
import timing
from lang.reading import bare, read, value

from gesturesmith.lang import nodes

PAGE = """\
instrument: horn              # a profile name, or "path/to/your-own.toml"
pitches: written              # written | sounding: how every pitch below is to be read
tempo: 72                     # quarter-note beats per minute
title: "Fog Signals"

gesture beacon "Beacon"
  technique: half-valve
  band: G4..F5
  contour: xG4 ~~ xD5@2 ~~ xB4@3 ~~ xF5@4
  lasts: 4 beats
  dynamics: p < f@3 > p
  footnote: "Follow the shape; the pitches are only a guide."

gesture knocks "Knocks"
  technique: split-attack
  band: middle
  contour: high, mid, high, low
  lasts: 4 beats
  dynamics: ff

gesture rise
  technique: harmonic-gliss + flutter-tongue
  contour: G4 ~~ G5@3/2 accent
  lasts: 2 beats

gesture breath-to-tone
  technique: stopped
  contour: C5 as air -- C5@2 as ordinary -- C5@4
  lasts: 4 beats
  dynamics: n < mf

passage opening "Opening calls"
  play: beacon, rest 4, knocks, rest 2, beacon up M2, C4 for 2 pp
  repeat: 2

exercises week-one "Half-valve slides, week one"
  from: beacon
  start: G4..C5 by 1          # move the whole gesture so that it starts here, in semitone steps
  lasts: 8, 6, 4 beats
  tempo: 60, 72, 84
  order: easiest first
  keep: 12
  instruction: "Slow air first; let the valves find the edge of the tone."
"""


def test_the_file_of_the_page():
    tree, errors = read(PAGE)
    assert errors == ()
    assert [e.key.text for e in tree.settings] == ["instrument", "pitches", "tempo", "title"]
    assert [(b.kind, b.name.text, b.title and b.title.text) for b in tree.blocks] == [
        ("gesture", "beacon", "Beacon"),
        ("gesture", "knocks", "Knocks"),
        ("gesture", "rise", None),
        ("gesture", "breath-to-tone", None),
        ("passage", "opening", "Opening calls"),
        ("exercises", "week-one", "Half-valve slides, week one"),
    ]
    assert tree.get("tempo").value.bpm.value == 72
    beacon = tree.blocks[0]
    assert (beacon.span.line, beacon.last_line, beacon.indent, beacon.broken) == (6, 12, "  ", False)
    contour = beacon.get("contour").value
    assert [p.height.letter for p in contour.points] == ["G", "D", "B", "F"]
    assert [p.at and p.at.value for p in contour.points] == [None, 2, 3, 4]
    assert all(p.height.about for p in contour.points)
    assert [line.kind for line in contour.lines] == ["wavy"] * 3
    dynamics = beacon.get("dynamics").value
    assert [(level.level, level.at and level.at.value) for level in dynamics.levels] == [
        ("p", None),
        ("f", 3),
        ("p", None),
    ]
    assert dynamics.joins == ("<", ">")
    play = tree.blocks[4].get("play").value.items
    assert [i.name.text if i.name else i.rest.value if i.rest else i.note.letter for i in play] == [
        "beacon", 4, "knocks", 2, "beacon", "C",
    ]  # fmt: skip
    assert (play[4].move, play[4].interval) == ("up", "M2")
    assert (play[5].for_.value, play[5].for_.unit, play[5].marks[0].text) == (2, "beats", "pp")
    start = tree.blocks[5].get("start").value.items[0]
    assert (start.first.letter, start.last.octave, start.by.value) == ("G", 5, 1)
    assert [(q.value, q.unit) for q in tree.blocks[5].get("lasts").value.items] == [
        (8, "beats"),
        (6, "beats"),
        (4, "beats"),
    ]
    assert tree.blocks[5].get("order").value.text == "easiest first"


def test_spans_are_those_of_the_file():
    tree, _ = read("\ufefftitle: “é”\r\ngesture a\r  contour: G4 ~~ xB♭4@2 accent\n")
    entry = tree.blocks[0].entries[0]
    assert (entry.key.span.line, entry.key.span.column, entry.key.span.end_column) == (3, 3, 10)
    first, second = entry.value.points
    assert (first.span.column, first.span.end_column) == (12, 14)
    assert (second.span.column, second.span.end_column) == (18, 31)
    assert (second.at.span.column, second.at.span.end_column) == (22, 24)
    assert (entry.span.column, entry.span.end_column) == (12, 31)
    assert tree.get("title").value.span.column == 8


@pytest.mark.parametrize(
    ("name", "letter", "alter", "octave", "cents", "about"),
    [
        ("C4", "C", 0, 4, 0, False),
        ("xG4", "G", 0, 4, 0, True),
        ("F#5", "F", 1, 5, 0, False),
        ("Bb3", "B", -1, 3, 0, False),
        ("F##0", "F", 2, 0, 0, False),
        ("Bbb9", "B", -2, 9, 0, False),
        ("F^4", "F", Fraction(1, 2), 4, 0, False),
        ("F#^4", "F", Fraction(3, 2), 4, 0, False),
        ("Bbv3", "B", Fraction(-3, 2), 3, 0, False),
        ("Bv3", "B", Fraction(-1, 2), 3, 0, False),
        ("F#v4", "F", Fraction(1, 2), 4, 0, False),
        ("Bb^4", "B", Fraction(-1, 2), 4, 0, False),
        ("C/5", "C", Fraction(1, 4), 5, 0, False),
        ("xF#\\4", "F", Fraction(3, 4), 4, 0, True),
        ("Bb↑3", "B", Fraction(-3, 4), 3, 0, False),
        ("Bb↓3", "B", Fraction(-5, 4), 3, 0, False),
        ("C4+31c", "C", 0, 4, 31, False),
        ("C4-14c", "C", 0, 4, -14, False),
        ("C#4−5c", "C", 1, 4, -5, False),
        ("xF♯4", "F", 1, 4, 0, True),
        ("B♭3", "B", -1, 3, 0, False),
        ("F♮4", "F", 0, 4, 0, False),
        ("F𝄲4", "F", Fraction(1, 2), 4, 0, False),
        ("B𝄳3", "B", Fraction(-1, 2), 3, 0, False),
        ("F♯𝄲4", "F", Fraction(3, 2), 4, 0, False),
        ("F𝄪4", "F", 2, 4, 0, False),
    ],
)
def test_notes(name, letter, alter, octave, cents, about):
    note = value(f"contour: {name}").points[0].height
    assert (note.letter, note.alter, note.octave, note.cents, note.about) == (letter, alter, octave, cents, about)


def test_heights_and_silence():
    points = value("contour: low, mid, high, 35%, 1/3%, highest, lowest, r").points
    assert [getattr(p.height, "percent", "silence") for p in points] == [
        0,
        50,
        100,
        35,
        Fraction(1, 3),
        None,
        None,
        "silence",
    ]


@pytest.mark.parametrize(
    ("sign", "kind"),
    [
        ("--", "straight"), ("–", "straight"), ("—", "straight"), ("~~", "wavy"), ("::", "broken"),
        ("..", "dotted"), ("->", "arrow"), ("__", "slur"), (",", "none"), ("~~ growing", "wavy"),
        ("~~fading", "wavy"),
    ],
)  # fmt: skip
def test_lines(sign, kind):
    for text in (f"C4{sign} D4", f"C4 {sign} D4", f"low{sign} high", f"C4@2{sign} D4@5/2"):
        line = value(f"contour: {text}").lines[0]
        assert line.kind == kind
        assert line.growth == sign.strip("~ ,-.:_>–—")


@pytest.mark.parametrize(
    "after", ["@2.5 as air accent p", "accent as air p @5/2", "p accent@2.5 as air", "as air@2.5 accent p"]
)
def test_what_stands_after_a_point_comes_in_any_order(after):
    point = value(f"contour: C4, D4 {after}").points[1]
    assert (point.at.value, [t.text for t in point.as_], {m.text for m in point.marks}) == (
        Fraction(5, 2),
        ["air"],
        {"accent", "p"},
    )


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("4 beats", 4),
        ("1 beat", 1),
        ("3/2 beats", Fraction(3, 2)),
        ("2.5 s", Fraction(5, 2)),
        ("4beats", 4),
        ("0.125\u00a0s", Fraction(1, 8)),
    ],
)
def test_lengths(text, number):
    quantity = value(f"lasts: {text}")
    assert quantity.value == number
    assert quantity.unit == ("s" if text.endswith("s") and "beat" not in text else "beats")


@pytest.mark.parametrize(
    ("text", "items"),
    [
        ("F 1-2-3", [("F", "1-2-3", "")]),
        ("Bb 0", [("Bb", "0", "")]),
        ("1-2", [("", "1-2", "")]),
        ("3", [("", "3", "")]),
        ("T 2", [("T", "2", "")]),
        ("short 2, long 3", [("", "2", "short"), ("", "3", "long")]),
        ("F1-2,B♭0", [("F", "1-2", ""), ("Bb", "0", "")]),
        ("3-1", [("", "1-3", "")]),
    ],
)
def test_fingerings(text, items):
    fingering = value(f"fingering: {text}")
    assert fingering.mode == "given"
    assert [(i.side, i.valves, i.shade) for i in fingering.items] == items


def test_modes_of_fingering():
    assert [value(f"fingering: {m}").mode for m in ("auto", "held")] == ["auto", "held"]


@pytest.mark.parametrize(
    ("text", "count", "shape"), [("8", 8, ""), ("8 accelerating", 8, "accelerating"), ("1 slowing", 1, "slowing")]
)
def test_attacks(text, count, shape):
    attacks = value(f"attacks: {text}")
    assert (attacks.count, attacks.shape) == (count, shape)


def test_settings():
    assert bare(value("paper: 210x297mm", ""))[1:] == ("", 210, 297)
    assert bare(value("paper: 230 x 310.5", ""))[1:] == ("", 230, Fraction(621, 2))
    assert value("paper: A4", "").name == "a4"
    assert value("paper: letter", "").name == "letter"
    assert (value("staff: 6.5", "").value, value("staff: 6.5mm", "").unit) == (Fraction(13, 2), "mm")
    assert (value("meter: 6/8", "").beats, value("meter: 6/8", "").unit) == (6, 8)
    assert value("meter: free", "").beats is None
    tempo = value('tempo: "Slow, distant" 72', "")
    assert (tempo.words.text, tempo.bpm.value) == ("Slow, distant", 72)
    assert [value(f"tempo: {n}", "").bpm.value for n in (20, 300)] == [20, 300]
    assert [w.text for w in value("wording: en, de", "").words] == ["en", "de"]
    assert isinstance(value('instrument: "path/to/your-own.toml"', ""), nodes.Text)
    assert value("instrument: trumpet", "").text == "trumpet"
    assert value("language: 1", "").value == 1


def test_allow_as_often_as_needed():
    tree, errors = read('gesture a\n  allow: a-rule "one"\n  allow: b-rule "two"\n   "and three"\n')
    assert errors == ()
    assert [(e.value.rule.text, e.value.reason.text) for e in tree.blocks[0].entries] == [
        ("a-rule", "one"),
        ("b-rule", "two and three"),
    ]


def test_series_of_exercises():
    def items(line):
        return value(line, "exercises").items

    assert [i.value for i in items("stretch: 1/2, 1, 3/2")] == [Fraction(1, 2), 1, Fraction(3, 2)]
    assert [(i.register and i.register.text, i.low and i.low.letter) for i in items("band: G4..F5, low")] == [
        (None, "G"),
        ("low", None),
    ]
    assert [len(i.levels) for i in items("dynamics: p < f, ff")] == [2, 1]
    (range_,) = items("lasts: 8..4 by 1/2 beats")
    assert [(q.value, q.unit) for q in (range_.first, range_.last, range_.by)] == [
        (8, "beats"),
        (4, "beats"),
        (Fraction(1, 2), "beats"),
    ]
    assert [i.letter for i in items("start: G4, xA4, Bb4")] == ["G", "A", "B"]
    assert [(q.value, q.unit) for q in items("lasts: 2 s, 3 beats")] == [(2, "s"), (3, "beats")]
    assert value("keep: one page", "exercises").text == "one page"
    assert value("keep: 12", "exercises").value == 12
    assert value("mirror: yes", "exercises").text == "yes"


def test_moves_in_a_passage():
    items = value(
        "play: beacon up 2, beacon down P5, beacon up A4, opening, rest 1/2 beat, xC4 for 3 accent pp", "passage"
    ).items
    assert [(i.move, i.semitones, i.interval) for i in items[:3]] == [
        ("up", 2, ""),
        ("down", None, "P5"),
        ("up", None, "A4"),
    ]
    assert (items[4].rest.value, items[5].note.about, [m.text for m in items[5].marks]) == (
        Fraction(1, 2),
        True,
        ["accent", "pp"],
    )


@pytest.mark.parametrize(
    ("written", "text"),
    [
        ('"plain"', "plain"),
        ('"a \\"b\\" \\\\ \\n"', 'a "b" \\ \\n'),
        ("“a \"b\" 'c' „d“”", "a \"b\" 'c' „d“"),
        ("„so“", "so"),
        ("«a “b”»", "a “b”"),
        ('"# no comment  # here"', "# no comment  # here"),
        ('"♯ and – and \u00a0stay"', "♯ and – and \u00a0stay"),
        ('""', ""),
        ('"one"\n      "two"  # c\n\n    # c\n      “three”', "one two three"),
    ],
)
def test_texts(written, text):
    assert value(f"text: {written}").text == text


def test_comments():
    text = (
        "# F#4\ntempo: 72\t# c\n  # c\ngesture a  # c\n  contour: F#4,  # one\n# c\n\n    G#4\t# two\n    ,A4  #\n"
    )
    tree, errors = read(text)
    assert errors == ()
    assert len(tree.blocks[0].entries[0].value.points) == 3


@pytest.mark.parametrize("unit", [" ", "  ", "    ", "\t", "\u00a0\u00a0"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_units_of_indentation_and_line_ends(unit, end):
    lines = [
        "gesture a",
        "U" + "contour: C4 --",
        "UU" + "D4,",
        "UUU" + "E4",
        "",
        "U" + "lasts: 3 beats",
        "gesture b",
        "U" + "contour: r",
    ]
    tree, errors = read(end.join(lines).replace("U", unit))
    assert errors == ()
    assert [len(b.entries) for b in tree.blocks] == [2, 1]


def test_a_value_may_begin_below_its_key_and_settings_go_on_too():
    tree, errors = read('title:\n  "one"\n     "two"\ngesture a\n  contour:\n      C4\n   -- D4\n')
    assert errors == ()
    assert tree.get("title").value.text == "one two"
    assert len(tree.blocks[0].entries[0].value.points) == 2


def test_settings_may_stand_between_blocks_at_the_margin():
    tree, errors = read("gesture a\n  contour: C4\ntempo: 72\ngesture b\n  contour: C4\n")
    assert errors == ()
    assert [e.key.text for e in tree.settings] == ["tempo"]


def test_a_broken_value_is_none_and_its_neighbours_stay():
    tree, errors = read("gesture a\n  contour: c4\n  lasts: 4 beats\ngesture b\n  contour: C4\n")
    assert len(errors) == 1
    first, second = tree.blocks
    assert first.broken
    assert first.get("contour").value is None
    assert first.get("lasts").value.value == 4
    assert not second.broken


def test_light_to_import():
    import sys

    heavy = {"abjad", "click", "difflib", "tomllib", "subprocess"}
    code = f"import sys, gesturesmith.lang; print(sorted({heavy} & set(sys.modules)))"
    done = timing.run([sys.executable, "-c", code], text=True)
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == "[]"


def test_a_text_has_a_longest_length():
    """2,000 characters over all its lines: exactly that many are read, one more is not."""
    for extra, codes in (("", []), ("x", ["GS125"])):
        half = "x" * 999
        head = "instrument: horn\npitches: written\ngesture a\n  contour: C5\n"
        text = f'{head}  note: "{half}"\n    "{half}{extra}x"\n'
        _, errors = read(text)
        assert [e.code for e in errors] == codes
        assert all("at most 2000" in e.message for e in errors)
