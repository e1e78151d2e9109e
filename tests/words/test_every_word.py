"""Every word counts: nothing that a composer writes is silently ignored.

From a file that reads without a mistake one word is taken away: a key with its value, a title, or a token of a
value (with its neighbours, where alone it leaves no sentence: `as air`, `< f`). Then either what is *seen*
changes, the score text of all musics with footnotes, cautions, titles and tempo, the page, the notes page, the
sheets; or what is *answered*, verdict, findings, difficulty, how it is played; or the file had a finding that
says this word has no effect. A description, which only those have who cannot see the page, does not make a word
count.

A value may restate what holds anyhow: `meter: free`, `fingerings: needed`, `@2` where the point would come at
2, the tube a player takes, a rest that only fills the last bar. It is not void if another legal value in its
place changes what is seen or answered. Only what has a value when it is missing may restate one
(`HAVE_A_VALUE`, the tables of the language page); a point's `as`, its words, an `allow`, a `note` have none,
and must do something. A word may also say less than a key beside it does: `muted` beside `mute: cup` is not void,
for without that key it counts, and is just what `mute: straight` says.

A setting holds for all that the file may hold tomorrow: it is tried with a quarter tone, heights and a passage
in the file. What is refused is not on the page, and its words are not tried; exercises with fewer than three
playable lines neither. `language` has one value, `pitches` says nothing on an instrument at pitch, `mm` and
`beats` may stand or not: the language page says so.

`make test` takes a sample; `make soak` all shipped files and a thousand made ones.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from sampling import SOAK, count, sample, whole
from words.every_word import reading, trials
from words.made import made

ROOT = Path(__file__).parents[2]
SHIPPED = [
    *sorted((ROOT / "docs/demo").glob("*.gesture")),
    *sorted((ROOT / "docs/gallery").glob("*.gesture")),
    *sorted((ROOT / "tests/rules/marked").glob("*.gesture")),
]
SAMPLE = sample(("fingerings", "fog-signals"), 2)
SEEDS = range(count(4, 12, 1000))


def void(text: str) -> tuple[list[str], Counter[str]]:
    """The words of a file without effect, each with its block and line; and the result for every word."""
    fates: Counter[str] = Counter()
    found = []
    for trial in trials(text):
        fates[trial.fate] += 1
        if trial.fate == "void":
            word = trial.word
            found.append(f"{word.block}: `{word.shown}` in `{trial.text.splitlines()[word.line].strip()}`")
    return found, fates


@pytest.mark.parametrize("path", [p for p in SHIPPED if SOAK or p.stem in SAMPLE], ids=lambda p: p.stem)
def test_every_word_of_what_we_ship_counts(path: Path) -> None:
    found, fates = void(path.read_text("utf-8"))
    assert found == []
    assert fates["counts"] >= 5, "settings at the least: what is refused is not tried"


@pytest.mark.parametrize("seed", SEEDS)
def test_every_word_of_a_made_file_counts(seed: int) -> None:
    text = made(seed)
    if reading(text) is not None:
        assert void(text)[0] == []


def test_a_cover_is_the_same_with_as_and_counts() -> None:
    text = "instrument: horn\npitches: written\ngesture a\n  contour: C5, D5 as closed, E5 {}\n"
    fates = {trial.word.shown: trial.fate for trial in trials(text.format("open"))}
    assert (fates["as"], fates["closed"]) == ("grammar", "counts")
    idle = [trial.fate for trial in trials(text.format("as closed")) if trial.word.shown == "as"]
    assert idle == ["grammar", "said"]


PARTS = """title: "Dusk"
pitches: written
meter: 4/4
tempo: 72

part horns "Horns 1, 2"
  instrument: horn
  players: 2
  short: "Hns."
  wording: de

part low "Trombone"
  instrument: trombone
  fingerings: all

gesture call "Call"
  technique: half-valve
  contour: xG4 ~~ xD5
  lasts: 4 beats

passage one "One"
  horns: call, C5 for 4 first, E5 / C5 for 4, rest 16, G4 for 4 a2
  low: rest 8, F3 for 8, D3 for 16

passage two
  horns: C5 for 4 second, call
  low: F3 for 4, Bb2 for 4
""".replace("low", "trombone")


@whole
def test_every_word_of_a_file_with_parts_counts() -> None:
    found, fates = void(PARTS)
    assert found == []
    assert fates["counts"] > 20


def test_most_made_files_read() -> None:
    """Otherwise little would be tested."""
    assert sum(reading(made(seed)) is not None for seed in range(20)) >= 12


HEAD = "instrument: horn\npitches: written\n"


@pytest.mark.parametrize(
    ("body", "expected"),
    [
        ("contour: C5, D5 accent", "counts"),
        ("contour: C5, D5@1", "restates"),
        ("technique: growl\n  contour: C5 as growl", "said"),
        ('contour: C5\n  allow: outside-usual-range "agreed"', "said"),
        ("technique: growl + muted\n  contour: C5\n  mute: cup", "restates"),
        ("technique: growl + muted\n  contour: C5\n  mute: straight", "restates"),
    ],
)
def test_words_are_told_apart(body: str, expected: str) -> None:
    assert expected in {t.fate for t in trials(f"{HEAD}gesture a\n  {body}\n") if t.word.block}


def test_a_rest_may_only_fill_the_last_bar() -> None:
    """It is there or not; a longer one counts."""
    text = f"{HEAD}gesture a\n  contour: C5\n  lasts: 3 beats\npassage p\n  meter: 4/4\n  play: a, rest 1\n"
    fates = {t.word.shown: t.fate for t in trials(text) if t.word.key == "play"}
    assert (fates["rest"], fates["1"]) == ("restates", "restates")


def test_a_word_that_is_lost_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """Broken on purpose: accents that are not engraved, a `note` dropped beside a footnote."""
    from gesturesmith.backends.lilypond import leaves
    from gesturesmith.model import translations
    from gesturesmith.model.gesture import Gesture

    text = f'{HEAD}gesture a\n  contour: C5 accent, D5\n  footnote: "Ours."\n  note: "And more."\n'
    assert void(text)[0] == []
    monkeypatch.setattr(leaves, "_ARTICULATIONS", ())
    monkeypatch.setattr(Gesture, "own_words", property(lambda gesture: gesture.footnote))
    monkeypatch.setattr(translations, "own_texts", lambda block, languages: ())
    assert [line.split("`")[1] for line in void(text)[0]] == ["accent", 'note: "And more."']


def test_a_word_that_another_key_overrides_is_void(monkeypatch: pytest.MonkeyPatch) -> None:
    """Broken on purpose: `note` lost beside `footnote`, though it counts without it and says something else."""
    from gesturesmith.model import translations
    from gesturesmith.model.gesture import Gesture

    text = f'{HEAD}gesture a\n  contour: C5\n  footnote: "Ours."\n  note: "And more."\n'
    monkeypatch.setattr(Gesture, "own_words", property(lambda gesture: gesture.footnote or gesture.note))
    monkeypatch.setattr(translations, "own_texts", lambda block, languages: ())
    assert [line.split("`")[1] for line in void(text)[0]] == ['note: "And more."']
