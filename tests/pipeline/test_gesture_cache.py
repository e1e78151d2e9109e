"""Cached gestures only save time: the result is always the same as without."""

from __future__ import annotations

import random
import re
from dataclasses import fields, replace
from pathlib import Path, PurePosixPath
from unicodedata import normalize

import pytest
from sampling import count, sample

from gesturesmith.cache import Store
from gesturesmith.instruments import get
from gesturesmith.instruments.profile import to_toml
from gesturesmith.model.looks import PageLook
from gesturesmith.pipeline import CompileResult, Options, compile_text
from gesturesmith.pipeline.types import NotesOptions
from gesturesmith.source import Source

ROOT = Path(__file__).parents[2]
DEMOS = [
    (ROOT / "docs" / "demo" / f"{name}.gesture").read_text("utf-8") for name in ("fog-signals", "not-as-written")
]
PLAIN = "instrument: horn\npitches: written\n" + "".join(
    f"\ngesture g{n}\n  contour: {line}\n  lasts: 4 beats\n"
    for n, line in enumerate(("C5, G4", "G4 ~~ C5", "E4", "G6", "C5", "Bb4, C5", "D5", "A4 -- C5"))
)


def without_realisation(outcome: CompileResult) -> CompileResult:
    """It is not cached, since no output contains it."""
    reports = tuple(
        replace(r, gestures=tuple(replace(g, realisation=None) for g in r.gestures)) for r in outcome.reports
    )
    return replace(outcome, reports=reports)


def same(text: str, store: Store, **options) -> CompileResult:
    """The result with the store, which must equal that without."""
    source = Source("a", text)
    wanted = Options(**options)
    found = without_realisation(compile_text(source, wanted, store))
    assert found == without_realisation(compile_text(source, wanted))
    return found


def changed(text: str, chance: random.Random) -> str:
    """A file while somebody continues writing it."""
    head, *blocks = re.split(r"^(?=(?:gesture|passage|exercises) )", text, flags=re.MULTILINE)
    at = chance.randrange(len(blocks))
    block = blocks[at]
    kind = chance.choice(("lasts", "remark", "move", "gone", "new", "wrong", "twice", "tempo", "title"))
    if kind == "lasts":
        blocks[at] = re.sub(r"lasts: \d", f"lasts: {chance.randrange(1, 9)}", block)
    elif kind == "remark":
        blocks[at] = block.replace("\n", "  # a remark\n", 1)
    elif kind == "move":
        blocks.insert(chance.randrange(len(blocks)), blocks.pop(at))
    elif kind == "gone":
        del blocks[at]
    elif kind == "new":
        blocks.insert(at, f"gesture new{chance.randrange(10**6)}\n  contour: {chance.choice(('C5', 'G6'))}\n\n")
    elif kind == "wrong":
        blocks[at] = re.sub(r"contour|play|from", "conture", block, count=1)
    elif kind == "twice":
        blocks.append(block)
    elif kind == "tempo":
        head = re.sub(r"tempo: \d+", f"tempo: {chance.randrange(40, 90)}", head)
    elif kind == "title":
        blocks[at] = re.sub(
            r"\n", f' "Called {chance.randrange(9)}"\n', re.sub(r' "[^"]*"\n', "\n", block, count=1), count=1
        )
    return head + "".join(blocks)


TEXTS = (*DEMOS, PLAIN)
OPTIONS = ({}, {"draft": True}, {"pitches": "sounding", "pages": False})
# Every text and every option; `make test-all` takes all pairs.
PAIRS = sample([(text, options) for text in range(3) for options in range(3)], 4)


@pytest.mark.parametrize(("text", "options"), [(TEXTS[t], OPTIONS[o]) for t, o in PAIRS], ids=map(str, PAIRS))
def test_whatever_is_changed_the_outcome_is_that_of_the_whole(tmp_path, text, options):
    store = Store(tmp_path)
    chance = random.Random(7)
    same(text, store, **options)
    readable = 0
    for _ in range(count(4, 12)):
        other = changed(text, chance)
        readable += same(other, store, **options).report.readable
        if chance.random() < 0.5:
            text = other if same(other, store, **options).report.readable else text
    assert readable > count(1, 4)


def test_what_did_not_change_is_not_looked_at(tmp_path, monkeypatch):
    from gesturesmith.checker import file as whole

    judged = []
    judge = whole.judge
    monkeypatch.setattr(whole, "judge", lambda gesture: judged.append(gesture.name) or judge(gesture))
    store = Store(tmp_path)
    compile_text(Source("a", PLAIN), Options(), store)
    assert len(judged) == 8
    judged.clear()
    compile_text(Source("a", PLAIN.replace("Bb4, C5", "Bb4, D5")), Options(), store)
    # Findings are made again: g3 is refused, g1 and g7 have lines without a technique.
    assert judged == ["g1", "g3", "g5", "g7"]


def test_another_program_finds_nothing(tmp_path, monkeypatch):
    from gesturesmith.cache import keys

    store = Store(tmp_path)
    compile_text(Source("a", PLAIN), Options(), store)
    kept = len(list(tmp_path.glob("*/*")))
    monkeypatch.setattr(keys, "fingerprint", lambda: "another")
    compile_text(Source("a", PLAIN), Options(), store)
    assert len(list(tmp_path.glob("*/*"))) == 2 * kept > 0


def test_what_a_passage_plays_is_looked_at_with_it(tmp_path):
    store = Store(tmp_path)
    text = PLAIN + "\npassage all\n  play: g0, g1 up M2, rest 2\n"
    same(text, store)
    found = same(text.replace("up M2", "up P8"), store)
    assert [p.name for p in found.report.passages] == ["all"]
    assert len(found.report.gestures) == 8


def test_a_profile_that_changes_counts(tmp_path):
    """The gesture's own lines are unchanged."""
    profile = tmp_path / "mine.toml"
    text = PLAIN.replace("instrument: horn", 'instrument: "mine.toml"')
    toml = to_toml(get("horn"))
    store = Store(tmp_path / "store")
    profile.write_text(toml)
    first = same(text, store, folder=tmp_path)
    assert first.report.readable
    assert not first.report.gestures[6].findings
    lower = re.sub(r'high = "[FG]5"', 'high = "A4"', toml)
    assert lower != toml
    profile.write_text(lower)
    from gesturesmith.pipeline import gesture_cache

    gesture_cache._digest.cache_clear()  # a new run
    assert same(text, store, folder=tmp_path) != first


# Another value of each option than a store was filled with.
OTHER = {
    "folder": ROOT,
    "stem": "other",
    "place": PurePosixPath("below"),
    "name": "{title}",
    "pages": False,
    "only_check": True,
    "formats": ("svg", "ily"),
    "pitches": "sounding",
    "only": "g1",
    "draft": True,
    "cues": True,
    "pictures": False,
    "parts": ("score",),
    "bind": True,
    "look": PageLook(wording="de", paper="letter"),
    "notes": NotesOptions(),
    "together": "others",
    "suggest": "g3",
}


@pytest.mark.parametrize("option", [f.name for f in fields(Options)])
def test_no_option_finds_what_was_made_for_another(tmp_path, option):
    """A new option fails here until it is tested too."""
    store = Store(tmp_path)
    same(PLAIN, store)
    same(PLAIN, store, **{option: OTHER[option]})
    same(PLAIN, store)


def test_what_a_passage_plays_is_found_however_its_accents_are_typed(tmp_path):
    """Some keyboards give `é` as one character, some as two; only names of files tell them apart."""
    defined, played = normalize("NFC", "éx̂-ô"), normalize("NFD", "ÉX̂-Ô")
    passage = f"passage all\n  play: {played}\n"
    text = f"instrument: horn\npitches: written\ngesture {defined}\n  contour: C4\n{passage}"
    store = Store(tmp_path)
    assert same(text, store).report.errors == ()
    assert same(text + "  repeat: 2\n", store).report.errors == ()
