"""Nothing typed is ever lost, and nothing that another program wrote is written over unseen."""

from __future__ import annotations

import os
import stat

import pytest
from hypothesis import given
from hypothesis import strategies as st
from live.conftest import OTHER, TEXT, WINDOW

from gesturesmith.live import documents
from gesturesmith.live.documents import Document, TypedText, fingerprint
from gesturesmith.live.journal import Journal, JournalEntry

TYPED = TEXT + "# typed\n"
SLOWER = TEXT.replace("72", "60")


def typed(text: str, base: str | None = TEXT, *, saves: tuple[str, ...] = (), window: str = WINDOW) -> TypedText:
    return TypedText(window=window, text=text, base=base, saves=tuple(map(fingerprint, saves)))


def test_what_is_typed_is_kept_aside_at_once_and_leaves_the_journal_with_the_save(document, file, journal):
    assert document.typed(typed(TYPED)).standing == "same"
    assert file.read_text() == TEXT
    (kept,) = journal.left(file)
    assert (kept.text, kept.base, kept.window) == (TYPED, TEXT, WINDOW)
    assert document.save(typed(TYPED)).why == ""
    assert file.read_text() == TYPED
    assert journal.left(file) == () == document.left()


def test_a_killed_program_finds_it_again(document, file, journal):
    document.typed(typed(TYPED))
    again = Document(file, Journal(journal.folder))
    assert [entry.text for entry in again.left()] == [TYPED]
    assert again.save(typed(again.left()[0].text)).why == ""
    assert again.left() == ()


def test_the_words_are_found_without_the_program(document, journal):
    document.typed(typed(TEXT + '# "wie ein Nebelhorn"\n'))
    (place,) = journal.folder.iterdir()
    assert '"# \\"wie ein Nebelhorn\\"",\n' in place.read_text()


def test_only_its_owner_reads_the_journal(document, journal):
    document.typed(typed(TYPED))
    (place,) = journal.folder.iterdir()
    assert stat.S_IMODE(journal.folder.stat().st_mode) == 0o700
    assert stat.S_IMODE(place.stat().st_mode) == 0o600


def test_a_journal_that_others_can_write_is_not_used(journal):
    journal.folder.chmod(0o777)
    assert "can be written by others" in journal.problem


def test_changes_elsewhere_are_joined_before_anything_is_saved(document, file):
    file.write_text(SLOWER)
    agreement = document.typed(typed(TYPED))
    assert agreement.standing == "joined"
    assert (agreement.text, agreement.base) == (SLOWER + "# typed\n", SLOWER)
    held = document.save(typed(TYPED)).agreement
    assert held is not None
    assert held.standing == "joined"
    assert file.read_text() == SLOWER
    assert document.save(typed(agreement.text, agreement.base)).why == ""
    assert file.read_text() == SLOWER + "# typed\n"


def test_the_same_line_changed_twice_is_never_written_over(document, file, journal):
    file.write_text(SLOWER)
    mine = TEXT.replace("72", "90")
    agreement = document.typed(typed(mine))
    assert (agreement.standing, agreement.base, agreement.text) == ("clash", SLOWER, mine)
    assert document.save(typed(mine)).agreement == agreement
    assert file.read_text() == SLOWER
    assert [entry.text for entry in journal.left(file)] == [mine]
    # The composer keeps what is in the window: it is now typed upon what the file holds.
    assert document.save(typed(mine, SLOWER)).why == ""
    assert file.read_text() == mine


def test_a_save_whose_answer_was_lost_is_the_windows_own(document, file):
    """The program was killed between writing the file and saying so."""
    file.write_text(TYPED)
    more = TYPED + "# more\n"
    assert document.typed(typed(more, TEXT, saves=(TYPED,))).standing == "same"
    assert document.save(typed(more, TEXT, saves=(TYPED,))).why == ""
    assert file.read_text() == more


def test_what_another_program_put_back_is_taken_over(document, file):
    """Although it is what this window saved long ago: the file is the truth."""
    assert document.save(typed(TYPED)).why == ""
    file.write_text(TEXT)
    agreement = document.typed(typed(TYPED, TYPED))
    assert (agreement.standing, agreement.text) == ("joined", TEXT)


def test_two_windows_on_one_file(document, file, journal):
    mine, theirs = SLOWER, TYPED
    document.typed(typed(mine))
    document.typed(typed(theirs, window=OTHER))
    assert {entry.text for entry in journal.left(file)} == {mine, theirs}
    assert document.save(typed(mine)).why == ""
    held = document.save(typed(theirs, window=OTHER)).agreement
    assert held is not None
    assert held.text == SLOWER + "# typed\n"
    assert document.save(typed(held.text, held.base, window=OTHER)).why == ""
    assert file.read_text() == SLOWER + "# typed\n"
    assert journal.left(file) == ()


def test_a_file_that_is_gone_is_not_put_back_unasked(document, file, journal):
    file.unlink()
    agreement = document.typed(typed(TEXT))
    assert agreement.standing == "gone"
    assert [entry.text for entry in journal.left(file)] == [TEXT]  # it is nowhere else
    assert document.save(typed(TYPED)).agreement is not None
    assert not file.exists()
    # The composer wants it back: as a new file.
    assert document.save(typed(TYPED, None)).why == ""
    assert file.read_text() == TYPED


def test_a_file_that_was_only_replaced_in_two_steps_goes_on(document, file):
    file.rename(file.with_suffix(".bak"))
    assert document.look()
    file.with_suffix(".bak").rename(file)
    assert document.look()
    assert document.typed(typed(TYPED)).standing == "same"


def test_a_new_file_is_made_by_the_first_save(tmp_path, journal):
    document = Document(tmp_path / "new.gesture", journal)
    assert document.there is None
    assert document.typed(typed("instrument: horn\n", None)).standing == "same"
    assert [entry.text for entry in document.left()] == ["instrument: horn\n"]
    assert document.save(typed("instrument: horn\n", None)).why == ""
    assert (tmp_path / "new.gesture").read_text() == "instrument: horn\n"


def test_a_new_file_that_another_program_makes_meanwhile_is_not_written_over(tmp_path, journal):
    document = Document(tmp_path / "new.gesture", journal)
    (tmp_path / "new.gesture").write_text("theirs\n")
    assert document.save(typed("mine\n", None)).agreement.standing == "clash"
    assert (tmp_path / "new.gesture").read_text() == "theirs\n"


def test_a_read_only_file_is_left_alone_and_what_is_typed_kept(document, file, journal):
    file.chmod(0o444)
    document.typed(typed(TYPED))
    assert "permission denied" in document.save(typed(TYPED)).why
    assert file.read_text() == TEXT
    assert [entry.text for entry in journal.left(file)] == [TYPED]
    file.chmod(0o644)
    assert document.look() is False
    assert document.save(typed(TYPED)).why == ""
    assert file.read_text() == TYPED


def test_a_full_disk_loses_neither_file_nor_text(document, file, journal, monkeypatch):
    document.typed(typed(TYPED))

    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    assert "the disk is full" in document.save(typed(TYPED)).why
    assert file.read_text() == TEXT
    assert [entry.text for entry in journal.left(file)] == [TYPED]
    assert [p.name for p in file.parent.iterdir()] == [file.name]
    with pytest.raises(OSError, match="the disk is full"):
        document.typed(typed(TYPED + "# and more\n"))
    assert [entry.text for entry in journal.left(file)] == [TYPED]  # the last that could be kept


@pytest.mark.parametrize(
    ("data", "why"),
    [(b"%PDF-1.5", "a PDF"), (b"\xff\xfeg\0", "UTF-16"), (b"tempo: \xe9", "not UTF-8"), (b" " * 2_000_001, "2 MB")],
)
def test_what_is_no_text_any_more_is_written_over_only_if_the_composer_says_so(document, file, data, why):
    file.write_bytes(data)
    agreement = document.typed(typed(TYPED))
    assert agreement.standing == "unreadable"
    assert why in agreement.why
    assert document.save(typed(TYPED)).agreement == agreement
    assert file.read_bytes() == data
    assert document.save(typed(TYPED), over=True).why == ""
    assert file.read_text() == TYPED


@pytest.mark.parametrize("text", ["\0", "half a \ud800 character", "x" * 2_000_001])
def test_what_no_file_can_hold_is_not_saved_and_said(document, file, text):
    assert document.save(typed(text)).why
    assert file.read_text() == TEXT


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("bom", ["", "\ufeff"])
def test_line_ends_bom_mode_and_link_stay(tmp_path, journal, newline, bom):
    real, link = tmp_path / "real.gesture", tmp_path / "link.gesture"
    real.write_bytes((bom + TEXT.replace("\n", newline)).encode())
    real.chmod(0o640)
    link.symlink_to(real)
    document = Document(link, journal)
    assert document.there == TEXT
    assert document.typed(typed(TYPED)).standing == "same"
    assert document.save(typed(TYPED)).why == ""
    assert real.read_bytes() == (bom + TYPED.replace("\n", newline)).encode()
    assert stat.S_IMODE(real.stat().st_mode) == 0o640
    assert link.is_symlink()


def test_the_two_names_of_a_file_have_one_journal(tmp_path, file, journal):
    link = tmp_path / "link.gesture"
    link.symlink_to(file)
    Document(link, journal).typed(typed(TYPED))
    assert [entry.text for entry in Document(file, journal).left()] == [TYPED]


def test_a_damaged_entry_hides_no_other(document, file, journal):
    document.typed(typed(TYPED))
    (place,) = journal.folder.iterdir()
    for number, data in enumerate((b"", b"{", b"[]", b'{"base": 1}', b'{"base": null, "text": 3}', b"\xff")):
        place.with_name(place.name.replace(WINDOW, f"{number + 1:016x}")).write_bytes(data)
    place.with_name(place.name.replace(WINDOW, "a" * 16)).mkdir()
    assert [entry.text for entry in journal.left(file)] == [TYPED]


@pytest.mark.parametrize("window", ["", "../../x", "0" * 15, "G" * 16, "0" * 16 + "\n", "/etc/passwd"])
def test_a_window_is_no_path(journal, file, window):
    with pytest.raises(ValueError, match="no window"):
        journal.keep(file, JournalEntry(window=window, base=None, text="x"))


def test_what_was_discarded_is_gone(document, file, journal):
    document.typed(typed(TYPED))
    document.discard(WINDOW)
    assert document.left() == ()


@given(st.lists(st.tuples(st.sampled_from("mt"), st.integers(0, 5)), max_size=12))
def test_whatever_happens_each_line_typed_is_in_the_file_or_the_journal(tmp_path_factory, steps):
    """A window and another program append marked lines at will; the window saves after each of its own."""
    folder = tmp_path_factory.mktemp("w")
    path = folder / "a.gesture"
    path.write_text("0\n1\n2\n3\n4\n5\n")
    document = documents.Document(path, Journal(folder / "journal"))
    (folder / "journal").mkdir(mode=0o700)
    base = text = path.read_text()
    mine, theirs = [], []
    for number, (who, at) in enumerate(steps):
        if who == "t":
            lines = path.read_text().split("\n")
            lines.insert(min(at, len(lines) - 1), f"t{number}")
            theirs.append(f"t{number}")
            path.write_text("\n".join(lines))
            continue
        lines = text.split("\n")
        lines.insert(min(at, len(lines) - 1), f"m{number}")
        mine.append(f"m{number}")
        text = "\n".join(lines)
        agreement = document.typed(typed(text, base))
        if agreement.standing == "joined":
            text, base = agreement.text, agreement.base
            document.typed(typed(text, base))
        if agreement.standing != "clash":
            assert document.save(typed(text, base)).why == ""
            base = text
    kept = [entry.text for entry in document.left()]
    saved = path.read_text().split("\n")
    assert set(theirs) <= set(saved)
    assert all(line in saved or any(line in one.split("\n") for one in kept) for line in mine)
