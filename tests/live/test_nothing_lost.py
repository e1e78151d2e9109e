"""Whatever happens to program, browser and file: what was typed is found again."""

from __future__ import annotations

import pytest
from live.browsing import WAIT_MS, browser, needs_browser, program, window  # noqa: F401  # fixtures
from live.conftest import TEXT
from live.serving import served
from sampling import whole
from timing import eventually

pytestmark = needs_browser
SLOWER = TEXT.replace("72", "60")


def address(page):
    return f"http://127.0.0.1:{page.port}/#{page.server.key}"


def end_typed(one, text):
    one.focus()
    one.press("Control+End")
    one.insert(text)


@whole
def test_a_program_that_is_killed_and_started_again(window, program, file):  # noqa: F811
    one = window(program.start())
    end_typed(one, "# before\n")
    one.says("#kept", "saved")
    program.end(kill=True)
    one.says("#kept", "does not answer")
    one.insert("# after\n")
    assert "# after" in one.page.evaluate("JSON.stringify(localStorage)")
    assert "# after" not in file.read_text()
    # It is started again, with another key: the new window tells the old one, which goes on by itself.
    other = window(program.start())
    assert eventually(lambda: file.read_text() == TEXT + "# before\n# after\n")
    one.saved()
    other.until("gesturesmithPage.view.state.doc.toString().endsWith('# after\\n')")
    assert one.page.evaluate("localStorage.length") == 0


@whole
def test_a_program_and_its_browser_that_are_both_gone(window, program, file):  # noqa: F811
    """What was typed within the pause before a save is in the journal."""
    one = window(program.start())
    one.page.evaluate("gesturesmithPage.file.keeping.save = () => {}")  # a save that never comes
    end_typed(one, "# typed\n")
    one.until("gesturesmithPage.saidText?.endsWith('# typed\\n')")
    one.page.evaluate("localStorage.clear()")
    one.page.close(run_before_unload=False)
    program.end(kill=True)
    assert file.read_text() == TEXT
    again = window(program.start())
    again.says("#kept", "saved")
    assert file.read_text() == TEXT + "# typed\n"


@whole
def test_a_window_that_is_loaded_again_while_the_program_is_gone(window, program, file):  # noqa: F811
    one = window(program.start())
    program.end(kill=True)
    end_typed(one, "# typed\n")
    one.page.close()
    again = window(program.start())
    again.saved()
    assert file.read_text() == TEXT + "# typed\n"


@whole
def test_what_is_left_of_another_time_is_asked_about_where_the_file_has_changed(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        document = page.ask("open")["files"][0]["id"]
        page.ask("text", file=document, text=TEXT + "# left\n", base=TEXT, line=1)
        file.write_text(SLOWER)
        one = window(address(page))
        one.says("#question", "something was typed that is not in the file")
        assert one.page.evaluate("gesturesmithPage.view.hasFocus")  # nobody answers it by accident
        one.page.get_by_role("button", name="Take it up again").click()
        one.saved()
        assert file.read_text() == SLOWER + "# left\n"
        assert page.ask("open")["files"][0]["left"] == []


@whole
def test_another_program_changes_the_file(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        file.write_text(SLOWER)
        one.until("gesturesmithPage.view.state.doc.toString().includes('tempo: 60')")
        # In another place at the same time: joined.
        end_typed(one, "# mine\n")
        file.write_text(SLOWER.replace("horn", "tuba"))
        one.until("gesturesmithPage.view.state.doc.toString().includes('tuba')")
        one.saved()
        assert file.read_text() == SLOWER.replace("horn", "tuba") + "# mine\n"


@whole
@pytest.mark.parametrize("keep", [True, False])
def test_the_same_line_changed_twice_is_asked_about(window, file, tmp_path, keep):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.page.evaluate("gesturesmithPage.file.keeping.later = () => {}")  # the rest before a save never ends
        one.focus()
        one.press("Control+Home", "End")
        one.insert("  # mine")
        theirs = TEXT.replace("instrument: horn", "instrument: tuba")
        file.write_text(theirs)
        one.says("#question", "was changed by another program in the same lines")
        assert one.page.evaluate("gesturesmithPage.view.hasFocus")
        one.insert("!")  # typing goes on
        one.press("Control+s")
        one.until("gesturesmithPage.saidText?.includes('# mine!')")
        assert file.read_text() == theirs
        (kept,) = page.server.journal.left(file)
        assert "# mine!" in kept.text
        one.page.get_by_role("button", name="Keep what is here" if keep else "Take what is in the file").click()
        one.saved()
        mine = TEXT.replace("instrument: horn", "instrument: horn  # mine!")
        assert file.read_text() == (mine if keep else theirs)
        if not keep:
            one.press("Control+z")
            one.until("gesturesmithPage.view.state.doc.toString().includes('# mine!')")


@whole
def test_two_windows_on_one_file(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one, two = window(address(page)), window(address(page))
        end_typed(one, "# at the end\n")
        two.focus()
        two.press("Control+Home")
        two.insert("# at the beginning\n")
        both = f"# at the beginning\n{TEXT}# at the end\n"
        for each in (one, two):
            each.page.wait_for_function(
                "text => gesturesmithPage.view.state.doc.toString() === text", arg=both, timeout=WAIT_MS
            )
        assert eventually(lambda: file.read_text() == both)


@whole
def test_a_file_that_is_deleted(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        file.unlink()
        one.says("#question", "no longer in its folder")
        end_typed(one, "# still here\n")
        one.until("gesturesmithPage.saidText?.includes('# still here')")
        one.press("Control+s")
        assert not file.exists()
        assert [entry.text for entry in page.server.journal.left(file)] == [TEXT + "# still here\n"]
        one.page.get_by_role("button", name="Write it again").click()
        one.saved()
        assert file.read_text() == TEXT + "# still here\n"


@whole
def test_a_file_that_is_made_read_only(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        file.chmod(0o444)
        end_typed(one, "# kept aside\n")
        one.says("#kept", "permission denied")
        assert file.read_text() == TEXT
        assert [entry.text for entry in page.server.journal.left(file)] == [TEXT + "# kept aside\n"]
        file.chmod(0o644)
        one.saved()  # it is tried again
        assert file.read_text() == TEXT + "# kept aside\n"


@whole
def test_a_file_that_is_no_text_any_more(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        file.write_bytes(b"%PDF-1.7")
        one.says("#question", "cannot be read any more")
        one.page.get_by_role("button", name="Write what is here in its place").click()
        one.saved()
        assert file.read_text() == TEXT


@whole
def test_a_window_that_is_hidden_saves(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.page.evaluate("gesturesmithPage.file.keeping.later = () => {}")
        end_typed(one, "# hidden\n")
        one.page.evaluate("Object.defineProperty(document, 'hidden', { value: true })")
        one.page.evaluate("dispatchEvent(new Event('visibilitychange'))")
        assert eventually(lambda: file.read_text() == TEXT + "# hidden\n")
