"""The generated pages of the handbook are up to date."""

from __future__ import annotations

import re
import sys
from collections import Counter
from pathlib import Path

import generate
import pytest
import timing
from handbook import instruments as instruments_of_docs
from handbook import language, snippets
from sampling import WHOLE

from gesturesmith import instruments, rules, techniques
from gesturesmith.lang import words
from gesturesmith.lang.keys import IN_BLOCK, SETTINGS, Key

DOCS = Path(__file__).parent.parent / "docs"
LANGUAGE = (DOCS / "language.md").read_text("utf-8")


def test_the_pages_are_up_to_date() -> None:
    assert generate.stale() == [], "run: python docs/generate.py"


def test_every_entry_has_its_section() -> None:
    for page, names in (
        (generate.techniques_page(), techniques.names()),
        (generate.instruments_page(), instruments.names()),
        (generate.rules_page(), rules.names()),
    ):
        headings = [line for line in page.splitlines() if line.startswith("##")]
        for name in names:
            assert sum(f"`{name}`" in line for line in headings) == 1, name


def test_pages_are_the_same_every_time() -> None:
    for make in generate.PAGES.values():
        assert make() == make()


def test_a_page_that_differs_is_found(tmp_path: Path) -> None:
    for name, text in generate.wanted().items():
        (tmp_path / name).write_text(text, "utf-8")
    assert generate.stale(tmp_path) == []
    (tmp_path / "rules.md").write_text("# Rules\n", "utf-8")
    (tmp_path / "techniques.md").unlink()
    changed = LANGUAGE.replace("| `tempo` |", "| `speed` |")
    (tmp_path / "language.md").write_text(changed, "utf-8")
    assert generate.stale(tmp_path) == ["techniques.md", "rules.md", "language.md"]


def test_a_word_too_many_is_misuse() -> None:
    done = timing.run([sys.executable, str(DOCS / "generate.py"), "--all"], text=True)
    assert done.returncode == 2
    assert "--check" in done.stdout


PAGES = [p for p in generate.written_by_hand() if WHOLE or p.name not in ("lessons.md", "adding.md")]


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_every_snippet_runs_and_prints_what_is_shown(page: Path, tmp_path: Path) -> None:
    text = page.read_text("utf-8")
    faults = snippets.run(text, tmp_path)
    faults += [f"no picture {name}" for name in snippets.MADE.findall(text) if not (tmp_path / name).is_file()]
    assert not faults, "\n\n".join((*faults, "run: python docs/generate.py, and look at the difference"))


@pytest.mark.parametrize("place", ["settings", *IN_BLOCK])
def test_every_key_says_what_it_means(place: str) -> None:
    keys: dict[str, Key] = SETTINGS if place == "settings" else IN_BLOCK[place]
    for name, key in keys.items():
        assert key.value.strip(), name
        assert key.missing.strip(), name
        # Texts in other languages stand below the table.
        assert "." in name or f"| `{name}` | " in language.REGIONS[place](), name
    assert f"<!-- made: {place} -->" in LANGUAGE


def test_the_made_regions_are_all_on_the_page() -> None:
    assert Counter(re.findall(r"<!-- made: ([a-z-]+) -->", LANGUAGE)) == dict.fromkeys(language.REGIONS, 1)


def test_every_fixed_word_is_on_the_language_page() -> None:
    """A new word of the language is documented; levels as a range."""
    levels = words.LEVELS[words.LEVELS.index("ppp") : words.LEVELS.index("fff") + 1]
    assert "`ppp`..`fff`" in LANGUAGE
    inline = re.findall(r"`([^`\n]+)`", re.sub(r"^```.*?^```", "", LANGUAGE, flags=re.DOTALL | re.MULTILINE))
    written = {*inline, *(word for text in inline for word in re.findall(r"[^\s,:;()|]+", text)), *levels}
    said = {*words.HEIGHTS, *words.EXTREMES, *words.REGISTERS, *words.MARKS, *words.LEVELS, *words.GROWTH}
    said |= {*words.MUTES, *words.NOTEHEADS, *words.PITCHES, *words.HEIGHT_LOOKS, *words.ACCIDENTALS, *words.SIDES}
    said |= {*words.FINGERINGS, *words.WORDINGS, *words.PAPERS, *words.SHADES, *words.SHAPES, *words.ORDERS}
    said |= {*words.YES_NO, *words.BLOCKS, *words.SIGNS.values()}
    assert said - written == set()
    assert set(words.SIGNS) == set(words.LINE_MEANINGS)


def test_what_instruments_share_is_said_once() -> None:
    """Together the shared limits and what each instrument has of its own are all there is."""
    common = instruments_of_docs.common()
    for instrument in instruments_of_docs.found():
        own = instruments_of_docs.own_limits(instrument)
        assert {**{name: common[name] for name in instrument.limits}, **own} == dict(instrument.limits)
    rows = Counter(r for r in generate.instruments_page().splitlines() if r.startswith("| `"))
    assert [row for row, times in rows.items() if times > 1] == []
