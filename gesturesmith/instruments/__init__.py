"""Instruments, found by file name."""

from __future__ import annotations

from functools import cache

from gesturesmith import registry
from gesturesmith.instruments.base import Instrument
from gesturesmith.source import as_said


def names() -> tuple[str, ...]:
    """The keys of all instruments, sorted."""
    return registry.names(__name__)


def get(name: str) -> Instrument:
    """The instrument called `name`; KeyError if there is none."""
    instrument: Instrument = registry.module(__name__, name).INSTRUMENT
    return instrument


def called(word: str) -> tuple[str, ...]:
    """At most three instruments that the trade calls so in some language ("Tromba"), the plainest first.

    By their whole name, else by the first word of it; the number of a player ("Horn 2") is left aside.
    """
    said = " ".join(w for w in as_said(word).split() if not w.isdigit()).rstrip("s")
    whole, first = _spoken()
    found = whole.get(said) or first.get(said, ())
    return tuple(sorted(found, key=lambda name: (name.count("-"), name))[:3])


def spoken() -> tuple[str, ...]:
    """All that instruments are called, as `as_said` gives it."""
    return tuple(_spoken()[0])


@cache
def _spoken() -> tuple[dict[str, tuple[str, ...]], dict[str, tuple[str, ...]]]:
    """The instruments by whole names, and by the first words of what stands at the head of their parts."""
    whole: dict[str, tuple[str, ...]] = {}
    first: dict[str, tuple[str, ...]] = {}
    for name in names():
        instrument = get(name)
        parts = (instrument.part_name.replace("♭", "b"), *instrument.part_names.values())
        others = getattr(registry.module(__name__, name), "CALLED", ())
        for said in {as_said(words) for words in (name, instrument.name, *parts, *others)}:
            whole[said] = (*whole.get(said, ()), name)
        for said in {as_said(part.split()[0]) for part in parts}:
            first[said] = (*first.get(said, ()), name)
    return whole, first
