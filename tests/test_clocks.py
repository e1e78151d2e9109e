"""No test depends on a clock: those that must use one do so through `timing.py`, which allows for a busy
machine."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest
import timing

TESTS = Path(__file__).parent
CLOCKS = {"monotonic", "perf_counter", "time_ns", "monotonic_ns", "perf_counter_ns"}
WAITS = {"communicate", "wait", "check_output", "check_call"}
# For file dates, and to simulate a slow writer: nothing is judged by them.
ALLOWED = {"cache/test_store.py: time.time", "security/guided.py: subprocess.run"}
FILES = [p for p in sorted(TESTS.rglob("*.py")) if p.name not in ("timing.py", "test_clocks.py")]


def clocks(path: Path) -> set[str]:
    """The places where a file reads a clock, runs a program or waits for one itself."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Attribute):
            owner = node.value.id if isinstance(node.value, ast.Name) else ""
            if node.attr in CLOCKS or (owner, node.attr) in {("time", "time"), ("subprocess", "run")}:
                found.add(f"{owner}.{node.attr}")
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            fixed = [k.value for k in node.keywords if k.arg == "timeout" and isinstance(k.value, ast.Constant)]
            if node.func.attr in WAITS and (fixed or node.func.attr.startswith("check")):
                found.add(node.func.attr)
    return found


def test_no_test_looks_at_a_clock_by_itself():
    found = {f"{p.relative_to(TESTS)}: {what}" for p in FILES for what in clocks(p)}
    assert found - ALLOWED == set()
    assert found >= ALLOWED


def test_patience_grows_with_the_load(monkeypatch):
    now, load = 0.0, 1.0
    monkeypatch.setattr(timing, "slowness", lambda: load)
    monkeypatch.setattr(timing.time, "monotonic", lambda: now)
    patience = timing.Patience(10)
    assert patience.left() == 10
    now, load = 10.0, 5.0
    assert patience.left() == 10
    load = 1.0  # the highest load met counts
    now = 49.0
    assert patience.left() == 1
    now = 50.0
    assert patience.left() == 0


def test_what_hangs_is_ended(monkeypatch):
    monkeypatch.setattr(timing, "slowness", lambda: 1.0)
    with pytest.raises(subprocess.TimeoutExpired):
        timing.run([sys.executable, "-c", "import time; time.sleep(1000)"], seconds=0.2)


def test_work_is_at_least_as_slow_as_on_an_idle_machine():
    assert timing.slowness() >= 1
