"""`gesturesmith explain`."""

from __future__ import annotations

import click

from gesturesmith.cli.console import clean, complain, say
from gesturesmith.cli.status import Status


@click.command()
@click.argument("name", metavar="RULE-OR-TECHNIQUE")
def explain(name: str) -> Status:
    """Say what a rule (or its code) looks for and why, how a technique is played, or what `difficulty` means."""
    from gesturesmith import rules, techniques
    from gesturesmith.check import explain_difficulty
    from gesturesmith.check.explain import explain_technique

    wanted = name.strip().lower()
    if wanted == explain_difficulty.NAME:
        text: str | None = explain_difficulty.explain_difficulty()
    else:
        text = explain_technique(wanted) if wanted in techniques.names() else rules.explain(wanted)
    if text is None:
        complain(f"there is no rule or technique called {clean(name)}{_near(wanted)}")
        return Status.INPUT
    say(text.rstrip("\n"))
    return Status.GOOD


def _near(wanted: str) -> str:
    import difflib

    from gesturesmith import rules, techniques

    near = difflib.get_close_matches(wanted, (*techniques.names(), *rules.names()), n=3)
    return f"; near it: {', '.join(near)}" if near else "; gesturesmith list rules, list techniques"
