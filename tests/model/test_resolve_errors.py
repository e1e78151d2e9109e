"""Every mistake of meaning: its rule, the marked words, and that all in a file are reported at once.

In the texts `«` and `»` enclose what an error of that rule must point at; they are removed before reading.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from gesturesmith.lang import nodes, parse
from gesturesmith.model import messages
from gesturesmith.model.context import MAX_GESTURES
from gesturesmith.model.reading import read
from gesturesmith.model.resolve import resolve
from gesturesmith.source import Source, Span

HORN = "instrument: horn\npitches: written\n"
A = "gesture a\n  contour: G4 ~~ C5\n  lasts: 2 beats\n"
ONE = HORN + "gesture a\n"
BOTH = "part one\n  players: 2\npassage p\n"
LINE = "part one\npassage p\n  one: C4 for 2\n"
TWO = "part one\npart two\npassage p\n  one: b\n  two: b\n"
P = HORN + "passage p\n  play: "
BARS = HORN + "passage p\n  meter: 4/4\n  play: "
TWO_S = HORN + "gesture a\n  contour: G4\n  lasts: 2 s\n"

# (rule, text, part of the message)
MISTAKES = [
    ("missing-instrument", "«p»itches: written\n" + A, "instrument: horn"),
    ("unknown-instrument", "instrument: «hron»\npitches: written\n" + A, "`horn`"),
    ("unknown-instrument", "instrument: «tromba»\npitches: written\n" + A, "`bass-trumpet` or `natural-trumpet`"),
    ("unknown-instrument", "instrument: «Posaune»\npitches: written\n" + A, "write `trombone` or `trombone-f`"),
    ("unknown-instrument", "instrument: «corno»\npitches: written\n" + A, "write `horn`, `horn-bb` or `horn-f`"),
    ("unreadable-profile", 'instrument: «"nowhere.toml"»\npitches: written\n' + A, "no such file"),
    ("unreadable-profile", 'instrument: «“Horn”»\npitches: written\n' + A, "without quotes: `instrument: horn`"),
    ("missing-pitches", "instrument: «horn»\n" + A, "transposes"),
    ("unknown-technique", ONE + "  technique: «stoped»\n  contour: G4\n", "`stopped`"),
    ("unknown-technique", ONE + "  technique: «gestopft»\n  contour: G4\n", "did you mean `stopped`?"),
    ("unknown-technique", ONE + "  technique: «sourdine»\n  contour: G4\n", "did you mean `muted`?"),
    ("unknown-technique", ONE + "  technique: «frullato»\n  contour: G4\n", "did you mean `flutter-tongue`?"),
    ("unknown-technique", ONE + "  technique: «bouché»\n  contour: G4\n", "did you mean `stopped`?"),
    ("unknown-technique", ONE + "  technique: «cuivré»\n  contour: G4\n", "did you mean `brassy`?"),
    ("unknown-technique", ONE + "  technique: «ricochet»\n  contour: G4\n", "gesturesmith list techniques"),
    ("unknown-technique", ONE + "  contour: G4 as «aire»\n", "`air`"),
    ("unknown-technique", ONE + "  contour: G4\n  fallback: «chromatc»\n", "`chromatic`"),
    ("unknown-technique", HORN + "passage p\n  play: C4 for 1 as «stoped»\n", "`stopped`"),
    ("unknown-register", ONE + "  band: «mddle»\n  contour: low\n", "`middle`"),
    ("unknown-register", HORN + A + "exercises e\n  from: a\n  band: low, «mddle»\n", "`middle`"),
    ("unknown-rule", ONE + '  contour: G4\n  allow: «outside-rnge» "yes"\n', "`outside-range`"),
    ("missing-contour", HORN + "gesture «a»\n  lasts: 1 beat\n", "contour: G4"),
    ("missing-band", ONE + "  contour: «35%»\n", "band: middle"),
    ("missing-band", ONE + "  contour: G4\n  sing: «low»\n", "band: middle"),
    ("lasts-twice", ONE + "  contour: C5 for 1, D5 for 1\n  lasts: «2 beats»\n", "remove `lasts`"),
    ("bar-without-meter", HORN + "passage p\n  play: C4 for 1\n  bar: «12»\n", "`meter: 4/4`"),
    ("bars-without-meter", ONE + "  contour: C5\n  lasts: «2 bars»\n", "`meter: 4/4`"),
    ("first-point-late", ONE + "  contour: G4«@1», A4@2\n", "`@1`"),
    ("times-fall", ONE + "  contour: G4, A4@2, B4«@1», C5\n  lasts: 4 beats\n", "at 1, but an earlier one"),
    ("times-fall", ONE + "  contour: G4\n  lasts: 4 beats\n  dynamics: p@2 < f«@1»\n", "level"),
    ("past-end", ONE + "  contour: G4 ~~ A4«@9»\n  lasts: 4 beats\n", "comes at 9, but the gesture lasts 4 beats"),
    ("past-end", ONE + "  contour: G4 ~~ A4«@3»\n  lasts: 2.5 s\n", "comes at 3, but the gesture lasts 2.5 s"),
    ("past-end", ONE + "  contour: G4\n  dynamics: p < f«@3»\n", "lasts 1 beat:"),
    ("no-slot-left", ONE + "  contour: G4, A4«@4»\n  lasts: 4 beats\n", "no time is left for it"),
    ("no-slot-left", ONE + "  contour: G4 ~~ A4«@4» ~~ B4\n  lasts: 4 beats\n", "for the point after it"),
    ("no-slot-left", ONE + "  contour: G4\n  lasts: 4 beats\n  dynamics: p f«@4»\n", "level"),
    ("dynamics-twice", ONE + "  contour: G4 «ff», A4\n  dynamics: p < f\n", "keep one"),
    ("fingering-count", ONE + "  contour: G4, A4, B4\n  fingering: «F 0, F 1»\n", "2 fingerings for 3 sounding"),
    ("fingering-pair", ONE + "  contour: G4\n  fingering: F 0 / «Bb 0»\n", "a second fingering is for a trill"),
    ("trill-below", ONE + "  trill: «F4»\n  contour: G4\n", "`F4` is not above G4"),
    ("trill-and-tremolo", ONE + "  trill: half\n  tremolo: «D5»\n  contour: G4\n", "not both"),
    ("trill-of-many", ONE + "  trill: «A4»\n  contour: G4, F4\n", "`A4` is one note"),
    ("trill-on-itself", ONE + "  technique: timbre-trill\n  trill: «half»\n  contour: G4\n", "stays on its pitch"),
    ("waves-nowhere", ONE + "  speed: «slow < fast»\n  contour: G4\n", "this gesture has none"),
    ("width-nowhere", ONE + "  technique: valve-trill\n  width: «wide»\n  contour: G4\n", "no width of its own"),
    ("stem-of-other-mute", ONE + "  technique: stem-out\n  mute: «cup»\n  contour: G4\n", "`mute: harmon`"),
    ("trill-nowhere", ONE + "  trill: «half»\n  contour: xG4\n", "no exact pitch"),
    ("attacks-not-notes", ONE + "  contour: G4, A4, Bb4, r, C5\n  attacks: «3»\n", "write `attacks: 4`"),
    ("attacks-not-notes", ONE + "  contour: G4 -- A4, Bb4\n  attacks: «5 slowing»\n", "write `attacks: 2`"),
    ("attacks-not-notes", ONE + "  contour: G4 __ A4 __ Bb4\n  attacks: «3»\n", "write `,` instead of `__`"),
    ("attacks-timed", ONE + "  contour: G4, A4«@1», Bb4@2\n  attacks: 3 slowing\n", "remove `@1` or `slowing`"),
    ("box-without-end", HORN + "box «b»\n  play: C4 for 1\npassage p\n  play: b\n", "`lasts: 20 s`"),
    ("box-too-short", HORN + "box b\n  play: C4 for 1\n  lasts: «1 beat»\npassage p\n  play: b\n", "twice as long"),
    ("box-choice", HORN + "box «b»\n  lasts: 9 s\npassage p\n  play: b\n", "repeats nothing"),
    ("box-content", HORN + "box b\n  play: «rest 1»\n  lasts: 9 s\npassage p\n  play: b\n", "silence alone"),
    ("box-content", HORN + "box b\n  play: C4 for 1, «tempo 90», C4 for 1\n  lasts: 9 s\npassage p\n  play: b\n",
     "`tempo 90` cannot stand in a box"),
    ("box-unplayed", HORN + "box «b»\n  play: C4 for 1\n  lasts: 9 s\n" + A, "to a `play`"),
    (
        "box-in-bars",
        HORN + "box b\n  play: C4 for 1\n  lasts: 9 s\npassage p\n  meter: 4/4\n  play: «b»\n",
        "`lasts` in beats",
    ),
    ("strokes-misplaced", ONE + "  contour: «F4 eighths» -- A4\n", "commas beside the note"),
    ("graces-on-line", ONE + "  contour: F4 grace, G4 -- A4\n  attacks: «3»\n", "write the notes out"),
    ("no-such-harmonic", ONE + "  contour: «F 4:8»\n", "no tube F 4"),
    ("fingering-twice", ONE + "  contour: «F 0:8», G4\n  fingering: Bb 0, F 0\n", "write `auto` there"),
    ("sung-line", ONE + "  contour: F3\n  sing: C4 as «air»\n", "`as air`"),
    ("sung-line", ONE + "  contour: F3\n  sing: C4 without «growl»\n", "`without growl`"),
    ("ends-ordinary", ONE + "  contour: F3, G3 without «ordinary»\n", "ordinary playing cannot end"),
    ("sung-line", ONE + "  contour: F3\n  sing: C4 «ff»\n", "`ff`"),
    ("too-many-points", ONE + "  contour: " + "G4, " * 500 + "«A4»\n", "501 points"),
    ("missing-play", HORN + A + "passage «p»\n  tempo: 60\n", "play: a"),
    ("unknown-name", HORN + A + "passage p\n  play: a, «aa»\n", "`aa`"),
    ("unknown-name", HORN + "gesture beacon\n  contour: G4\npassage p\n  play: «becon» up 2\n", "`beacon`"),
    ("exercises-played", HORN + A + "exercises e\n  from: a\npassage p\n  play: «e»\n", "set of exercises"),
    ("plays-itself", HORN + "passage p\n  play: C4 for 1, «p»\n", "`p` plays itself"),
    ("plays-itself", HORN + "passage p\n  play: q\npassage q\n  play: «p»\n", "`q` plays `p`, which plays `q`"),
    ("cannot-move", HORN + "gesture a\n  band: low\n  contour: low\npassage p\n  play: «a up 2»\n", "register"),
    ("cannot-move", HORN + "gesture a\n  contour: highest\npassage p\n  play: «a down M2»\n", "no pitch"),
    ("cannot-move", HORN + A + "passage p\n  play: «a down 100»\n", "C0 to B9"),
    ("cannot-move", HORN + "gesture g\n  band: low\n  contour: low\npassage p\n  play: g\n"
     "passage q\n  play: «p up 1»\n", "`g` cannot"),
    ("seconds-in-bars", TWO_S + "passage p\n  meter: 4/4\n  play: «a»\n", "4/4"),
    ("seconds-in-bars", "meter: 3/4\n" + TWO_S + "passage p\n  play: «a»\n", "3/4"),
    ("seconds-in-bars", TWO_S + "passage p\n  play: a\n"
     "passage q\n  meter: 4/4\n  play: «p»\n", "`a`"),
    ("seconds-in-bars", TWO_S + "exercises e\n  from: a\n  meter: «3/4»\n", "`meter: free`"),
    ("seconds-in-bars", HORN + A + "exercises e\n  from: a\n  lasts: 2 beats, 3 s\n  meter: «3/4»\n", "3/4"),
    ("other-tempo", HORN + A + "passage in\n  tempo: 90\n  play: a\npassage out\n  play: «in»\n", "tempo 90"),
    ("other-tempo", HORN + A + "passage in\n  meter: 3/4\n  play: a\npassage out\n  play: «in»\n", "meter 3/4"),
    ("too-many-events", HORN + "passage p\n  play: «C4 for 1», C4 for 1\n  repeat: 1000\n"
     "passage q\n  play: p, p, p, p, p, «p»\n", "more than 10000"),
    ("too-many-events", HORN + "passage p\n  meter: 1/64\n  play: rest 600, «rest 100»\n", "rests or bars"),
    ("too-long", HORN + "gesture a\n  contour: C4\n  lasts: «1001 beats»\n", "1001 beats"),
    ("too-long", HORN + "tempo: 300\ngesture a\n  contour: C4\n  lasts: «201 s»\n", "1005 beats"),
    ("too-long", HORN + "gesture «a»\n  contour: C4, D4@2000\n", "2001 beats"),
    ("too-long", HORN + A + "passage p\n  play: a, «C4 for 1001»\n", "1001 beats"),
    ("too-long", HORN + A + "«exercises e»\n  from: a\n  lasts: 2, 2000 beats\n", "a variant lasts 2000 beats"),
    ("missing-from", HORN + A + "exercises «e»\n  keep: 3\n", "from: a"),
    ("not-a-gesture", HORN + A + "passage p\n  play: a\nexercises e\n  from: «p»\n", "is a passage"),
    ("not-a-gesture", HORN + A + "exercises e\n  from: «e»\n", "is a set of exercises"),
    ("not-a-gesture", HORN + "gesture beacon\n  contour: G4\nexercises e\n  from: «becon»\n", "`beacon`"),
    ("too-many-variants", HORN + A + "«exercises e»\n  from: a\n  tempo: 20..300 by 1\n  mirror: yes\n", "562"),
    ("too-many-variants", HORN + A + "exercises e\n  from: a\n  start: C4..C9 by «1/100»\n", "6001"),
    ("cannot-vary", HORN + "gesture a\n  band: low\n  contour: low, high\nexercises e\n  from: a\n"
     "  stretch: 1, «2»\n", "register"),
    ("cannot-vary", HORN + "gesture a\n  band: low\n  contour: low, high\nexercises e\n  from: a\n"
     "  mirror: «yes»\n", "register"),
    ("cannot-vary", HORN + "gesture a\n  band: G4..C5\n  contour: low, high\nexercises e\n  from: a\n"
     "  start: «G4»\n  band: low, high\n", "leave out `start` or `band`"),
    ("cannot-vary", HORN + "gesture a\n  contour: highest\nexercises e\n  from: a\n  start: «G4»\n", "no pitch"),
    ("cannot-vary", HORN + "gesture a\n  contour: G4, C9\nexercises e\n  from: a\n  start: «G9»\n", "C0 to B9"),
    ("past-end", HORN + A + "exercises e\n  from: a\n  dynamics: p, p < f«@3»\n", "lasts 2 beats"),
    ("part-without-instrument", "pitches: written\npart «a»\npassage p\n  a: C4 for 1\n", "`a` has no instrument"),
    ("name-of-all-parts", HORN + "«part»: \"Horns\"\n" + LINE, "remove `part`"),
    ("play-beside-lines", HORN + LINE + "  «play»: C4 for 1\n", "nobody plays `play`"),
    ("no-lines", HORN + LINE + "passage «q»\n", "`one: rest 4, C4 for 2`"),
    ("part-without-line", HORN + LINE + "part «two»\n", "`two: rest 4, C4 for 2`"),
    ("unplayed", HORN + LINE + "gesture «b»\n  contour: G4\n", "no part plays the gesture `b`"),
    ("unplayed", HORN + LINE + "passage «q»\n  play: C4 for 2\n", "such as `one: q`"),
    ("uneven-lines", HORN + "meter: 4/4\npart two\n" + LINE + "  «two»: C4 for 1/2\n", "add `rest 1.5`"),
    ("unknown-instrument", LINE.replace("one\n", "one\n  instrument: «hron»\n  pitches: written\n", 1), "`horn`"),
    ("missing-pitches", LINE.replace("one\n", "one\n  instrument: «horn»\n", 1), "transposes"),
    ("unknown-name", HORN + "part two\n  instrument: trumpet\n" + LINE + "  two: «b»\n", "called `b`"),
    ("missing-band", HORN + TWO + "gesture b\n  contour: «35%»\n", "band: middle"),  # told once
    ("one-player", HORN + "part one\npassage p\n  one: «C4 for 2 a2»\n", "`a2` is for two players"),
    ("one-player", HORN + "passage p\n  play: «C4 / E4 for 2»\n", "`/` is for two players"),
    ("uneven-division", HORN + BOTH + "  one: C4 for 1, «C4 for 2 / E4 for 3»\n", "the first for 2 beats"),
    ("not-a-gesture", HORN + LINE + "exercises e\n  from: «p»\n", "is a passage"),
    ("not-a-gesture", HORN + LINE + "exercises e\n  from: «nothing»\n", "nothing"),
    ("missing-from", HORN + LINE + "exercises «e»\n  keep: 3\n", "vary no gesture"),
    ("change-without-meter", P + "C4 for 2, «meter 3/4», C4 for 2\n", "`meter: 4/4`"),
    ("change-without-meter", P + "C4 for 2, accelerando to 90 over «2» bars, C4 for 9\n", "bars, but this passage"),
    ("change-without-meter", P + "C4 for 2\n  pickup: «1» beat\n", "a pickup, but"),
    ("change-mid-bar", BARS + "C4 for 2, «meter 3/4», C4 for 2\n", "this bar has 2 beats of 4 beats so far"),
    ("change-mid-bar", BARS + "C4 for 5, «mark A», C4 for 3\n", "put it after 3 beats more"),
    ("change-mid-bar", BARS + "C4 for 3, «key C minor», C4 for 3\n", "a new key comes at a bar line"),
    ("change-mid-bar", BARS + "C4 for 4, «double bar», C4 for 4\n  pickup: 1 beat\n", "after 1 beat more"),
    ("tempo-backwards", P + "C4 for 2, «accelerando to 40 over 4», C4 for 4\n", "write ritardando to 40"),
    ("tempo-backwards", P + "tempo 90, «ritardando to 96 over 4», C4 for 4\n", "goes from 90 to 96"),
    ("tempo-backwards", P + "«ritardando to 60 over 4», C4 for 4\n", "write another tempo"),
    ("tempo-overlap", P + "accelerando to 96 over 8, C4 for 4, «tempo 60», C4 for 4\n", "4 beats into a change"),
    ("nothing-there", P + "C4 for 4, «tempo 90»\n", "nothing is played after it"),
    ("nothing-there", P + "C4 for 4, «ritardando to 40 over 4»\n", "nothing is played after it"),
    ("nothing-there", BARS + "«double bar», C4 for 4\n", "nothing is played before it"),
    ("nothing-there", P + "C4 for 4, «double bar»\n  repeat: 2\n", "nothing is played after it"),
    ("too-little-after", P + "«ritardando to 40 over 8», C4 for 4, rest 1\n", "and only 5 beats follow"),
    ("changed-twice", P + "C4 for 4, tempo 90, «tempo 80», C4 for 4\n", "keep one of the two"),
    ("too-many-changes", P + "C4 for 1, tempo 60, " * 500 + "C4 for 1, «mark A», C4 for 1\n",
     "more than 500"),
    ("changed-twice", BARS + "C4 for 4, «meter 4/4», C4 for 4\n", "holds here already"),
    ("changed-twice", P + "C4 for 4, key F major, C4 for 4, «key F major», C4 for 4\n", "holds here already"),
    ("changed-twice", P + "C4 for 4, «key none», C4 for 4\n", "holds here already"),
    ("pickup-too-long", BARS + "C4 for 4\n  pickup: «4 beats»\n", "bars of 4 beats"),
    ("pickup-too-long", BARS + "C4 for 2\n  pickup: «2 beats»\n", "a pickup of 2 beats"),
    ("while-tempo-changes", TWO_S + "passage p\n  play: accelerando to 96 over 1, «a», rest 4\n", "`a` lasts"),
    ("while-tempo-changes", HORN + "box b\n  play: C4 for 1\n  lasts: 9 s\npassage p\n  play: "
     "accelerando to 96 over 1, «b», rest 4\n", "repeated for seconds"),
    ("pickup-inside", BARS + "C4 for 4, rest 1\n  pickup: 1 beat\npassage q\n  meter: 4/4\n  play: «p», rest 3\n",
     "a pickup of 1 beat"),
    ("parts-contradict", HORN + "part one\npart two\npassage p\n  one: C4 for 2, tempo 90, C4 for 2\n"
     "  two: C4 for 2, «tempo 96», C4 for 2\n", "the line of `one` says `tempo 90`"),
]  # fmt: skip


def unmarked(text: str) -> tuple[str, Span]:
    """The text without its marks, and the place of the last pair."""
    before, _, rest = text.rpartition("«")
    inside, _, after = rest.partition("»")
    before, inside, after = (part.replace("«", "").replace("»", "") for part in (before, inside, after))
    column = len(before) - (before.rfind("\n") + 1) + 1
    return before + inside + after, Span(before.count("\n") + 1, column, column + len(inside))


def errors_of(text: str):
    source = Source("test.gesture", text)
    assert parse(source)[1] == ()
    return read(source).errors


@pytest.mark.parametrize(("rule", "marked", "part"), MISTAKES)
def test_each_mistake_is_told_at_its_place(rule, marked, part):
    text, span = unmarked(marked)
    found = [(e.rule, e.code, e.span) for e in errors_of(text)]
    assert found == [(rule, messages.RULES[rule][0], span)]  # nothing else follows from it
    (error,) = errors_of(text)
    assert part in error.message
    assert error.message[-1] != "."


def changed(text: str, key: str, value: nodes.Value):
    """The errors of a tree with one value of the first block replaced directly, bypassing the reader."""
    tree, _ = parse(Source("test.gesture", HORN + text))
    block = tree.blocks[-1]
    entries = tuple(replace(e, value=value) if e.key.text == key else e for e in block.entries)
    made = replace(tree, blocks=(*tree.blocks[:-1], replace(block, entries=entries)))
    return [e.rule for e in resolve(made)[1]]


HERE = Span(3, 1, 2)
G4, C5 = (nodes.Note(letter, Fraction(0), octave, 0, False, HERE) for letter, octave in (("G", 4), ("C", 5)))
HIGHER = nodes.PointNode(height=nodes.Height("120%", Fraction(120), HERE), at=None, marks=(), span=HERE)
GOOD = "gesture a\n  contour: G4\n  band: low\n  lasts: 1 beat\n"
# The reader already refuses these, but trees can have other origins.
BY_HAND = {
    "empty-band": (GOOD, "band", nodes.BandNode(None, G4, G4, HERE)),
    "upside-down-band": (GOOD, "band", nodes.BandNode(None, C5, G4, HERE)),
    "no-length": (GOOD, "lasts", nodes.Amount(Fraction(0), "beats", HERE)),
    "height-outside-band": (GOOD, "contour", nodes.Contour((HIGHER,), (), HERE)),
    "bad-range": (
        A + "exercises e\n  from: a\n  start: G4..C5 by 1\n",
        "start",
        nodes.Series((nodes.Range(G4, C5, nodes.Amount(Fraction(0), "", HERE), HERE),), HERE),
    ),
}


@pytest.mark.parametrize("rule", BY_HAND)
def test_a_tree_made_by_hand(rule):
    assert changed(*BY_HAND[rule]) == [rule]


def test_too_many_gestures():
    tree, _ = parse(Source("test.gesture", HORN + "gesture a\n  contour: G4\n"))
    block = tree.blocks[0]
    broken = replace(block, entries=())  # costs nothing to resolve; its own error is another
    many = tuple(
        replace(broken, name=replace(block.name, text=f"a{i}"), broken=True) for i in range(MAX_GESTURES + 1)
    )
    _, errors = resolve(replace(tree, blocks=many))
    assert [e.rule for e in errors] == ["too-many-gestures"]


def test_every_rule_is_tried_here():
    by_size = {"too-many-gestures", "too-many-exercises"}  # tests/security/test_limits.py
    tried = {rule for rule, _, _ in MISTAKES} | set(BY_HAND) | by_size
    assert tried == set(messages.RULES)


def test_all_of_them_in_one_run_in_file_order():
    text = (
        HORN
        + "gesture a\n  technique: stoped\n  contour: low as aire, C5@9\n  lasts: 2 beats\n"
        + "gesture b\n  lasts: 2 beats\n"
        + "passage p\n  play: nowhere, p\n"
        + "exercises e\n  from: nothing\n"
    )
    assert [(e.rule, e.span.line, e.gesture) for e in errors_of(text)] == [
        ("unknown-technique", 4, "a"),
        ("missing-band", 5, "a"),
        ("unknown-technique", 5, "a"),
        ("past-end", 5, "a"),
        ("missing-contour", 7, "b"),
        ("unknown-name", 10, "p"),
        ("plays-itself", 10, "p"),
        ("not-a-gesture", 12, "e"),
    ]


def test_the_rest_of_a_file_is_read_when_its_instrument_is_unknown():
    rules = [e.rule for e in errors_of("gesture a\n  band: low\n  contour: low, 30%\n  technique: stoped\n")]
    assert rules == ["missing-instrument", "unknown-technique"]


def test_a_circle_of_passages_is_told_once():
    text = HORN + "passage a\n  play: b\npassage b\n  play: c\npassage c\n  play: a, zz\npassage d\n  play: a\n"
    assert [(e.rule, e.gesture) for e in errors_of(text)] == [("plays-itself", "c"), ("unknown-name", "c")]


@pytest.mark.parametrize("user", ["passage p\n  play: a, b\n", "exercises p\n  from: a\n"])
def test_what_could_not_be_read_adds_no_error_where_it_is_used(user):
    text = HORN + "gesture a\n  contour: H4\ngesture b\n  contour: G4\n" + user
    tree, syntax = parse(Source("test.gesture", text))
    assert len(syntax) == 1
    piece, errors = resolve(tree)
    assert errors == ()
    assert piece.unread == {"a", "p"}
    assert [g.name for g in piece.gestures] == ["b"]
    assert piece.passages == piece.exercises == ()


def test_a_broken_block_still_tells_its_other_mistakes():
    tree, _ = parse(Source("test.gesture", HORN + "gesture a\n  contour: H4\n  technique: stoped\n"))
    assert [e.rule for e in resolve(tree)[1]] == ["unknown-technique"]


def test_passages_that_double_are_stopped_early():
    """Forty passages, each playing the previous one twice, would be a million million notes."""
    blocks = ["passage p0\n  play: C4 for 1\n"] + [
        f"passage p{i}\n  play: p{i - 1}, p{i - 1}\n" for i in range(1, 40)
    ]
    assert [e.rule for e in errors_of(HORN + "".join(blocks))] == ["too-many-events"]


def test_a_long_chain_of_passages_is_no_trouble():
    blocks = [f"passage p{i}\n  play: p{i + 1}\n" for i in range(3000)] + ["passage p3000\n  play: C4 for 1\n"]
    assert errors_of(HORN + "".join(blocks)) == ()


def test_codes_are_told_apart():
    codes = [code for code, _ in messages.RULES.values()]
    assert len(codes) == len(set(codes))
    assert all(int(code[2:]) in (*range(20, 100), *range(150, 190)) for code in codes)


@pytest.mark.parametrize(
    "block",
    [
        "gesture g{n}\n  contour: C4\n  technique: fanfare\n",
        "passage p{n}\n  play: nobody\n",
        "exercises e{n}\n  from: nobody\n",
        "gesture g{n}\n  contour: C4 as fanfare, C4 as fanfare\n",
    ],
)
def test_a_thousand_mistakes_are_enough(block):
    """The rest is not read, and the last mistake says so."""
    errors = errors_of(HORN + "".join(block.format(n=n) for n in range(1500)))
    assert len(errors) == 1001
    assert [e.rule for e in errors].index("too-many-errors") == 1000
    assert {e.rule for e in errors_of(HORN + block.format(n=1))} == {errors[0].rule}
