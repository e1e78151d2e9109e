"""The notes of a chord over more than an octave."""

from gesturesmith.exercises.shapes.base import phrase

SHAPE = phrase("0:1 2:1 4:1 7:1 | 9:2 7:2 | 4:1 2:1 4:1 2:1 | 0:4")
