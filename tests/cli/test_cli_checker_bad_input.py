"""Input that makes no sense to the checker: a finding or a clear error, at once, and never silence."""

from __future__ import annotations

import json
import os

import pytest
from cli.conftest import HEAD
from sampling import sample
from timing import within

# gesture lines, status, the rules or words of which one must be reported
GESTURES = {
    "a fingering the instrument lacks": ("contour: C5\nfingering: F 1-4", 1, "no-such-fingering"),
    "a side the instrument lacks": ("contour: C5\nfingering: T 2", 1, "no-such-fingering"),
    "a slide position on valves": ("contour: C5\nfingering: short 6", 1, "no-such-fingering"),
    "a fingering that cannot give the pitch": ("contour: Eb3\nfingering: F 0", 1, "fingering-misses-pitch"),
    "one tube for notes it does not have": ("contour: C3, C#3, Eb3, F3\nfingering: held", 1, "pitch-no-tube-gives"),
    "more fingerings than points": ("contour: C5\nfingering: F 0, F 1", 2, "fingering-count"),
    "a valve twice": ("contour: C5\nfingering: F 1-1", 2, "bad-fingering"),
    "the lowest note there is": ("contour: C0", 1, "outside-range"),
    "the highest note there is": ("contour: B9", 1, "outside-range"),
    "beyond it by cents": ("contour: C9+99c", 1, "outside-range"),
    "below it by cents": ("contour: C0-99c", 1, "outside-range"),
    "cents without end": (f"contour: C4+{'9' * 400}c", 2, "out-of-range"),
    "from one end to the other": ("contour: C0 ~~ B9\ntechnique: harmonic-gliss", 1, "outside-range"),
    "a billionth of a second": ("contour: C5\nlasts: 1/1000000000 s", 1, "pitch-too-short-to-hear"),
    "microseconds": ("contour: C5, D5\nlasts: 0.000002 s", 1, "pitch-too-short-to-hear"),
    "minutes": ("contour: C5\nlasts: 999 s", 1, "breath-too-short"),
    "days": ("contour: C5\nlasts: 172800 s", 2, "too-long"),
    "a length no clock has": (f"contour: C5\nlasts: {'9' * 300} s", 2, "bad-number"),
    "no length": ("contour: C5\nlasts: 0 s", 2, "out-of-range"),
    "attacks without end": ("contour: C5\nattacks: 99999\nlasts: 4 beats", 2, "out-of-range"),
    "a thousand attacks a second": ("contour: C5\nattacks: 1000\nlasts: 1 s", 1, "attacks-too-fast"),
    "everything at once": (
        "technique: stopped + muted + half-valve + slide-gliss\ncontour: C9 -- C0\nfingering: T 7\nlasts: 1/999 s",
        1,
        "techniques-contradict",
    ),
}


def timed(run, *arguments):
    return within(1, lambda: run(*arguments))


@pytest.mark.parametrize("command", [["check"], ["check", "--json"], ["suggest"]], ids=" ".join)
@pytest.mark.parametrize("kind", GESTURES)
def test_gestures_without_sense(here, run, kind, command):
    lines, status, said = GESTURES[kind]
    body = "\n".join(f"  {line}" for line in lines.split("\n"))
    (here / "a.gesture").write_text(f"{HEAD}\ngesture a\n{body}\n")
    result = timed(run, *command, "a.gesture")
    assert result.status == status, result.out
    assert said in result.out
    assert len(result.out + result.err) < 20_000


@pytest.mark.parametrize("count", sample([500, 501, 5000], 2))
@pytest.mark.parametrize("command", [["check"], ["suggest"], ["suggest", "--apply"]], ids=" ".join)
def test_a_gesture_of_many_points(here, run, count, command):
    for notes, rule in ((("C5", "D5"), "attacks-too-fast"), (("C9", "D9"), "outside-range")):
        contour = ", ".join((notes * count)[:count])
        (here / "a.gesture").write_text(f"{HEAD}\ngesture a\n  contour: {contour}\n  lasts: 4 beats\n")
        result = timed(run, *command, "a.gesture")
        if count > 500:
            assert result.status == 2
            assert "too-many-points" in result.out
        elif command == ["check"]:
            assert result.status == 1
            assert rule in result.out


# --- profiles --------------------------------------------------------------------------------------------

PIECE = 'instrument: "my.toml"\npitches: written\n\ngesture a\n  contour: C5\n'
OWN = "instrument_profile = 1\n"
# the content of an instrument file, and words that must be in the message
PROFILES = {
    "nothing": ("", ["not an instrument profile"]),
    "something else": ("password = 'hunter2'\n", ["not an instrument profile"]),
    "a picture": (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", ["not an instrument profile"]),
    "not UTF-8": (b"instrument_profile = 1\nname = '\xe9'\n", ["not an instrument profile"]),
    "no TOML": (f"{OWN}name = = hunter2\n", ["line 2", "not valid TOML"]),
    "too big": (b"#" * (256 * 1024 + 1), ["too large", "256 kB"]),
    "nothing but its mark": (OWN, ["name: this is missing", "an instrument has at least one side"]),
    "another version": ("instrument_profile = 2\n", ["line 1", "instrument_profile", "from 1 to 1"]),
    "based on nothing": (f'{OWN}based_on = "hron"\n', ["line 2", "based_on", "horn"]),
    "based on itself": (f'{OWN}based_on = "my.toml"\n', ["line 2", "based on each other"]),
    "based on a missing file": (f'{OWN}based_on = "no.toml"\n', ["line 2", "no such file"]),
    "an unknown key": (f'{OWN}based_on = "horn"\nnmae = "x"\n', ["line 3", "nmae", "allowed: name"]),
    "a negative limit": (
        f'{OWN}based_on = "horn"\n[limits]\nbreath_litres = {{ narrow = -3 }}\n',
        ["line 4", "limits.breath_litres.narrow", "from 0.15 to 60"],
    ),
    "an absurd limit": (
        f'{OWN}based_on = "horn"\n[limits]\nbreath_litres = {{ narrow = 3000 }}\n',
        ["line 4", "limits.breath_litres.narrow", "from 0.15 to 60"],
    ),
    "endless": (f'{OWN}based_on = "horn"\n[limits]\nbreath_litres = {{ narrow = inf }}\n', ["line 4"]),
    "no number": (f'{OWN}based_on = "horn"\n[limits]\nbreath_litres = {{ narrow = nan }}\n', ["line 4"]),
    "a range upside down": (
        f'{OWN}based_on = "horn"\nusual_range = {{ low = "C5", high = "C4" }}\n',
        ["line 3", "usual_range.high", "low below high"],
    ),
    "a player without an instrument": (f'{OWN}player = "second"\n', ["based_on: this is missing"]),
    "a player with tubes": (
        f'{OWN}player = "second"\nbased_on = "horn"\nkind = "slide"\n',
        ["line 4", "kind", "to the instrument, not to its player"],
    ),
    "all of it at once": (
        f'{OWN}player = "second"\nbased_on = "hron"\nkind = "slide"\n[limits]\nbreath_litres = {{ narrow = -3 }}\n'
        "sing_cents = { narrow = [7000, 5000] }\n",
        ["line 3", "line 4", "line 6", "line 7"],
    ),
}


@pytest.mark.parametrize("kind", PROFILES)
def test_profiles_without_sense(here, run, kind):
    content, said = PROFILES[kind]
    (here / "a.gesture").write_text(PIECE)
    (here / "my.toml").write_bytes(content if isinstance(content, bytes) else content.encode())
    result = timed(run, "check", "--json", "a.gesture")
    assert result.status == 2
    messages = [e["message"] for e in json.loads(result.out)["files"][0]["errors"]]
    assert all("my.toml" in m for m in messages)
    for words in said:
        assert any(words in m for m in messages), messages
    assert "hunter2" not in result.out + run("check", "a.gesture").out


def test_profiles_in_a_circle(here, run):
    (here / "a.gesture").write_text(PIECE)
    (here / "my.toml").write_text(f'{OWN}based_on = "other.toml"\n')
    (here / "other.toml").write_text(f'{OWN}player = "x"\nbased_on = "my.toml"\n')
    result = timed(run, "check", "a.gesture")
    assert result.status == 2
    assert "a profile without based_on" in result.out


def test_what_is_not_a_file(here, run):
    (here / "a.gesture").write_text(PIECE)
    os.mkfifo(here / "my.toml")
    assert "not a regular file" in timed(run, "check", "a.gesture").out
    (here / "my.toml").unlink()
    (here / "my.toml").mkdir()
    assert "not a regular file" in timed(run, "check", "a.gesture").out
    (here / "my.toml").rmdir()
    assert "no such file" in timed(run, "check", "a.gesture").out
