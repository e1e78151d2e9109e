"""Annotated files: a line that must fire ends in `# expect CODE`, every other line must be silent."""

import re
from collections import Counter
from pathlib import Path

import pytest
from rules.checking import findings

FILES = sorted((Path(__file__).parent / "marked").glob("*.gesture"))
_EXPECT = re.compile(r"\s+# expect ((?:GS[0-9]{3}\s*)+)\Z")


def expected(text):
    """The codes that are expected, by line."""
    marks = Counter()
    for number, line in enumerate(text.split("\n"), start=1):
        match = _EXPECT.search(line)
        for code in match[1].split() if match else ():
            marks[number, code] += 1
    return marks


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.stem)
def test_what_is_marked_fires_and_nothing_else(path):
    text = path.read_text(encoding="utf-8")
    found = Counter((f.span.line, f.code) for f in findings(text))
    assert found == expected(text)


def test_there_are_marked_files():
    assert len(FILES) >= 5
    assert sum(sum(expected(p.read_text(encoding="utf-8")).values()) for p in FILES) >= 30
