"""Writes the parts of this folder's pages that come from the code. `--check` only compares.

python docs/generate.py [--check]

Whole pages are made of techniques and their pairs, rules, difficulty and instruments. In pages that are written by
hand, such as language.md, a table between `<!-- made: NAME -->` and `<!-- end -->` is made, and what a command
prints. The grammar for editors is made of the language's tables.
"""

from __future__ import annotations

import re
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from handbook import snippets
from handbook.difficulty import difficulty_page
from handbook.instruments import instruments_page
from handbook.joining import joining_page
from handbook.language import REGIONS
from handbook.rules import rules_page
from handbook.techniques import techniques_page

from gesturesmith.editing.textmate import textmate

DOCS = Path(__file__).parent
GRAMMAR = DOCS.parent / "editors" / "gesture.tmLanguage.json"
_REGION = re.compile(r"(<!-- made: ([a-z-]+) -->\n).*?(<!-- end -->)", re.DOTALL)

PAGES: dict[str, Callable[[], str]] = {
    "techniques.md": techniques_page,
    "joining.md": joining_page,
    "rules.md": rules_page,
    "difficulty.md": difficulty_page,
    "instruments.md": instruments_page,
}


def refreshed(text: str) -> str:
    """A hand-written page with its generated regions up to date; KeyError for an unknown one."""
    return _REGION.sub(lambda found: f"{found[1]}{REGIONS[found[2]]()}\n{found[3]}", text)


def written_by_hand() -> tuple[Path, ...]:
    """The hand-written pages with snippets."""
    root = DOCS.parent
    own = (root / name for name in ("README.md", "DEVELOPERS.md", "SECURITY.md"))
    pages = (DOCS / f"{name}.md" for name in ("language", "library", "musicxml"))
    return (*own, *pages, *sorted((DOCS / "handbook" / "text").glob("*.md")))


def wanted(folder: Path = DOCS) -> dict[str, str]:
    """The pages with generated parts, as they should be."""
    made = {name: make() for name, make in PAGES.items()}
    language = folder / "language.md"
    return made | ({language.name: refreshed(language.read_text("utf-8"))} if language.is_file() else {})


def stale_grammar() -> bool:
    """Whether the grammar for editors is missing or out of date."""
    return not GRAMMAR.is_file() or GRAMMAR.read_text("utf-8") != textmate()


def stale(folder: Path = DOCS) -> list[str]:
    """The pages that are missing or out of date."""
    return [
        name
        for name, text in wanted(folder).items()
        if not (folder / name).is_file() or (folder / name).read_text("utf-8") != text
    ]


def main(arguments: list[str]) -> int:
    if arguments == ["--check"]:
        old = [f"docs/{name}" for name in stale()]
        old += [f"editors/{GRAMMAR.name}"] * stale_grammar()
        for name in old:
            print(f"{name} is not what the code gives: run python docs/generate.py")
        return 1 if old else 0
    if arguments:
        print(__doc__)
        return 2
    for name, text in wanted().items():
        (DOCS / name).write_text(text, "utf-8")
    GRAMMAR.write_text(textmate(), "utf-8")
    for page in written_by_hand():
        with tempfile.TemporaryDirectory() as folder:
            page.write_text(snippets.refreshed(page.read_text("utf-8"), Path(folder).resolve()), "utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
