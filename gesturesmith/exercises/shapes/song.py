"""A little song."""

from gesturesmith.exercises.shapes.base import phrase

SHAPE = phrase("2:2 1:1 0:1 | 1:2 2:2 | 4:2 2:1 1:1 | 0:4")
