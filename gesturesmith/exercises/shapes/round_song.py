"""A little song in three."""

from gesturesmith.exercises.shapes.base import phrase

SHAPE = phrase("0:2 1:1 | 2:2 0:1 | 1:1 2:1 1:1 | 0:3", (3, 4))
