"""Reads the text of a profile: a regular file of sensible size, in TOML, that says it is a profile."""

from __future__ import annotations

import os
import re
import stat
import tomllib
from pathlib import Path
from typing import Any

from gesturesmith import dependencies
from gesturesmith.values import frozen

LARGEST_BYTES = 256 * 1024
MARK = "instrument_profile"
_HEADER = re.compile(r"(\[\[?)([^\]#]+)\]\]?\s*(?:#.*)?\Z")
_KEY = re.compile(r"""("[^"]*"|'[^']*'|[A-Za-z0-9_-]+)\s*=""")
# Far deeper than any profile: a key of thousands of parts would keep the TOML parser busy for minutes.
_DEEP = re.compile(r"""(?<![\w-])(?:(?:[\w-]+|"[^"\n]*"|'[^'\n]*')[ \t]*\.[ \t]*){16}""")


@frozen
class ProfileError:
    """An error in a profile. `line` counts from 1; 0 is the file as a whole."""

    line: int
    key: str
    problem: str
    allowed: str = ""

    @property
    def message(self) -> str:
        """Place, problem and what is allowed, as one sentence for people."""
        place = f"line {self.line}: " if self.line else ""
        key = f"{self.key}: " if self.key else ""
        allowed = f" (allowed: {self.allowed})" if self.allowed else ""
        return f"{place}{key}{self.problem}{allowed}"


def located(folder: Path, name: str) -> Path:
    """The path of a profile named by a file in `folder`, relative to that file. Every such name passes through
    here."""
    return folder / name


OUTSIDE = ProfileError(
    0,
    "",
    "outside the folder of the gesture file",
    "a file there or below; --profiles DIR names another folder folder folder",
)


def read_bytes(path: Path) -> bytes | ProfileError:
    """The bytes of a regular file of at most 256 kB; an error for anything else. Never waits for a pipe."""
    dependencies.record_dependency(path)
    try:
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0))
    except FileNotFoundError:
        return ProfileError(0, "", "no such file")
    except (OSError, ValueError):  # ValueError: a null character in the name
        return ProfileError(0, "", "cannot be opened")
    if not stat.S_ISREG(os.fstat(handle).st_mode):
        os.close(handle)
        return ProfileError(0, "", "not a regular file")
    with os.fdopen(handle, "rb") as file:
        try:
            data = file.read(LARGEST_BYTES + 1)
        except OSError:
            return ProfileError(0, "", "the file cannot be read")
    return data if len(data) <= LARGEST_BYTES else ProfileError(0, "", "the file is too large", "256 kB")


def parse(
    data: bytes, mark: str = MARK, begins: str = "not an instrument profile: a profile begins"
) -> tuple[dict[str, Any], dict[tuple[str, ...], int]] | ProfileError:
    """The values of a file with the key `mark`, by default a profile, and the line of each key. A file without it
    is never quoted.
    """
    nothing = f"{begins} with {mark} = 1"
    try:
        text = data.decode("utf-8-sig")
        if _DEEP.search(text):
            raise RecursionError
        values = tomllib.loads(text)
    except UnicodeDecodeError:
        return ProfileError(0, "", nothing)
    except RecursionError:
        return ProfileError(0, "", "values are nested too deeply")
    except ValueError as fault:
        if re.search(rf"^[ \t]*{mark}[ \t]*=", text, re.MULTILINE) is None:
            return ProfileError(0, "", nothing)
        place = re.search(r"line (\d+)", str(fault))
        return ProfileError(int(place[1]) if place else 0, "", "not valid TOML")
    if mark not in values:
        return ProfileError(0, "", nothing)
    return values, key_lines(text)


def key_lines(text: str) -> dict[tuple[str, ...], int]:
    """The line of each key, by its path; tables of an array are numbered from 0."""
    lines: dict[tuple[str, ...], int] = {}
    prefix: tuple[str, ...] = ()
    counts: dict[str, int] = {}
    for number, line in enumerate(map(str.strip, text.split("\n")), start=1):
        if header := _HEADER.match(line):
            name = header[2].strip().strip("\"'")
            prefix = (name,)
            if header[1] == "[[":
                counts[name] = counts.get(name, -1) + 1
                prefix = (name, str(counts[name]))
            lines.setdefault(prefix, number)
        elif key := _KEY.match(line):
            lines.setdefault((*prefix, key[1].strip("\"'")), number)
    return lines
