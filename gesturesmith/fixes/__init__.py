"""Suggestions: changes proposed, written as edits of lines, tested, and applied."""
