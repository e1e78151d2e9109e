"""Self-contained files include their parts once, and nothing else from the templates' folder."""

from __future__ import annotations

from dataclasses import replace

import pytest

from gesturesmith import inlining, paths, writers
from gesturesmith.lytext import code
from gesturesmith.writers.base import MARK, is_ours


@pytest.fixture
def parts(tmp_path, monkeypatch):
    """A folder of templates: a main file includes a part, which includes another."""
    (tmp_path / "stencils").mkdir()
    (tmp_path / "gesturesmith.ily").write_text(
        '\\version "2.24.0"\n\\include "stencils/line.ily"\n  \\include "stencils/head.ily" % heads\nend = 1\n'
    )
    (tmp_path / "stencils" / "line.ily").write_text('\\version "2.24.0"\n\\include "wave.ily"\nline = 1\n')
    (tmp_path / "stencils" / "wave.ily").write_text('wave = "\\\\include"\n')
    (tmp_path / "stencils" / "head.ily").write_text("head = 1\n")
    monkeypatch.setattr(paths, "templates", lambda: tmp_path)
    return tmp_path


@pytest.mark.usefixtures("parts")
def test_parts_are_put_in_their_place():
    assert inlining.template("gesturesmith.ily") == (
        '\\version "2.24.0"\nwave = "\\\\include"\nline = 1\nhead = 1\nend = 1\n'
    )


@pytest.mark.usefixtures("parts")
def test_a_document_stands_alone():
    text = inlining.inlined('\\version "2.24.0"\n\\include "gesturesmith.ily"\n\\include "my-own.ily"\nmusic = 1\n')
    assert text.count("\\version") == 1
    assert "line = 1\nhead = 1" in text
    assert '\\include "my-own.ily"\nmusic = 1' in text


def test_text_files_are_marked_and_the_stencils_lie_beside(items):
    ily = writers.get("ily").outputs(items, {})
    assert [str(o.place) for o in ily][-1] == "study/gesturesmith.ily"
    for output in (*ily, *writers.get("ly").outputs(items, {})):
        assert output.data.startswith(f"% {MARK} [".encode())
        assert is_ours(output.data)
        assert not is_ours(output.data + b"% mine")
    assert b'\\include "stencils/' not in ily[-1].data


def test_a_document_is_named_by_its_file(items):
    book = code('\\book {\n\\bookOutputName "s2"\n\\markup "x"\n}\n')
    text = writers.get("ly").finish(replace(items[1], document=book), b"").decode()
    assert text.partition("\n")[2] == '\\book {\n\\markup "x"\n}\n'
