"""`gesturesmith list`."""

from __future__ import annotations

from collections.abc import Callable
from typing import get_args

import click

from gesturesmith.cli.console import clean, complain, say, say_bytes
from gesturesmith.cli.json_schema import schema_option
from gesturesmith.cli.status import Status
from gesturesmith.kinds import Listed

# A row of a listing: its fields by name, in printing order.
Row = dict[str, str]


@click.command(name="list")
@click.argument("what", type=click.Choice(get_args(Listed)))
@click.option("--show", metavar="NAME", help="Print an instrument's profile as a starting point for your own.")
@click.option("--json", "as_json", is_flag=True, help="Print the list as JSON.")
@schema_option("list")
@click.pass_context
def list_(context: click.Context, what: Listed, show: str | None, as_json: bool) -> Status:
    """List all techniques, instruments or rules."""
    if show is not None:
        if what != "instruments" or as_json:
            raise click.UsageError("--show is for instruments: list instruments --show horn", context)
        return _show(show)
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


def _show(name: str) -> Status:
    """Print the profile of an instrument, from which the same instrument can be read."""
    import difflib

    from gesturesmith import instruments
    from gesturesmith.instruments.profile import to_toml

    wanted = "-".join(name.lower().replace("_", " ").split())
    if wanted not in instruments.names():
        near = difflib.get_close_matches(wanted, instruments.names(), n=3)
        hint = f"did you mean {' or '.join(near)}?" if near else "see gesturesmith list instruments"
        complain(f"unknown instrument '{clean(name)}'; {hint}")
        return Status.INPUT
    say_bytes(to_toml(instruments.get(wanted)).encode())
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


_LISTS: dict[Listed, Callable[[], list[Row]]] = {
    "techniques": _techniques,
    "instruments": _instruments,
    "rules": _rules,
}
