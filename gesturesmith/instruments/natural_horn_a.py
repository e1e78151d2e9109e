"""The natural horn in A."""

from __future__ import annotations

from gesturesmith.instruments._natural import crook

INSTRUMENT = crook("natural-horn-a", "A", -2, -3, de="A", fr="la", it="la")
