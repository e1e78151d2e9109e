"""How long: the shake, in the high register."""

from __future__ import annotations

from gesturesmith.exercises.trials._effects import longest

FAMILY = longest("shake", "high")
