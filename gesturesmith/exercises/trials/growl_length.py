"""How long: growl."""

from __future__ import annotations

from gesturesmith.exercises.trials._effects import longest

FAMILY = longest("growl")
