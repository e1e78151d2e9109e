"""The content and numbering of a notes page: everything that is used, once, and nothing else."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from sampling import sample

from gesturesmith import techniques
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.pipeline.differences import differences
from gesturesmith.pipeline.notes import compile_notes, numbering
from gesturesmith.pipeline.types import NotesOptions
from gesturesmith.score.marks import MARKS
from gesturesmith.sheets import notes as page
from gesturesmith.sheets._remarks import cautions, remarks, transposition
from gesturesmith.sheets._signs import OF_REMARKS, OF_TECHNIQUES, SIGNS
from gesturesmith.source import Source
from gesturesmith.wording import text as wording

HEAD = "instrument: horn\npitches: written\n"
FILE = """
gesture first "First"
  technique: flutter-tongue
  contour: C5
gesture second
  technique: half-valve + flutter-tongue
  contour: xG4 ~~ xD5@2 ~~ xB4
  lasts: 4 beats
gesture third "Third"
  technique: growl
  contour: D4
  footnote: "As a ship."
gesture fourth "Fourth"
  technique: scoop
  contour: D4
  note: "Lazily."
gesture fifth
  technique: fall
  contour: D4
"""


@pytest.fixture
def parts():
    """A function from the texts of files to their engraved music."""
    from gesturesmith.pipeline import notes

    def made(*texts: str, **wanted):
        sources = tuple(Source(f"file{n}", t if "instrument:" in t else HEAD + t) for n, t in enumerate(texts))
        read = notes._read(sources, NotesOptions(**wanted))
        assert all(r.readable for r in read.reports), [e.message for r in read.reports for e in r.errors]
        return read.parts

    return made


def titles(choice, *, signs: bool = False) -> list[tuple[str, list[tuple[str, str]]]]:
    return [
        (s.title[0], [(e.number, e.names[0]) for e in s.entries])
        for s in choice.sections
        if signs or any(e.number for e in s.entries)
    ]


def test_each_technique_once_grouped_and_numbered_down_the_page(parts):
    choice = page.choose(parts(FILE), ("en",))
    assert titles(choice) == [
        ("Beginnings and ends of notes", [("1", "Scoop"), ("2", "Fall")]),
        ("Valves", [("3", "Half-valve")]),
        ("Lips, tongue and voice", [("4", "Flutter-tongue"), ("5", "Growl")]),
        ("Gestures", [("6", "Third"), ("7", "Fourth")]),
    ]


def test_own_words_stand_as_written_and_lead_to_what_they_replace(parts):
    gestures = page.choose(parts(FILE), ("en", "de")).sections[-1].entries
    assert gestures[0].texts == ("As a ship.", "Growl: see note\u00a05.", "Growl: siehe Anmerkung\u00a05.")
    assert gestures[1].texts == ("Lazily.",)


def test_sections_and_signs_keep_their_order_whatever_comes_first(parts):
    """The same gestures in the opposite order: the same sections, in the same order."""
    blocks = FILE.split("gesture ")[1:]
    turned = "".join(f"gesture {block}" for block in reversed(blocks))
    there, back = (page.choose(parts(text), ("en",)) for text in (FILE, turned))
    assert [s.title for s in there.sections] == [s.title for s in back.sections]
    signs = [[e.names for s in c.sections for e in s.entries if not e.number] for c in (there, back)]
    assert signs[0] == signs[1]


def test_pinned_numbers_stay_and_new_things_get_new_ones(parts):
    """A technique and a gesture come, another goes: what stays keeps its number, and none is given twice."""
    first = page.choose(parts(FILE), ("en",))
    new = 'gesture sixth\n  technique: rip\n  contour: C5\n  footnote: "Rough."\n'
    changed = FILE.replace("technique: half-valve + flutter-tongue", "technique: flutter-tongue") + new
    changed = changed.replace("As a ship.", "As a large ship.")
    second = page.choose(parts(changed), ("en",), first.pinned)
    assert titles(second) == [
        ("Beginnings and ends of notes", [("1", "Scoop"), ("2", "Fall"), ("8", "Rip")]),
        ("Lips, tongue and voice", [("4", "Flutter-tongue"), ("5", "Growl")]),
        ("Gestures", [("6", "Third"), ("7", "Fourth"), ("9", "sixth")]),
    ]
    third = page.choose(parts(FILE), ("en",), second.pinned)
    assert titles(third) == titles(first)
    assert dict(second.pinned.gestures) == {"file0: third": 6, "file0: fourth": 7, "file0: sixth": 9}


def test_gestures_that_share_an_entry_part_when_one_gets_its_own_text(parts):
    text = "".join(f'gesture {n}\n  technique: rip\n  contour: C5\n  footnote: "Rough."\n' for n in ("one", "two"))
    first = page.choose(parts(text), ("en",))
    assert titles(first)[-1] == ("Gestures", [("2", "one, two")])
    last = text.rindex("Rough.")
    second = page.choose(parts(f"{text[:last]}Smooth.{text[last + 6 :]}"), ("en",), first.pinned)
    assert titles(second)[-1] == ("Gestures", [("2", "one"), ("3", "two")])


def test_the_same_text_about_different_techniques_is_two_entries(parts):
    """And a passage marks both, since one number would say the wrong thing of the other."""
    text = (
        'gesture one\n  technique: growl\n  contour: C5\n  note: "Not too even."\n'
        'gesture two\n  technique: air\n  contour: C5\n  note: "Not too even."\n'
        "passage all\n  play: one, two\n"
    )
    (made,) = parts(text)
    choice = page.choose((made,), ("en",))
    assert titles(choice)[-1] == ("Gestures", [("3", "one"), ("4", "two")])
    (passage,) = made.passages
    assert [choice.numbers.label(f) for f in passage.footnotes] == ["1, 3", "2, 4"]


def test_numbers_do_not_hang_on_the_language(parts):
    found = parts(FILE)
    numbers = {page.choose(found, languages).numbers for languages in (("en",), ("de",), ("fr", "it"))}
    assert len(numbers) == 1


def test_harmonics_that_a_sweep_passes_are_named_as_on_the_chart(parts):
    """In seventh position, of E: G# between E and B, not Ab."""
    swept = "technique: harmonic-gliss\n  fingering: 7\n  contour: E3 ~~ E4@2\n  lasts: 3 beats\n"
    found = parts(f"instrument: trombone\npitches: written\ngesture one\n  {swept}")
    (entry,) = (e for s in page.choose(found, ("en",)).sections for e in s.entries if e.number)
    passed = [p.pitch.written.name for p in entry.case.gesture.points if p.passing]
    assert passed == ["G#3", "B3", "D4"]


def marks(text: str) -> list[str]:
    return re.findall(r'\\gsMark "([^"]*)"', text)


def test_the_part_bears_the_numbers_of_the_page():
    options = Options(stem="a", notes=NotesOptions())
    items = compile_text(Source("a", HEAD + FILE), options).items
    (part, notes_page) = (i for i in items if i.kind == "page")
    assert marks(part.book) == ["4", "3, 4", "6", "1, 7", "2"]
    assert str(notes_page.place) == "a-notes"
    assert marks(notes_page.book) == []
    assert "As a ship." not in part.book
    assert wording("see-notes", "en") in part.book
    (third,) = (i for i in items if i.name == "third")
    assert marks(third.book) == marks(third.ily) == ["6"]


def test_one_gesture_alone_has_the_number_it_has_among_all():
    options = Options(stem="a", notes=NotesOptions(), only="fifth")
    (snippet, _) = compile_text(Source("a", HEAD + FILE), options).items
    assert marks(snippet.book) == ["2"]


def test_one_document_numbers_over_all_files():
    sources = (Source("a", HEAD + FILE), Source("b", HEAD + "gesture x\n  technique: rip + growl\n  contour: C5\n"))
    numbers = numbering(sources, NotesOptions())
    second = compile_text(sources[1], Options(stem="b", together="both"), None, numbers).items[0]
    assert marks(second.book) == ["3, 6"]  # growl as in the first file; rip comes after scoop and fall


def test_a_gesture_that_only_a_passage_can_play_is_explained_all_the_same():
    """Too high as written, so left out, while the passage plays it two octaves lower."""
    text = HEAD + (
        'gesture far "Far"\n  technique: growl\n  contour: G6\n  footnote: "Far up."\n'
        "passage low\n  play: far down P15, C4 for 2\n"
    )
    outcome = compile_text(Source("a", text), Options(stem="a", notes=NotesOptions()))
    assert outcome.report.refused
    for item in outcome.items:
        assert marks(item.book) in ([], ["1"], ["2"])


def test_several_files_are_told_apart(parts):
    two = '{head}title: "{title}"\ngesture a "Call"\n  contour: C5\n  footnote: "{text}"\n'
    found = parts(*(two.format(head=HEAD, title=t, text=w) for t, w in (("One", "So."), ("Two", "Thus."))))
    (gestures,) = page.choose(found, ("en",)).sections
    assert [e.names for e in gestures.entries] == [("Call (One)",), ("Call (Two)",)]


def test_same_words_are_one_entry(parts):
    block = 'gesture {name}\n  contour: C5\n  footnote: "The same."\n'
    found = parts("".join(block.format(name=n) for n in ("one", "two", "three", "four")))
    (gestures,) = page.choose(found, ("en",)).sections
    assert [e.names for e in gestures.entries] == [("one, two, three, …",)]


# --- signs -------------------------------------------------------------------------------------------------------

USED = {
    "approximate": "contour: xC5",
    "highest": "contour: highest",
    "lowest": "contour: lowest",
    "slash-head": "contour: C5\n  notehead: slash",
    "diamond-head": "technique: air\n  contour: C5",
    "stops": "contour: C5 -- D5\n  lasts: 2 beats",
    "stemless": "contour: C5 -- D5@1 -- C5@2\n  lasts: 4 beats",
    "small-start": "technique: harmonic-gliss\n  contour: G4 ~~ G5\n  lasts: 2 s",
    "wavy": "contour: C5 ~~ D5@1\n  lasts: 2 beats",
    "growing": "contour: C5 ~~ growing D5@1\n  lasts: 2 beats",
    "fading": "contour: C5 ~~ fading D5@1\n  lasts: 2 beats",
    "straight": "contour: C5 -- D5@1\n  lasts: 2 beats",
    "arrow": "contour: C5 -> D5@1\n  lasts: 2 beats",
    "broken": "contour: C5 :: D5@1\n  lasts: 2 beats",
    "dotted": "contour: C5 .. D5@1\n  lasts: 2 beats",
    "gradual": "contour: C5 as air -- D5@1 as ordinary\n  lasts: 2 beats",
    "band": "band: C4..G5\n  contour: xD4, xE4",
    "lines": "band: low\n  contour: low, high",
    "second-note": "technique: shake\n  contour: G5",
    "quarter-tones-stein": "contour: C^5",
    "quarter-tones-arrows": "contour: C^5",
    "eighth-tones": "contour: C/5",
    "cents": "contour: C5+31c",
    "seconds": "contour: C5 -- D5@1\n  lasts: 2 s",
    "beats": "contour: C5, D5@5/37\n  lasts: 2 beats",
    "accelerating": "contour: C5\n  attacks: 6 accelerating\n  lasts: 3 beats",
    "slowing": "contour: C5\n  attacks: 6 slowing\n  lasts: 3 beats",
    "niente": "contour: C5\n  lasts: 2 beats\n  dynamics: n < f",
    "syllable": 'contour: C5 say "ta"',
    "breathing": "contour: C5, r inhale",
    "ad-lib": "contour: C5 ad lib -- D5",
    "strokes": "contour: C5 sixteenths",
    "unmeasured": "contour: C5 unmeasured",
    "graces": "contour: C5 grace, D5",
    "graces-after": "contour: C5 __ D5 grace",
}
# What else may appear in the example of a sign; nothing more.
BESIDE = {
    "highest": {"lines"},
    "lowest": {"lines"},
    "stops": {"straight"},
    "stemless": {"straight"},
    "small-start": {"stops", "wavy", "seconds"},
    "ad-lib": {"straight", "stops"},
    "growing": {"wavy"},
    "fading": {"wavy"},
    "gradual": {"diamond-head", "straight"},
    "band": {"approximate"},
    "lines": {"approximate"},
    "seconds": {"straight"},
}


def found_signs(parts_) -> set[str]:
    names = {wording(f"sign-{s.key}", "en"): s.key for s in SIGNS if s.key != "quarter-tones-arrows"}
    choice = page.choose(parts_, ("en",))
    return {names[e.names[0]] for s in choice.sections for e in s.entries if not e.number}


def test_every_sign_has_an_example_here():
    assert set(USED) == {s.key for s in SIGNS}


@pytest.mark.parametrize("key", [k for k in USED if k != "quarter-tones-arrows"])
def test_a_sign_is_explained_where_it_is_used_and_nowhere_else(parts, key):
    assert found_signs(parts(f"gesture a\n  {USED[key]}\n")) == {key} | BESIDE.get(key, set())


def test_an_extreme_among_pitches_is_shown_on_their_staff(parts):
    """By itself it would stand on three lines, which the part does not have."""
    found = parts("gesture a\n  contour: xC5 -> highest\n")
    (entry,) = [e for s in page.choose(found, ("en",)).sections for e in s.entries if e.names[0] == "Highest note"]
    assert [p.kind for p in entry.case.gesture.points] == ["pitch", "extreme"]


@pytest.mark.parametrize(
    "block", ["band: low\n  contour: low", "contour: xC5", "contour: highest", "contour: C5\n  notehead: slash"]
)
def test_a_diamond_that_gave_way_is_not_explained(parts, block):
    assert "diamond-head" not in found_signs(parts(f"gesture a\n  technique: air\n  {block}\n"))


def test_the_picture_of_a_diamond_shows_one(parts):
    found = parts("gesture a\n  technique: air\n  contour: xC5, E5\n")
    text = wording("remark-diamond-head", "en")
    (entry,) = (e for s in page.choose(found, ("en",)).sections for e in s.entries if e.texts == (text,))
    assert [p.about for p in entry.case.gesture.points] == [False]


@pytest.mark.parametrize("key", list(USED))
def test_the_picture_of_a_sign_shows_it(parts, key):
    """The example of a sign, taken from a longer gesture and engraved separately, still has it."""
    top = "accidentals: arrows\n" if key == "quarter-tones-arrows" else ""
    (part,) = parts(f"{HEAD}{top}gesture a\n  {USED[key]}\n")
    assert picture_shows(part, key)


@pytest.mark.parametrize("key", ["stops", "straight"])
def test_the_picture_of_a_sign_that_only_the_sung_line_has_shows_it(parts, key):
    (part,) = parts(
        "gesture a\n  technique: multiphonic\n  sing: C4 -- D4@2 -- C4\n  contour: F3\n  lasts: 4 beats\n"
    )
    assert picture_shows(part, key)


@pytest.mark.parametrize("key", ["growing", "fading"])
def test_the_picture_of_a_line_that_grows_or_fades_shows_that_line_and_no_other(parts, key):
    (part,) = parts(f"gesture a\n  contour: C5 ~~ D5@1 -- E5@2 ~~ {key} F5@3\n  lasts: 4 beats\n")
    assert picture_shows(part, key)


def test_every_kind_of_mark_is_explained_somewhere():
    """By a sign of the list, by the entry of its technique or by a remark; ends together with beginnings."""
    signs = {kind for sign in SIGNS for kind in sign.marks}
    begins = {kind for kind in MARKS if not kind.__name__.endswith("End")}
    assert len(begins) > 15
    assert signs | {*OF_TECHNIQUES, *OF_REMARKS} == begins
    assert {f"{kind.__name__.removesuffix('End')}Start" for kind in {*MARKS} - begins} <= {
        k.__name__ for k in begins
    }


@pytest.mark.parametrize("sign", [s for s in SIGNS if s.marks], ids=lambda s: s.key)
def test_a_sign_of_marks_has_one_of_them_in_its_example(parts, sign):
    top = "accidentals: arrows\n" if sign.key == "quarter-tones-arrows" else ""
    (part,) = parts(f"{HEAD}{top}gesture a\n  {USED[sign.key]}\n")
    ((_, music),) = part.gestures
    assert any(isinstance(mark, sign.marks) for mark in music.marks)


def picture_shows(part, key: str) -> bool:
    from gesturesmith.score import gesture_score
    from gesturesmith.sheets._signs import Use

    text = wording(f"remark-{key}", "en")
    entry = next(e for s in page.choose((part,), ("en",)).sections for e in s.entries if e.texts == (text,))
    music = gesture_score(entry.case, entry.settings)
    (sign,) = (s for s in SIGNS if s.key == key)
    return sign.used(Use(case=entry.case, music=music, settings=entry.settings))


def test_words_of_the_composer_are_no_signs(parts):
    found = parts('gesture a\n  contour: C5\n  text: "\\\\gsBand style . wavy \\\\gsX cqs4"\n')
    assert found_signs(found) == set()


# --- remarks -----------------------------------------------------------------------------------------------------


def said(found) -> str:
    return " ".join(text for texts in found for text in texts)


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("gesture a\n  contour: C#5\n", "remark-accidentals-note"),
        ("gesture a\n  contour: C5\npassage p\n  meter: 4/4\n  play: C#5 for 4\n", "remark-accidentals-both"),
        ("passage p\n  meter: 4/4\n  play: C#5 for 4\n", "remark-accidentals-bar"),
        ("gesture a\n  contour: C5\n  fingering: F 1-3\n", "remark-fingerings"),
        (
            "instrument: trumpet\npitches: written\ngesture a\n  contour: C5\n  fingering: 2-3\n",
            "remark-fingerings-valves",
        ),
        ("instrument: trombone\npitches: written\ngesture a\n  contour: F3\n  fingering: 6\n", "remark-positions"),
        ("gesture a\n  contour: C5, xD5\n", "remark-exact"),
        ("gesture a\n  technique: growl\n  contour: C5\n", "remark-words"),
    ],
)
def test_a_remark_is_made_where_it_is_needed(parts, text, key):
    keys = {"remark-exact", "remark-words", "remark-fingerings", "remark-fingerings-valves"}
    keys |= {"remark-positions", *(f"remark-accidentals-{k}" for k in ("note", "bar", "both"))}
    found = said(remarks(parts(text), ("en",)))
    assert wording(key, "en") in found
    for other in keys - {key}:
        assert wording(other, "en") not in found.replace(wording(key, "en"), "")


@pytest.mark.parametrize(
    ("instrument", "note", "text"),
    [
        ("horn", "C5", "Horn in F: the part sounds a perfect fifth lower than written."),
        ("trumpet", "C5", "Trumpet in B♭: the part sounds a major second lower than written."),
        ("trombone", "C3", "Trombone: the part sounds as written."),
    ],
)
def test_transposition(parts, instrument, note, text):
    found = transposition(
        parts(f"instrument: {instrument}\npitches: written\ngesture a\n  contour: {note}\n"), ("en",)
    )
    assert said(found) == text


def test_the_bass_clef_of_the_horn_is_explained_where_it_is_used(parts):
    low = "gesture a\n  contour: C3, D3, C3\n"
    assert wording("clef-horn-bass", "en") in said(transposition(parts(low), ("en",)))


def test_a_concert_score_says_so(parts):
    found = parts("gesture a\n  contour: C5\n", pitches="sounding")
    assert said(transposition(found, ("en",))) == wording("score-sounding", "en")


def test_cautions_once_and_the_player_decides_last(parts):
    found = cautions(parts(FILE), ("en", "de"))
    english = [c[0] for c in found]
    assert len(set(english)) == len(english)
    assert english[-1] == wording("caution-decide", "en")
    assert any(c.startswith("Flutter-tongue: ") for c in english)
    assert cautions(parts("gesture a\n  contour: C5\n"), ("en",)) == ()


# --- files that differ -------------------------------------------------------------------------------------------


def test_files_that_use_a_sign_differently_are_named():
    def source(name: str, top: str, more: str) -> Source:
        return Source(
            name, f"{HEAD}{top}gesture a\n  contour: C^5\ngesture b\n  technique: growl\n  contour: C4\n{more}"
        )

    sources = (
        source("one", "", ""),
        source("two", "accidentals: arrows\n", '  footnote: "Roar."\n'),
        source("three", "", ""),
    )
    ways = compile_notes(sources, NotesOptions()).ways
    assert differences(ways) == (
        "quarter-tone accidentals: one, three: stein; two: arrows",
        "growl: one, three: the standard wording; two: “Roar.”",
    )
    assert differences(w for w in ways if w.file != "two") == ()


def test_an_unreadable_file_does_not_stop_the_others():
    sources = (Source("bad", f"{HEAD}gesture a\n  conture: C5\n"), Source("good", HEAD + FILE))
    outcome = compile_notes(sources, NotesOptions())
    assert [r.readable for r in outcome.reports] == [False, True]
    assert len(outcome.items) == 1


# --- every technique ---------------------------------------------------------------------------------------------

GALLERY = sorted((Path(__file__).parents[2] / "docs" / "gallery").glob("*.gesture"))


@pytest.mark.parametrize("path", sample(GALLERY, 4), ids=lambda p: p.stem)
def test_every_technique_of_an_instrument_is_shown_alone(parts, path):
    """The gallery has every technique: each has its entry, and a picture that shows it and no other."""
    from gesturesmith.score import gesture_score

    found = parts(path.read_text("utf-8"))
    used = dict.fromkeys(t.key for part in found for case, _ in part.all for t in page.techniques_of(case))
    choice = page.choose(found, ("en",))
    shown = [e for s in choice.sections for e in s.entries if e.number]
    assert [key for key, _ in choice.numbers.techniques] == [k for group in _groups(used) for k in group]
    for (key, number), entry in zip(choice.numbers.techniques, shown, strict=False):
        assert entry.number == number
        layers = {t.layer for t in page.techniques_of(entry.case)}
        assert key in {t.key for t in page.techniques_of(entry.case)}
        assert len(layers) == 1
        assert len(entry.case.gesture.points) <= 10
        assert gesture_score(entry.case, entry.settings).parts


def _groups(keys) -> list[list[str]]:
    """Keys in the groups of a page, which have a fixed order; in each in order of first appearance."""
    groups: dict[str, list[str]] = {g: [] for g in ("motion", "edge", "valves", "bell", "mouth", "attack")}
    for key in keys:
        layer = techniques.get(key).layer
        mouth = layer in ("tone", "tongue", "voice", "lip")
        layer = "bell" if layer in ("cover", "stem") else layer
        groups["edge" if layer.startswith("edge") else "mouth" if mouth else layer].append(key)
    return list(groups.values())


def test_a_note_beside_a_footnote_stands_on_the_page(parts):
    made = parts('gesture a\n  contour: C5\n  footnote: "Ours."\n  note: "And more."\n')
    texts = [t for s in page.choose(made, ("en",)).sections for e in s.entries for t in e.texts]
    assert "Ours. And more." in texts


def test_a_line_to_sing_and_none_are_both_explained(parts):
    one = "gesture {}\n  technique: multiphonic\n  contour: F3\n  lasts: 4 beats\n"
    made = parts(one.format("a") + one.format("b") + "  sing: C4\n")
    texts = " ".join(t for s in page.choose(made, ("en",)).sections for e in s.entries for t in e.texts)
    assert "another octave" in texts
    assert "at the pitch written" in texts


def test_a_sign_on_the_note_where_a_line_stops_has_its_picture(parts):
    """The quarter tone is where no time is left: alone it is a note like any other."""
    from gesturesmith.score import gesture_score

    made = parts("gesture a\n  technique: lip-gliss\n  contour: G4 ~~ F#^4\n  lasts: 2 beats\n")
    entries = [e for s in page.choose(made, ("en",)).sections for e in s.entries]
    assert all(e.case.gesture.beats > 0 and gesture_score(e.case, e.settings).parts for e in entries)


def test_a_gesture_that_begins_with_a_silence_has_pictures_of_its_signs(parts):
    made = parts("gesture a\n  band: middle\n  contour: r, low, high\n  lasts: 4 beats\n")
    (entry,) = (e for s in page.choose(made, ("en",)).sections for e in s.entries if "lines" in " ".join(e.texts))
    assert [p.kind for p in entry.case.gesture.points] == ["height", "height"]
