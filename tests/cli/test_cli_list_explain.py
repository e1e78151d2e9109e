"""`list` and `explain`, and the message for a misspelled word."""

from __future__ import annotations

import json
import re
from xml.etree import ElementTree

import pytest
from cli.conftest import GOOD
from sampling import sample, whole

from gesturesmith import instruments, rules, techniques
from gesturesmith.diagnostics import Severity
from gesturesmith.evidence import Kind, Limit, Sourced
from gesturesmith.explain.limits import limit_names, refused_side
from gesturesmith.explain.mistakes import codes
from gesturesmith.instruments.profile import load
from gesturesmith.pipeline.example import example
from gesturesmith.rules.shared.limits import above


@pytest.mark.parametrize("what", ["techniques", "instruments", "rules"])
def test_lists_for_people_and_programs(run, what):
    plain, data = run("list", what), run("list", what, "--json")
    rows = json.loads(data.out)[what]
    assert (plain.status, data.status) == (0, 0)
    assert len(plain.out.splitlines()) == len(rows) > 20
    for line, row in zip(plain.out.splitlines(), rows, strict=True):
        assert all(value in line for value in row.values())


@pytest.mark.parametrize("name", instruments.names())
def test_a_profile_to_start_from(here, run, name):
    result = run("list", "instruments", "--show", name)
    assert result.status == 0
    (here / "my-own.toml").write_text(result.out)
    found, errors = load(here / "my-own.toml")
    assert not errors
    assert found == instruments.get(name)
    pitches = "pitches: written\n" if found.sounding.cents else ""
    (here / "a.gesture").write_text(
        f'instrument: "my-own.toml"\n{pitches}\ngesture a\n  contour: low, high\n  band: middle\n'
    )
    assert run("check", "a.gesture").status == 0


def test_show_takes_a_name_as_people_write_it(run):
    assert (
        run("list", "instruments", "--show", "Bass trombone").out
        == run("list", "instruments", "--show", "bass_trombone").out
    )
    missing = run("list", "instruments", "--show", "hron")
    assert missing.status == 2
    assert "did you mean horn" in missing.err
    assert run("list", "rules", "--show", "horn").status == 2
    assert run("list", "instruments", "--json", "--show", "horn").status == 2


@pytest.mark.parametrize(
    "name", [*techniques.names()[:3], *rules.names()[:3], *list(codes())[:3], *limit_names(), "difficulty"]
)
def test_everything_has_its_explanation(run, name):
    result = run("explain", name)
    assert result.status == 0
    assert name in result.out.lower()


def test_codes_explain_rules_and_mistakes(run):
    assert run("explain", "GS101").out == run("explain", "unknown-key").out
    assert run("explain", "gs203").out == run("explain", "harmonic-gliss-too-few-partials").out
    assert "GS190" in run("explain", "no-such-file").out
    missing = run("explain", "unknwon-key")
    assert missing.status == 2
    assert "did you mean unknown-key" in missing.err


@pytest.mark.parametrize(("name", "there"), [("Flatterzunge", "flutter-tongue"), ("gliss", "lip-gliss")])
def test_the_names_of_the_trade_lead_to_the_technique(run, name, there):
    missing = run("explain", name)
    assert missing.status == 2
    assert there in missing.err
    assert "Also called" in run("explain", there).out


def test_every_code_a_check_tells_is_explained(here, run):
    (here / "a.gesture").write_text(
        "instrument: horn\npitches: written\n\ngesture a\n  contour: c4 ~~ ~~ H4\n  tempo: 3\n"
    )
    for error in json.loads(run("check", "--json", "a.gesture").out)["files"][0]["errors"]:
        assert run("explain", error["code"]).status == run("explain", error["rule"]).status == 0


def test_a_limit_says_where_it_holds_and_why(run):
    out = run("explain", "breath-litres").out
    assert "every instrument\n  with care beyond 3 L" in out
    assert "not as written far beyond 7 L" in out


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("mute_change_cup_s", "with care below 5 s"),
        ("softest_top", "with care softer than p"),
        ("loudest_low", "with care louder than ff"),
        ("sing_cents", "with care outside 4500 to 7400 cents"),
        ("rest_ratio", "taken as 1 "),
        ("hand_out_lowest_cents", "with care below sounding C#5"),
        ("response_periods", "not as written below 3 periods"),
        ("bend_down_high", "so in the middle of the register"),
        ("single_tongue_per_s_low", "far is 1.25 times"),
    ],
)
def test_a_limit_says_on_which_side_of_it_care_begins(run, name, words):
    assert words in run("explain", name).out


@pytest.mark.parametrize("kind", ["published", "practice"])
def test_far_is_what_the_rules_take_for_far(kind):
    limit = Limit(Sourced(1.0, Kind.HOUSE, ""), Sourced(10.0, Kind(kind), ""))
    refused = [n for n in (10.1, 12.4, 12.6) if above(limit, n).severity is Severity.REFUSED]
    words = refused_side(limit)
    assert (words, refused) == (("beyond", [10.1, 12.4, 12.6]) if kind == "published" else ("far beyond", [12.6]))


@pytest.mark.parametrize(
    ("typed", "near"),
    [
        (["chek", "a.gesture"], "unknown command 'chek'; did you mean check"),
        (["fix", "a.gesture"], "did you mean suggest"),
        (["sugest"], "did you mean suggest"),
        (["qqq"], "choose from new, "),
        (["a.gesture"], "gesturesmith check a.gesture"),
        (["check", "--jsno", "a.gesture"], "unknown option --jsno; did you mean --json"),
        (["suggest", "--aply", "a.gesture"], "did you mean --apply"),
        (["check", "--qqqqq", "a.gesture"], "--json, --json-schema"),
        (["a\x1b[31m"], "unknown command 'a\ufffd[31m"),
    ],
)
def test_a_misspelled_word_is_told_what_it_may_have_been(here, run, typed, near):
    (here / "a.gesture").write_text(GOOD)
    result = run(*typed)
    assert result.status == 2
    assert near in result.err
    assert "See gesturesmith" in result.err


@pytest.mark.parametrize("name", [*sample(techniques.names(), 12), "harmonic-gliss-too-few-partials", "gs304"])
def test_a_rule_and_a_technique_have_a_sketch(name, here, run):
    """Of a rule its own example, with the finding; of a technique a gesture that can be played."""
    result = run("explain", name, "--sketch", "why.svg")
    assert result.status == 0, result.err
    assert result.out.endswith("\n\n  why.svg\n")
    text = (here / "why.svg").read_text("utf-8")
    told = "".join(ElementTree.fromstring(text).itertext())
    if name in techniques.names():
        assert techniques.get(name).title["en"] in told
        assert "not as written" not in told
    else:
        assert re.search(r"1\s+(not as written|with care):", told)
    assert run("explain", name, "--sketch", "why.svg").status == 0  # our own is replaced
    (here / "why.svg").write_text("mine")
    assert run("explain", name, "--sketch", "why.svg").status == 2
    assert (here / "why.svg").read_text() == "mine"


@whole
@pytest.mark.parametrize("name", [*techniques.names(), *rules.names()])
def test_every_rule_and_every_technique_has_a_sketch(name):
    item = example(name)
    assert item is not None
    ElementTree.fromstring(item.drawing)


def test_a_mistake_has_no_sketch(here, run):
    result = run("explain", "unknown-key", "--sketch", "why.svg")
    assert result.status == 2
    assert "there is no sketch of unknown-key: rules and techniques have one" in result.err
