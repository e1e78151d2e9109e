"""What a rule says of a gesture, as a row of a table: the place between « and », the words, number and ways out.

Also what it must not say: `silent` rows stand where a limit is just reached.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from rules.checking import findings

from gesturesmith import rules


@dataclass(frozen=True)
class Row:
    rule: str
    body: str  # lines of a gesture, the place of the finding between « and »
    text: str = ""  # "": the rule says nothing
    number: tuple = ()  # name, value, limit, unit
    hint: str = ""
    ways: list | None = None  # the new lines of each suggestion, joined by " | "; None: not looked at
    severity: str = ""  # "": that of the rule
    tries: list | None = None  # what is proposed before the checker judges it, as "key: value"; None: not looked at
    physical: bool = False  # whether no reason can allow it
    source: str = ""  # what it rests on; "": not looked at
    of: int = 1  # how many findings of the rule there are, this one among them
    on: str = "horn"
    tempo: int = 60

    @property
    def gesture(self) -> str:
        lines = "".join(f"  {line}\n" for line in self.body.split("\n"))
        return f"instrument: {self.on}\npitches: written\ntempo: {self.tempo}\n\ngesture a\n{lines}"

    def __str__(self) -> str:
        return f"{self.rule}: {self.body}".replace("\n", "; ")


def says(rule: str, body: str, text: str, **more) -> Row:
    return Row(rule, body, text, **more)


def silent(rule: str, body: str, **more) -> Row:
    return Row(rule, body, **more)


def _between_marks(text: str) -> tuple[int, int, int]:
    """Line, first column and column after the last of what stands between « and »."""
    (line,) = (number for number, words in enumerate(text.split("\n"), start=1) if "«" in words)
    words = text.split("\n")[line - 1]
    return line, words.index("«") + 1, words.index("»")


def holds(row: Row) -> None:
    text = row.gesture.replace("«", "").replace("»", "")
    found = [f for f in findings(text, suggestions=row.ways is not None) if f.rule == row.rule]
    if not row.text:
        assert [f.text for f in found] == []
        return
    assert len(found) == row.of, [f.text for f in found]
    place = _between_marks(row.gesture)
    here = [f for f in found if (f.span.line, f.span.column, f.span.end_column) == place and f.text == row.text]
    assert len(here) == 1, [(f.span, f.text) for f in found]
    (finding,) = here
    assert finding.severity.value == (row.severity or rules.get(row.rule).severity.value)
    assert (finding.hint or "") == row.hint
    assert finding.physical is row.physical
    assert row.source in ("", f"{finding.evidence.kind.value}: {finding.evidence.source}")
    numbers = [(n.name, float(n.value), float(n.limit), n.unit) for n in finding.numbers]
    wanted = [(name, pytest.approx(value, abs=6e-4), pytest.approx(limit, abs=6e-4), unit)
              for name, value, limit, unit in ([row.number] if row.number else [])]  # fmt: skip
    assert numbers == wanted
    if row.tries is not None:
        assert ["; ".join(f"{key}: {value}" for key, value in change) for change in finding.try_values] == row.tries
    if row.ways is not None:
        assert [" | ".join(e.new.strip() for e in s.edits) for s in finding.suggestions] == row.ways
