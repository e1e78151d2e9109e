"""`new` and `format`: the user's files are never lost."""

from __future__ import annotations

import os

import pytest
from cli.conftest import GOOD, WRONG

UNTIDY = GOOD.replace("  contour: G4, C5", "  contour:   G4 ,C5   # a remark")


def test_new_checks_and_is_in_canonical_form(here, run):
    result = run("new", "my piece")
    assert result.status == 0
    assert "gesturesmith check 'my piece.gesture'" in result.out
    text = (here / "my piece.gesture").read_text()
    assert 'title: "my piece"' in text
    assert run("check", "my piece.gesture").status == 0
    assert run("format", "--check", "my piece.gesture").status == 0


def test_new_takes_a_name_with_its_ending_and_quotes(here, run):
    assert run("new", 'so "so" \\.gesture').status == 0
    assert run("check", 'so "so" \\.gesture').status == 0


def test_new_puts_nothing_but_the_name_into_its_title(here, run):
    assert run("new", 'two\nlines: "x').status == 0
    (made,) = here.glob("*.gesture")
    assert run("check", made).status == 0


@pytest.mark.parametrize("name", ["", ".", "..", ".gesture", "folder/"])
def test_new_without_a_name(here, run, name):
    (here / "folder").mkdir()
    result = run("new", name)
    assert result.status == 2
    assert "has no name" in result.err
    assert [p for p in here.rglob("*") if p.is_file()] == []


def test_new_never_overwrites(here, run):
    (here / "a.gesture").write_text("mine")
    result = run("new", "a")
    assert result.status == 2
    assert "already exists" in result.err
    assert (here / "a.gesture").read_text() == "mine"


@pytest.mark.parametrize("name", ["nowhere/a", "file/a", "a\0b"])
def test_new_where_it_cannot_be(here, run, name):
    (here / "file").write_text("")
    assert run("new", name).status == 2


def test_format_changes_in_place_and_then_no_more(here, run):
    path = here / "a.gesture"
    path.write_text(UNTIDY)
    path.chmod(0o600)
    checked = run("format", "--check", "a.gesture")
    assert (checked.status, path.read_text()) == (1, UNTIDY)
    assert "a.gesture would change" in checked.out
    assert run("format", "a.gesture").status == 0
    assert "# a remark" in path.read_text()
    assert path.read_text() != UNTIDY
    assert path.stat().st_mode & 0o777 == 0o600
    again = run("format", "a.gesture")
    assert (again.status, again.out) == (0, "")
    assert run("format", "--check", "a.gesture").status == 0
    assert [p.name for p in here.iterdir()] == ["a.gesture"]


def test_format_leaves_a_file_with_errors_alone(here, run):
    (here / "a.gesture").write_text(WRONG)
    (here / "b.gesture").write_text(UNTIDY)
    result = run("format", "a.gesture", "b.gesture")
    assert result.status == 2
    assert "conture" in result.out
    assert (here / "a.gesture").read_text() == WRONG
    assert (here / "b.gesture").read_text() != UNTIDY


def test_format_through_a_link_keeps_the_link(here, run):
    (here / "a.gesture").write_text(UNTIDY)
    os.symlink("a.gesture", here / "link.gesture")
    assert run("format", "link.gesture").status == 0
    assert (here / "link.gesture").is_symlink()
    assert (here / "a.gesture").read_text() != UNTIDY


def test_format_of_old_line_ends(here, run):
    (here / "a.gesture").write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    assert run("format", "a.gesture").status == 0
    assert run("check", "a.gesture").status == 0
    assert run("format", "--check", "a.gesture").status == 0
