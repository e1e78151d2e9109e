"""In a notebook a gesture is shown as a picture and a report as a table; no user text is code there."""

from __future__ import annotations

from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import pytest
from api.texts import CALL, HEAD, HIGH

import gesturesmith
from gesturesmith import Source
from gesturesmith.diagnostics.table import table

NOT_AS_WRITTEN = Path(__file__).parents[2] / "docs" / "demo" / "not-as-written.gesture"
# Each would do harm if not escaped: in an element, an attribute, a comment or a script.
HOSTILE = [
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "-->",
    "]]>",
    "&lt;b&gt;",
    "</td></table>",
    "'",
]


class Elements(HTMLParser):
    """The elements and the text of a table as a browser sees them."""

    def __init__(self) -> None:
        super().__init__()
        self.elements: list[str] = []
        self.attributes: list[object] = []
        self.texts: list[str] = []

    def handle_starttag(self, tag, attrs):
        self.elements.append(tag)
        self.attributes += attrs

    def handle_data(self, data):
        self.texts.append(data)


def shown(html: str) -> Elements:
    parser = Elements()
    parser.feed(html)
    parser.close()
    ElementTree.fromstring(html)  # well-formed
    return parser


def test_a_row_for_each_finding_and_for_each_gesture_without_any():
    report = gesturesmith.suggest(NOT_AS_WRITTEN)
    html = report._repr_html_()
    findings = sum(max(1, len(said.findings)) for said in (*report.gestures, *report.passages))
    assert shown(html).elements.count("tr") == 1 + findings
    assert "outside-range" in html
    assert "not as written" in html
    (row,) = [line for line in gesturesmith.check(CALL)._repr_html_().split("\n") if "call" in line]
    assert row == "<tr><td>4</td><td>call</td><td>playable</td><td></td><td></td></tr>"


def test_a_row_for_each_error():
    html = gesturesmith.check(f"{HEAD}gesture call\n  conture: G4\n")._repr_html_()
    assert "<td>4</td><td>call</td><td>cannot be read</td>" in html
    assert "contour" in html


def test_what_would_work_stands_beside_what_does_not():
    assert "contour: G5; contour: D6; contour: C6" in gesturesmith.suggest(HIGH)._repr_html_()


@pytest.mark.parametrize("hostile", HOSTILE)
def test_a_users_text_is_text(hostile):
    written = hostile.replace('"', "'")
    text = f'{HEAD}gesture beyond "{written}"\n  contour: G6  # {hostile}\n  {hostile}: 1\n'
    for report in (gesturesmith.check(Source(hostile, text)), gesturesmith.check(hostile)):
        found = shown(report._repr_html_())
        assert {*found.elements} <= {"table", "tr", "th", "td"}
        assert found.attributes == []
    assert written in "".join(shown(table(("a",), [(written,)])).texts)
    assert written in "".join(
        shown(gesturesmith.check(f'{HEAD}gesture beyond "{written}"\n  contour: G6\n')._repr_html_()).texts
    )


def test_what_cannot_be_printed_is_spelled_out():
    assert "&lt;U+202E&gt;" in table(("a",), [("\u202eb",)])
    assert "\0" not in table(("a",), [("\0",)])


@pytest.mark.lilypond
def test_a_gesture_is_a_picture():
    text = CALL.replace("gesture call", "gesture call \"<&> 'Call'\"")
    (call,) = gesturesmith.engrave(text).snippets
    svg = call._repr_svg_()
    root = ElementTree.fromstring(svg)
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    assert root.find("{http://www.w3.org/2000/svg}title").text == "<&> 'Call'"
    assert not list(root.iter("{http://www.w3.org/2000/svg}script"))


@pytest.mark.lilypond
def test_the_picture_of_a_passage_shows_that_passage_alone():
    (twice,) = gesturesmith.engrave(CALL + "passage twice\n  play: call, call\n", only="twice").snippets
    assert 'id="twice-title"' in twice._repr_svg_()


def test_without_lilypond_a_gesture_is_a_line_of_text(monkeypatch, tmp_path):
    monkeypatch.setenv("GESTURESMITH_LILYPOND", str(tmp_path / "gone"))
    (call,) = gesturesmith.engrave(CALL).snippets
    assert call._repr_svg_() is None
    assert repr(call) == "<gesture call: playable>"
    with pytest.raises(gesturesmith.LilyPondNotFound, match="does not exist"):
        gesturesmith.render(CALL)


def test_a_refused_gesture_is_a_line_of_text():
    (beyond,) = gesturesmith.engrave(HIGH).snippets
    assert beyond._repr_svg_() is None
    assert repr(beyond) == "<gesture beyond: not as written>"


@pytest.mark.lilypond
def test_a_lilypond_that_fails_leaves_a_line_of_text(monkeypatch, tmp_path):
    program = tmp_path / "lilypond"
    program.write_text('#!/bin/sh\n[ "$1" = --version ] && echo "GNU LilyPond 2.24.4" && exit\nexit 1\n')
    program.chmod(0o755)
    monkeypatch.setenv("GESTURESMITH_LILYPOND", str(program))
    (call,) = gesturesmith.engrave(CALL).snippets
    assert call._repr_svg_() is None


def test_short_words_for_what_is_large():
    assert repr(gesturesmith.engrave(CALL)) == "<engraving of text: <gesture call: playable>>"
    assert repr(gesturesmith.engrave("")) == "<engraving of text: nothing>"
    made = gesturesmith.render(CALL, "ily")
    assert repr(made) == "<rendering of text: text/call.ily, text/gesturesmith.ily>"
