"""Each sign of a gesture becomes the element that MusicXML has for it, and words where it has none."""

from __future__ import annotations

import io
import zipfile
from fractions import Fraction
from xml.etree import ElementTree

import pytest
from musicxml import exported, readers

import gesturesmith
from gesturesmith.backends.musicxml.marks import lost
from gesturesmith.score.marks import BandStart, LineStart, Mark, Script
from gesturesmith.units import Spelling
from gesturesmith.writers.base import is_ours

HEAD = "instrument: {instrument}\npitches: written\n"


def score(text: str, name: str = "one", **options) -> ElementTree.Element:
    """The document of one gesture or passage of a file."""
    made = gesturesmith.render(text, "musicxml", only=name, draft=True, **options)
    assert made.files, gesturesmith.to_text(made.report)
    (file,) = made.files
    assert readers.invalid(exported.Exported(name, file.data, ())) == []
    return ElementTree.fromstring(file.data)


def gesture(lines: str, instrument: str = "horn") -> ElementTree.Element:
    """The document of a gesture, its keys separated by semicolons."""
    body = "".join(f"  {line.strip()}\n" for line in lines.split(";"))
    return score(f"{HEAD.format(instrument=instrument)}gesture one\n{body}")


def passage(lines: str, before: str = "") -> ElementTree.Element:
    body = "".join(f"  {line.strip()}\n" for line in lines.split(";"))
    return score(f"{HEAD.format(instrument='horn')}{before}passage one\n{body}")


def found(root: ElementTree.Element, path: str) -> list[str]:
    """The texts of elements, or their names if they have none, with the attributes that say something."""
    shown = (
        "type",
        "line-type",
        "line-end",
        "trill-step",
        "line-length",
        "line-shape",
        "fan",
        "parentheses",
        "size",
        "niente",
    )
    rows = []
    for one in root.iterfind(f".//{path}"):
        said = [(one.text or "").strip() or one.tag, *(one.get(name) for name in shown if one.get(name))]
        rows.append(" ".join(said))
    return rows


SIGNS = {
    "every point of a line ends one slide and begins the next": (
        "technique: half-valve; contour: xG4 ~~ xD5@2 ~~ xF5@4; lasts: 4 beats",
        "slide",
        ["slide start wavy", "slide stop wavy", "slide start wavy", "slide stop wavy"],
    ),
    "broken": ("contour: G4 :: C5", "slide", ["slide start dashed", "slide stop dashed"]),
    "dotted": ("contour: G4 .. C5", "slide", ["slide start dotted", "slide stop dotted"]),
    "steps make a glissando": (
        "technique: chromatic; contour: C4 -- C5; lasts: 2 beats",
        "glissando",
        ["glissando start solid", "glissando stop solid"],
    ),
    "where a line stops": ("contour: G4 -- C5", "notehead", ["normal yes"]),
    "approximate": ("contour: xG4, xC5", "notehead", ["x", "x"]),
    "a diamond": ("technique: air; contour: G4", "notehead", ["diamond"]),
    "an extreme": ("contour: highest", "notehead", ["triangle"]),
    "a height": ("band: G4..F5; contour: high, 0%", "display-step", ["F", "G"]),
    "on three lines": ("band: middle; contour: high, mid, low", "display-step", ["B", "G", "E"]),
    "three lines": ("band: middle; contour: high, mid, low", "staff-lines", ["3"]),
    "no pitch": ("technique: slap-tongue; contour: G4", "display-step", ["G"]),
    "stopped": ("technique: stopped; contour: C5, D5", "technical/stopped", ["stopped", "stopped"]),
    "stopped, to be heard": ("technique: stopped; contour: C5", "play/mute", ["stop-hand"]),
    "half-stopped": ("technique: half-stopped; contour: C5", "technical/half-muted", ["half-muted"]),
    "half-stopped, to be heard": ("technique: half-stopped; contour: C5", "play/mute", ["echo"]),
    "mutes": ("technique: muted; mute: cup; contour: C5", "play/mute", ["cup"]),
    "double tonguing": ("technique: double-tongue; contour: C5, C5", "double-tongue", ["double-tongue"] * 2),
    "flutter": ("technique: flutter-tongue; contour: C5", "tremolo", ["3 single"]),
    "repeats by the tongue": ("contour: C5 sixteenths; lasts: 2 beats", "tremolo", ["2 single"]),
    "a flag is one of the strokes": ("contour: C5@0 sixteenths, D5@1/2; lasts: 1 beat", "tremolo", ["1 single"]),
    "a scoop": ("technique: scoop; contour: C5", "articulations/scoop", ["scoop"]),
    "a long fall": ("technique: long-fall; contour: C5", "falloff", ["falloff long"]),
    "a rip": ("technique: rip; contour: C5", "articulations/scoop", ["scoop long straight"]),
    "a smear": ("technique: smear; contour: C5", "technical/smear", ["smear"]),
    "a bend": ("technique: bend; contour: C5", "brass-bend", ["brass-bend"]),
    "a trill of a tone": ("technique: valve-trill; contour: C5; trill: whole", "trill-mark", ["trill-mark whole"]),
    "another fingering": ("technique: timbre-trill; contour: C5", "trill-mark", ["trill-mark unison"]),
    "graces": ("contour: G4 grace, C5", "grace", ["grace"]),
    "articulations": (
        "contour: C5 accent, D5 staccato, E5 tenuto, F5 marcato breath",
        "articulations/*",
        ["accent", "staccato", "tenuto", "strong-accent", "breath-mark"],
    ),
    "a slur": ("contour: C5 __ D5", "slur", ["slur start", "slur stop"]),
    "hairpins": (
        "contour: C5; lasts: 4 beats; dynamics: n < mf@2 > n",
        "wedge",
        ["wedge crescendo yes", "wedge stop", "wedge diminuendo", "wedge stop yes"],
    ),
    "a feathered beam": (
        "contour: C5; attacks: 5 accelerating; lasts: 4 beats",
        "beam[@number='1']",
        ["begin accel", "continue", "continue", "continue", "end"],
    ),
    "a tuplet": ("contour: C5, D5, E5, F5, G5; lasts: 1 beat", "actual-notes", ["5"] * 5),
    "its bracket": ("contour: C5, D5, E5, F5, G5; lasts: 1 beat", "tuplet", ["tuplet start", "tuplet stop"]),
    "a second voice": (
        "technique: multiphonic; contour: F3; sing: C4, D4@2; lasts: 4 beats",
        "voice",
        ["1", "2", "2"],
    ),
    "two partials": ("technique: split-tone; contour: C5", "chord", ["chord"]),
    "valves, one each": ("fingering: F 1-2; contour: A4", "fingering", ["1", "2"]),
    "a syllable": ("technique: air; contour: C5 say \"f\"", "lyric/text", ["f"]),
    "a length": ("contour: C5 -- D5@1; lasts: 2.5 s", "bracket", ["bracket start solid down", "bracket stop down"]),
}  # fmt: skip


@pytest.mark.parametrize("name", SIGNS)
def test_a_sign_has_its_element(name):
    text, path, expected = SIGNS[name]
    assert found(gesture(text), path) == expected


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("technique: half-valve; contour: xC5", ["½ valve"]),
        ("technique: half-stopped; contour: C5, D5", ["half-stopped"]),
        ("technique: doit; contour: C5", ["doit"]),
        ("technique: bend; contour: C5", ["lip bend"]),
        ("contour: C5 closed, D5 open", ["open"]),
        ("contour: C5 ~~ growing xD5", ["Growing waves"]),
        ("band: G4..F5; contour: high", ["G4–F5"]),
        ('contour: C5 "inside the bell"', ["inside the bell"]),
        ("contour: C5+31c", ["+31"]),
    ],
)
def test_words_stand_where_programs_leave_a_sign_out(text, said):
    words = found(gesture(text), "words")
    assert [word for word in words if word in said] == said


ALTERS = [
    ("C5+31c", "stein", [("C", "0.31", "natural")]),
    ("F#^4", "stein", [("F", "1.5", "three-quarters-sharp")]),
    ("F^4", "stein", [("F", "0.5", "quarter-sharp")]),
    ("F^4", "arrows", [("F", "0.5", "natural-up")]),
    ("F/4, F#\\4", "stein", [("F", "0.25", "natural-up"), ("F", "0.75", "sharp-down")]),
    ("C#5+70c", "stein", [("D", "-0.3", "natural")]),
    ("Bb4, Bb4, B4", "stein", [("B", "-1", "flat"), ("B", "-1", "flat"), ("B", None, "natural")]),
]


@pytest.mark.parametrize(("contour", "signs", "expected"), ALTERS, ids=[f"{a[0]} {a[1]}" for a in ALTERS])
def test_a_pitch_is_spelled_with_its_cents(contour, signs, expected):
    root = score(f"{HEAD.format(instrument='horn')}accidentals: {signs}\ngesture one\n  contour: {contour}\n")
    notes = [
        (n.findtext("pitch/step"), n.findtext("pitch/alter"), n.findtext("accidental")) for n in root.iter("note")
    ]
    assert notes == expected


def test_in_bars_an_accidental_holds_and_is_taken_back():
    root = passage("play: Bb4 for 1, Bb4 for 1, B4 for 1, C5 for 1, B4 for 4; meter: 4/4")
    assert [n.findtext("accidental") for n in root.iter("note")] == ["flat", None, "natural", None, None]


def test_free_time_has_hidden_signatures_and_no_bar_lines():
    root = passage("play: C5 for 2, rest 1, D5 for 3/2")
    times = [(t.get("print-object"), t.findtext("beats"), t.findtext("beat-type")) for t in root.iter("time")]
    assert times == [("no", "2", "4"), ("no", "1", "4"), ("no", "3", "8")]
    assert found(root, "bar-style") == ["none", "none", "light-light"]
    assert found(root, "measure-numbering") == ["none"]


def test_where_the_hand_turns_on_its_sign_stands_once():
    root = gesture("contour: G4 closed -> G4@3 half-closed -> G4@5 open; lasts: 6 beats")
    signs = [[sign.tag for sign in note.iterfind("notations/technical/*")] for note in root.iter("note")]
    assert signs == [["stopped"], ["half-muted"], ["open"]]


def test_a_length_that_no_signature_has_is_joined_to_the_next():
    """A third of a beat and two thirds: one measure of a beat."""
    root = score(
        f"{HEAD.format(instrument='horn')}gesture third\n  contour: C5\n  lasts: 1/3 beats\n"
        "gesture rest-of-it\n  contour: D5\n  lasts: 2/3 beats\npassage one\n  play: third, rest-of-it, C5 for 1\n"
    )
    assert [(t.findtext("beats"), t.findtext("beat-type")) for t in root.iter("time")] == [("1", "4")]
    assert len(root.findall(".//measure")) == 2


def test_bars_tempo_and_repeats():
    root = passage('play: C5 for 4, D5 for 2; meter: 6/8; tempo: "Calm" 60; bar: 12; repeat: 3')
    assert [m.get("number") for m in root.iter("measure")] == ["12", "13"]
    assert (found(root, "metronome/beat-unit"), len(root.findall(".//beat-unit-dot"))) == (["quarter"], 1)
    assert [s.get("tempo") for s in root.iter("sound")] == ["60"]
    assert [(r.get("direction"), r.get("times")) for r in root.iter("repeat")] == [
        ("forward", None),
        ("backward", "3"),
    ]


def test_a_passage_changes_tempo_meter_and_key():
    root = passage(
        'key: F major; meter: 4/4; tempo: 60; pickup: 1 beat; bar: 9; play: Bb4 for 1, tempo "Faster" 96, '
        "Bb4 for 2, B4 for 2, mark A, double bar, meter 3/4, key D major, ritardando to 60 over 1 bar, "
        "F#5 for 2, C5 for 1, D5 for 3"
    )
    assert [(m.get("number"), m.get("implicit")) for m in root.iter("measure")][:4] == [
        ("8", "yes"),
        ("9", None),
        ("10", None),
        ("11", None),
    ]
    assert found(root, "key/fifths") == ["-1", "2"]
    assert found(root, "key/mode") == ["major", "major"]
    assert [(t.findtext("beats"), t.findtext("beat-type")) for t in root.iter("time")] == [("4", "4"), ("3", "4")]
    assert [s.get("tempo") for s in root.iter("sound")] == ["60", "96", "60"]
    assert found(root, "per-minute") == ["60", "96", "60"]
    assert found(root, "rehearsal") == ["A"]
    assert [w for w in found(root, "words") if w] == ["Faster", "rit."]
    assert found(root, "bar-style") == ["light-light", "light-heavy"]
    signs = [
        (n.findtext("pitch/step"), n.findtext("accidental")) for n in root.iter("note") if n.find("rest") is None
    ]
    assert list(dict.fromkeys(signs)) == [("B", None), ("B", "natural"), ("F", None), ("C", "natural"), ("D", None)]


@pytest.mark.parametrize(
    ("instrument", "written"),
    [
        ("horn", ("-4", "-7", None)),
        ("natural-horn-bb-basso", ("-1", "-2", "-1")),
        ("trombone", (None, None, None)),
    ],
)
def test_parts_are_written_and_transpose(instrument, written):
    root = gesture("contour: C4", instrument)
    assert tuple(root.findtext(f".//transpose/{n}") for n in ("diatonic", "chromatic", "octave-change")) == written


def test_a_concert_score_does_not_transpose():
    text = f"{HEAD.format(instrument='horn')}gesture one\n  contour: C5\n"
    root = score(text, pitches="sounding")
    assert root.find(".//transpose") is None
    assert (root.findtext(".//step"), root.findtext(".//octave")) == ("F", "4")


PARTS = """title: "Harbour"
composer: "Somebody"
pitches: written
meter: 4/4
part horns "Horns"
  instrument: horn
  players: 2
part tuba "Tuba"
  instrument: tuba
  short: "Tb."
gesture call "Call"
  technique: stopped
  contour: C5
  lasts: 4 beats
passage one "One"
  horns: call, C5 for 4
  tuba: C2 for 4, rest 4
passage two "Two"
  horns: call / E5 for 4
  tuba: C2 for 4
"""


def test_a_score_has_its_parts_and_their_players():
    files = {str(f.place): f.data for f in gesturesmith.render(PARTS, "musicxml").files}
    assert sorted(f for f in files if f.count("/") < 2)[0] == "text.musicxml"
    root = ElementTree.fromstring(files["text.musicxml"])
    assert readers.invalid(exported.Exported("score", files["text.musicxml"], ())) == []
    assert found(root, "part-name") == ["Horns", "Horns 2.", "Tuba"]
    assert found(root, "part-abbreviation") == ["Hn.", "Hn. 2.", "Tb."]
    assert found(root, "instrument-sound") == ["brass.french-horn", "brass.french-horn", "brass.tuba"]
    assert found(root, "midi-program") == ["61", "61", "59"]
    assert (found(root, "work-title"), found(root, "creator")) == (["Harbour"], ["Somebody composer"])
    assert [len(part.findall("measure")) for part in root.findall("part")] == [3, 3, 3]
    assert found(root, "words[@font-weight='bold']") == ["One", "Two"]
    empty = root.findall("part")[1].findall("measure")[0]
    assert [n.find("rest").get("measure") for n in empty.iter("note")] == ["yes"]


def test_footnotes_are_numbered_throughout_and_have_their_texts():
    text = HEAD.format(instrument="horn") + "".join(
        f'gesture {name}\n  contour: C5\n  footnote: "{note}"\n'
        for name, note in (("a", "First."), ("b", "Second."), ("c", "First."))
    )
    page = next(f.data for f in gesturesmith.render(text, "musicxml").files if str(f.place) == "text.musicxml")
    root = ElementTree.fromstring(page)
    assert found(root, "footnote") == ["1 First.", "2 Second.", "1 First."]
    assert [w for w in found(root, "words") if w in "¹²³"] == ["¹", "²", "¹"]
    notes = [c.findtext("credit-words") for c in root.iter("credit") if c.findtext("credit-type") == "footnote"]
    assert notes == ["1 First.", "2 Second."]


def test_pages_that_ask_for_tiring_playing_say_so():
    made = gesturesmith.render(
        f"{HEAD.format(instrument='horn')}gesture one\n  technique: growl\n  contour: C4\n", "musicxml"
    )
    root = ElementTree.fromstring(made.files[0].data)
    assert any(c.findtext("credit-type") == "caution" for c in root.iter("credit"))


def test_a_page_with_texts_at_its_foot_has_its_title_and_composer_as_texts_too():
    """Some programs print the texts of a page instead of the title of the work, not beside it."""

    def texts(lines: str) -> list[tuple[str | None, str | None]]:
        head = 'instrument: trombone\ntitle: "Tides"\ncomposer: "A. Player"\n'
        made = gesturesmith.render(f"{head}gesture one\n  contour: C3\n{lines}", "musicxml")
        page = next(f.data for f in made.files if str(f.place) == "text.musicxml")
        credits = ElementTree.fromstring(page).iter("credit")
        return [(c.findtext("credit-type"), c.findtext("credit-words")) for c in credits]

    noted = texts('  footnote: "Far."\n')
    assert noted == [("title", "Tides"), ("composer", "A. Player"), ("footnote", "1 Far.")]
    assert texts("") == []


def test_text_is_text():
    strange = "a <b> & 'c' ]]> -- \N{GRINNING FACE}"
    assert strange in found(gesture(f'contour: C5; text: "{strange}"'), "words")


def test_it_is_known_as_ours_to_the_last_byte():
    text = f"{HEAD.format(instrument='horn')}gesture one\n  contour: C5\n"
    for key in ("musicxml", "mxl"):
        (file, *_) = gesturesmith.render(text, key).files
        again = gesturesmith.render(text, key).files[0]
        assert file.data == again.data
        assert is_ours(file.data)
        for at in range(0, len(file.data), len(file.data) // 60):
            assert not is_ours(file.data[:at] + bytes([file.data[at] ^ 1]) + file.data[at + 1 :]), (key, at)


def test_the_compressed_form_holds_the_same_document():
    text = f"{HEAD.format(instrument='horn')}gesture one\n  contour: C5\n"
    plain, packed = (gesturesmith.render(text, key, only="one").files[0].data for key in ("musicxml", "mxl"))
    with zipfile.ZipFile(io.BytesIO(packed)) as archive:
        assert archive.testzip() is None
        assert archive.namelist()[0] == "mimetype"
        container = ElementTree.fromstring(archive.read("META-INF/container.xml"))
        path = container.find("rootfiles/rootfile").get("full-path")
        assert archive.read(path) == plain


LOST: list[tuple[Mark, str]] = [
    (LineStart(style="straight", arrow=True), "the arrow at the end of a line"),
    (LineStart(style="wavy", growth="fading"), "how a line grows or fades (in words)"),
    (
        BandStart(low=Spelling("G", Fraction(0), 4), high=Spelling("F", Fraction(0), 5)),
        "the grey field of a band (its limits in words)",
    ),
    (LineStart(style="wavy"), ""),
    (Script(sign="stopped"), ""),
]  # fmt: skip


@pytest.mark.parametrize(("mark", "said"), LOST, ids=[said or repr(mark) for mark, said in LOST])
def test_what_is_lost_is_named(mark, said):
    assert lost(mark) == said
