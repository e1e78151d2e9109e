"""How soft: a brassy tone."""

from __future__ import annotations

from gesturesmith.exercises.trials._effects import softest

FAMILY = softest("brassy")
