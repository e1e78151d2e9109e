"""The page in a real browser: a first session by keyboard alone, ways out, and that it asks nobody else."""

from __future__ import annotations

import pytest
from live.browsing import browser, needs_browser, program, window  # noqa: F401  # fixtures
from live.serving import served
from sampling import whole

from gesturesmith.checker import check_text
from gesturesmith.diagnostics import Verdict
from gesturesmith.source import Source

pytestmark = needs_browser


def address(page):
    return f"http://127.0.0.1:{page.port}/#{page.server.key}"


def test_a_first_session_typed_by_keyboard(window, tmp_path):  # noqa: F811
    """From a file that is not there to a gesture that is saved, with a way out; without mouse and manual."""
    file = tmp_path / "first.gesture"
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.says("#seeing", "An empty page")
        one.type("French horn")
        one.says(".cm-tooltip-autocomplete", "instrument: horn")
        one.press("Tab", "Enter")
        one.type("pitch")
        one.says(".cm-tooltip-autocomplete", "pitches")
        one.press("Tab")
        one.says(".cm-tooltip-autocomplete", "written")
        one.press("Tab", "Enter", "Enter")
        one.type('gesture deep "Deep"\n')
        one.type("technique: harmonic-gliss\ncontour: C4 ~~ E4")
        one.says("#verdict", "not as written")
        one.says("#findings", "a glissando needs 3")
        one.press("F8")
        one.press("Control+Enter")
        one.says("#verdict", "playable")
        assert "technique: chromatic" in one.text()
        assert one.words(".put-in") == "chromatic"
        one.says("#announced", "put in: technique: chromatic")
        one.says("#contents", "Deep playable")
        assert one.page.locator("#sketch svg").count() == 1
        one.says("#engraving", "No engraving: LilyPond was not found")
        one.press("Control+s")
        one.saved()
        assert file.read_text() == one.text()
        assert file.read_text().startswith("instrument: horn\npitches: written\n\ngesture deep")
        # Nobody but the program was asked, and its key is nowhere to be seen.
        origin = address(page).split("/#")[0]
        assert all(url.startswith((origin, "blob:", "data:")) for url in one.asked)
        assert page.server.key not in "".join([one.page.url, *one.asked])


@whole
@pytest.mark.parametrize(
    ("typed", "offered", "put"),
    [
        ("gliss", "technique: fingered-gliss", "technique: "),
        ("wah", "wah", "technique: "),
        ("smear", "smear", "technique: "),
        ("con sordino", "mute:", "mute:"),
        ("Flatterzunge", "flutter-tongue", "technique: flutter-tongue"),
        ("c4", "C4", "contour: C4"),
        ("quarter note", "1 beat", "lasts: 1 beat"),
        ("tr", "trill", "trill"),
    ],
)
def test_what_composers_say_leads_on(window, file, tmp_path, typed, offered, put):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.write_whole("instrument: horn\npitches: written\n\ngesture a\n  ")
        one.press("Control+End")
        one.type(typed)
        one.says(".cm-tooltip-autocomplete", offered)
        one.press("Tab")
        assert put in one.text()


# What is typed, what is offered for it, and how the text ends after it was taken; without an offer, keys alone.
SESSION = (
    ("French horn", "instrument: horn", "instrument: horn"), ("\n", "", ""),
    ("as written", "pitches: written", "pitches: written"), ("\n\n", "", ""),
    ("gliss", "gesture … technique: harmonic-gliss", "technique: harmonic-gliss"),
    ("c4", "contour: C4", "contour: C4"), (" ", "", ""), ("gliss", "-- (harmonic-gliss)", "contour: C4 --"),
    ("c5", "C5", "contour: C4 -- C5"), ("\n", "", ""), ("whole note", "lasts: 4 beats", "lasts: 4 beats"),
    ("\n\n", "", ""),
    ("wah", "gesture … technique: wah-wah", "technique: wah-wah"),
    ("plunger", "mute: plunger", "mute: plunger"), ("\n", "", ""), ("g4", "contour: G4", "contour: G4"),
    ("\n", "", ""), ("quarter note", "lasts: 1 beat", "lasts: 1 beat"), ("\n\n", "", ""),
    ("c5", "gesture … contour: C5", "contour: C5"), ("\n", "", ""),
    ("half note", "lasts: 2 beats", "lasts: 2 beats"), ("\n", "", ""),
    ("tr", "technique: lip-trill", "technique: lip-trill"), ("\n\n", "", ""),
    ("g4", "gesture … contour: G4", "contour: G4"), (" ", "", ""), ("smear", "as smear", "contour: G4 as smear"),
    ("\n\n", "", ""),
    ("con sordino", "gesture … mute: straight", "mute: straight"), ("g4", "contour: G4", "contour: G4"),
    ("\n\n", "", ""),
    ("Flatterzunge", "gesture … technique: flutter-tongue", "technique: flutter-tongue"),
    ("c5", "contour: C5", "contour: C5"), ("\n", "", ""), ("quarter note", "lasts: 1 beat", "lasts: 1 beat"),
)  # fmt: skip


@whole
def test_nine_words_of_the_trade_make_a_piece_without_the_manual(window, tmp_path):  # noqa: F811
    """Typed one after the other, each offer taken from the list by keys alone."""
    file = tmp_path / "first.gesture"
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.says("#seeing", "An empty page")
        for typed_, offered, line in SESSION:
            one.type(typed_)
            if not offered:
                one.until("gesturesmithPage.saidText === gesturesmithPage.view.state.doc.toString()")
                continue
            one.take(offered)
            assert one.text().rstrip().endswith(line), (typed_, one.text())
        one.until("gesturesmithPage.saidText === gesturesmithPage.view.state.doc.toString()")
        report = check_text(Source("first.gesture", one.text())).report
        assert not report.errors, one.text()
        assert len(report.gestures) == 6, one.text()
        assert all(said.verdict is not Verdict.NOT_AS_WRITTEN for said in report.gestures), one.text()
        one.press("Control+s")
        one.saved()
        assert file.read_text() == one.text()


@whole
def test_the_button_plays_what_is_at_the_cursor(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.press("Control+End")
        one.says("#verdict", "gesture beacon")
        one.page.evaluate(
            """() => {
              const play = HTMLMediaElement.prototype.play;
              HTMLMediaElement.prototype.play = function () { window.played = this; return play.call(this); };
            }"""
        )
        one.page.get_by_role("button", name="Listen").press("Enter")
        one.until("window.played?.src.startsWith('blob:')")
        one.until("window.played.duration > 1.6")  # two beats, 72 in a minute
        one.says("#announced", "beacon sounds")
        one.until("window.played.currentTime > 0")
        one.press("Escape")
        one.until("window.played.paused")


@whole
def test_columns_count_characters_not_units(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.write_whole('instrument: horn\npitches: written\ngesture a "🎺🎺🎺"\n  contour: C𝄲4 __ Q5\n')
        one.until("document.querySelector('.cm-lintRange-error')?.textContent === 'Q5'")


@whole
def test_a_block_in_the_middle_of_being_typed_keeps_what_it_had(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.press("Control+End")
        one.says("#verdict", "gesture beacon")
        one.insert("  dynamics: p < qq")
        one.until("document.querySelector('#sketch').classList.contains('before')")
        one.says("#verdict", "gesture beacon")
        one.says("#verdict", "cannot be read yet")  # after a rest
        one.press("Backspace", "Backspace", "f")
        one.until("!document.querySelector('#sketch').classList.contains('before')")
        one.says("#verdict", "playable")


@whole
def test_help_follows_the_cursor_and_why_shows_the_evidence(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.write_whole(
            "instrument: horn\npitches: written\n\ngesture deep\n  technique: harmonic-gliss\n  contour: C4 ~~ E4\n"
        )
        one.press("Control+Home", "ArrowDown", "ArrowDown", "ArrowDown", "ArrowDown", "End")
        one.says("#help", "Harmonic glissando")
        one.page.get_by_role("button", name="Why?").press("Enter")
        one.says("#findings", "derived:")
        one.says("#findings pre", "A harmonic glissando has nothing to sweep through.")


@whole
def test_parts_of_the_page_are_reached_by_f6(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.says("#contents", "Beacon")
        seen = []
        for _ in range(5):
            seen.append(one.page.evaluate("document.activeElement.closest('[id]').id"))
            one.press("F6")
        assert seen == ["editor", "seeing", "contents", "help", "files"]
        one.press("Shift+F6", "Shift+F6", "Shift+F6", "Enter")  # back to the list, and to its entry
        one.until("gesturesmithPage.view.hasFocus")


@whole
def test_every_format_is_offered_by_keyboard(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.press("Control+End")
        one.says("#verdict", "gesture beacon")
        one.page.get_by_role("button", name="Export", exact=True).press("Enter")
        with one.page.expect_download() as loaded:
            one.page.get_by_role("button", name="musicxml").press("Enter")
        assert loaded.value.suggested_filename == "beacon.musicxml"
        one.says("#export", "beacon.musicxml is in your downloads")
        one.press("Escape")
        assert one.page.locator("#export-opens").evaluate("one => one === document.activeElement")


TRIO = (
    'pitches: written\npart horn "Horn in F"\n  instrument: horn\npart trumpet "Trumpet in B-flat"\n'
    '  instrument: trumpet\npart low "Trombone"\n  instrument: trombone\n\n'
    'gesture beacon "Beacon"\n  technique: harmonic-gliss\n  contour: C4 ~~ E4\n  lasts: 2 beats\n\n'
    'passage all "Over the water"\n  horn: beacon, G4 for 2\n  trumpet: E5 for 4\n  low: F3 for 4\n'
)


@whole
def test_of_several_parts_what_is_wrong_comes_before_the_pictures_and_each_part_is_named(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.write_whole(TRIO)
        one.says("#findings", "plays beacon")
        one.says("#contents", "1 gesture, 1 passage")
        tops = [one.page.locator(part).bounding_box()["y"] for part in ("#verdict", "#findings", "#sketch")]
        assert tops == sorted(tops)
        cut = "[...document.querySelectorAll('.entry .title')].some((one) => one.scrollWidth > one.clientWidth + 1)"
        one.until(f"!{cut}")
        assert {"Horn in F", "Trumpet in B-flat", "Trombone"} <= {
            said.strip() for said in one.page.locator(".of-part").all_inner_texts()
        }


@whole
@pytest.mark.parametrize("zoom", [1.5, 2])
def test_at_a_projectors_distance_the_line_that_is_written_stays_in_sight(window, file, tmp_path, zoom):  # noqa: F811
    """1920 by 1080, with the browser's zoom: half of the height is text, and no line needs scrolling sidewards."""
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.page.set_viewport_size({"width": int(1920 / zoom), "height": int(1080 / zoom)})
        one.write_whole(TRIO)
        one.press("Control+Home", *["ArrowDown"] * 9, "End")
        one.says("#help", "Harmonic glissando")
        one.until("gesturesmithPage.view.hasFocus")
        inside = (
            "(({ top, bottom }, { y, height }) => y <= top && bottom <= y + height)(document.querySelector("
            "'.cm-activeLine').getBoundingClientRect(), document.querySelector('#editor').getBoundingClientRect())"
        )
        one.until(inside)
        main = "innerHeight - document.querySelector('main').offsetTop"
        one.until(f"document.querySelector('#editor').clientHeight * 2.2 > {main}")
        one.until("document.documentElement.scrollWidth <= innerWidth")
