"""Falling seconds, each with its breath before it."""

from gesturesmith.exercises.shapes.base import phrase

SHAPE = phrase("4:2 3:2 | 2:2 1:2 | 3:2 2:2 | 1:2 0:2")
