"""What the page may ask of its program, over a real socket; and what others may not."""

from __future__ import annotations

import io
import json
import socket
import wave
import zipfile
from urllib.parse import unquote

import pytest
from live.conftest import OTHER, TEXT, WINDOW
from live.serving import NO_LILYPOND, served

from gesturesmith.live import server as server_module
from gesturesmith.live.checking import checked_wholly
from gesturesmith.live.guard import LARGEST_BODY
from gesturesmith.live.server import ASSETS, bound

SWEEP = (
    'instrument: horn\npitches: written\n\ngesture deep "Deep"\n  technique: harmonic-gliss\n  contour: C4 ~~ E4\n'
    "\ngesture call\n  contour: G4, C5\n"
)


@pytest.fixture
def page(file, tmp_path):
    with served(file, state=tmp_path / "state") as one:
        yield one


def opened(page):
    (said,) = page.ask("open")["files"]
    return said


def typed(page, text, *, base=TEXT, line=1, **more):
    return page.ask("text", file=opened(page)["id"], text=text, base=base, line=line, **more)


def test_the_page_and_its_parts_are_given_out_without_the_key(page):
    for path in ("/", *(f"/assets/{asset.name}" for asset in ASSETS.iterdir())):
        status, body, headers = page.send("GET", path)
        assert status == 200
        assert page.server.key.encode() not in body
        assert "default-src 'none'" in headers["content-security-policy"]


@pytest.mark.parametrize(
    "path",
    ["/assets/../server.py", "/assets/..%2f..%2fserver.py", "/assets/", "/assets/none.js", "/server.py", "//"],
)
def test_nothing_else_is(page, path):
    assert page.send("GET", path)[0] in (400, 404)


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({}, 200),
        ({"X_Gesturesmith_Key": "x"}, 401),
        ({"Host": "evil.example"}, 421),
        ({"Origin": "http://evil.example"}, 403),
        ({"Sec_Fetch_Site": "cross-site"}, 403),
        ({"Content_Type": "text/plain"}, 415),
        (
            {"Upgrade": "websocket", "Connection": "Upgrade", "Sec_WebSocket_Version": "13"},
            200,
        ),  # plain HTTP goes on
    ],
)
def test_the_guard_stands_before_it(page, headers, status):
    own = {"Content_Type": "application/json", "X_Gesturesmith_Key": page.server.key}
    assert page.send("POST", "/api/open", b"{}", **(own | headers))[0] == status


@pytest.mark.parametrize(
    ("sent", "status"),
    [
        (f"Content-Length: {LARGEST_BODY + 1}\r\n\r\n", b"413"),
        ("Transfer-Encoding: chunked\r\n\r\n2\r\n{}\r\n0\r\n\r\n", b"411"),
        ("Content-Length: 2\r\nContent-Length: 3\r\n\r\n{}", b"400"),
        ("X-Long: " + "x" * 300_000, b"400"),
    ],
)
def test_bodies_and_heads_are_bounded_before_they_are_read(page, sent, status):
    with socket.create_connection(("127.0.0.1", page.port)) as connection:
        head = (
            f"POST /api/text HTTP/1.1\r\nHost: 127.0.0.1:{page.port}\r\nX-Gesturesmith-Key: {page.server.key}\r\n"
        )
        connection.sendall(f"{head}Content-Type: application/json\r\n{sent}".encode())
        assert connection.recv(12).endswith(status)


def test_only_this_machine_reaches_it():
    with bound(0) as listening:
        assert listening.getsockname()[0] == "127.0.0.1"


def test_a_port_that_is_taken_is_not_shared():
    with bound(0) as first, bound(first.getsockname()[1]) as second:
        assert second.getsockname()[1] != first.getsockname()[1]


@pytest.mark.parametrize(
    "said",
    [
        b"",
        b"{",
        b"[]",
        b"\xff",
        b"[" * 100_000,
        {"file": 3},
        {"file": "none"},
        {"window": "../../x"},
        {"window": [WINDOW]},
        {"text": None},
        {"base": 3},
        {"line": 0},
        {"line": 10**12},
        {"line": True},
        {"line": "1"},
        {"saves": "x"},
        {"saves": [1]},
    ],
)
def test_what_is_not_asked_rightly_is_refused_and_does_no_harm(page, file, said):
    whole = said
    if isinstance(said, dict):
        whole = {"window": WINDOW, "file": opened(page)["id"], "text": "x", "base": TEXT, "line": 1} | said
    status, body, _ = page.raw("text", whole)
    assert status in (404, 422)
    assert json.loads(body)["error"] if status != 422 or body[:1] == b"{" else body
    assert file.read_text() == TEXT
    assert typed(page, TEXT)["standing"] == "same"


@pytest.mark.parametrize("only", ["none", "../../etc/passwd", "\0"])
def test_nothing_is_exported_from_elsewhere(page, only):
    asked = {"window": WINDOW, "file": opened(page)["id"], "text": TEXT, "format": "ly", "only": only}
    assert page.raw("export", asked)[0] == 409
    assert page.raw("export", asked | {"format": "../ly"})[0] == 422


def test_a_text_is_kept_aside_compared_and_checked_in_one_answer(page):
    said = typed(page, SWEEP, base=TEXT, line=5)
    assert (said["standing"], said["base"], said["kept"]) == ("same", TEXT, "")
    assert said["here"]["name"] == "deep"
    deep, call = said["report"]["gestures"]
    assert (deep["words"], call["words"]) == ("not as written", "playable")
    assert deep["findings"][0]["suggestions"] == []
    (sketch,) = said["sketches"]
    assert sketch["svg"].startswith("<svg")
    assert page.server.journal.folder is not None
    assert len(list(page.server.journal.folder.iterdir())) == 1


def test_then_the_ways_out_come(page):
    said = page.ask("whole", file=opened(page)["id"], text=SWEEP, line=5)
    ways = said["report"]["gestures"][0]["findings"][0]["suggestions"]
    assert ways[0]["words"] == "technique: chromatic"
    assert ways[0]["verdict_words"] == "playable"
    assert ways[0]["edits"] == [{"line": 5, "old": "technique: harmonic-gliss", "new": "technique: chromatic"}]


def test_ways_out_of_an_older_text_are_given_up_for_a_newer_one(page, monkeypatch):
    """A text that comes while they are looked for; of another window it is no concern."""

    def meanwhile(who):
        def looked_for(*arguments):
            page.ask("text", file=opened(page)["id"], window=who, text=TEXT, base=TEXT, line=1)
            return checked_wholly(*arguments)

        monkeypatch.setattr(server_module, "checked_wholly", looked_for)
        return page.ask("whole", file=opened(page)["id"], text=SWEEP, line=5)

    assert meanwhile(WINDOW) is None
    assert meanwhile(OTHER)["report"]["gestures"][0]["findings"][0]["suggestions"]


def test_a_text_is_saved_and_others_are_told(page, file):
    assert page.ask("save", file=opened(page)["id"], text=SWEEP, base=TEXT)["why"] == ""
    assert file.read_text() == SWEEP
    clash = page.ask("save", file=opened(page)["id"], window=OTHER, text=TEXT.replace("72", "60"), base=TEXT)
    assert clash["standing"] == "clash"
    assert clash["base"] == SWEEP


def test_what_no_file_can_hold_is_said_and_the_rest_goes_on(page, file):
    said = typed(page, "\0")
    assert "null character" in said["kept"]
    assert file.read_text() == TEXT


def test_what_was_left_is_offered_and_discarded(page):
    typed(page, SWEEP)
    (left,) = opened(page)["left"]
    assert (left["window"], left["text"], left["base"]) == (WINDOW, SWEEP, TEXT)
    page.ask("discard", file=opened(page)["id"], left=WINDOW)
    assert opened(page)["left"] == []


def test_words_help_and_explanations(page):
    text = "instrument: horn\npitches: written\ngesture a\n  technique: half-v"
    words = page.ask("words", text=text, line=4, column=20)
    assert words["offers"][0]["insert"] == "half-valve"
    said = page.ask("help", text="instrument: horn", line=1, column=3)
    assert said["title"] == "instrument"
    assert page.ask("help", text="", line=1, column=1) is None
    assert "partials" in page.ask("explain", name="harmonic-gliss-too-few-partials")["text"]
    assert page.ask("explain", name="\0")["text"] == ""


def test_a_file_without_lilypond(page):
    asked = {"window": WINDOW, "file": opened(page)["id"], "text": TEXT, "line": 5, "name": "beacon"}
    status, body, _ = page.raw("picture", asked)
    assert status == 503
    assert json.loads(body)["error"] == NO_LILYPOND.reason
    status, body, headers = page.raw("export", asked | {"format": "musicxml", "only": "beacon"})
    assert (status, unquote(headers["x-name"])) == (200, "beacon.musicxml")
    assert b"<score-partwise" in body


def test_several_files_of_one_format_come_as_an_archive(page):
    asked = {"window": WINDOW, "file": opened(page)["id"], "text": SWEEP, "format": "sketch"}
    status, body, headers = page.raw("export", asked)
    assert (status, headers["content-type"], headers["x-name"]) == (200, "application/zip", "study-sketch.zip")
    archive = zipfile.ZipFile(io.BytesIO(body))
    assert [one.filename for one in archive.infolist()] == ["study/call.sketch.svg", "study/deep.sketch.svg"]
    assert {one.date_time for one in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}  # not of the clock
    assert page.raw("export", asked)[1] == body


def test_of_a_whole_file_the_page_is_exported_and_of_several_parts_score_and_parts(page):
    asked = {"window": WINDOW, "file": opened(page)["id"], "text": TEXT, "format": "musicxml"}
    status, body, headers = page.raw("export", asked)
    assert (status, headers["x-name"]) == (200, "study.musicxml")
    assert headers["content-type"] == "application/vnd.recordare.musicxml+xml"
    duo = "pitches: written\npart one\n  instrument: horn\npart two\n  instrument: trombone\n"
    text = f"{duo}passage p\n  one: G4 for 4\n  two: F3 for 4\n"
    status, body, headers = page.raw("export", asked | {"text": text})
    assert (status, headers["x-name"]) == (200, "study-musicxml.zip")
    names = {one.filename for one in zipfile.ZipFile(io.BytesIO(body)).infolist()}
    assert {"study.musicxml", "study/one.musicxml", "study/two.musicxml"} <= names


def test_the_sound_of_a_gesture_comes_as_a_browser_plays_it(page):
    """RIFF/WAVE (IBM and Microsoft, 1991): two beats, 72 in a minute, and nothing but silence is no sound."""
    asked = {"window": WINDOW, "file": opened(page)["id"], "text": TEXT, "format": "wav", "only": "beacon"}
    status, body, headers = page.raw("export", asked | {"draft": True})
    assert (status, headers["content-type"], headers["x-name"]) == (200, "audio/wav", "beacon.wav")
    assert (body[:4], body[8:12]) == (b"RIFF", b"WAVE")
    with wave.open(io.BytesIO(body)) as sound:
        assert sound.getnframes() / sound.getframerate() > 2 * 60 / 72
        assert len(set(sound.readframes(sound.getnframes()))) > 100


def test_what_is_refused_is_exported_as_a_draft_only(page):
    text = SWEEP.split("\ngesture call")[0]
    asked = {"window": WINDOW, "file": opened(page)["id"], "text": text, "format": "ly", "only": "deep"}
    status, body, _ = page.raw("export", asked)
    assert status == 409
    assert "as a draft" in json.loads(body)["error"]
    assert page.raw("export", asked | {"draft": True})[0] == 200


@pytest.mark.lilypond
def test_a_picture(file, tmp_path):
    from gesturesmith.lilypond import find

    with served(file, lilypond=find(), state=tmp_path / "state") as page:
        asked = {"window": WINDOW, "file": opened(page)["id"], "text": TEXT, "line": 5, "name": "beacon"}
        status, body, headers = page.raw("picture", asked)
        assert (status, headers["content-type"]) == (200, "image/svg+xml")
        assert b"<svg" in body
        assert "Beacon" in unquote(headers["x-description"])
        assert page.raw("picture", asked)[1] == body
        assert page.raw("picture", asked | {"name": "none"})[0] == 204


def test_events_tell_of_other_programs_and_of_the_end(file, tmp_path):
    with (
        served(file, state=tmp_path / "state") as page,
        socket.create_connection(("127.0.0.1", page.port)) as stream,
    ):
        body = json.dumps({"window": WINDOW}).encode()
        head = (
            f"POST /api/events HTTP/1.1\r\nHost: 127.0.0.1:{page.port}\r\nX-Gesturesmith-Key: {page.server.key}\r\n"
        )
        stream.sendall(
            f"{head}Content-Type: application/json\r\nContent-Length: {len(body)}\r\n\r\n".encode() + body
        )
        heard = stream.makefile("rb")
        assert any(b": here" in line for line in iter(heard.readline, b""))
        typed(page, SWEEP)
        assert opened(page)["left"] == []  # the window is still there
        file.write_text(SWEEP)
        told = next(line for line in iter(heard.readline, b"") if line.startswith(b"data: "))
        assert json.loads(told[6:]) == {"changed": opened(page)["id"]}
        page.server.close()
        told = next(line for line in iter(heard.readline, b"") if line.startswith(b"data: "))
        assert json.loads(told[6:]) == {"ended": True}
