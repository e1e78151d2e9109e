"""Checks a whole file: the reports on its gestures, passages and exercises, and what may be engraved."""

from gesturesmith.checker.file import Checked, check, check_text

__all__ = ["Checked", "check", "check_text"]
