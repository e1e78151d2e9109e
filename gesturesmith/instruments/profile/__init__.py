"""Users' own instruments: read from a TOML file by path, and printed as a file to start from."""

from __future__ import annotations

from gesturesmith.instruments.profile.file import located
from gesturesmith.instruments.profile.read import ProfileError, load
from gesturesmith.instruments.profile.write import to_toml

__all__ = ["ProfileError", "load", "located", "to_toml"]
