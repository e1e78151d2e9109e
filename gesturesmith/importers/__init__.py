"""Scores made elsewhere: read into notated parts, judged like gestures, and turned into gesture files."""
