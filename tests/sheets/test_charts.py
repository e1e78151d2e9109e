"""Charts: their values against outside sources, and that LilyPond engraves them without a message."""

from __future__ import annotations

import csv
import io
import re
import textwrap
from fractions import Fraction
from pathlib import Path

import pypdf
import pytest
from sampling import sample

import gesturesmith
from gesturesmith import instruments, sheets, techniques
from gesturesmith.diagnostics import GestureReport, Verdict
from gesturesmith.exercises.probes import reach
from gesturesmith.instruments._build import cents
from gesturesmith.judge.gesture import judge
from gesturesmith.lilypond import Job, LilyPond, find, start
from gesturesmith.model.piece import Settings
from gesturesmith.pipeline.chart import ChartOptions, compile_chart
from gesturesmith.sheets import charts
from gesturesmith.sheets.charts.fingering import both_names, fingered
from gesturesmith.sheets.charts.ladders import ladder
from gesturesmith.sheets.charts.map import survey
from gesturesmith.sheets.charts.quarter_tones import quarter_tones

HORN, TROMBONE, NATURAL = (instruments.get(n) for n in ("horn", "trombone", "natural-horn"))

# The standard double-horn chart (Farkas type, from memory): F side up to written G4, B-flat side from Ab4.
HORN_CHART = """
F#2 F 1-2-3, G2 F 1-3, Ab2 F 2-3, A2 F 1-2, Bb2 F 1, B2 F 2, C3 F 0, C#3 F 1-2-3, D3 F 1-3, Eb3 F 2-3,
E3 F 1-2, F3 F 1, F#3 F 2, G3 F 0, Ab3 F 2-3, A3 F 1-2, Bb3 F 1, B3 F 2, C4 F 0, C#4 F 1-2,
D4 F 1, Eb4 F 2, E4 F 0, F4 F 1, F#4 F 2, G4 F 0, Ab4 Bb 2-3, A4 Bb 1-2, Bb4 Bb 1, B4 Bb 2,
C5 Bb 0, C#5 Bb 2-3, D5 Bb 1-2, Eb5 Bb 1, E5 Bb 2, F5 Bb 0, F#5 Bb 2, G5 Bb 0, Ab5 Bb 2-3, A5 Bb 1-2,
Bb5 Bb 1, B5 Bb 2, C6 Bb 0
"""
# OEIS A309909, citing Kennan, The Technique of Orchestration (1952), pp. 136-141: lowest positions, the first
# seven the pedal notes E1 to Bb1, then E2 upward; here up to Eb5.
A309909 = [7, 6, 5, 4, 3, 2, 1, 7, 6, 5, 4, 3, 2, 1, 7, 6, 5, 4, 3, 2, 1, 5, 4, 3, 2, 1, 4, 3, 2, 1, 3, 2, 1]
A309909 += [3, 2, 3, 2, 1, 2, 1, 2, 1, 2]
REFERENCE = Path(__file__).parents[1] / "reference" / "check_values.csv"


def checked(name: str, *bodies: str) -> tuple[GestureReport, ...]:
    """What `check` says of gestures on an instrument."""
    gestures = (f"gesture g{n}\n{textwrap.indent(body, '  ')}" for n, body in enumerate(bodies))
    return gesturesmith.check("\n".join((f"instrument: {name}\npitches: written\ntempo: 120", *gestures))).gestures


def settings(name: str, *wording: str, paper: tuple[str, str] = ("210", "297")) -> Settings:
    return Settings(
        instrument=instruments.get(name),
        pitches="written",
        wording=wording or ("en",),
        paper_mm=(Fraction(paper[0]), Fraction(paper[1])),
    )


# --- values ----------------------------------------------------------------------------------------------------


def test_the_horn_chart_is_the_standard_one() -> None:
    found = {row.cents: row.usual for row in fingered(HORN)}
    for item in HORN_CHART.replace("\n", " ").split(","):
        note, _, tube = item.strip().partition(" ")
        assert found[cents(note)] == tube, note


def test_the_slide_chart_is_oeis_a309909() -> None:
    found = {row.cents: row.usual for row in fingered(TROMBONE)}
    pitches = [*range(2800, 3500, 100), *range(4000, 7600, 100)]
    assert [int(found[c].removeprefix("short ")) for c in pitches] == A309909


def test_what_the_slide_has_to_go_in_for_is_said() -> None:
    """The 7th harmonic is 31 cents flat: F#4 and G4 are played with the slide a third of a semitone in. Eb5 is the
    11th, 49 cents flat. The parts say the same."""
    found = {row.cents: row for row in fingered(TROMBONE)}
    assert {n: found[cents(n)].usual for n in ("F4", "F#4", "G4", "Ab4", "D5", "Eb5")} == {
        "F4": "1", "F#4": "short 3", "G4": "short 2", "Ab4": "3", "D5": "1", "Eb5": "short 2",
    }  # fmt: skip
    assert found[cents("G4")].others == ("4", "6")


def test_between_pedals_and_e2_the_tenor_trombone_has_nothing() -> None:
    """The lowest note of partial 2 is E2, in the seventh position; Bb1 is the highest pedal."""
    found = {row.cents: row for row in fingered(TROMBONE)}
    for note in ("B1", "C2", "C#2", "D2", "Eb2"):
        assert found[cents(note)].usual == ""
        assert found[cents(note)].others == ()


@pytest.mark.parametrize("name", instruments.names())
def test_chart_map_and_checker_are_one_reading(name: str) -> None:
    """Every note of the widest range: the chart has the fingering that the checker has it played with, leaves out
    what no tube gives, and marks what the checker, and the map, call possible with care."""
    instrument = instruments.get(name)
    chart = {row.cents: row for row in fingered(instrument)}
    cells = reach(techniques.get("ordinary"), instrument)
    reports = checked(name, *(f"contour: {cell.note.name}\nlasts: 2 beats" for cell in cells))
    for cell, report in zip(cells, reports, strict=True):
        cents_, note = int(cell.note.pitch_cents), cell.note.name
        assert cell.verdict.value == report.verdict.value, note
        nothing = {f.rule for f in report.findings} & {"pitch-no-tube-gives"}
        row = chart.get(cents_)
        if row is None:  # below the lowest note that a tube gives
            assert cents_ < min(chart)
            assert nothing, note
            continue
        assert row.verdict.value == report.verdict.value, note
        played = report.realisation.points[0]
        if row.usual == "":
            assert nothing, note
        elif len(instrument.tubes) == 1:
            assert row.usual.split()[0] == str(played.partial), note
        else:
            assert not nothing, note
            assert row.usual == f"{played.side} {played.valves}".strip(), note
            assert row.correction[1] in (0, -played.cents), note
            assert played.correction in (row.correction[0], ""), note


# Wikibooks, Trombone, Slide Positions: the trigger gives the notes of position 6 in 1 and those of 7 in 2. Below E2
# semitones of the tube in F; playingbrass.com: six positions, down to C2, no B1.
TRIGGER = "C3 T 1, B2 T 2, F2 T 1, E2 T 2, Eb2 T 3, D2 T 4, C#2 T 5, C2 T 6, Bb2 1, A2 2, G2 4, D3 4, F3 1"
# Common practice: every elementary chart of three valves, and 4 for 1-3, 2-4 for 1-2-3 where there are four.
THREE_VALVES = """
F#3 1-2-3, G3 1-3, Ab3 2-3, A3 1-2, Bb3 1, B3 2, C4 0, C#4 1-2-3, D4 1-3, Eb4 2-3, E4 1-2, F4 1, F#4 2,
G4 0, Ab4 2-3, A4 1-2, Bb4 1, B4 2, C5 0, C#5 1-2, D5 1, Eb5 2, E5 0, F5 1, F#5 2, G5 0, Ab5 2-3, A5 1-2,
Bb5 1, B5 2, C6 0
"""
TUBA_IN_C = """F#1 2-4, G1 4, Ab1 2-3, A1 1-2, Bb1 1, B1 2, C2 0, C#2 2-4, D2 4, Eb2 2-3, E2 1-2, F2 1, F#2 2, G2 0,
Ab2 2-3, A2 1-2, Bb2 1, B2 2, C3 0, F1 1-4, E1 2-3-4, Eb1 1-3-4, D1 1-2-3-4"""
PUBLISHED = [
    ("trombone-f", TRIGGER),
    ("bass-trombone", TRIGGER.replace("C2 T 6", "C2 TT 3, B1 TT 4")),
    *(
        (name, THREE_VALVES)
        for name in ("trumpet", "trumpet-c", "trumpet-eb", "cornet", "flugelhorn", "tenor-horn")
    ),
    ("tuba", TUBA_IN_C),
]


@pytest.mark.parametrize(("name", "table"), PUBLISHED, ids=[name for name, _ in PUBLISHED])
def test_a_chart_is_the_published_one(name: str, table: str) -> None:
    found = {row.cents: row.usual for row in fingered(instruments.get(name))}
    for item in table.replace("\n", " ").split(","):
        note, _, tube = item.strip().partition(" ")
        assert found[cents(note)] == tube, note


def test_what_has_to_be_brought_into_tune_is_said() -> None:
    """D1 on 1-2-3-4 is 75 cents sharp (tests/acoustics): a slide is drawn. Eleven semitones below C2 is nothing."""
    tuba = {row.cents: row for row in fingered(instruments.get("tuba"))}
    assert tuba[cents("D1")].correction == ("slide", -75)
    assert tuba[cents("G1")].correction == ("", 0)
    assert tuba[cents("C#1")].usual == ""
    trumpet = {row.cents: row for row in fingered(instruments.get("trumpet"))}
    assert trumpet[cents("C#4")].correction == ("slide", -56)
    assert "slide −56" in charts.book(charts.get("fingering"), settings("trumpet"), output="chart")


def test_the_last_position_with_the_trigger_is_played_with_care() -> None:
    """T 6 is at 7.4 positions of the open slide, which has seven (tests/acoustics)."""
    found = {row.cents: row for row in fingered(instruments.get("trombone-f"))}
    assert found[cents("C2")].verdict is Verdict.WITH_CARE
    assert found[cents("C#2")].verdict is Verdict.PLAYABLE


def test_b_flat_and_b_lie_close_with_the_trigger() -> None:
    """With the trigger B2 is in its second position: the slide need not go out to the seventh."""
    text = "contour: Bb2, B2, Bb2, B2, Bb2, B2, Bb2, B2\nlasts: 2 beats"
    (without,), (with_trigger,) = checked("trombone", text), checked("trombone-f", text)
    assert [f.rule for f in without.findings] == ["slide-travel-too-fast"]
    assert with_trigger.findings == ()


def test_others_give_the_note_in_tune() -> None:
    """Other fingerings are other tubes with a partial within 15 cents; the standard one is not among them."""
    from gesturesmith.acoustics.series import nearest_partial, partial_cents

    for row in fingered(HORN):
        assert row.usual not in row.others
        assert len(set(row.others)) == len(row.others) <= 3
        for name in row.others:
            tube = HORN.tube(name)
            sounding = row.cents + int(HORN.sounding.cents)
            n = nearest_partial(sounding, tube.fundamental_cents, *tube.widest_partials)
            assert abs(tube.fundamental_cents + partial_cents(n) - sounding) <= 15


def test_a_natural_horn_has_its_partials_and_what_the_hand_makes() -> None:
    """Written C4 E4 G4 are partials 4 5 6; the hand takes partial 6 down to F#4 (Ericson: to a half step above the
    next one below)."""
    found = {row.cents: row.usual for row in fingered(NATURAL)}
    assert [found[cents(n)] for n in ("C4", "E4", "G4", "C5", "D5")] == ["4", "5", "6", "8", "9"]
    assert found[cents("F#4")] == "6 +"
    # naturalhorn.com, hand position: "The 7th overtone Bb is done with the hand OUT, as is the F# (top line)".
    assert found[cents("Bb4")] == "7 o"
    assert found[cents("F#5")] == "11 o"


def test_black_keys_have_both_names() -> None:
    assert [note.name for note in both_names(cents("C#4"))] == ["C#4", "Db4"]
    assert [note.name for note in both_names(cents("A#4"))] == ["A#4", "Bb4"]
    assert [note.name for note in both_names(cents("E4"))] == ["E4"]


def test_the_ladder_is_the_harmonic_series() -> None:
    """Cents against equal temperament, as music21, librosa and PyTuning have them (tests/reference)."""
    pattern = re.compile(r"partial (\d+): deviation from 12-TET \(nearest")
    known = {}
    with REFERENCE.open(newline="") as file:
        for row in csv.DictReader(line for line in file if not line.startswith("#")):
            match = pattern.match(row["quantity"])
            if match:
                known[int(match[1])] = float(row["value"])
    rungs = {rung.number: rung for rung in ladder(HORN, HORN.tube("F 0"))}
    assert len(set(known) & set(rungs)) >= 15
    for n in set(known) & set(rungs):
        assert rungs[n].cents == round(known[n]), n
    assert [rungs[n].note.name for n in (1, 2, 3, 4, 5, 6, 8)] == ["C2", "C3", "G3", "C4", "E4", "G4", "C5"]


def test_quarter_tones_are_what_the_checker_says() -> None:
    found = quarter_tones(HORN)
    names = [one.note.name for one in found]
    assert names[0] == "Gv2"  # between F#2 and G2
    assert names[-1] == "B^5"
    assert len(names) == len(set(names)) == 42
    for one in found:
        assert one.correction == "" or abs(one.error) > 15
        assert one.tube or one.verdict is Verdict.NOT_AS_WRITTEN


def test_quarter_tones_that_are_not_to_be_had_are_told() -> None:
    """Written C^3 lies 652 cents below partial 3 of a natural horn, and the hand lowers it by up to 602 at most."""
    found = {one.note.name: one for one in quarter_tones(NATURAL)}
    assert found["C^3"].verdict is Verdict.NOT_AS_WRITTEN
    assert found["C^3"].error == 652
    assert found["B^4"].verdict is not Verdict.NOT_AS_WRITTEN


def test_the_map_holds_every_technique_once() -> None:
    found = survey(HORN)
    keys = [t.key for t, _ in found.rows] + [t.key for t in (*found.unpitched, *found.missing, *found.rare)]
    assert sorted(keys) == sorted(techniques.names())
    assert {t.needs for t in found.missing} == {"slide", "trigger", "valve-slide"}
    assert all(t.pitched == "none" for t in found.unpitched)


def test_a_harmon_mute_is_for_trumpets_and_trombones() -> None:
    """Common practice; its stems are in no row of the map of a horn or a tuba."""
    for name, there in (("horn", False), ("tuba", False), ("trumpet", True), ("trombone", True)):
        keys = {t.key for t, _ in survey(instruments.get(name)).rows}
        assert ("stem-in" in keys) is there


def test_a_cell_of_the_map_is_a_verdict() -> None:
    """A note shown as playable is playable: its probe is judged again."""
    from gesturesmith.exercises.probes import probe_gestures

    for technique, row in survey(HORN).rows[:6]:
        for one in row[::9]:
            verdicts = {
                judge(g).verdict for s in probe_gestures(technique, HORN) if (g := s.at(one.note)) is not None
            }
            assert one.verdict in verdicts, (technique.key, one.note.name)


# --- pages -----------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def lilypond() -> LilyPond:
    found = find()
    assert isinstance(found, LilyPond)
    return found


def test_the_kinds_are_found_by_their_files() -> None:
    assert charts.names() == ("fingering", "ladders", "map", "quarter-tones")
    with pytest.raises(KeyError):
        charts.get("base")


CASES = [("horn", ("en",)), ("trombone-f", ("de",)), ("natural-horn-eb", ("fr",)), ("tuba", ("en", "it"))]


@pytest.mark.lilypond
@pytest.mark.parametrize(("name", "wording"), sample(CASES, 4))
def test_lilypond_sets_every_chart_without_a_warning(name: str, wording: tuple[str, ...], lilypond) -> None:
    letter = ("215.9", "279.4") if name == "tuba" else ("210", "297")
    options = ChartOptions(kinds=charts.names(), settings=settings(name, *wording, paper=letter))
    outcome = compile_chart((), options)
    assert [(str(i.place), i.kind) for i in outcome.items] == [
        (f"{name}-{kind}", shape) for kind in charts.names() for shape in ("page", "picture")
    ]
    with start(lilypond, ("pdf",)) as waiting:
        waiting.feed(Job(document=sheets.document(tuple(i.book for i in outcome.items))))
        run = waiting.result()
    assert run.messages == ()
    pages = {i.output: pypdf.PdfReader(io.BytesIO(run.file(i.output, "pdf"))).pages for i in outcome.items}
    assert all(len(p) == 1 for output, p in pages.items() if not output.startswith("ladders"))
    assert len(pages["ladders"]) <= 3
    assert len(pages["ladderspicture"]) == 1


def test_page_and_picture_of_a_map_are_judged_once(monkeypatch) -> None:
    from gesturesmith.exercises.probes import reach

    monkeypatch.setattr(techniques, "names", lambda: ("bend", "growl", "ordinary"))
    reach.cache_clear()
    before = reach.cache_info()
    compile_chart((), ChartOptions(kinds=("map",), settings=settings("euphonium")))
    after = reach.cache_info()
    assert after.misses - before.misses == after.hits - before.hits == 3


def test_both_languages_are_printed_and_one_name_once() -> None:
    book = charts.book(charts.get("map"), settings("horn", "en", "it"), output="chart")
    assert '"Growl"' in book
    assert "Growl / Growl" not in book
    assert "Not on this instrument" in book
    assert "Non su questo strumento" in book


def test_a_profile_of_ones_own_cannot_run_code() -> None:
    from dataclasses import replace

    hostile = '"} #(ly:error "ran") \\markup {'
    horn = replace(HORN, part_name=hostile, name=hostile)
    book = charts.book(charts.get("fingering"), replace(settings("horn"), instrument=horn), output="chart")
    assert '\\"} #(ly:error \\"ran\\") \\\\markup {' in book
    assert hostile not in book


def test_a_legend_says_what_its_chart_shows() -> None:
    def book(kind: str, name: str, *wording: str) -> str:
        return charts.book(charts.get(kind), settings(name, *wording), output="chart")

    assert "T is the trigger." not in book("fingering", "trombone")
    assert "T is the trigger." in book("fingering", "trombone-f")
    assert "TT both triggers together" in book("quarter-tones", "bass-trombone")
    assert "No fingering gives the notes in parentheses" in book(
        "fingering", "trumpet"
    )  # between pedal notes and F#3
    assert "No fingering gives the notes in parentheses" not in book("fingering", "horn")
    assert "No slide position gives the notes in parentheses" in book("fingering", "trombone")
    assert "The number after lip, hand" not in book("fingering", "tuba")  # nobody's hand is in its bell
    assert "The number after slide says" in book("fingering", "tuba")
    assert "The number after lip or hand says" in book("fingering", "horn")
    assert "its slide position" in book("quarter-tones", "trombone")
    assert "the number of its harmonic" in book("quarter-tones", "natural-horn")
    assert "la position de la coulisse" in book("quarter-tones", "trombone", "fr")


def test_a_single_tube_has_no_fingering() -> None:
    """Its harmonics are numbered, and the staff needs no label."""
    assert '"0"' not in charts.book(charts.get("ladders"), settings("natural-horn"), output="chart")
    below = charts.book(charts.get("quarter-tones"), settings("natural-horn"), output="chart")
    numbers = {int(n) for n in re.findall(r'gs-cell "(\d+)"', below)}
    assert numbers <= set(range(1, 20))
    assert max(numbers) > 4
