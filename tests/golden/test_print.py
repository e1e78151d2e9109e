"""Printing and photocopying: black and one grey, embedded fonts, and limits of a band that survive when every dot
is either black or white."""

from __future__ import annotations

import io
import re
import struct
import zlib
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path

import pytest
from golden.programs import PROGRAMS
from pypdf import PdfReader
from pypdf.generic import ContentStream
from sampling import sample, whole

from gesturesmith import sheets
from gesturesmith.lilypond import Job, LilyPond, RunResult, find, start
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

pytestmark = [pytest.mark.lilypond, whole]

GREY = 0.87  # the field of a band, which only guides the eye: its limits are lines
TEXT = """instrument: horn
pitches: written
title: "Printed"
gesture banded "With a band"
  technique: half-valve
  band: G4..F5
  contour: xG4 ~~ xD5@2 ~~ xB4@3 ~~ xF5@4
  dynamics: p < f@3 > p
  footnote: "Follow the shape."
gesture plain "Without one"
  technique: quarter-tones
  contour: F#^4 __ G4 __ Bv4
  dynamics: n < mf
passage both
  meter: 3/4
  play: banded, rest 1, plain
"""
BACKENDS = [(p, b) for p in sample(PROGRAMS, 2) for b in ("cairo", "ps") if b == "ps" or find(p).cairo]


@pytest.fixture(scope="module")
def items():
    return {i.name: i for i in compile_text(Source("printed.gesture", TEXT), Options(stem="printed")).items}


def _run(items, program: Path, backend: str, formats: tuple[str, ...], before: str = "") -> RunResult:
    found = find(program)
    assert isinstance(found, LilyPond)
    text = sheets.document(tuple(i.book for i in items.values()))
    with start(found, formats, backend=backend) as waiting:
        waiting.feed(Job(document=before + text))
        run = waiting.result()
    assert (run.ended, run.messages) == ("", ())
    return run


@pytest.fixture(scope="module", params=BACKENDS, ids=[f"{PROGRAMS.index(p)}-{b}" for p, b in BACKENDS])
def pages(request, items):
    """The PDFs of the page and of each picture, by name."""
    run = _run(items, *request.param, ("pdf",))
    return {name: PdfReader(io.BytesIO(run.file(i.output, "pdf") or b"")) for name, i in items.items()}


_COLOURS = {b"g": 1, b"G": 1, b"rg": 3, b"RG": 3, b"k": 4, b"K": 4, b"sc": 0, b"SC": 0, b"scn": 0, b"SCN": 0}


def _colours(page, reader) -> set[tuple[float, ...]]:
    """All colours that a page sets, including its forms (PDF Reference 1.7, table 4.24)."""
    streams = [page.get_contents()]
    forms = [page]
    while forms:
        resources = (forms.pop().get("/Resources") or {}).get_object()
        for form in (resources.get("/XObject") or {}).values():
            if form.get_object().get("/Subtype") == "/Form":
                streams.append(form.get_object())
                forms.append(form.get_object())
    return {
        tuple(round(float(o), 3) for o in operands if not isinstance(o, str))
        for stream in streams
        for operands, operator in ContentStream(stream, reader).operations
        if operator in _COLOURS
    }


def test_pdfs_are_black_and_only_a_band_is_grey(pages):
    for name, reader in pages.items():
        colours = {c for page in reader.pages for c in _colours(page, reader)}
        grey = {c for c in colours if any(c) and not _is_black(c)}
        assert all(len(set(c[:3])) == 1 and c[0] == pytest.approx(GREY, abs=0.005) for c in grey), colours
        assert bool(grey) == (name != "plain"), (name, colours)


def _is_black(colour: tuple[float, ...]) -> bool:
    return colour == (0.0, 0.0, 0.0, 1.0) if len(colour) == 4 else not any(colour)


def test_fonts_are_embedded(pages):
    """Each font is embedded, or drawn by the document itself (type 3)."""
    for name, reader in pages.items():
        fonts = list(_fonts(reader))
        assert fonts or name != "printed"
        for font in fonts:
            if font["/Subtype"] == "/Type3":
                continue
            descriptor = font["/FontDescriptor"].get_object()
            assert any(f"/FontFile{n}" in descriptor for n in ("", "2", "3")), font["/BaseFont"]


def _fonts(reader):
    seen = [page["/Resources"] for page in reader.pages]
    while seen:
        resources = seen.pop().get_object()
        for font in (resources.get("/Font") or {}).values():
            font = font.get_object()
            yield from (d.get_object() for d in font.get("/DescendantFonts", [font]))
        for form in (resources.get("/XObject") or {}).values():
            if "/Resources" in form.get_object():
                seen.append(form.get_object()["/Resources"])


# --- pictures ------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Bitmap:
    """A photocopy: for each row, where it is black."""

    rows: tuple[tuple[bool, ...], ...]

    def lines(self, longest: int) -> int:
        """The number of horizontal lines at least `longest` dots long, of any thickness."""
        long = [any(black and len(list(run)) >= longest for black, run in groupby(row)) for row in self.rows]
        return sum(1 for is_long, _ in groupby(long) if is_long)


def photocopy(png: bytes) -> Bitmap:
    """A PNG (8 bits per channel, ISO/IEC 15948) in black and white: anything darker than the middle is black."""
    width, height, _, kind = struct.unpack(">IIBB", png[16:26])
    channels = {0: 1, 2: 3, 6: 4}[kind]
    data, at = b"", 8
    while at < len(png):
        (length,) = struct.unpack(">I", png[at : at + 4])
        if png[at + 4 : at + 8] == b"IDAT":
            data += png[at + 8 : at + 8 + length]
        at += 12 + length
    raw, stride = zlib.decompress(data), width * channels
    before, rows = bytearray(stride), []
    for n in range(height):
        start_at = n * (stride + 1)
        row = _unfiltered(raw[start_at], bytearray(raw[start_at + 1 : start_at + 1 + stride]), before, channels)
        rows.append(tuple(value < 128 for value in row[::channels]))
        before = row
    return Bitmap(tuple(rows))


def _unfiltered(kind: int, row: bytearray, before: bytearray, step: int) -> bytearray:
    """A row of a PNG without its filter (ISO/IEC 15948, 9.2)."""
    for i in range(len(row)):
        left, up = row[i - step] if i >= step else 0, before[i]
        corner = before[i - step] if i >= step else 0
        if kind == 4:
            guess = left + up - corner
            near = min((abs(guess - v), n, v) for n, v in enumerate((left, up, corner)))[2]
        else:
            near = (0, left, up, (left + up) // 2)[kind]
        row[i] = (row[i] + near) & 255
    return row


def test_the_limits_of_a_band_survive_a_photocopy(items):
    """Five lines of the staff, two limits, in one bit at 300 dots an inch; the field itself is white then."""
    program, backend = BACKENDS[-1] if BACKENDS[-1][1] == "cairo" else BACKENDS[0]
    both = {n: items[n] for n in ("banded", "plain")}
    dots = "#(ly:set-option 'resolution 300)\n"
    run = _run(both, program, backend, ("png",), dots)
    banded, plain = (photocopy(run.file(both[n].output, "png") or b"") for n in both)
    inch_and_a_half = 450
    assert banded.lines(inch_and_a_half) == 7
    assert plain.lines(inch_and_a_half) == 5
    assert sum(map(sum, banded.rows)) < 0.25 * len(banded.rows) * len(banded.rows[0])


def test_svgs_are_black_and_only_a_band_is_grey(items):
    cairo = [b for b in BACKENDS if b[1] == "cairo"] or BACKENDS[:1]
    run = _run(items, *cairo[0], ("svg",)) if cairo[0][1] == "cairo" else _run(items, cairo[0][0], "svg", ("svg",))
    for name, item in items.items():
        if item.kind == "snippet":
            svg = (run.file(item.output, "svg") or b"").decode()
            colours = set(re.findall(r"(?:fill|stroke)=\"([^\"]+)\"|(?:fill|stroke):([^;\"]+)", svg))
            named = {a or b for a, b in colours} - {"none", "currentColor"}
            grey = {c for c in named if "87" in c}
            assert named - grey <= {"rgb(0%, 0%, 0%)", "rgb(0%,0%,0%)", "#000000", "black"}, named
            assert bool(grey) == (name != "plain"), named
