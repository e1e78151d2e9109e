"""A file may contain anything: it is read, checked, formatted and reported without failing, within a second.

`make test` tries a few thousand cases; `make soak` sets GESTURESMITH_FUZZ, the total number (100,000).
"""

from __future__ import annotations

import json
import os
import random

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from lang.strategies import broken_files, gesture_files
from sampling import count
from timing import within

from gesturesmith import instruments
from gesturesmith.diagnostics import Report, render_json, render_text
from gesturesmith.instruments.profile import load, to_toml
from gesturesmith.lang import format_text
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source
from gesturesmith.textfile import text_of

ALL = int(os.environ.get("GESTURESMITH_FUZZ", count(500, 2500)))
LONGEST_S = 1.0
SETTINGS = {"deadline": None, "suppress_health_check": list(HealthCheck), "database": None}
PHASES = (Phase.explicit, Phase.generate, Phase.shrink)


DAMAGED = 9  # damaged copies of each generated file: cheaper than generating another


def some(share, cases=1):
    """The number of examples for a share of all cases."""
    examples = max(20, int(ALL * share / cases))
    return settings(max_examples=examples, phases=PHASES, **SETTINGS)


def whole_way(data: bytes) -> None:
    within(LONGEST_S, lambda: said_of(data))


def said_of(data: bytes) -> None:
    """Everything `check`, `check --json` and `format` do with the bytes of a file."""
    source = text_of("fuzz.gesture", data)
    if not isinstance(source, Source):
        report = source.report
    else:
        report = compile_text(source, Options(only_check=True)).report
        if not report.errors:
            formatted = format_text(source)
            assert format_text(Source("fuzz.gesture", formatted)) == formatted
    whole = Report(files=(report,))
    machine = json.loads(render_json(whole))
    people = render_text(whole, colour=True)
    assert people
    assert machine["files"][0]["readable"] == report.readable
    people.encode("utf-8", "strict")


# Words and characters with a meaning, or too much of one, wherever they end up.
PIECES = (
    "gesture", "passage", "exercises", "play", "contour", "technique", "dynamics", "lasts", "tempo", "meter",
    "start", "stretch", "repeat", "for", "up", "rest", "as", "from", "xG4", "C4", "C#^9", "Bb-1", "F##7", "mid",
    "n", "ffff", "<", ">", "~~", "--", "::", "..", "__", "->", "@", "@0", "@1/0", "@99999999999", "1/3", "0", "-1",
    "1e9", "99999999999999999999", "0.00000001", "7/0", ":", ",", "(", ")", '"', "#", "%", "\\", "{", "}", "=", "½",
    "é", "𝄞", "\u202e", "\ufeff", "\u2028", "\r", "\t", "\0",
)  # fmt: skip


def damaged(data: bytes, chance: random.Random) -> bytes:
    """A file with something removed, inserted, doubled, replaced or moved, one or more times."""
    for _ in range(chance.choice((1, 1, 2, 5))):
        a, b = sorted(chance.randrange(len(data) + 1) for _ in "ab")
        b = min(b, a + chance.choice((1, 4, 30, 300)))
        how, piece = chance.randrange(6), b" " * chance.randrange(2) + chance.choice(PIECES).encode()
        if how == 0:
            data = data[:a] + data[b:]
        elif how == 1:
            data = data[:a] + piece + data[a:]
        elif how == 2:
            data = data[:b] + data[a:b] * chance.choice((1, 2, 40)) + data[b:]
        elif how == 3:
            data = data[:a] + piece + data[b:]
        elif how == 4:
            data = data[:a] + bytes([chance.randrange(256)]) + data[a + 1 :]
        else:
            lines = data.split(b"\n")
            chance.shuffle(lines)
            data = b"\n".join(lines)
    return data


def with_damaged(data: bytes, seed: int) -> None:
    whole_way(data)
    chance = random.Random(seed)
    for _ in range(DAMAGED):
        whole_way(damaged(data, chance))


SEEDS = st.integers(0, 2**32)


@some(0.5, cases=1 + DAMAGED)
@given(gesture_files(), SEEDS)
def test_files_of_the_language(text, seed):
    with_damaged(text.encode("utf-8", "replace"), seed)


@some(0.25, cases=1 + DAMAGED)
@given(broken_files(), SEEDS)
def test_files_with_mistakes(text, seed):
    with_damaged(text.encode("utf-8", "replace"), seed)


@some(0.15)
@given(st.binary(max_size=3000))
def test_any_bytes(data):
    whole_way(data)


@some(0.1)
@given(st.text(max_size=1500))
def test_any_text(text):
    whole_way(text.encode("utf-8", "replace"))


# --- profiles ---------------------------------------------------------------------------------------------

HORN = to_toml(instruments.get("horn")).encode()


@pytest.fixture(scope="module")
def profile_file(tmp_path_factory):
    return tmp_path_factory.mktemp("profiles") / "own.toml"


def read_profile(path, data):
    path.write_bytes(data)
    return within(LONGEST_S, lambda: load(path))


@some(0.08)
@given(st.binary(max_size=2000))
def test_any_bytes_as_a_profile(profile_file, data):
    read_profile(profile_file, data)


@some(0.08)
@given(st.lists(st.tuples(st.floats(0, 1), st.binary(max_size=3), st.integers(0, 40)), min_size=1, max_size=6))
def test_a_damaged_profile(profile_file, damages):
    data = HORN
    for place, new, gone in damages:
        at = int(place * len(data))
        data = data[:at] + new + data[at + gone :]
    read_profile(profile_file, data)


# Any value after an equals sign, of any type.
VALUES = st.recursive(
    st.one_of(
        st.integers(-(10**25), 10**25).map(str),
        st.floats().map(repr),
        st.booleans().map(lambda b: "true" if b else "false"),
        st.text(max_size=20).map(json.dumps),
        st.sampled_from(['"horn"', '"C4"', '"C99"', "1979-05-27", "[]", "{}", "inf", "nan"]),
    ),
    lambda inner: st.lists(inner, max_size=4).map(lambda rows: f"[{', '.join(rows)}]"),
    max_leaves=8,
)
LINES = HORN.decode().splitlines()


@some(0.08)
@given(st.lists(st.tuples(st.integers(0, len(LINES) - 1), VALUES), min_size=1, max_size=5))
def test_a_profile_with_other_values(profile_file, changes):
    lines = list(LINES)
    for number, value in changes:
        key, sign, _ = lines[number].partition(" = ")
        if sign:
            lines[number] = f"{key} = {value}"
    read_profile(profile_file, "\n".join(lines).encode("utf-8", "replace"))
