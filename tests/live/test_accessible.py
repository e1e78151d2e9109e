"""The page for whoever cannot see it, or not well. axe-core 4.14.1 (in `tests/reference/axe`, Mozilla Public
License 2.0) finds nothing by the rules of WCAG 2.2, levels A and AA, nor by its own; colour alone says nothing."""

from __future__ import annotations

from pathlib import Path

import pytest
from live.browsing import browser, needs_browser, window  # noqa: F401  # fixtures
from live.serving import served
from sampling import whole

pytestmark = [needs_browser, whole]
AXE = (Path(__file__).parents[1] / "reference" / "axe" / "axe.min.js").read_text("utf-8")
SWEEP = (
    'instrument: horn\npitches: written\n\ngesture deep "Deep"\n  technique: harmonic-gliss\n'
    '  contour: C4 ~~ E4\n\ngesture half "Half"\n  technique: half-valve\n  contour: G4 ~~ C5\n\n'
    'gesture call "Call"\n  contour: G4\n'
)


def address(page):
    return f"http://127.0.0.1:{page.port}/#{page.server.key}"


def violations(one):
    one.page.evaluate(AXE)
    found = one.page.evaluate("axe.run()")
    assert len(found["passes"]) > 20
    return [(v["id"], [n["html"][:150] for n in v["nodes"]][:3]) for v in found["violations"]]


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_no_violation_in_any_state(window, file, tmp_path, theme):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.page.evaluate("gesturesmithPage.file.keeping.later = () => {}")  # the rest before a save never ends
        if theme == "dark":
            one.page.locator("#theme").click()
        assert one.page.evaluate("document.documentElement.dataset.theme") == theme
        assert violations(one) == []  # the whole file
        one.write_whole(SWEEP)
        one.page.evaluate("gesturesmithPage.view.dispatch({ selection: { anchor: 60 } })")
        one.says("#findings", "changes the music")
        one.page.get_by_role("button", name="Why?").first.click()
        one.says("#findings", "derived")
        one.page.locator("#export-opens").click()
        one.page.locator("#keys-opens").click()
        assert violations(one) == []  # a finding with its ways out and its reasons, and all that opens
        file.write_text("instrument: tuba\n")
        one.says("#question", "in the same lines")
        one.press("Control+Home")
        one.insert("gli")
        assert violations(one) == []  # a question, a mistake
        one.page.locator("#question button").first.click()
        one.write_whole("")
        one.says("#seeing", "An empty page")
        assert violations(one) == []


def test_a_verdict_has_a_shape_and_a_word(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.write_whole(SWEEP)
        one.says("#contents", "■ Deep not as written")
        one.says("#contents", "▲ Half with care")
        one.says("#contents", "● Call playable")
        one.page.evaluate("gesturesmithPage.view.dispatch({ selection: { anchor: 60 } })")
        one.says("#verdict", "■not as written")


def test_twice_the_size_nothing_is_cut_off(window, file, tmp_path):  # noqa: F811
    """Zoom to 200 % of a window of 1400: WCAG 2.2, 1.4.10, no scrolling in two directions."""
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.write_whole(SWEEP)
        for width in (1400, 700, 360):
            one.page.set_viewport_size({"width": width, "height": 450})
            assert one.page.evaluate("document.documentElement.scrollWidth <= innerWidth"), width


def test_a_screen_reader_hears_what_has_changed_once(window, file, tmp_path):  # noqa: F811
    with served(file, state=tmp_path / "state") as page:
        one = window(address(page))
        one.write_whole(SWEEP)
        one.page.evaluate("gesturesmithPage.view.dispatch({ selection: { anchor: 60 } })")
        one.until("document.querySelector('#announced').textContent === 'Deep: not as written, 1 finding'")
        assert one.page.get_attribute("#announced", "role") == "status"
        assert one.page.locator("#sketch svg[role=img] title").count() == 1
