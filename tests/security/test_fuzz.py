"""Anything at all may be in a file: it is read, checked, formatted and reported without failing, within a second.

`make test` tries a few thousand; `make soak` sets GESTURESMITH_FUZZ, how many in all (100,000).
"""

from __future__ import annotations

import json
import os
import time

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from lang.strategies import broken_files, gesture_files

from gesturesmith import instruments
from gesturesmith.cli.reading import text_of
from gesturesmith.diagnostics import Report, render_json, render_text
from gesturesmith.instruments.profile import load, to_toml
from gesturesmith.lang import format_text
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

ALL = int(os.environ.get("GESTURESMITH_FUZZ", "2000"))
LONGEST_S = 1.0
SETTINGS = {"deadline": None, "suppress_health_check": list(HealthCheck), "database": None}
PHASES = (Phase.explicit, Phase.generate, Phase.shrink)


def some(share):
    return settings(max_examples=max(20, int(ALL * share)), phases=PHASES, **SETTINGS)


def whole_way(data: bytes) -> None:
    """Everything `check`, `check --json` and `format` do with the bytes of a file."""
    started = time.process_time()
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
    took = time.process_time() - started
    assert took < LONGEST_S, f"{took:.2f} s"


@some(0.25)
@given(gesture_files())
def test_files_of_the_language(text):
    whole_way(text.encode("utf-8", "replace"))


@some(0.35)
@given(broken_files())
def test_damaged_files(text):
    whole_way(text.encode("utf-8", "replace"))


@some(0.15)
@given(gesture_files(), st.lists(st.tuples(st.floats(0, 1), st.integers(0, 255)), min_size=1, max_size=8))
def test_files_with_damaged_bytes(text, damages):
    data = bytearray(text.encode("utf-8", "replace"))
    for place, byte in damages:
        data[min(int(place * len(data)), len(data) - 1)] = byte
    whole_way(bytes(data))


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
    started = time.process_time()
    found = load(path)
    assert time.process_time() - started < LONGEST_S
    return found


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


# Whatever stands on the right of a sign of equality, of whatever kind.
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
