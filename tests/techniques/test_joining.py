"""Every pair of techniques is decided, the page says so, and the checker does what the page says."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from itertools import combinations
from pathlib import Path

import pytest
from sampling import sample

from gesturesmith import instruments, techniques
from gesturesmith.checker import check_text
from gesturesmith.evidence import Kind
from gesturesmith.kinds import Needs
from gesturesmith.source import Source
from gesturesmith.techniques.base import PART_WORDS, Technique, clash, joining

ALL = [t for t in map(techniques.get, techniques.names()) if t.layer != "none"]
PAIRS = list(combinations(ALL, 2))
PAGE = Path(__file__).parents[2] / "docs" / "joining.md"
# What could be joined before layers only put words in order: each line a technique and its partners.
BEFORE = Path(__file__).with_name("joined_before.txt")

GOES = (
    "harmonic-gliss flutter-tongue, half-valve flutter-tongue, stopped air, stopped brassy, muted double-tongue, "
    "bend stopped, hand-out vibrato, scoop fall, air valve-trill, slide-gliss air, half-valve growl, "
    "flutter-tongue brassy, flutter-tongue air, air-tone flutter-tongue, growl shake, brassy shake, "
    "growl vibrato, brassy vibrato, multiphonic flutter-tongue, air multiphonic, air growl, muted bells-up"
)
WITH_CARE = (
    "stopped bells-up, multiphonic lip-trill, split-tone flutter-tongue, quarter-tones timbre-trill, kiss scoop, "
    "growl flutter-tongue"
)
NOT = (
    "stopped muted, stopped hand-out, muted hand-gliss, slap-tongue growl, kiss bend, valve-clicks lip-trill, "
    "flutter-tongue double-tongue, harmonic-gliss half-valve, fingered-gliss valve-trill, air lip-gliss, "
    "bend lip-trill, slap-tongue chromatic, scoop rip, doit fall, half-valve quarter-tones, growl multiphonic, "
    "brassy air-tone, shake lip-trill, shake vibrato, air brassy, air vibrato, slide-gliss valve-trill"
)


SAID = {"goes": GOES, "with care": WITH_CARE, "not": NOT}


@pytest.mark.parametrize(
    ("verdict", "pair"),
    [
        (verdict, p)
        for verdict, row in (("goes", GOES), ("with care", WITH_CARE), ("not", NOT))
        for p in row.split(", ")
    ],
)
def test_what_players_say_of_a_pair(verdict: str, pair: str) -> None:
    one, other = (techniques.get(key) for key in pair.split())
    assert joining(one, other).verdict == verdict, joining(one, other).reason


@pytest.mark.parametrize(
    ("need", "having", "lacking"),
    [
        ("trigger", "trombone-f bass-trombone", "trombone horn trumpet"),
        ("valve-slide", "trumpet cornet euphonium tuba", "horn natural-horn trombone trombone-f"),
    ],
)
def test_what_a_technique_needs_is_there_or_not(need: Needs, having: str, lacking: str) -> None:
    assert all(instruments.get(name).gives(need) for name in having.split())
    assert not any(instruments.get(name).gives(need) for name in lacking.split())


def test_every_pair_is_decided_with_a_reason_in_either_order() -> None:
    for one, other in PAIRS:
        found = joining(one, other)
        assert found.verdict == joining(other, one).verdict, f"{one.key} + {other.key}"
        assert isinstance(found.reason.kind, Kind)
        assert len(found.reason.value.split()) > 4
        assert not found.reason.value.endswith(".")
        assert bool(clash(one, other)) == (found.verdict == "not")


def test_what_could_be_joined_still_can() -> None:
    rows = (line.split(": ") for line in BEFORE.read_text("utf-8").splitlines())
    before = [(one, other) for one, others in rows for other in others.split()]
    assert len(before) > 500
    # On no instrument there is a hand in the bell and a slide: these were refused for want of the one or the other.
    lacking = {("half-stopped", "slide-gliss"), ("slide-gliss", "stopped")}
    for one, other in before:
        assert (one, other) in lacking or not clash(techniques.get(one), techniques.get(other)), (one, other)


@pytest.mark.parametrize("technique", ALL, ids=lambda t: t.key)
def test_what_is_taken_up_is_a_part_there_is(technique: Technique) -> None:
    assert set(technique.takes) | set(technique.hampers) <= set(PART_WORDS)
    for act in technique.takes.values():
        assert act == act.strip()
        assert not act.endswith(".")
    for care in technique.hampers.values():
        assert care.value == "with care"
        assert care.source[0].islower()


def test_no_technique_is_named_in_another_ones_joining() -> None:
    keys = {t.key for t in ALL if "-" in t.key}
    for technique in ALL:
        said = [*technique.takes.values(), *(care.source for care in technique.hampers.values())]
        assert not [key for key in keys if any(key in text for text in said)], technique.key


@cache
def printed() -> dict[tuple[str, str], str]:
    """The verdict of each pair on the page, both ways round."""
    found: dict[tuple[str, str], str] = {}
    for section in PAGE.read_text("utf-8").split("\n## ")[1:]:
        key = section.split("\n")[0]
        for verdict, others in re.findall(r"^\| (goes|with care|not) \| ([^|]*) \|", section, re.MULTILINE):
            for other in re.findall("`([a-z-]+)`", others):
                assert (key, other) not in found, f"{key} + {other} stands twice"
                found[key, other] = verdict
    return found


def test_the_page_has_every_pair() -> None:
    assert {(a.key, b.key) for one, other in PAIRS for a, b in ((one, other), (other, one))} == set(printed())
    assert len(printed()) == len(ALL) * (len(ALL) - 1)


def _instrument(pair: tuple[Technique, Technique]) -> str:
    """One that gives what the pair needs, if there is one."""
    needs = {t.needs for t in pair}
    return "trombone-f" if needs & {"slide", "trigger"} else "horn" if "hand" in needs else "trumpet"


def _files(form: str) -> Iterator[tuple[str, list[tuple[Technique, Technique]]]]:
    """The pairs in files by instrument, one gesture each, joined in the `form` given."""
    for instrument in ("trombone-f", "horn", "trumpet"):
        row = sample([pair for pair in PAIRS if _instrument(pair) == instrument], 4)
        text = f"instrument: {instrument}\npitches: written\n"
        for n, (one, other) in enumerate(row):
            line = "--" if one.needs_line or other.needs_line else ","
            # What is made of strokes takes no line; that is found as well and does not matter here.
            text += f"gesture g{n}\n  band: middle\n" + form.format(a=one.key, b=other.key, line=line)
        yield text, row


BY_PLUS = "  technique: {a} + {b}\n  contour: F4 {line} D4\n"
BY_AS = "  contour: F4, F4 as {a} + {b} {line} D4\n"
ONE_THEN_THE_OTHER = "  technique: {a}\n  contour: F4 {line} D4 as {b} {line} F4\n"


@pytest.mark.parametrize("form", sample([BY_PLUS, BY_AS], 2))
def test_the_checker_does_what_the_page_says(form: str) -> None:
    for text, row in _files(form):
        report = check_text(Source("pairs.gesture", text), suggestions=False).report
        assert not report.errors, [e.message for e in report.errors]
        for (one, other), gesture in zip(row, report.gestures, strict=True):
            found = {f.rule for f in gesture.findings} & {"techniques-contradict", "techniques-hard-together"}
            wanted = {"goes": set(), "with care": {"techniques-hard-together"}, "not": {"techniques-contradict"}}
            assert found == wanted[printed()[one.key, other.key]], f"{one.key} + {other.key}"


def test_one_technique_after_the_other_makes_way_or_joins() -> None:
    """An `as` takes the place of its layer and what the mouth cannot do beside it; else the page holds."""
    for text, row in _files(ONE_THEN_THE_OTHER):
        cases = check_text(Source("pairs.gesture", text), suggestions=False).cases
        for (one, other), case in zip(row, cases.values(), strict=True):
            there = case.gesture.points[1].techniques
            if case.instrument.has_hand and not (one.takes_mute or other.takes_mute):
                # Without a mute the hand in the bell does it.
                one, other = (techniques.get(t.in_hand) if t.in_hand else t for t in (one, other))
            assert other in there
            if one == other:
                continue
            if one.layer == other.layer:
                assert one not in there, f"{one.key}, then {other.key}"
            elif joining(one, other).verdict != "not":
                assert one in there, f"{one.key}, then {other.key}"
