"""Each format: the content of its files, which must not depend on the run."""

from __future__ import annotations

import io
import re
import struct
import xml.etree.ElementTree as ElementTree
import zlib
from dataclasses import replace

import pypdf
import pypdf.annotations
import pytest
from sampling import whole
from writers.conftest import HEAD, SWITCH

from gesturesmith import writers
from gesturesmith.lilypond import Job, start
from gesturesmith.lytext import quoted
from gesturesmith.writers._pdf_info import titled
from gesturesmith.writers.base import MARK, bears_mark, is_ours

pytestmark = pytest.mark.lilypond
SVG = "{http://www.w3.org/2000/svg}"


def finish(key, item, run):
    return writers.get(key).finish(item, run.file(item.output, key))


@pytest.mark.parametrize("key", ["pdf", "svg", "png"])
def test_the_same_music_gives_the_same_bytes_whatever_else_is_in_the_run(key, items, runs):
    together, alone = (finish(key, items[-1], run) for run in runs)
    assert together == alone


@pytest.mark.parametrize("key", ["pdf", "svg", "png"])
def test_every_file_is_known_as_ours_to_the_last_byte(key, items, runs):
    data = finish(key, items[-1], runs[0])
    assert is_ours(data)
    for at in range(0, len(data), len(data) // 60):
        assert not is_ours(data[:at] + bytes([data[at] ^ 1]) + data[at + 1 :]), at
    assert not is_ours(data + b"\n")


@pytest.mark.parametrize("key", ["svg", "png"])
def test_a_title_full_of_sums_like_ours_does_not_hide_it(key, items, runs):
    title = f"{MARK} [0123456789ab]" * 55  # 2,000 characters, the longest text there is
    assert is_ours(finish(key, replace(items[-1], title=title), runs[0]))


def test_a_pdf_with_a_note_added_is_no_longer_ours(items, runs):
    """As added by a PDF reader: after the end of the file (PDF Reference 1.7, 3.4.5)."""
    writer = pypdf.PdfWriter(io.BytesIO(finish("pdf", items[0], runs[0])), incremental=True)
    writer.add_annotation(0, pypdf.annotations.Text(rect=(50, 50, 200, 100), text="breathe here"))
    noted = io.BytesIO()
    writer.write(noted)
    assert bears_mark(noted.getvalue())
    assert not is_ours(noted.getvalue())


def test_raw_pictures_do_depend_on_the_run(items, runs):
    """Otherwise the test above would prove nothing."""
    assert runs[0].file("s2", "svg") != runs[1].file("s2", "svg")


def test_svg_has_title_and_description(items, runs):
    root = ElementTree.fromstring(finish("svg", items[-1], runs[0]))
    title, description = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title.text == "A <swell> & more"
    assert description.text == "C5  bent down; \"about\" a 'tone'"
    assert root.get("role") == "img"
    assert root.get("aria-labelledby").split() == [title.get("id"), description.get("id")]
    assert next(iter(root)) is title


def test_svg_without_a_title_bears_the_name(items, runs):
    root = ElementTree.fromstring(finish("svg", items[1], runs[0]))
    assert root.find(f"{SVG}title").text == "beacon"
    assert root.find(f"{SVG}desc") is None


def test_svg_ids_belong_to_the_picture_and_every_reference_has_one(items, runs):
    svg = finish("svg", items[-1], runs[0]).decode()
    ids = re.findall(r'\bid="([^"]+)"', svg)
    assert len(ids) == len(set(ids)) > 3
    assert all(i.startswith("swell-") for i in ids)
    assert [i for i in ids if i[6:].isdigit()] == [f"swell-{n}" for n in range(1, len(ids) - 1)]
    references = re.findall(r'href="#([^"]+)"|url\(#([^)]+)\)', svg)
    assert references
    assert {a or b for a, b in references} <= set(ids)


def test_svg_keeps_a_text_that_looks_like_svg(lilypond, items):
    """From LilyPond's own backend, where text stays text."""
    words = ']]> a > b </svg> id="foo" href="#foo" url(#foo) & "more"'
    book = f'\\book {{ \\bookOutputName "s2" \\markup {quoted(words)} }}\n'
    with start(lilypond, ("svg",), backend="svg") as waiting:
        waiting.feed(Job(document=HEAD + SWITCH + book))
        run = waiting.result()
    root = ElementTree.fromstring(finish("svg", items[-1], run))
    assert words in [span.text for span in root.iter(f"{SVG}tspan")]


@pytest.mark.parametrize("key", ["pdf", "svg", "png"])
def test_half_a_file_is_none(key, items, runs):
    """Whatever LilyPond's exit status: the disk may have been full."""
    data = runs[0].file(items[-1].output, key)
    parts = [data[: len(data) // 2], data[:-9], data[9:], b"\xff" * 200, b""]
    parts += [data[:1000] + data[1004:]] if key == "pdf" else []
    for part in parts:
        with pytest.raises(ValueError, match=r"is incomplete|decode"):
            writers.get(key).finish(items[-1], part)


def test_png_is_whole_and_says_what_it_is(items, runs):
    data = finish("png", items[-1], runs[0])
    chunks, at = [], 8
    while at < len(data):
        (length,) = struct.unpack(">I", data[at : at + 4])
        kind, body = data[at + 4 : at + 8], data[at + 8 : at + 8 + length]
        assert struct.unpack(">I", data[at + 8 + length : at + 12 + length])[0] == zlib.crc32(kind + body)
        chunks.append((kind, body))
        at += 12 + length
    assert chunks[0][0] == b"IHDR"
    assert chunks[-1][0] == b"IEND"
    texts = dict(body.split(b"\0\0\0\0\0") for kind, body in chunks if kind == b"iTXt")
    assert texts[b"Title"].decode() == "A <swell> & more"
    assert re.fullmatch(rf"{MARK} \[[0-9a-f]{{12}}\]", texts[b"Software"].decode())


def test_pdf_dates_are_fixed_and_it_can_be_read(items, runs):
    reader = pypdf.PdfReader(io.BytesIO(finish("pdf", items[0], runs[0])), strict=True)
    assert reader.metadata.creation_date.year == 2000
    assert "Fog" in reader.pages[0].extract_text()


def test_every_pdf_has_title_and_author(items, runs, postscript):
    """LilyPond writes them only for whole pages; the page here gets a title from it and no author."""
    titles = {"study": "Fog", "beacon": "beacon", "swell": "A <swell> & more"}
    pdfs = [(item, runs[0].file(item.output, "pdf")) for item in items] + [(items[0], postscript[0])]
    for item, data in pdfs:
        named = replace(item, author="Zoë 𝄞")
        reader = pypdf.PdfReader(io.BytesIO(writers.get("pdf").finish(named, data)), strict=True)
        assert reader.metadata.title == titles[item.name]
        assert reader.metadata.author == "Zoë 𝄞"
        assert reader.metadata.creation_date.year == 2000
        assert len(reader.pages) == 1


def small_pdf(inside):
    """A PDF with only a metadata entry."""
    start = b"%PDF-1.4\n"
    entry = b"1 0 obj\n<< " + inside + b" >>\nendobj\n"
    table = b"xref\n0 2\n0000000000 65535 f \n%010d 00000 n \n" % len(start)
    return start + entry + table + b"trailer\n<< /Info 1 0 R >>\nstartxref\n%d\n%%%%EOF\n" % len(start + entry)


def test_a_title_that_is_there_stays():
    data = small_pdf(b"/Title (Mine)")
    assert titled(data, "Other", "") == data
    assert titled(data, "Other", "Me").count(b"/Title") == 2
    assert b"/Title" in titled(small_pdf(b"/Author (/Title)"), "Other", "")
    assert titled(b"no trailer", "Other", "") == b"no trailer"


# Keywords of a PDF's structure.
PDF_WORDS = (
    "trailer << ",
    "trailer << /Info 1 0 R /ID [<00><11>] >> startxref 9 %%EOF",
    "ID>uuid:abcdef12 and ID='uuid:ab'",
    "<xmp:CreateDate>2024</xmp:CreateDate>",
    "/CreationDate (D:20240102030405)",
    ">> endobj /Title /Author",
    "1 0 obj << /Author (x) >> endobj",
    "stream <?xpacket begin= <xmp:CreateDate>1</xmp: <?xpacket end=",
    "(unbalanced \\( (",
)


@whole
@pytest.mark.parametrize("backend", ["", "ps"])
def test_a_title_may_hold_any_words_of_a_pdf(lilypond, items, backend):
    """It neither becomes part of the structure nor is changed."""
    book = '\\book {{ \\bookOutputName "p{}" \\header {{ pdftitle = {} }} {{ c\'1 }} }}\n'
    books = [book.format(number, quoted(words)) for number, words in enumerate(PDF_WORDS)]
    with start(lilypond, ("pdf",), backend=backend) as waiting:
        waiting.feed(Job(document=HEAD + "".join(books)))
        run = waiting.result()
    for number, words in enumerate(PDF_WORDS):
        for data in (run.file(f"p{number}", "pdf"), small_pdf(b"/CreationDate (D:20240102030405)")):
            made = writers.get("pdf").finish(replace(items[0], title=words, author=words), data)
            reader = pypdf.PdfReader(io.BytesIO(made), strict=True)
            assert (reader.metadata.title, reader.metadata.author) == (words, words)
            assert reader.metadata.creation_date_raw.startswith("D:20000101000000")


def test_pdf_through_postscript_is_fixed_too(items, postscript):
    first, second = (writers.get("pdf").finish(items[0], data) for data in postscript)
    assert first == second
    reader = pypdf.PdfReader(io.BytesIO(first), strict=True)
    assert len(reader.pages) == 1
    assert reader.metadata.creation_date.year == 2000


@pytest.mark.parametrize(
    "string",
    [
        b"<BFB7444C0D4F984BA2CE805D17F10319>",
        b"(\\264e\\210\\2073YUAF8Hn\\036\\fRM)",
        b"(a\\)b\\\\)",
        b"(hC|{[x]\n\xd5)",
    ],
    ids=["hexadecimal", "escapes", "brackets", "any bytes"],
)
def test_an_id_is_fixed_however_it_is_written(items, postscript, string):
    """Ghostscript writes an id in the shorter of two ways (both occur, the second about once in 180 runs)."""
    data = postscript[0]
    at = data.rindex(b"/ID ")
    other = data[:at] + b"/ID [" + string + string + b"]\n>>" + data[data.index(b"\nstartxref", at) :]
    finished = writers.get("pdf").finish(items[0], other)
    assert finished == writers.get("pdf").finish(items[0], data)
    assert len(pypdf.PdfReader(io.BytesIO(finished), strict=True).pages) == 1


def test_what_is_made_for_what(items, runs):
    """Pages as PDF and LilyPond text, pictures of each gesture."""
    engraved = {k: {i.output: runs[0].file(i.output, k) for i in items} for k in ("pdf", "svg", "png")}
    places = {
        key: [str(o.place) for o in writers.get(key).outputs(items, engraved.get(key, {}))]
        for key in writers.names()
        if "snippet" in writers.get(key).kinds and not writers.get(key).scored
    }
    both = ["beacon", "swell"]
    assert places == {
        "ily": [*(f"study/{n}.ily" for n in both), "study/gesturesmith.ily"],
        "ly": ["study.ly", *(f"study/{n}.ly" for n in both)],
        "pdf": ["study.pdf", *(f"study/{n}.pdf" for n in both)],
        "png": [f"study/{n}.png" for n in both],
        "svg": [f"study/{n}.svg" for n in both],
    }
