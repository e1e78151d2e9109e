"""The version of this program, included in every file it makes for other programs."""

__version__ = "0.1.0"
