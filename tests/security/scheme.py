"""Scheme that does harm, passed to LilyPond unchanged; and what is left of a run."""

from __future__ import annotations

import contextlib
import shutil
from pathlib import Path

import pytest

needs_bwrap = pytest.mark.skipif(shutil.which("bwrap") is None, reason="bubblewrap is not installed")
both_ways = pytest.mark.parametrize("way", [pytest.param("always", marks=needs_bwrap), "never"])
SECRET = "the password is a rising fourth"

READS = '#(ly:warning "~a" ((@ (ice-9 textual-ports) get-string-all) (open-input-file "{path}")))'
WRITES = '#(catch #t (lambda () (with-output-to-file "{path}" (lambda () (display 1)))) (lambda e #f))'
PROCESS = '#(ly:warning "ended with ~a" (system "echo 1 > {path}"))'
FORKS = (
    '#(catch #t (lambda () (if (= 0 (primitive-fork)) (begin (mkdir "{path}") (primitive-exit 0)))) (lambda e #f))'
)

NESTED = '#(let loop ((n 0)) (if (< n 3000) (begin (mkdir "d") (chdir "d") (loop (+ n 1)))))'
MANY = (
    "#(let loop ((n 0)) (if (< n 3000) "
    '(begin (close-port (open-output-file (format #f "~a.pdf" n))) (loop (+ n 1)))))'
)


def left(folder: Path) -> list[str]:
    """The processes that were told of a folder."""
    found = []
    for process in Path("/proc").glob("[0-9]*"):
        with contextlib.suppress(OSError):  # it has ended meanwhile
            if str(folder).encode() in (process / "cmdline").read_bytes():
                found.append(process.name)
    return found
