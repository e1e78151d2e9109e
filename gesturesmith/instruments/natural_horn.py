"""The natural horn in F."""

from __future__ import annotations

from gesturesmith.instruments._natural import crook

INSTRUMENT = crook("natural-horn", "F", -4, -7, de="F", fr="fa", it="fa")
