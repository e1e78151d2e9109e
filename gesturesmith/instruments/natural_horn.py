"""The natural horn in F."""

from __future__ import annotations

from gesturesmith.instruments._natural import crook

CALLED = ("hand horn", "Naturhorn", "cor naturel", "corno naturale", "corno da caccia", "Waldhorn")
INSTRUMENT = crook("natural-horn", "F", -4, -7, de="F", fr="fa", it="fa")
