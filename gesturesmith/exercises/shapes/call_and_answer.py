"""A call that stays open, and its answer."""

from gesturesmith.exercises.shapes.base import phrase

SHAPE = phrase("0:1 2:1 4:2 | 2:4 | 4:1 2:1 1:2 | 0:4")
