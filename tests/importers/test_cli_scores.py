"""`check` and `excerpt` with scores, as people call them."""

from __future__ import annotations

import json
import re
from xml.etree import ElementTree

import pytest
from importers.scores import bars, note, partwise, tempo

from gesturesmith.cli.main import main

HIGH = partwise(bars(tempo(60) + note("G6", 16)), bars(note("C4", 16)), names=("Horn 1", "Strange thing"))
GOOD = partwise(bars(tempo(60) + note("C5", 16), note("D5", 16)), names=("Horn 1",))


@pytest.fixture(autouse=True)
def _folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "high.musicxml").write_bytes(HIGH)
    (tmp_path / "good.XML").write_bytes(GOOD)
    (tmp_path / "bad.mxl").write_bytes(b"%PDF-1.7")
    (tmp_path / "broken.musicxml").write_bytes(GOOD.replace(b"<octave>5", b"<octave>x", 1))


@pytest.mark.parametrize(
    ("files", "status"),
    [(["good.XML"], 0), (["high.musicxml"], 1), (["bad.mxl"], 2), (["broken.musicxml"], 2), (["gone.mxl"], 2),
     (["good.XML", "high.musicxml"], 1)],
)  # fmt: skip
def test_the_exit_status_is_that_of_any_check(files, status):
    assert main(["check", *files]) == status


def test_it_says_what_each_part_was_taken_for(capsys):
    main(["check", "high.musicxml"])
    out = capsys.readouterr().out
    assert "not as written: Horn 1, bar 1, beat 1 (G6): outside-range" in out
    assert "double horn in F/B-flat (horn), by its name “Horn 1”, written at sounding pitch" in out
    assert "not judged, other instruments: Strange thing" in out


def test_the_user_says_what_a_part_is_for(capsys):
    assert main(["check", "--part", "strange THING=Posaune", "--part", "Horn 1=trumpet", "high.musicxml"]) == 0
    out = capsys.readouterr().out
    assert "Strange thing: 1 note, playable\n    tenor trombone (trombone), as you say" in out
    assert "trumpet in B-flat (trumpet), as you say" in out


def test_stamina_is_drawn_for_each_player(tmp_path, capsys):
    """Ninety seconds at ff wear the lip down; the picture has the curve, and the bar in which it is too much."""
    loud = "<direction><direction-type><dynamics><ff/></dynamics></direction-type></direction>"
    long = bars(tempo(60) + loud + note("C5", 16), *[note("C5", 16)] * 30)
    chords = bars(note("E5", 16) + note("C5", 16, before="<chord/>"), *[note("r", 16)] * 30)
    (tmp_path / "long.musicxml").write_bytes(partwise(long, chords, names=("Horn 1", "Horn 2")))
    for _ in range(2):  # what is ours is replaced
        assert main(["check", "--draw", "curves", "long.musicxml"]) == 0
    drawn = {path.name: path.read_text("utf-8") for path in (tmp_path / "curves" / "long").iterdir()}
    assert set(drawn) == {"Horn 1.svg", "Horn 2 1.svg", "Horn 2 2.svg"}
    root = ElementTree.fromstring(drawn["Horn 1.svg"])
    texts = ["".join(text.itertext()) for text in root.iter("{http://www.w3.org/2000/svg}text")]
    found = next(text for text in texts if "so loud or high" in text)
    assert "124 s" in texts
    assert re.match(r"\d+ +with care: bar \d+: ", found)
    assert f"bar {re.search('bar ([0-9]+)', found)[1]}, beat" in capsys.readouterr().out
    (tmp_path / "curves" / "long" / "Horn 1.svg").write_text("mine", "utf-8")
    assert main(["check", "--draw", "curves", "long.musicxml"]) == 2
    assert (tmp_path / "curves" / "long" / "Horn 1.svg").read_text("utf-8") == "mine"


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (["--part", "Horn 9=horn"], "no part is called 'Horn 9'; there are: Horn 1"),
        (["--part", "Horn 1=kazoo"], "no instrument is called 'kazoo'"),
        (["--part", "Horn 1"], "write NAME=INSTRUMENT"),
        (["--tempo", "5"], "--tempo"),
    ],
)
def test_what_is_misused_has_a_message(options, message, capsys):
    assert main(["check", *options, "good.XML"]) == 2
    assert message in capsys.readouterr().err


def test_json(capfdbinary):
    main(["check", "--json", "high.musicxml", "bad.mxl"])
    out = json.loads(capfdbinary.readouterr().out)
    (score,) = out["scores"]
    assert [(p["part"], p["instrument"], p["verdict"]) for p in score["parts"]] == [
        ("Horn 1", "horn", "not-as-written")
    ]
    assert score["parts"][0]["findings"][0]["places"] == [
        {"bar": "1", "beat": "1", "note": "G6", "until_bar": None}
    ]
    assert [(f["file"], f["errors"][0]["rule"]) for f in out["files"]] == [("bad.mxl", "not-musicxml")]


def test_an_excerpt_is_a_file_that_checks(tmp_path, capsys):
    assert main(["excerpt", "good.XML", "--bars", "2-2"]) == 0
    assert "wrote good-bars-2-2.gesture" in capsys.readouterr().out
    assert main(["check", "good-bars-2-2.gesture"]) == 0
    assert "A5 for 4" in (tmp_path / "good-bars-2-2.gesture").read_text()
    assert main(["excerpt", "good.XML", "--bars", "2-2"]) == 2
    assert "already exists" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["good.XML", "--bars", "7"], "there are no bars '7' in it; write --bars 1-2"),
        (["good.XML", "--only", "Tuba"], "no part is called 'Tuba'; there are: Horn 1"),
        (["bad.mxl"], "this is no MusicXML but a PDF"),
        (["gone.mxl"], "no such file"),
        (["good.XML", "-o", "no/where.gesture"], "no such folder"),
    ],
)
def test_an_excerpt_that_cannot_be_made_has_a_message(arguments, message, capsys):
    assert main(["excerpt", *arguments]) == 2
    assert message in capsys.readouterr().err


def test_other_commands_send_scores_where_they_are_read(capsys):
    assert main(["engrave", "good.XML"]) == 2
    assert "`gesturesmith excerpt`" in capsys.readouterr().err
