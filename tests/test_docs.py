"""The pages of the handbook that are made from the code are what the code gives."""

from __future__ import annotations

import subprocess
import sys
from importlib import util
from pathlib import Path
from types import ModuleType

import pytest

from gesturesmith import instruments, rules, techniques

DOCS = Path(__file__).parent.parent / "docs"


@pytest.fixture(scope="module")
def generate() -> ModuleType:
    spec = util.spec_from_file_location("docs_generate", DOCS / "generate.py")
    assert spec is not None
    assert spec.loader is not None
    module = util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_pages_are_up_to_date(generate: ModuleType) -> None:
    assert generate.stale() == [], "run: python docs/generate.py"


def test_every_entry_has_its_section(generate: ModuleType) -> None:
    for page, names in (
        (generate.techniques_page(), techniques.names()),
        (generate.instruments_page(), instruments.names()),
        (generate.rules_page(), rules.names()),
    ):
        headings = [line for line in page.splitlines() if line.startswith("##")]
        for name in names:
            assert sum(f"`{name}`" in line for line in headings) == 1, name


def test_pages_are_the_same_every_time(generate: ModuleType) -> None:
    for make in generate.PAGES.values():
        assert make() == make()


def test_a_page_that_differs_is_found(generate: ModuleType, tmp_path: Path) -> None:
    for name, make in generate.PAGES.items():
        (tmp_path / name).write_text(make(), "utf-8")
    assert generate.stale(tmp_path) == []
    (tmp_path / "rules.md").write_text("# Rules\n", "utf-8")
    (tmp_path / "techniques.md").unlink()
    assert generate.stale(tmp_path) == ["techniques.md", "rules.md"]


def test_a_word_too_many_is_misuse() -> None:
    done = subprocess.run(
        [sys.executable, str(DOCS / "generate.py"), "--all"], capture_output=True, text=True, check=False
    )
    assert done.returncode == 2
    assert "--check" in done.stdout
