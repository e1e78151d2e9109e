"""Gesturesmith: brass gestures from a short text, checked and engraved."""

__version__ = "0.1.0"
