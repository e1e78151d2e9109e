"""Bars of a score as a gesture file: it reads without a mistake, and has the notes of the score."""

from __future__ import annotations

from fractions import Fraction

import pytest
from importers.scores import FOUR, bars, fingered, note, partwise, tempo, words

from gesturesmith.importers.excerpt import bars_named, excerpt
from gesturesmith.importers.musicxml import read
from gesturesmith.importers.notated import NotatedScore
from gesturesmith.lang import format_text
from gesturesmith.model.piece import Passage
from gesturesmith.model.reading import read as read_text
from gesturesmith.source import Source

type Played = list[tuple[Fraction, Fraction, str]]
IN_F = FOUR.replace(
    "</attributes>", "<transpose><diatonic>-4</diatonic><chromatic>-7</chromatic></transpose></attributes>"
)
SLUR, OVER = '<slur type="start"/>', '<slur type="stop"/>'


def written(score: NotatedScore, first: str = "1", last: str = "", **options: object) -> str:
    """The excerpt, which is in canonical form."""
    wanted = bars_named(score, first, last or score.bars[-1].number)
    assert wanted is not None
    made = excerpt(score, wanted, name="a.musicxml", **options)  # type: ignore[arg-type]
    assert made is not None
    assert format_text(Source("a", made.text)) == made.text
    return made.text


def played(text: str) -> dict[str, Played]:
    """What each part of a file plays: time in quarters, sounding cents, and how each note is reached."""
    reading = read_text(Source("a", text))
    assert [e.message for e in reading.errors] == []
    pieces = {p.title: p.reading.piece for p in reading.parts} or {reading.piece.settings.part: reading.piece}
    return {title: notes(piece.passages) for title, piece in pieces.items()}


def notes(passages: tuple[Passage, ...]) -> Played:
    found: Played = []
    start = Fraction(0)
    for passage in passages:
        for item in passage.items:
            for point in item.gesture.points if item.gesture is not None else ():
                if point.kind == "pitch":
                    found.append((start + item.at + point.at, point.sounding_cents, point.reached))
        start += passage.beats
    return found


def test_a_file_for_one_part():
    content = note("C5", 6, SLUR) + note("D5", 2, OVER) + note("r", 4) + note("E5", 4)
    score = read(partwise(bars(tempo(66) + content, note("F5", 16), first=IN_F)))
    assert written(score) == (
        "# bars 1 to 2 of a.musicxml\npitches: written\ntempo: 66\nmeter: 4/4\n"
        'instrument: horn\npart: "Horn in F"\n\n'
        "gesture bar-1\n  contour: C5 for 3/2 __ D5 for 1/2\n\n"
        "gesture bar-1-2\n  contour: E5 for 1, F5 for 4\n\n"
        'passage bars-1 "Bars 1 to 2"\n  tempo: "x" 66\n  meter: 4/4\n  bar: 1\n  play: bar-1, rest 1, bar-1-2\n'
    )


def test_signs_levels_and_graces_go_with_the_notes():
    level = "<direction><direction-type><dynamics><p/></dynamics></direction-type></direction>"
    grace = note("G4", before="<grace/>")
    stopped = note("C5", 8, "<technical><stopped/></technical><articulations><accent/></articulations>")
    content = level + words("flz.") + grace + stopped + note("D5", 8)
    text = written(read(partwise(bars(content, first=IN_F))))
    assert "  technique: flutter-tongue\n" in text
    assert "  contour: G4 grace, C5 for 2 as stopped accent, D5 for 2 without stopped\n" in text
    assert "  dynamics: p\n" in text


def test_what_was_asked_for_before_the_bars_still_holds():
    level = "<direction><direction-type><dynamics><ff/></dynamics></direction-type></direction>"
    score = read(partwise(bars(tempo(50) + words("flz.") + level + note("C5", 16), note("D5", 16), first=IN_F)))
    text = written(score, "2", "2")
    assert "tempo: 50\n" in text
    assert "technique: flutter-tongue\n  contour: D5 for 4\n  dynamics: ff\n" in text
    assert "# bar 2 of" in text


def test_several_parts_with_their_names():
    score = read(
        partwise(bars(note("C5", 16)), bars(note("r", 16)), bars(note("C4", 16)), names=("Horn 1", "Viola", "Tuba"))
    )
    found = played(written(score))
    assert {title: [row[1] for row in rows] for title, rows in found.items()} == {"Horn 1": [7200], "Tuba": [6000]}
    assert list(played(written(score, only=("tuba",)))) == ["Tuba"]


def test_a_horn_in_e_flat_is_written_as_our_horn():
    transpose = "<transpose><diatonic>-5</diatonic><chromatic>-9</chromatic></transpose></attributes>"
    score = read(partwise(bars(note("C5", 16), first=FOUR.replace("</attributes>", transpose))))
    assert "contour: Bb4 for 4\n" in written(score)


def test_a_new_meter_tempo_or_key_is_an_entry():
    three = "<time><beats>3</beats><beat-type>4</beat-type></time></attributes>"
    three = f"<attributes><key><fifths>-2</fifths></key>{three}"
    slur = note("C5", 16, SLUR)
    rest = tempo(90) + note("E5", 12)
    score = read(partwise(bars(tempo(60) + slur, three + note("D5", 12, OVER), rest, first=IN_F)))
    assert written(score).endswith(
        'passage bars-1 "Bars 1 to 3"\n  tempo: "x" 60\n  meter: 4/4\n  bar: 1\n'
        '  play: bar-1, meter 3/4, key Bb major, bar-2, tempo "x" 90, bar-3\n'
    )
    made = excerpt(score, range(3), name="a")
    lost = "ties, slurs or lines into these bars, or across a new tempo, meter or key"
    assert made.left_out == (f"Horn in F: {lost} (bar 2)",)


@pytest.mark.parametrize(
    ("fifths", "mode", "key"),
    [(0, "minor", "A minor"), (-3, "minor", "C minor"), (3, "minor", "F# minor"), (3, "major", "A major")],
)
def test_a_minor_key_is_minor_where_the_score_says_so(fifths, mode, key):
    key_of_part = f"<attributes><key><fifths>{fifths}</fifths><mode>{mode}</mode></key>"
    text = written(read(partwise(bars(note("C5", 16), first=IN_F.replace("<attributes>", key_of_part)))))
    assert f"  key: {key}\n" in text


def test_major_turns_to_minor_with_as_many_sharps():
    minor = "<attributes><key><fifths>1</fifths><mode>minor</mode></key></attributes>"
    major = IN_F.replace("<attributes>", "<attributes><key><fifths>1</fifths><mode>major</mode></key>")
    text = written(read(partwise(bars(note("C5", 16), minor + note("D5", 16), first=major))))
    assert "  key: G major\n" in text
    assert "play: bar-1, key E minor, bar-2\n" in text


def test_fingerings_stand_in_the_file():
    """Valve by valve or in one text; what the instrument has not is named."""
    one = "<technical><fingering>1</fingering><fingering>2</fingering></technical>"
    row = note("C5", 4, one) + note("D5", 4) + note("r", 4) + note("E5", 4, fingered("T0"))
    made = excerpt(read(partwise(bars(row + note("F5", 4, fingered("7")), first=IN_F))), range(1), name="a")
    assert "fingering: 1-2, auto\n" in made.text
    assert "fingering: Bb 0, auto\n" in made.text
    assert made.left_out == ("Horn in F: a fingering that the instrument does not have (bar 1)",)


def test_a_tempo_inside_a_bar_begins_where_it_stands():
    """Between two notes; one inside a note begins after it, and that is said."""
    score = read(partwise(bars(tempo(60) + note("C5", 8) + tempo(90) + note("D5", 8), note("E5", 16), first=IN_F)))
    assert 'play: bar-1, tempo "x" 90, bar-1-2\n' in written(score)
    late = "<direction><direction-type><words>x</words></direction-type><offset>-2</offset>"
    late += '<sound tempo="90"/></direction>'
    score = read(partwise(bars(tempo(60) + note("C5", 8) + late + note("D5", 8), first=IN_F)))
    assert 'play: bar-1, tempo "x" 90, bar-1-2\n' in written(score)
    made = excerpt(score, range(1), name="a")
    assert made is not None
    assert made.left_out == ("bar 1: the tempo changes inside a note; here it does after it",)


def test_what_gets_slower_does_so_up_to_the_next_tempo():
    score = read(
        partwise(bars(tempo(90) + note("C5", 16), words("rit.") + note("D5", 16), tempo(60) + note("E5", 16)))
    )
    assert 'play: bar-1, ritardando to 60 over 4, bar-2, tempo "x" 60, bar-3\n' in written(score)
    assert "play: ritardando to 60 over 4, bar-2\n" in written(score, "2", "2")
    # From inside it on, and only a part of it.
    halves = bars(
        tempo(90) + note("C5", 16), words("rit.") + note("D5", 16), note("D5", 16), tempo(50) + note("E5")
    )
    assert "tempo: 90\n" in written(read(partwise(halves)), "2", "2")
    assert "ritardando to 70 over 4" in written(read(partwise(halves)), "2", "2")
    assert "tempo: 70\n" in written(read(partwise(halves)), "3", "3")
    assert "ritardando to 50 over 4" in written(read(partwise(halves)), "3", "3")


def test_rehearsal_marks_and_double_bars_between_attacks():
    mark = "<direction><direction-type><rehearsal>{}</rehearsal></direction-type></direction>".format
    double = '<barline location="right"><bar-style>light-light</bar-style></barline>'
    score = read(
        partwise(bars(note("C5", 16) + double, mark("B") + note("D5", 16, SLUR), mark("C") + note("E5", 16, OVER)))
    )
    assert 'play: bar-1, double bar, mark "B", bar-2\n' in written(score)
    made = excerpt(score, range(3), name="a")
    assert made is not None
    assert made.left_out == ("bar 3: the rehearsal mark C, which is not between two attacks",)


def test_parts_without_the_changes_are_not_cut():
    """The tempo stands in the part in which it is between two notes; the other holds its note through it."""
    start, stop = '<tie type="start"/>', '<tie type="stop"/>'
    held = bars(tempo(60) + note("C5", 16, start), note("C5", 16, stop))
    moving = bars(note("E5", 16), tempo(80) + note("F5", 16))
    text = written(read(partwise(held, moving, names=("Horn 1", "Horn 2"))))
    assert 'horn-2: horn-2-bar-1, tempo "x" 80, horn-2-bar-2' in text
    assert "horn-1: horn-1-bar-1\n" in text
    assert [len(rows) for rows in played(text).values()] == [1, 2]


def test_the_interval_of_a_trill_that_cannot_be_said_is_named():
    trill = '<ornaments><trill-mark trill-step="half"/></ornaments>'
    score = read(partwise(bars(note("C5", 8, trill) + note("D5", 8, trill.replace("half", "whole")), first=IN_F)))
    made = excerpt(score, range(1), name="a")
    assert made is not None
    assert made.left_out == ("Horn in F: the interval of a trill (bar 1)",)


def test_a_pickup_and_bars_that_are_too_short():
    """A bar cut short by a repeat has the meter of its length."""
    score = read(partwise(bars(note("C5", 4), note("D5", 16), note("E5", 12), note("F5", 16), first=IN_F)))
    assert "  meter: 4/4\n  bar: 1\n  pickup: 1 beats\n" in written(score) or "pickup: 1 beat" in written(score)
    assert "meter 3/4" in written(score)
    assert "meter 4/4" in written(score)
    assert len(played(written(score))["Horn in F"]) == 4


def test_free_time_and_bars_are_passages_of_their_own():
    hidden = FOUR.replace("<time>", '<time print-object="no">')
    none = '<barline location="right"><bar-style>none</bar-style></barline>'
    score = read(partwise(bars(hidden + note("C5", 16) + none, FOUR + note("D5", 16), first="")))
    text = written(score)
    assert 'passage bars-1 "Bar 1"\n  meter: free\n  play: bar-1\n' in text
    assert 'passage bars-2 "Bar 2"\n  meter: 4/4\n' in text
    assert len(played(text)["Horn in F"]) == 2


def test_a_note_held_into_the_bars_begins_with_them():
    start, stop = '<tie type="start"/>', '<tie type="stop"/>'
    score = read(partwise(bars(note("C5", 16, start), note("C5", 8, stop) + note("D5", 8), first=IN_F)))
    assert "contour: C5 for 2, D5 for 2\n" in written(score, "2")


@pytest.mark.parametrize(
    "name", ['"quoted" \\ name', "  ", "r", "Horn\u202e1", "C4", "x: y # z", "𝄞", "1.", "rest", "a" * 500]
)
def test_any_name_of_a_part_makes_a_file_that_reads(name):
    """A user's text is quoted, and names of blocks are made of letters."""
    from xml.sax.saxutils import escape

    names = (escape(name), escape(name))
    score = read(
        partwise(bars(note("C5", 16)), bars(note("E5", 16)), names=names),
        lambda _name: "horn",
    )
    assert next(len(rows) for rows in played(written(score)).values()) == 1


def test_bars_that_are_not_there():
    score = read(partwise(bars(note("C5", 16), note("D5", 16))))
    assert [bars_named(score, *ask) for ask in (("1", "2"), ("2", "2"), ("2", "1"), ("3", "4"), ("x", "y"))] == [
        range(2), range(1, 2), None, None, None,
    ]  # fmt: skip


def test_long_rests_and_odd_meters_make_a_file_that_reads():
    """A rest lasts at most 1,000 beats, a bar has at most 64."""
    odd = (
        FOUR.replace("<divisions>4", "<divisions>8")
        .replace("<beats>4", "<beats>73")
        .replace("<beat-type>4", "<beat-type>32")
    )
    score = read(partwise(bars(note("C5", 16), *[note("r", 16)] * 300, note("D5", 16))))
    text = written(score)
    assert "rest 1000, rest 200" in text
    assert len(played(text)["Horn in F"]) == 2
    text = written(read(partwise(bars(note("C5", 73), first=odd))))
    assert "meter: free" in text
    assert len(played(text)["Horn in F"]) == 1


def test_a_grace_note_after_the_end_of_a_line():
    slide = note("Bb3", 8, '<slide type="start"/>') + note("F3", 4, '<slide type="stop"/>')
    score = read(partwise(bars(slide + note("G3", before="<grace/>") + note("r", 4)), names=("Trombone",)))
    text = written(score)
    assert "contour: Bb3 -- F3@2, G3 grace\n  lasts: 3 beats\n" in text
    assert len(played(text)["Trombone"]) == 2
