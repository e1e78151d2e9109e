"""What is read from MusicXML: notes and signs as they stand, and a message for what cannot be read."""

from __future__ import annotations

import io
import re
import resource
import zipfile
from fractions import Fraction
from functools import partial
from pathlib import Path
from random import Random

import pytest
from importers.scores import FOUR, HEAD, bars, note, part_list, partwise, tempo, words
from sampling import count
from timing import within

from gesturesmith.importers.excerpt import excerpt
from gesturesmith.importers.judged import judged
from gesturesmith.importers.musicxml import NotMusicXmlError, container, read, reader, tree
from gesturesmith.model.reading import read as read_text
from gesturesmith.source import Source

C5 = note("C5")
DEMO = Path(__file__).parents[2] / "docs" / "demo" / "crossing.musicxml"


def one_bar(content: str) -> list:
    """The notes of a horn part of one bar."""
    return list(read(partwise(bars(content))).parts[0].bars[0].notes)


def packed(*members: tuple[str, bytes], listed: str = "a.xml") -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        if listed:
            root = f'<rootfile full-path="{listed}"/>'
            archive.writestr("META-INF/container.xml", f"<container><rootfiles>{root}</rootfiles></container>")
        for name, data in members:
            archive.writestr(name, data)
    return file.getvalue()


def test_notes_have_their_times_and_pitches():
    notes = one_bar(note("C5", 2) + note("r", 2) + note("F#4", 8) + note("Bb3"))
    assert [(n.at, n.lasts, n.written.name) for n in notes] == [
        (0, Fraction(1, 2), "C5"),
        (1, 2, "F#4"),
        (3, 1, "Bb3"),
    ]


@pytest.mark.parametrize(
    ("alter", "name"),
    [("0.5", "C^4"), ("-1.5", "Cbv4"), ("0.31", "C4+31c"), ("1.7", "C#4+70c"), ("-0.25", "C\\4"), ("2", "C##4")],
)
def test_an_alteration_becomes_accidentals_and_cents(alter, name):
    raw = (
        f"<note><pitch><step>C</step><alter>{alter}</alter><octave>4</octave></pitch><duration>4</duration></note>"
    )
    assert [n.written.name for n in one_bar(raw)] == [name]


def test_chords_voices_and_backup():
    upper = note("G5", 8) + note("E5", 8, before="<chord/>")
    lower = "<backup><duration>8</duration></backup>" + note("C4", 4, voice="2")
    assert [(n.at, n.written.name, n.voice) for n in one_bar(upper + lower)] == [
        (0, "G5", "1"),
        (0, "E5", "1"),
        (0, "C4", "2"),
    ]


def test_slurs_belong_to_their_voice():
    start, stop = '<slur type="start" number="1"/>', '<slur type="stop" number="1"/>'
    content = note("C5", 4, start) + note("D5", 4, stop) + note("E5", 4)
    other = "<backup><duration>12</duration></backup>" + note("C4", 4, voice="2") + note("C4", 4, voice="2")
    assert [n.slurred for n in one_bar(content + other)] == [False, True, False, False, False]


SIGNS = [
    ("<technical><stopped/></technical>", "signs", ("stopped",)),
    ("<technical><half-muted/></technical>", "signs", ("half-stopped",)),
    ("<technical><open/></technical>", "signs", ("open",)),
    ("<technical><double-tongue/></technical>", "signs", ("double-dots",)),
    ("<technical><triple-tongue/></technical>", "signs", ("triple-dots",)),
    ("<technical><brass-bend/></technical>", "signs", ("bend",)),
    ("<technical><flip/></technical>", "signs", ("flip",)),
    ("<technical><smear/></technical>", "signs", ("smear",)),
    (
        "<technical><harmon-mute><harmon-closed>half</harmon-closed></harmon-mute></technical>",
        "signs",
        ("half-stopped",),
    ),
    ("<technical><fingering>1</fingering><fingering>2</fingering></technical>", "fingering", ("1", "2")),
    ("<articulations><scoop/></articulations>", "signs", ("scoop",)),
    ('<articulations><scoop line-shape="straight" line-length="long"/></articulations>', "signs", ("rip",)),
    ("<articulations><plop/></articulations>", "signs", ("plop",)),
    ('<articulations><doit line-length="short"/></articulations>', "signs", ("short-doit",)),
    ('<articulations><falloff line-length="long"/></articulations>', "signs", ("long-fall",)),
    ("<articulations><falloff/></articulations>", "signs", ("fall",)),
    ("<articulations><strong-accent/><breath-mark/></articulations>", "marks", ("marcato", "breath")),
    ("<articulations><detached-legato/></articulations>", "marks", ("tenuto", "staccato")),
    ("<fermata/>", "marks", ("fermata",)),
    ("<ornaments><trill-mark trill-step=\"half\"/></ornaments>", "other", "half"),
    ('<ornaments><tremolo type="single">2</tremolo></ornaments>', "strokes", 2),
    ('<ornaments><tremolo type="unmeasured">0</tremolo></ornaments>', "strokes", -1),
    ('<slide type="start" line-type="wavy">gliss.</slide>', "line", "wavy"),
    ('<glissando type="start" line-type="dashed"/>', "line", "broken"),
]  # fmt: skip


@pytest.mark.parametrize(("inside", "name", "value"), SIGNS)
def test_signs_at_a_note(inside, name, value):
    assert getattr(one_bar(note("C5", 4, inside))[0], name) == value


def test_a_tremolo_of_two_notes_is_one_note_with_the_other():
    start, stop = (f'<ornaments><tremolo type="{t}">3</tremolo></ornaments>' for t in ("start", "stop"))
    (found,) = one_bar(note("C5", 4, start) + note("E5", 4, stop))
    assert (found.lasts, found.signs, found.other) == (2, ("tremolo",), "E5")


def test_the_head_where_a_line_stops():
    head = '<grace slash="no"/>'
    stop = note("E5", before=head).replace("</voice>", '</voice><notehead parentheses="yes">normal</notehead>')
    assert [n.stops for n in one_bar(note("C5", 4, '<slide type="start"/>') + stop)] == [False, True]


def test_score_timewise_is_the_same_as_partwise():
    part = bars(C5 * 4, note("D5", 16))
    wise = "".join(
        f'<measure number="{n}"><part id="P1">{FOUR if n == 1 else ""}{content}</part></measure>'
        for n, content in ((1, C5 * 4), (2, note("D5", 16)))
    )
    timewise = f'{HEAD}<score-timewise version="4.0">{part_list("Horn in F")}{wise}</score-timewise>'
    assert read(timewise.encode()) == read(partwise(part))


def test_words_levels_hairpins_and_tempos():
    level = "<direction><direction-type><dynamics><ffff/></dynamics></direction-type></direction>"
    wedge = '<direction><direction-type><wedge type="crescendo" niente="yes"/></direction-type></direction>'
    metronome = (
        "<direction><direction-type><metronome><beat-unit>quarter</beat-unit><beat-unit-dot/>"
        "<per-minute>ca. 60</per-minute></metronome></direction-type></direction>"
    )
    score = read(partwise(bars(words("con sord.") + level + C5 + wedge + metronome + C5 + tempo(72))))
    assert [(w.at, w.kind, w.text) for w in score.parts[0].bars[0].words] == [
        (0, "words", "con sord."), (0, "level", "fff"), (1, "crescendo", "n"), (2, "words", "x"),
    ]  # fmt: skip
    assert [(t.at, t.quarters) for t in score.bars[0].tempos] == [(1, 90), (2, 72)]


def test_transposition_clef_and_meter():
    attributes = (
        "<attributes><divisions>2</divisions><time><beats>3+2</beats><beat-type>8</beat-type></time>"
        "<clef><sign>F</sign></clef><transpose><chromatic>-9</chromatic></transpose></attributes>"
    )
    score = read(partwise(bars(note("C4", 1), first=attributes)))
    bar = score.parts[0].bars[0]
    assert (bar.sounding.steps, bar.sounding.cents, bar.bass_clef, score.bars[0].meter) == (-5, -900, True, (5, 8))


def test_free_time_is_known_by_its_hidden_meter():
    hidden = FOUR.replace("<time>", '<time print-object="no">')
    line = '<barline location="right"><bar-style>none</bar-style></barline>'
    free = partwise(f'<measure number="1" implicit="yes">{hidden}{C5}{line}</measure>')
    assert [b.free for b in read(free).bars] == [True]
    assert [b.free for b in read(partwise(bars(C5))).bars] == [False]


# What cannot be read: the file, and words of the message.
BROKEN = [
    (b"%PDF-1.7", "this is no MusicXML but a PDF"),
    (b"", "this file is empty"),
    (b"MThd\0\0", "a MIDI file"),
    (b"<html></html>", "it begins with <html>"),
    (b"<score-partwise/>", "this score has no parts"),
    (partwise(names=("Horn",)), "this score has no bars"),
    (b"<?xml version='1.0' encoding='UTF-16'?><a/>", "this is not the encoding that its first line names"),
    ("<?xml version='1.0' encoding='UTF-16'?><a/>".encode("utf-16")[:-3], "the file ends before its end"),
    (b"<?xml version='1.0' encoding='no-such'?><a/>", "this file names an encoding that is not read"),
    (b"<?xml version='1.0'?><!DOCTYPE s [<!ENTITY x SYSTEM '/etc/passwd'>]><s>&x;</s>", "entities are not read"),
    (b"<?xml version='1.0'?><!DOCTYPE s [<!ENTITY a 'l'><!ENTITY b '&a;&a;'>]><s>&b;</s>", "entities are not read"),
    (b"<a>" * 70, "64 elements in each other"),
    (b"PK\x03\x04 no zip", "this compressed file is damaged"),
    (packed(listed=""), "it has no META-INF/container.xml"),
    (packed(listed="b.xml"), "names no score"),
]  # fmt: skip


@pytest.mark.parametrize(("data", "message"), BROKEN, ids=[m for _, m in BROKEN])
def test_what_is_no_score_is_refused(data, message):
    with pytest.raises(NotMusicXmlError) as caught:
        read(data)
    assert message in str(caught.value)


# What is wrong in a bar: the rest is read.
WRONG = [
    (note("C5", -4), "bar 1 of Horn in F: a note has the duration '-4'; it is left out"),
    (note("C5").replace(">4<", ">1e999999999<"), "a note has the duration '1e999999999'"),
    (note("C5").replace("<duration>4</duration>", ""), "a note has no duration"),
    (note("C5").replace("<step>C", "<step>H"), "a note has no pitch that can be read"),
    (note("C5").replace("<octave>5", "<octave>5000"), "a note has no pitch that can be read"),
    ("<blob/>", "<blob> is no element of MusicXML here"),
    (note("C5", 4, "<blob/>"), "<blob> is no element of MusicXML here"),
    ("<backup><duration>40</duration></backup>", "it goes back to before its beginning"),
    ("<attributes><divisions>0</divisions></attributes>", "'0' divisions; 4 is assumed"),
    (note("C5", 99999999), "it is 2.5e+07 quarters long; it is left out"),
]


@pytest.mark.parametrize(("content", "message"), WRONG, ids=[m for _, m in WRONG])
def test_what_cannot_be_read_in_a_bar_is_named(content, message):
    score = read(partwise(bars(content, note("D5", 16))))
    assert [message in e.message for e in score.errors] == [True]
    assert [n.written.name for n in score.parts[0].bars[1].notes] == ["D5"]


def test_a_file_that_breaks_off_is_read_as_far_as_it_goes():
    data = partwise(bars(C5 * 4, note("D5", 16), note("E5", 16)))
    score = read(data[: data.index(b"<octave>5", data.index(b"<step>E"))])
    assert [[n.written.name for n in bar.notes] for bar in score.parts[0].bars] == [["C5"] * 4, ["D5"]]
    assert "what comes after bar" in score.errors[0].message


def test_a_part_that_is_not_in_the_list_is_named():
    data = partwise(bars(C5), bars(C5))
    assert ["'P2' is not in the list" in e.message for e in read(data).errors] == [True]


def test_twenty_thousand_bars_are_read():
    number = count(4_000, 20_000)
    data = partwise(bars(*[note("C5", 16)] * number))
    assert len(within(6, lambda: read(data)).bars) == number


def test_limits_end_with_a_message(monkeypatch):
    monkeypatch.setattr(reader, "MAX_BARS", 3)
    monkeypatch.setattr(reader, "MAX_NOTES", 6)
    monkeypatch.setattr(tree, "MAX_ELEMENTS", 60)
    for data, message in (
        (partwise(bars("", "", "", "")), "3 bars"),
        (partwise(bars(C5 * 7)), "6 notes"),
        (partwise(bars("<print/>" * 60)), "60 elements"),
    ):
        with pytest.raises(NotMusicXmlError, match=f"more than {message}, the limit"):
            read(data)


def test_errors_end_in_how_many_more_there_are(monkeypatch):
    monkeypatch.setattr(reader, "MAX_ERRORS", 2)
    errors = read(partwise(bars("<blob/>" * 5))).errors
    assert [e.message for e in errors][2:] == ["and 3 more places that could not be read"]


def test_a_zip_that_lies_about_its_sizes_is_refused_early():
    """292 kB that unpack to 300 MB, or a third of that; the sizes in its head are of no consequence."""
    megabytes = count(100, 300)
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        root = '<container><rootfiles><rootfile full-path="a.xml"/></rootfiles></container>'
        archive.writestr("META-INF/container.xml", root)
        with archive.open("a.xml", "w") as member:
            member.write(b"<score-partwise>")
            for _ in range(megabytes):
                member.write(b" " * 1_000_000)
    data = file.getvalue()
    assert len(data) < 320_000
    for bomb in (
        data,
        data.replace((megabytes * 1_000_000 + 16).to_bytes(4, "little"), (1000).to_bytes(4, "little")),
    ):
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        with pytest.raises(NotMusicXmlError, match=r"MB of text, the limit|damaged"):
            within(2, partial(read, bomb))
        assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 100_000  # kB


def test_compressed_and_plain_give_the_same():
    plain = partwise(bars(C5 * 4))
    assert read(packed(("a.xml", plain))) == read(plain)
    assert container.MAX_BYTES > 30_000_000  # a symphony


def test_damaged_scores_are_read_or_refused():
    """Numbers, names and elements of the demo changed at random: what is read can be judged and excerpted."""
    random = Random(7)
    plain = DEMO.read_bytes()
    for _ in range(count(60, 1000, 20_000)):
        data = plain
        for _ in range(random.randint(1, 4)):
            places = list(re.finditer(rb">([^<>\n]+)<|=\"([^\"]*)\"|<(note|measure|attributes)>", data))
            place = random.choice(places)
            group = next(n for n in (1, 2, 3) if place[n] is not None)
            word = random.choice(
                (b"0", b"-1", b"1e9", b"99999999999", b"", b"x", b"1/0", b"nan", b"\xc3\xa9", b"chord")
            )
            data = data[: place.start(group)] + word + data[place.end(group) :]
        try:
            score = read(data)
        except NotMusicXmlError:
            continue
        said = judged(score, "damaged")
        assert said.errors or said.parts or score.others
        made = excerpt(score, range(len(score.bars)), name="damaged")
        assert made is None or read_text(Source("damaged", made.text)).errors == ()
