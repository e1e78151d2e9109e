"""The natural horn in D."""

from __future__ import annotations

from gesturesmith.instruments._natural import crook

INSTRUMENT = crook("natural-horn-d", "D", -6, -10, de="D", fr="ré", it="re")
