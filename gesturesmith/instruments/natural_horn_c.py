"""The natural horn in C."""

from __future__ import annotations

from gesturesmith.instruments._natural import crook

INSTRUMENT = crook("natural-horn-c", "C", -7, -12, de="C", fr="ut", it="do")
