"""What is really printed, read back from a PDF of LilyPond's PostScript backend: the names of the music glyphs
drawn, and the text of the footnotes."""

from __future__ import annotations

import re
import unicodedata
from pathlib import Path

import pytest
import timing
from pypdf import PdfReader
from pypdf.generic import ContentStream

from gesturesmith import paths
from gesturesmith.lilypond import find
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

pytestmark = pytest.mark.lilypond

TEXT = """instrument: horn
pitches: written
gesture about
  contour: xG4, xB4, xD5 __ xC5
  lasts: 4 beats
  footnote: "Nearly so; the pitches are only a guide for the ear, and nobody is held to any one of them."
gesture exact
  contour: G4, B4, D5 __ C5
  lasts: 4 beats
gesture quarters
  technique: quarter-tones
  contour: F#^4, Bv4
  lasts: 2 beats
gesture fluttered
  technique: flutter-tongue
  contour: A4
  lasts: 4 beats
  note: "Not for long."
"""


def _glyphs(page, reader) -> list[str]:
    """The names of the glyphs on a page, in order, by the encodings of its fonts."""
    names: dict[str, dict[int, str]] = {}
    for key, font in (page["/Resources"].get("/Font") or {}).items():
        differences = font.get_object().get("/Encoding", {})
        table: dict[int, str] = {}
        if hasattr(differences, "get_object") and isinstance(differences.get_object(), dict):
            code = 0
            for item in differences.get_object().get("/Differences", []):
                if isinstance(item, int):
                    code = item
                else:
                    table[code] = str(item)[1:]
                    code += 1
        names[key] = table
    drawn: list[str] = []
    current: dict[int, str] = {}
    for operands, operator in ContentStream(page.get_contents(), reader).operations:
        if operator == b"Tf":
            current = names.get(operands[0], {})
        elif operator in (b"Tj", b"TJ"):
            for part in operands[0] if operator == b"TJ" else operands:
                raw = getattr(part, "original_bytes", b"")
                drawn += [current[byte] for byte in raw if byte in current]
    return drawn


@pytest.fixture(scope="module")
def printed(tmp_path_factory):
    """Glyph names and text of each gesture's own picture, by name."""
    folder: Path = tmp_path_factory.mktemp("pdf")
    outcome = compile_text(Source("test.gesture", TEXT), Options(formats=("pdf",)))
    assert outcome.report.readable, outcome.report.errors
    found = {}
    for item in outcome.items:
        if item.kind != "snippet":
            continue
        # Whole pages of the PostScript backend: cropped ones have no glyph names.
        text = str(item.document).replace("\\gsCropped\n", "")
        (folder / f"{item.name}.ly").write_text(text, "utf-8")
        command = [str(find(None).path), "-s", "-I", str(paths.templates()), f"{item.name}.ly"]
        assert timing.run(command, cwd=folder).returncode == 0
        made = folder / f"{item.output}.pdf"
        reader = PdfReader(made)
        page = reader.pages[0]
        words = unicodedata.normalize("NFKC", page.extract_text())
        found[item.name] = (_glyphs(page, reader), re.sub(r"\s+", " ", words))
    return found


def heads(glyphs: list[str]) -> list[str]:
    return [g for g in glyphs if g.startswith("noteheads.")]


def test_x_heads_where_the_pitch_is_approximate_and_nowhere_else(printed):
    assert heads(printed["about"][0]) == ["noteheads.s2cross"] * 4
    assert heads(printed["exact"][0]) == ["noteheads.s2"] * 4


def test_quarter_tones_in_the_stein_zimmermann_forms(printed):
    """LilyPond's glyphs for SMuFL E283 (three quarters sharp) and E280 (quarter flat)."""
    signs = [g for g in printed["quarters"][0] if g.startswith("accidentals.")]
    assert sorted(s for s in signs if s != "accidentals.flat") == [
        "accidentals.mirroredflat",
        "accidentals.sharp.slashslash.stemstemstem",
    ]


def test_numbers_in_their_circles_are_text(printed):
    """At the note and before the text, for screen readers and searching."""
    for name, text in (("about", "Nearly so"), ("fluttered", "Roll the tongue")):
        assert re.search(rf"\b1 ?{text}", printed[name][1])
        assert len(re.findall(r"\b1\b", printed[name][1].replace("1Nearly", "1 ").replace("1Roll", "1 "))) == 2


def test_footnotes_are_complete(printed):
    assert (
        "Nearly so; the pitches are only a guide for the ear, and nobody is held to any one of them."
        in (printed["about"][1])
    )
    assert "Roll the tongue" in printed["fluttered"][1]
    assert "Not for long." in printed["fluttered"][1]
