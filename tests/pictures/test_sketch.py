"""Sketches: they show what the rules say, and can be read."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest
from realise.realised import gesture
from tones.performed import checked

from gesturesmith import instruments, techniques, writers
from gesturesmith.checker import check_text
from gesturesmith.diagnostics import Severity
from gesturesmith.pictures.plot import HEIGHT, LEFT, TOP, WIDTH
from gesturesmith.pictures.reach import bands, ladder, leaves
from gesturesmith.pictures.sketch import sketch
from gesturesmith.pictures.svg import CARE, HEARD, INK, REFUSED
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.realise import realise
from gesturesmith.rules.base import Case
from gesturesmith.source import Source
from gesturesmith.writers.base import is_ours

GALLERY = Path(__file__).parents[2] / "docs" / "gallery"
SVG = "{http://www.w3.org/2000/svg}"
_BLOCK = re.compile(r"^gesture [a-z-]+-middle-short\b.*?(?=^gesture |\Z)", re.MULTILINE | re.DOTALL)
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
# Of an element that has a place: x and y, or the points of a path.
_PLACES = ("x", "y", "cx", "cy", "x1", "x2", "y1", "y2")


def case(contour: str, *more: str, instrument: str = "horn") -> Case:
    one = gesture(contour, *more, instrument=instrument)
    return Case(gesture=one, realisation=realise(one))


def parsed(text: str) -> ElementTree.Element:
    return ElementTree.fromstring(text)


def texts(root: ElementTree.Element) -> list[tuple[float, float, str]]:
    return [(float(t.get("x", 0)), float(t.get("y", 0)), t.text or "") for t in root.iter(f"{SVG}text")]


@pytest.fixture(scope="module", params=["horn", "trombone", "together"])
def pictures(request) -> dict[str, str]:
    """A sketch of every technique, played by instruments that have it and by those that have not."""
    text = (GALLERY / f"{request.param}.gesture").read_text("utf-8")
    if request.param == "horn":  # it has each technique several times
        text = "\n\n".join([text[: text.index("\ngesture ")], *_BLOCK.findall(text)])
    found = checked(text)
    said = {g.name: g for g in found.report.gestures}
    return {n: sketch(c, said[n].findings, said[n].verdict.words) for n, c in found.cases.items()}


def test_every_technique_has_a_picture_inside_its_frame(pictures):
    assert len(pictures) > 20
    for name, text in pictures.items():
        root = parsed(text)
        _, _, width, height = map(float, root.get("viewBox", "").split())
        assert root.find(f"{SVG}title") is not None
        assert root.find(f"{SVG}path[@stroke-width]") is not None, name
        for element in root.iter():
            for key, value in element.attrib.items():
                assert "nan" not in value, name
                if key in _PLACES:
                    assert -1 <= float(value) <= (width if "x" in key else height), (name, key, value)
                if key == "d":
                    for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", value):
                        assert -1 <= float(x) <= width, name
                        assert -1 <= float(y) <= height, name


def test_no_label_stands_where_a_line_can_go(pictures):
    for name, text in pictures.items():
        for x, y, said in texts(parsed(text)):
            assert not (LEFT < x < LEFT + WIDTH and TOP < y < TOP + HEIGHT), (name, said)


_WIDE = 0.56  # of its size, a letter of a plain sans serif on the average


def text_box(element: ElementTree.Element) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a text, as far as they can be known without its font."""
    size = float(element.get("font-size", 12))
    x, y = float(element.get("x", 0)), float(element.get("y", 0))
    wide = _WIDE * size * len(element.text or "")
    if "rotate(-90" in element.get("transform", ""):
        return x - size / 2, y - wide / 2, x + size / 2, y + wide / 2
    left = x - {"end": wide, "middle": wide / 2}.get(element.get("text-anchor", ""), 0.0)
    return left, y - 0.75 * size, left + wide, y + 0.1 * size


def ink(root: ElementTree.Element) -> Iterator[tuple[float, float]]:
    """Places on the gesture as written and as it sounds, close together, and around its heads."""
    for element in root.iter(f"{SVG}path"):
        if element.get("stroke") in (INK, HEARD, REFUSED, CARE):
            numbers = [float(n) for n in _NUMBER.findall(element.get("d", ""))]
            row = list(zip(numbers[::2], numbers[1::2], strict=True))
            for (x1, y1), (x2, y2) in pairwise(row):
                steps = max(1, int(max(abs(x2 - x1), abs(y2 - y1)) / 2))
                yield from ((x1 + (x2 - x1) * k / steps, y1 + (y2 - y1) * k / steps) for k in range(steps + 1))
    for element in root.iter(f"{SVG}circle"):
        if element.get("fill") == INK:
            x, y, r = (float(element.get(name, 0)) for name in ("cx", "cy", "r"))
            yield from ((x + dx * r, y + dy * r) for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1)))


def faults(text: str) -> list[str]:
    """Labels that the gesture or its sound crosses, and labels that lie on each other."""
    root = parsed(text)
    boxes = [(text_box(t), t.text or "") for t in root.iter(f"{SVG}text") if (t.text or "").strip()]
    places = list(ink(root))
    found = [
        f"{said!r} is crossed" for (a, b, c, d), said in boxes if any(a < x < c and b < y < d for x, y in places)
    ]
    for (one, said), (other, also) in combinations(boxes, 2):
        if min(one[2], other[2]) - max(one[0], other[0]) > 1 and min(one[3], other[3]) - max(one[1], other[1]) > 1:
            found.append(f"{said!r} lies on {also!r}")
    return found


def test_nothing_crosses_a_label_and_no_label_lies_on_another(pictures):
    assert {name: wrong for name, text in pictures.items() if (wrong := faults(text))} == {}


@pytest.mark.parametrize("name", instruments.names())
def test_where_ranges_end_stands_apart_from_the_numbers_of_harmonics(name):
    """Over the whole range of every instrument, where ends of ranges and many harmonics are close together."""
    head = f"instrument: {name}\npitches: sounding\n"
    blocks = [
        f"gesture g{n}\n  technique: {technique}\n  contour: {contour}\n"
        for n, (technique, contour) in enumerate(
            [
                ("harmonic-gliss", "C4 ~~ G5"),
                ("harmonic-gliss", "C5 ~~ C7"),
                ("harmonic-gliss", "F5 ~~ G6"),
                ("multiphonic", "G2\n  sing: C4 -- F4"),
            ]
        )
    ]
    found = checked(head + "\n".join(blocks))
    pictures = {n: sketch(c) for n, c in found.cases.items()}
    assert pictures
    assert {n: wrong for n, text in pictures.items() if (wrong := faults(text))} == {}
    numbered = parsed(pictures["g1"])
    assert any(
        (t.text or "").isdigit() and float(t.get("x", 0)) > LEFT + WIDTH for t in numbered.iter(f"{SVG}text")
    )


@pytest.mark.parametrize("verdict", ["", "playable", "not as written"])
def test_a_long_title_leaves_room_for_the_verdict(verdict):
    """In the widest letters too."""
    one = replace(case("C4, E4"), gesture=replace(case("C4, E4").gesture, title="WM" * 60))
    text = sketch(one, (), verdict)
    assert [fault for fault in faults(text) if verdict] == []
    assert "WMW" in text


def test_a_crossed_label_is_found(pictures):
    text = next(iter(pictures.values()))
    here = f'<text x="{LEFT + 40}" y="{TOP + 60}" font-size="11">label</text>'
    line = f'<path d="M{LEFT} {TOP + 57}L{LEFT + 200} {TOP + 57}" stroke="{INK}"/>'
    assert faults(text.replace("</svg>", f"{here}{line}</svg>")) == [*faults(text), "'label' is crossed"]
    assert "'label' lies on 'label'" in faults(text.replace("</svg>", f"{here}{here}</svg>"))


@pytest.mark.parametrize("name", techniques.names())
def test_a_picture_names_what_is_played(pictures, name):
    found = [text for key, text in pictures.items() if key == name or key.startswith(f"{name}-middle")]
    for text in found if name != "ordinary" else ():
        under = [said for _, y, said in texts(parsed(text)) if y == 40]
        assert techniques.get(name).title["en"] in "".join(under) or "harmonics" in "".join(under), name


def test_text_fits_its_picture(pictures):
    """A letter of 11 units is less than 6.2 wide on the average."""
    for name, text in pictures.items():
        root = parsed(text)
        width = float(root.get("width", 0))
        for element in root.iter(f"{SVG}text"):
            if element.get("text-anchor") is None and element.get("font-size") == "11":
                assert float(element.get("x", 0)) + 6.2 * len(element.text or "") < width, (name, element.text)


WIDTHS = range(100, 900, 100)


@pytest.mark.parametrize("home", ["C4", "G4", "C5", "G5"])
@pytest.mark.parametrize(
    ("technique", "rule", "instrument"),
    [
        ("bend", "bend-too-wide", "horn"),
        ("hand-gliss", "hand-gliss-too-wide", "horn"),
        ("slide-gliss", "slide-gliss-breaks", "trombone"),
    ],
)
def test_a_picture_says_what_the_rule_says(home, technique, rule, instrument):
    """Of lines of all widths: the line leaves the band just where the rule objects, and the widest reading where it
    refuses."""
    blocks = [f"gesture g{w}\n  contour: {home} -- {home}-{w}c\n  technique: {technique}\n" for w in WIDTHS]
    head = f"instrument: {instrument}\npitches: written\ntempo: 60\n"
    found = check_text(Source("a.gesture", head + "\n".join(blocks)), suggestions=False)
    assert not found.reading.errors
    seen = set()
    for said in found.report.gestures:
        here = found.cases[said.name]
        rules = [f.severity for f in said.findings if f.rule == rule]
        (band,) = bands(here)
        drawn = [Severity.REFUSED if far else Severity.CAUTION for _, far in leaves(here, band)]
        assert drawn == rules, said.name
        seen |= set(rules)
    assert Severity.REFUSED in seen


def test_a_sweep_shows_the_harmonics_that_it_passes():
    one = case("C4 ~~ C5", "technique: harmonic-gliss")
    found = ladder(one)
    assert found is not None
    assert found.used == set(one.realisation.partials)
    bold = [
        t.text
        for t in parsed(sketch(one)).iter(f"{SVG}text")
        if t.get("font-weight") == "bold" and (t.text or "").isdigit()
    ]
    assert set(bold) >= {str(n) for n in found.used}
    assert str(len(found.used)) in bold  # under its tube


def test_findings_are_numbered_and_told():
    found = check_text(
        Source(
            "a", "instrument: horn\npitches: written\ngesture a\n  technique: bend\n  contour: C6 -- F5 -- C6\n"
        ),
        suggestions=False,
    )
    (said,) = found.report.gestures
    told = " ".join(
        text for _, _, text in texts(parsed(sketch(found.cases["a"], said.findings, said.verdict.words)))
    )
    assert "not as written" in told
    for number, finding in enumerate(said.findings, start=1):
        assert f"{number} {finding.severity.heading}:" in re.sub(r"\s+", " ", told)
        for word in finding.text.split():
            assert word in told


def test_what_a_user_writes_stays_text():
    head = 'instrument: horn\npitches: written\ngesture a "<script>alert(1)</script> & \\"q\\""\n'
    found = check_text(Source("a", f"{head}  contour: C4, E4\n"), suggestions=False)
    root = parsed(sketch(found.cases["a"]))
    assert {element.tag.removeprefix(SVG) for element in root.iter()} <= {
        "svg", "title", "desc", "rect", "path", "text", "circle",
    }  # fmt: skip
    assert "<script>" in texts(root)[0][2]


def test_the_format_has_refused_gestures_too_and_bears_our_mark():
    text = (
        "instrument: horn\npitches: written\ngesture good\n  contour: C4, E4\n"
        "gesture bad\n  technique: harmonic-gliss\n  contour: C4 ~~ E4\n"
    )
    writer = writers.get("sketch")
    for only, names in ((None, ["bad", "good"]), ("bad", ["bad"])):
        items = compile_text(Source("a", text), Options(formats=("sketch",), only=only)).items
        made = sorted(writer.outputs(items, {}), key=lambda output: output.place)
        assert [output.place.name for output in made] == [f"{name}.sketch.svg" for name in names]
        for output in made:
            assert is_ours(output.data)
            parsed(output.data.decode())
