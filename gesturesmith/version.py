"""The version of this program, which every file it makes for other programs bears."""

__version__ = "0.1.0"
