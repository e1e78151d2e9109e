"""A real browser for the page, and programs that are killed while it is open."""

from __future__ import annotations

import importlib.util
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import timing

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
CHROMIUM_OPTIONS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
WAIT_MS = timing.PATIENCE_S * 1000  # for a state of the page, however slow the machine

needs_browser = pytest.mark.skipif(
    CHROMIUM is None or importlib.util.find_spec("playwright") is None,
    reason="Chromium or playwright is not installed: the page is not tried in a browser",
)


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    from playwright.sync_api import expect, sync_playwright

    expect.set_options(timeout=WAIT_MS)
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=CHROMIUM, args=CHROMIUM_OPTIONS)
        yield running
        running.close()


class Window:
    """A window of the page, used by keyboard unless a test says otherwise.

    problems   what the browser complained of
    asked      every address that it asked
    """

    def __init__(self, page: Any) -> None:
        self.page = page
        self.problems: list[str] = []
        self.asked: list[str] = []
        page.set_default_timeout(WAIT_MS)
        page.on("pageerror", lambda error: self.problems.append(str(error)))
        page.on(
            "console", lambda said: self.problems.append(said.text) if said.type in ("error", "warning") else None
        )
        page.on("request", lambda request: self.asked.append(request.url))

    def open(self, address: str) -> Window:
        self.page.goto(address)
        self.page.wait_for_selector(".cm-content")
        self.until("gesturesmithPage.file?.keeping?.answered")
        return self

    def text(self) -> str:
        return str(self.page.evaluate("gesturesmithPage.view.state.doc.toString()"))

    def press(self, *keys: str) -> None:
        for key in keys:
            self.page.keyboard.press(key)

    def type(self, text: str) -> None:
        """Keys pressed one after another; Enter for line ends."""
        self.page.keyboard.type(text)

    def insert(self, text: str) -> None:
        """A text put in at once, without the keys."""
        self.page.keyboard.insert_text(text)

    def write_whole(self, text: str) -> None:
        self.focus()
        self.press("Control+a", "Delete")
        self.insert(text)
        self.until("gesturesmithPage.saidText === gesturesmithPage.view.state.doc.toString()")

    def take(self, word: str) -> None:
        """Wait for an offer, go down the list to it, and take it."""
        mark = "li[aria-selected] .cm-completionLabel"
        self.page.wait_for_function(
            """word => [...document.querySelectorAll(".cm-tooltip-autocomplete .cm-completionLabel")]
              .some((one) => one.textContent === word)""",
            arg=word,
            timeout=WAIT_MS,
        )
        for _ in range(self.page.locator(".cm-tooltip-autocomplete li").count()):
            if self.page.locator(mark).count() and self.page.inner_text(mark) == word:
                break
            self.press("ArrowDown")
        self.press("Tab")

    def focus(self) -> None:
        self.page.evaluate("gesturesmithPage.view.focus()")

    def until(self, expression: str) -> None:
        """Wait until an expression of the page holds."""
        # As a function: a text is evaluated in the page, which its own policy forbids.
        self.page.wait_for_function(f"() => {expression}", timeout=WAIT_MS)

    def words(self, selector: str) -> str:
        return " ".join(self.page.inner_text(selector).split())

    def says(self, selector: str, words: str) -> None:
        """Wait until an element has these words in it."""
        self.page.wait_for_function(
            "([where, words]) => document.querySelector(where)?.innerText.replace(/\\s+/g, ' ').includes(words)",
            arg=[selector, words],
            timeout=WAIT_MS,
        )

    def saved(self) -> None:
        self.says("#kept", "saved")
        self.until("gesturesmithPage.file.keeping.base === gesturesmithPage.view.state.doc.toString()")


@pytest.fixture
def window(browser: Any) -> Iterator[Callable[[str], Window]]:
    """Opens windows, those of one test with one memory, and sees that no problem was left unsaid."""
    context = browser.new_context(viewport={"width": 1400, "height": 900})
    windows: list[Window] = []

    def opened(address: str) -> Window:
        windows.append(Window(context.new_page()))
        return windows[-1].open(address)

    yield opened
    problems = [problem for one in windows for problem in one.problems]
    context.close()
    # What a program that is gone answers is no fault of the page.
    assert [p for p in problems if "ERR_" not in p and "Failed to load resource" not in p] == []


class Program:
    """`gesturesmith write` as a process of its own, which can be killed and started again."""

    def __init__(self, *files: Path, state: Path, port: int = 0) -> None:
        self.files = files
        self.state = state
        self.port = port
        self.process: subprocess.Popen[str] | None = None

    def start(self) -> str:
        """The address of its page."""
        environment = os.environ | {"GESTURESMITH_STATE": str(self.state), "GESTURESMITH_LILYPOND": os.devnull}
        command = [sys.executable, "-m", "gesturesmith.cli.main", "write", *map(str, self.files), "--no-browser"]
        if self.port:
            command += ["--port", str(self.port)]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=environment)
        assert self.process.stdout is not None
        address = self.process.stdout.readline().strip().rsplit(" ", 1)[-1]
        assert address.startswith("http://127.0.0.1:")
        self.port = int(address.split(":")[2].split("/")[0])
        return address

    def end(self, *, kill: bool = False) -> None:
        if self.process is not None and self.process.poll() is None:
            self.process.kill() if kill else self.process.terminate()
            timing.ended(self.process)


@pytest.fixture
def program(file: Path, tmp_path: Path) -> Iterator[Program]:
    made = Program(file, state=tmp_path / "state")
    yield made
    made.end()
