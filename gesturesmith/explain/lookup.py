"""Everything that can be explained, by the name that a message shows."""

from __future__ import annotations


def explained(name: str) -> str | None:
    """What is said about a rule, technique, mistake or limit, or about difficulty; None if nothing has that name.

    >>> explained("half-valve").splitlines()[0]
    'Half-valve  (half-valve; what the valves or the slide do)'
    """
    from gesturesmith import techniques
    from gesturesmith.explain import difficulty
    from gesturesmith.explain.rules import explain_rule

    if name == difficulty.NAME:
        return difficulty.explain_difficulty()
    if name in techniques.names():
        from gesturesmith.explain.techniques import explain_technique

        return explain_technique(name)
    found = explain_rule(name)
    if found is None:
        from gesturesmith.explain.mistakes import explain_mistake

        found = explain_mistake(name)
    if found is None:
        from gesturesmith.explain.limits import explain_limit

        found = explain_limit(name)
    return found
