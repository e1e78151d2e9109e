"""Files in their places: completely or not at all, and never over files that are not ours."""

from __future__ import annotations

import errno
import os
from pathlib import PurePosixPath

import pytest

from gesturesmith.delivery import Blocked, Delivered, deliver, replace_file
from gesturesmith.writers.base import MARK, Output, text_with_checksum


def output(place: str, text: str = "new") -> Output:
    return Output(place=PurePosixPath(place), data=text_with_checksum("%", text))


def files(folder):
    return sorted(str(p.relative_to(folder)) for p in folder.rglob("*") if p.is_file())


def test_missing_folders_are_made(tmp_path):
    done = deliver([output("study/b.svg"), output("study.pdf")], tmp_path / "out" / "deep", inputs=())
    assert done.paths == done.written
    assert [str(p.relative_to(tmp_path)) for p in done.written] == ["out/deep/study/b.svg", "out/deep/study.pdf"]
    assert files(tmp_path) == ["out/deep/study.pdf", "out/deep/study/b.svg"]


def test_our_own_file_is_replaced(tmp_path):
    deliver([output("a.ly", "old")], tmp_path, inputs=())
    deliver([output("a.ly", "new")], tmp_path, inputs=())
    assert (tmp_path / "a.ly").read_text().endswith("new")
    assert files(tmp_path) == ["a.ly"]


def test_an_unchanged_file_is_left_as_it_is(tmp_path):
    deliver([output("a.ly")], tmp_path, inputs=())
    os.utime(tmp_path / "a.ly", (1, 1))
    done = deliver([output("a.ly"), output("b.ly")], tmp_path, inputs=())
    assert [p.name for p in done.written] == ["b.ly"]
    assert (tmp_path / "a.ly").stat().st_mtime == 1


def test_somebody_elses_file_is_left_alone_and_nothing_else_written(tmp_path):
    (tmp_path / "study").mkdir()
    (tmp_path / "study" / "b.svg").write_text("<svg>mine</svg>")
    said = deliver([output("a.pdf"), output("study/b.svg")], tmp_path, inputs=())
    assert isinstance(said, Blocked)
    assert not said.machine
    assert "b.svg already exists and was not made by Gesturesmith" in said.reason
    assert files(tmp_path) == ["study/b.svg"]
    assert (tmp_path / "study" / "b.svg").read_text() == "<svg>mine</svg>"


def test_folders_made_in_vain_are_taken_away_again(tmp_path, monkeypatch):
    def full(path, data, mode):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr("gesturesmith.delivery._write", full)
    assert isinstance(deliver([output("deep/er/a.pdf")], tmp_path / "out", inputs=()), Blocked)
    assert list(tmp_path.iterdir()) == []


def test_a_link_that_leads_nowhere_is_somebodys(tmp_path):
    (tmp_path / "a.pdf").symlink_to("away")
    said = deliver([output("a.pdf"), output("b.pdf")], tmp_path, inputs=())
    assert "broken link" in said.reason
    assert [p.name for p in tmp_path.iterdir()] == ["a.pdf"]
    deliver([output("a.pdf")], tmp_path, inputs=(), force=True)
    assert not (tmp_path / "a.pdf").is_symlink()


def test_an_input_is_never_written_over_whatever_it_holds(tmp_path):
    source = tmp_path / "a.ly"
    source.write_text(f"# {MARK}")
    said = deliver([output("a.ly")], tmp_path, inputs=[source, tmp_path / "gone"])
    assert "is one of the input files" in said.reason
    assert source.read_text() == f"# {MARK}"


def test_two_things_in_one_place(tmp_path):
    """Some systems ignore the case of file names."""
    said = deliver([output("s/gesturesmith.ily"), output("s/Gesturesmith.ily", "other")], tmp_path, inputs=())
    assert "two outputs would have this name" in said.reason
    assert files(tmp_path) == []


@pytest.mark.parametrize(
    ("place", "why"), [("folder", "is a folder"), ("file/below", "where its folder should be")]
)
def test_things_in_the_way(tmp_path, place, why):
    (tmp_path / "folder").mkdir()
    (tmp_path / "file").write_text("")
    said = deliver([output(place)], tmp_path, inputs=())
    assert isinstance(said, Blocked)
    assert not said.machine
    assert why in said.reason
    assert files(tmp_path) == ["file"]


def test_a_full_disk_leaves_nothing_half_written(tmp_path, monkeypatch):
    """The second file does not fit: the first, already written, is not moved into place."""
    from gesturesmith import delivery

    deliver([output("a.pdf", "old")], tmp_path, inputs=())
    write = delivery._write

    def full(path, data, mode):
        if path.name.startswith(".b"):
            raise OSError(errno.ENOSPC, "no space")
        write(path, data, mode)

    monkeypatch.setattr(delivery, "_write", full)
    said = deliver([output("a.pdf"), output("b.pdf")], tmp_path, inputs=())
    assert said.machine
    assert "the disk is full" in said.reason
    assert files(tmp_path) == ["a.pdf"]
    assert (tmp_path / "a.pdf").read_text().endswith("old")


def test_a_users_file_keeps_its_permissions(tmp_path):
    path = tmp_path / "a.gesture"
    path.write_text("old")
    path.chmod(0o640)
    assert replace_file(path, b"new") is None
    assert path.read_bytes() == b"new"
    assert path.stat().st_mode & 0o777 == 0o640
    assert files(tmp_path) == ["a.gesture"]


@pytest.mark.parametrize("ending", ["ly", "ily"])
def test_a_score_that_was_worked_on_is_left_alone(tmp_path, ending):
    place = tmp_path / f"a.{ending}"
    ours = Output(place=PurePosixPath(place.name), data=text_with_checksum("%", "{ c'4 }\n"))
    newer = Output(place=PurePosixPath(place.name), data=text_with_checksum("%", "{ d'4 }\n"))
    deliver([ours], tmp_path, inputs=())
    place.write_bytes(ours.data.replace(b"c'4", b"c'4 \\fermata"))
    said = deliver([newer], tmp_path, inputs=())
    assert "was edited since Gesturesmith made it" in said.reason
    assert b"fermata" in place.read_bytes()
    deliver([newer], tmp_path, inputs=(), force=True)
    assert place.read_bytes() == newer.data
    place.write_bytes(newer.data.replace(b"\n", b"\r\n"))  # as a version control system may have it
    assert isinstance(deliver([ours], tmp_path, inputs=()), Delivered)


def _alter(data: bytes) -> dict[str, bytes]:
    """Changes people make to our files, and files of their own that mention us."""
    first, _, rest = data.partition(b"\n")
    return {
        "a comment above": b"% Second horn\n" + data,
        "without its sum": first.split(b" [")[0] + b"\n" + rest,
        "a space behind the sum": first + b" \n" + rest,
        "a line below": data + b"% mine\n",
        "another letter": data.replace(b"c'4", b"d'4"),
        "a letter to a friend": f"{MARK}, this page is lovely.\n".encode(),
        "another's sum": first + b"\n\\relative { c'4 }\n",
    }


ALTERED = _alter(text_with_checksum("%", "{ c'4 }\n"))


@pytest.mark.parametrize("how", ALTERED)
@pytest.mark.parametrize("ending", ["ly", "ily", "svg", "json"])
def test_only_what_we_made_to_the_last_byte_is_ours(tmp_path, how, ending):
    place = tmp_path / f"a.{ending}"
    place.write_bytes(ALTERED[how])
    said = deliver([output(place.name)], tmp_path, inputs=())
    assert isinstance(said, Blocked)
    assert "--force" in said.reason
    assert place.read_bytes() == ALTERED[how]
    assert files(tmp_path) == [place.name]


def test_a_text_that_holds_a_sum_like_ours(tmp_path):
    """A title may contain anything; the file is still identified by its own mark."""
    (tmp_path / "a.ly").write_bytes(text_with_checksum("%", f'title = "{MARK} [0123456789ab]"\n'))
    assert isinstance(deliver([output("a.ly")], tmp_path, inputs=()), Delivered)


@pytest.mark.parametrize("force", [False, True])
def test_what_is_no_ordinary_file_is_never_replaced(tmp_path, force):
    """A pipe represents a device: replacing one would take it away from everybody."""
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "link").symlink_to("pipe")
    for name in ("pipe", "link"):
        said = deliver([output(name)], tmp_path, inputs=(), force=force)
        assert isinstance(said, Blocked)
        assert "not a regular file" in said.reason
    assert (tmp_path / "pipe").is_fifo()
    assert (tmp_path / "link").is_symlink()
    assert "not a regular file" in replace_file(tmp_path / "pipe", b"new").reason
    assert sorted(p.name for p in tmp_path.iterdir()) == ["link", "pipe"]


def test_a_users_file_that_may_not_be_written_is_left_alone(tmp_path):
    path = tmp_path / "a.gesture"
    path.write_text("old")
    path.chmod(0o444)
    assert "permission denied" in replace_file(path, b"new").reason
    assert path.read_text() == "old"
    assert files(tmp_path) == ["a.gesture"]


def test_names_of_one_file_are_not_parted(tmp_path):
    path, other = tmp_path / "a.gesture", tmp_path / "b.gesture"
    path.write_text("old")
    os.link(path, other)
    assert "2 hard links" in replace_file(path, b"new").reason
    assert path.samefile(other)
    assert other.read_text() == "old"
