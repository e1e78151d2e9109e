"""`gesturesmith explain`."""

from __future__ import annotations

import click

from gesturesmith.cli.console import clean, complain, say
from gesturesmith.cli.status import Status


@click.command()
@click.argument("name", metavar="RULE-OR-TECHNIQUE")
def explain(name: str) -> Status:
    """Say what a rule looks for and why, or how a technique is played. A rule's code will do."""
    from gesturesmith import rules, techniques
    from gesturesmith.check.explain import explain_technique

    wanted = name.strip().lower()
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
