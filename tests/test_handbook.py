"""The handbook is built from the code without a warning, and can be read and searched without a network."""

from __future__ import annotations

import os
import re
import sys
from html.parser import HTMLParser
from pathlib import Path

import pytest
import timing
from handbook import pages, snippets, sources
from sampling import whole

from gesturesmith import instruments, rules, techniques
from gesturesmith.evidence import Kind

ROOT = Path(__file__).parent.parent
BUILD = ROOT / "docs" / "handbook" / "build.py"
# What a browser fetches by itself, unlike links.
FETCHED = {"img": "src", "script": "src", "link": "href", "iframe": "src", "source": "src", "object": "data"}
OUTSIDE = re.compile(r"^\s*([a-z][a-z0-9+.-]*:)?//", re.IGNORECASE)


def build(folder: Path, *options: str, seed: str = "0") -> Path:
    """The handbook in a separate folder; "--quick" leaves out the slow parts."""
    done = timing.run(
        [sys.executable, str(BUILD), *options, str(folder)], env=os.environ | {"PYTHONHASHSEED": seed}, text=True
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert not done.stderr, done.stderr
    return folder / "html"


@pytest.fixture(scope="module")
def html(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return build(tmp_path_factory.mktemp("handbook"), "--quick")


class Page(HTMLParser):
    """What a page makes a browser fetch, the targets of its links, and its own anchors."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.fetched: list[str] = []
        self.links: list[str] = []
        self.names: set[str] = set()
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if tag in FETCHED and given.get(FETCHED[tag]):
            self.fetched.append(given[FETCHED[tag]] or "")
        if tag == "a" and given.get("href"):
            self.links.append(given["href"] or "")
        if given.get("id"):
            self.names.add(given["id"] or "")


@whole
def test_nothing_is_fetched_from_outside(html: Path) -> None:
    for path in html.rglob("*.html"):
        for place in Page(path.read_text("utf-8")).fetched:
            assert not OUTSIDE.match(place), f"{path.name}: {place}"
            assert (path.parent / place.partition("?")[0].partition("#")[0]).exists(), f"{path.name}: {place}"
    for path in html.rglob("*.css"):
        for place in re.findall(r"""(?:url\(|@import)\s*["']?(?!url)([^"')\s;]+)""", path.read_text("utf-8")):
            assert not OUTSIDE.match(place), f"{path.name}: {place}"
    for path in html.rglob("*.js"):
        outside = re.findall(r"""["'`]((?:https?:)?//\w[^"'`\s]*)""", path.read_text("utf-8"))
        assert {*outside} <= {"http://www.w3.org/2000/svg"}, path.name  # the SVG namespace, which is never fetched


@whole
def test_every_link_within_leads_somewhere(html: Path) -> None:
    read = {path.resolve(): Page(path.read_text("utf-8")) for path in html.rglob("*.html")}
    for path, page in read.items():
        for link in page.links:
            place, _, name = link.partition("#")
            if re.match(r"[a-z]+:", place):
                continue
            there = (path.parent / place).resolve() if place else path
            assert there.exists(), f"{path.name}: {link}"
            assert not name or there not in read or name in read[there].names, f"{path.name}: {link}"


@whole
def test_the_search_finds_every_entry(html: Path) -> None:
    index = (html / "searchindex.js").read_text("utf-8")
    for name in techniques.names():
        assert f'"techniques/{name}"' in index
    for name in instruments.names():
        assert f'"instruments/{name}"' in index
    for name in rules.names():
        assert name in index


@pytest.fixture(scope="module")
def made() -> dict[str, str]:
    """The pages that the handbook alone has, by their place."""
    by_hand = {page.name for page in pages.TEXT.glob("*.md")}
    return {place: text for place, text in pages.pages(quick=True).items() if place not in by_hand}


@whole
def test_every_snippet_of_the_made_pages_runs_and_prints_what_is_shown(
    made: dict[str, str], tmp_path: Path
) -> None:
    """Those of rules, techniques, instruments and commands; what is written by hand is run in test_docs.py."""
    for number, (place, text) in enumerate(made.items()):
        if "/" in place or place == "commands.md":
            folder = tmp_path / str(number)
            folder.mkdir()
            assert snippets.run(text, folder) == [], place
            assert [name for name in snippets.MADE.findall(text) if not (folder / name).is_file()] == [], place


def test_every_rule_is_shown_with_what_it_says_of_its_example(made: dict[str, str]) -> None:
    text = "".join(page for place, page in made.items() if place.startswith("rules/"))
    for rule in rules.all_rules():
        section = text.partition(f"({rule.name})=\n")[2].partition("\n(")[0]
        assert section.count("$ gesturesmith check example.gesture\n") == 2, rule.name
        assert re.search(rf"^[a-z ]+: .*{re.escape(rule.name)}$", section, re.MULTILINE), rule.name


def test_every_technique_has_a_picture_and_registers() -> None:
    for name in techniques.names():
        picture = pages.picture_of(techniques.get(name))
        assert picture is not None, name
        assert (ROOT / "docs" / "gallery" / f"{picture.name}.png").is_file(), name
    split_tone = pages.technique_page(techniques.get("split-tone"), registers=True)
    assert "| [double horn in F/B-flat](../instruments/horn.md) | " in split_tone


def test_every_source_is_named_once() -> None:
    """What is published or practice names one of the sources; each of them is named by something."""
    for sourced, what in sources.rests():
        if sourced.kind in (Kind.PUBLISHED, Kind.PRACTICE):
            assert sources.source_of(sourced.source), f"{what}: {sourced.source}"
    named = {one.what for sourced, _ in sources.rests() for one in sources.source_of(sourced.source)}
    assert {one.what for one in sources.NAMED} == named
    page = sources.sources_page()
    for one in sources.NAMED:
        assert one.again, f"{one.what}: nobody has read it a second time"
        assert page.count(f"| {one.what} |") == 1
