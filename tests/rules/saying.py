"""A finding of a rule as a row of a table: the place between « and », severity, number and suggestions.

`silent` rows are just inside a limit and must have no finding. The sentences themselves are in one snapshot
(`test_sentences.py`), so that a better wording changes one file.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from rules.checking import findings
from rules.proposed import pairs


@dataclass(frozen=True)
class Row:
    rule: str
    body: str  # lines of a gesture, the place of the finding between « and »
    fires: bool
    number: tuple = ()  # name, value, limit, unit
    ways: list | None = None  # the new lines of each suggestion, joined by " | "; None: not checked
    severity: str = "caution"
    tries: list | None = None  # proposals before the checker judges them, as "key: value"; None: not checked
    physical: bool = False  # whether it cannot be allowed
    source: str = ""  # its evidence; "": not checked
    of: int = 1  # the number of findings of the rule, including this one
    on: str = "horn"
    tempo: int = 60

    @property
    def marked(self) -> str:
        lines = "".join(f"  {line}\n" for line in self.body.split("\n"))
        return f"instrument: {self.on}\npitches: written\ntempo: {self.tempo}\n\ngesture a\n{lines}"

    def found(self, *, suggestions: bool = False) -> list:
        """All findings of the rule."""
        text = self.marked.replace("«", "").replace("»", "")
        return [f for f in findings(text, suggestions=suggestions) if f.rule == self.rule]

    def at_place(self, found: list) -> list:
        """Those between the marks: several, where techniques that are combined are told each."""
        (line,) = (n for n, words in enumerate(self.marked.split("\n"), start=1) if "«" in words)
        words = self.marked.split("\n")[line - 1]
        place = (line, words.index("«") + 1, words.index("»"))
        return [f for f in found if (f.span.line, f.span.column, f.span.end_column) == place]

    def __str__(self) -> str:
        return f"{self.rule}: {self.body}".replace("\n", "; ")


def says(rule: str, body: str, **more) -> Row:
    return Row(rule, body, True, **more)


def silent(rule: str, body: str, **more) -> Row:
    return Row(rule, body, False, **more)


def _wanted(row: Row) -> dict:
    number = [row.number] if row.number else []
    wanted = {
        "severity": row.severity,
        "physical": row.physical,
        "numbers": [
            (name, pytest.approx(value, abs=6e-4), pytest.approx(limit, abs=6e-4), unit)
            for name, value, limit, unit in number
        ],
    }
    looked_at = {"source": row.source or None, "tries": row.tries, "ways": row.ways}
    return wanted | {name: value for name, value in looked_at.items() if value is not None}


def _told(finding, looked_at) -> dict:
    told = {
        "severity": finding.severity.value,
        "physical": finding.physical,
        "numbers": [(n.name, float(n.value), float(n.limit), n.unit) for n in finding.numbers],
        "source": f"{finding.evidence.kind.value}: {finding.evidence.source}",
        "tries": ["; ".join(f"{key}: {value}" for key, value in fix) for fix in pairs(finding.proposed_fixes)],
        "ways": [" | ".join(e.new.strip() for e in s.edits) for s in finding.suggestions],
    }
    return {name: told[name] for name in looked_at}


def holds(row: Row) -> None:
    found = row.found(suggestions=row.ways is not None)
    if not row.fires:
        assert [f.text for f in found] == []
        return
    assert len(found) == row.of, [f.text for f in found]
    here = row.at_place(found)
    assert here, [(f.span, f.text) for f in found]
    wanted = _wanted(row)
    told = [_told(f, wanted) for f in here]
    if len(told) == 1:
        assert told[0] == wanted
    assert wanted in told
