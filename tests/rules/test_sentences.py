"""Every sentence in the tables of `test_said_of_*`, in one snapshot, by rule: read it as prose.

`pytest tests/rules/test_sentences.py --snapshot-update` rewrites it; the difference is reviewed like code.
"""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

from rules.checking import checked

TABLES = [import_module(f"rules.{p.stem}") for p in sorted(Path(__file__).parent.glob("test_said_of_*.py"))]


def sentences(found) -> list[str]:
    return [line for f in found for line in (f"  > {f.text}", f"    {f.hint or ''}") if line.strip()]


def of_rows() -> list[str]:
    """By rule, in the order of the tables; a gesture that stands in several rows once."""
    rows = {(r.rule, r.marked): r for table in TABLES for r in getattr(table, "ROWS", []) if r.fires}
    assert rows
    told = []
    for row in sorted(rows.values(), key=lambda row: row.rule):
        where = [f"on: {row.on}"] * (row.on != "horn") + [f"tempo: {row.tempo}"] * (row.tempo != 60)
        lines = [row.rule, *(f"  {line}" for line in (*where, *row.body.split("\n")))]
        told.append("\n".join([*lines, *sentences(row.at_place(row.found()))]))
    return told


def of_passages() -> list[str]:
    texts = dict.fromkeys(text for table in TABLES for text in getattr(table, "PASSAGES", []))
    assert texts
    told = []
    for text in texts:
        found = checked(text.replace("«", "").replace("»", "")).report.passages[-1].findings
        lines = [line for f in found for line in (f"  {f.rule} in {f.where}", *sentences([f]))]
        told.append("\n".join([*text.split("\n\n", 1)[1].strip().split("\n"), *lines]))
    return told


def test_sentences(snapshot):
    assert "\n\n".join([*of_rows(), *of_passages()]) == snapshot
