"""The whole handbook is the same every time: built twice, with all charts, which takes minutes. For `make soak`."""

from __future__ import annotations

from pathlib import Path

from test_handbook import build


def test_the_handbook_is_the_same_every_time(tmp_path: Path) -> None:
    once, again = build(tmp_path / "once", seed="1"), build(tmp_path / "again", seed="2")
    files = {p.relative_to(once) for p in once.rglob("*") if p.is_file()}
    assert files == {p.relative_to(again) for p in again.rglob("*") if p.is_file()}
    assert [str(f) for f in sorted(files) if (once / f).read_bytes() != (again / f).read_bytes()] == []
