"""What a composer waits for in the page of `gesturesmith write`: from a key pressed to what is painted.

python benchmarks/page.py     exit status 1 if a goal is missed

The goals are for a quiet machine of two cores, 2026; the figures are medians, by the clock. Without Chromium or
playwright it says so and measures nothing.
"""

from __future__ import annotations

import importlib.util
import statistics
import sys
import tempfile
from pathlib import Path
from typing import Any
from unittest.mock import patch

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))  # the server and the browser of the tests

from gesturesmith.lilypond import LilyPond, find
from gesturesmith.lilypond.pool import LilyPondPool

DEMO = Path(__file__).parents[1] / "docs" / "demo" / "fog-signals.gesture"
BEGUN = '\n\ngesture measured "Measured"\n  technique: half-valve\n  contour: xG4 ~~ xD5'
KEYS = 12  # each ends a point: what stood before it is no picture of it
GOALS_MS = {"text": 20, "verdict": 80, "sketch": 80, "engraving": 200}
WITHOUT_MS = 600  # the engraving, where no LilyPond stays
WATCH = """() => {
  let pressed = 0, before = "";
  const picture = () => document.querySelector("#engraving img")?.src ?? "";
  addEventListener("keydown", (event) => {
    pressed = event.timeStamp; before = picture(); window.took = {};
  }, true);
  const parts = { text: ".cm-content", verdict: "#verdict", sketch: "#sketch", engraving: "#engraving" };
  const all = { subtree: true, childList: true, characterData: true, attributes: true };
  for (const [name, where] of Object.entries(parts)) new MutationObserver(() => {
    if (name in window.took || (name === "engraving" && picture() === before)) return;
    const began = pressed;
    requestAnimationFrame(() => setTimeout(() => { window.took[name] ??= performance.now() - began; }));
  }).observe(document.querySelector(where), all);
  window.took = {};
}"""


def measured(browser: Any, folder: Path, lilypond: LilyPond) -> dict[str, float]:
    """Milliseconds from a key to each part painted."""
    from live.serving import served

    folder.mkdir()
    file = folder / "piece.gesture"
    file.write_text(DEMO.read_text("utf-8") + BEGUN, "utf-8")
    found: dict[str, list[float]] = {name: [] for name in GOALS_MS}
    with served(file, lilypond=lilypond, state=folder / "state") as page:
        window = browser.new_page()
        window.goto(f"http://127.0.0.1:{page.port}/#{page.server.key}")
        window.wait_for_selector(".cm-content")
        window.keyboard.press("Control+End")
        window.wait_for_selector("#engraving img", timeout=60_000)
        window.evaluate(WATCH)
        for number in range(KEYS + 2):  # the first two make everything ready
            window.keyboard.type(f" ~~ x{'CDEFGAB'[number % 7]}")
            window.wait_for_timeout(1500)
            window.keyboard.press("Escape")  # words that are offered
            window.keyboard.press("4")
            window.wait_for_function(f"() => Object.keys(window.took).length === {len(GOALS_MS)}", timeout=60_000)
            if number > 1:
                for name, one in window.evaluate("() => window.took").items():
                    found[name].append(one)
            window.wait_for_timeout(1000)
        window.close()
    return {name: statistics.median(rows) for name, rows in found.items()}


def main() -> int:
    lilypond = find()
    if not isinstance(lilypond, LilyPond):
        print(f"page: not measured, {lilypond.reason}")
        return 0
    if importlib.util.find_spec("playwright") is None:
        print("page: not measured, playwright is not installed")
        return 0
    from live.browsing import CHROMIUM, CHROMIUM_OPTIONS
    from playwright.sync_api import sync_playwright

    if CHROMIUM is None:
        print("page: not measured, Chromium is not installed")
        return 0
    with sync_playwright() as playwright, tempfile.TemporaryDirectory() as name:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=CHROMIUM_OPTIONS)
        took = measured(browser, Path(name) / "stays", lilypond)
        with patch.object(LilyPondPool, "stays", False):
            without = measured(browser, Path(name) / "begins", lilypond)["engraving"]
        browser.close()
    missed = 0
    rows = [(part, took[part], goal) for part, goal in GOALS_MS.items()]
    for part, ms, goal in (*rows, ("engraving, where no LilyPond stays", without, WITHOUT_MS)):
        missed += ms > goal
        print(f"page: key to {part:<36} {ms:8.1f} ms  goal {goal:<5} {'ok' if ms <= goal else 'MISSED'}")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
