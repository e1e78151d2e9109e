"""`gesturesmith list`."""

from __future__ import annotations

from collections.abc import Callable

import click

from gesturesmith.cli.console import say, say_bytes
from gesturesmith.cli.status import Status

# A row of a listing: its fields by name, in the order in which they are printed.
Row = dict[str, str]


@click.command(name="list")
@click.argument("what", type=click.Choice(["techniques", "instruments", "rules"]))
@click.option("--json", "as_json", is_flag=True, help="Print the list for programs.")
def list_(what: str, as_json: bool) -> Status:
    """List the techniques, the instruments or the rules there are."""
    rows = _LISTS[what]()
    if as_json:
        import json

        say_bytes((json.dumps({"schema": 1, what: rows}, ensure_ascii=False, indent=2) + "\n").encode())
        return Status.GOOD
    fields = list(rows[0]) if rows else []
    widths = {f: max(len(row[f]) for row in rows) for f in fields}
    for row in rows:
        say("  ".join(row[f].ljust(widths[f]) for f in fields).rstrip())
    return Status.GOOD


def _techniques() -> list[Row]:
    from gesturesmith import techniques

    found = [techniques.get(name) for name in techniques.names()]
    return [{"name": t.key, "layer": t.layer, "title": t.title["en"]} for t in found]


def _instruments() -> list[Row]:
    from gesturesmith import instruments

    found = [instruments.get(name) for name in instruments.names()]
    return [{"name": i.key, "title": i.name} for i in found]


def _rules() -> list[Row]:
    from gesturesmith import rules

    found = sorted(rules.all_rules(), key=lambda r: r.code)
    return [
        {"code": r.code, "name": r.name, "severity": r.severity.value, "about": r.doc.strip().partition("\n")[0]}
        for r in found
    ]


_LISTS: dict[str, Callable[[], list[Row]]] = {
    "techniques": _techniques,
    "instruments": _instruments,
    "rules": _rules,
}
