"""LilyPond's output may be crafted to keep the patterns of the writers busy: none takes long."""

from __future__ import annotations

from pathlib import PurePosixPath

import pytest
from sampling import sample
from timing import within

from gesturesmith import writers
from gesturesmith.lilypond.log import failure, read_log
from gesturesmith.writers import Item

BYTES = 2_000_000
ITEM = Item(
    output="a",
    kind="snippet",
    place=PurePosixPath("study", "a"),
    name="a",
    title="Fog",
    author="Me",
    book="",
    document="",
)


def pdf(inside, trailer=b"<< /Info 1 0 R >>", table=b""):
    """A PDF whose end gives the place of its table of offsets."""
    start = b"%PDF-1.4\n" + inside
    at = max(0, start.find(b"1 0 obj"))
    table = table or b"xref\n0 2\n0000000000 65535 f \n%010d 00000 n \n" % at
    return start + table + b"trailer\n" + trailer + b"\nstartxref\n%d\n%%%%EOF" % len(start)


def entry(inside):
    return b"1 0 obj\n<< " + inside + b" >>\nendobj\n"


def long(part):
    return part * (BYTES // len(part))


BUSY = {
    # Words that open something, each without its end.
    "packets": pdf(long(b"stream\n<?xpacket begin=")),
    "packets behind one": pdf(b"stream\n<?xpacket begin= <?xpacket end=" + long(b"stream\n<?xpacket begin=")),
    "dates of packets": pdf(b"stream\n<?xpacket begin=" + long(b"<xmp:CreateDate>") + b"<?xpacket end="),
    "dates": pdf(long(b"/ModDate(D:20240102030405")),
    "dates after blanks": pdf(long(b"/ModDate" + b" " * 1000)),
    "trailers": pdf(b"", long(b"trailer<<")),
    "trailers that nearly end": pdf(b"", long(b"trailer<<>>\n")),
    "blanks in a trailer": pdf(b"", b"<<" + long(b">>" + b" " * 1000)),
    "ids": pdf(b"", b"<<" + long(b"/ID ") + b">>"),
    "an id without end": pdf(b"", b"<< /ID [(" + long(b"a")),
    "an id of escapes": pdf(b"", b"<< /ID [(a)(" + long(b"\\)")),
    "names of entries": pdf(b"", b"<< " + long(b"/Info 1 ") + b">>"),
    "digits of an entry": pdf(b"", b"<< /Info " + long(b"1") + b" 0 R >>"),
    "brackets": pdf(b"1 0 obj\n<< " + long(b"(")),
    "brackets with escapes": pdf(b"1 0 obj\n<< " + long(b"(\\(")),
    "brackets in brackets": pdf(entry(long(b"(a(b)c)"))),
    "ends of an entry": pdf(b"1 0 obj\n<< " + long(b">>") + b"endob"),
    "dates in an entry": pdf(entry(long(b"(/ModDate(D:20240102030405)"))),
    "sections": pdf(b"", table=b"xref\n" + long(b"9 0\n")),
    "a large section": pdf(b"", table=b"xref\n" + long(b"9")),
    "a place beyond all": b"%PDF-1.4\ntrailer\nstartxref\n" + b"9" * 900 + b"\n%%EOF",
    "openings": b"<" + long(b"<svg ") + b"</svg>",
    "ids of a picture": b"<svg>" + long(b' id="a"') + b"</svg>",
    "other ids": b"<svg>" + b"".join(b' id="%d"' % n for n in range(BYTES // 12)) + b"</svg>",
    "references": b"<svg>" + long(b"url(#") + b"</svg>",
    "links": b"<svg>" + long(b'href="#') + b"</svg>",
    "texts": b"<svg>" + long(b"<tspan>") + b"</svg>",
}


@pytest.mark.parametrize("name", sample(tuple(BUSY), 6))
def test_a_file_keeps_no_writer_busy(name):
    data = BUSY[name]
    writer = writers.get("pdf" if data.startswith(b"%PDF-") else "svg")

    def finish():
        try:
            return writer.finish(ITEM, data)
        except ValueError:  # reported as an incomplete file
            return b""

    made = within(4, finish)
    assert len(made) < 20 * BYTES


@pytest.mark.parametrize(
    "part", sample([":1", ":1:1: ", "a:1:1: error", "In procedure", "1:1: ERROR: ", " ", "\n", "%"], 4)
)
def test_a_log_keeps_nobody_busy(part):
    log = part * (BYTES // len(part))
    assert len(within(4, lambda: read_log(log))) <= 1000
    within(4, lambda: failure("\n% gesture a\n" * 1000, read_log(log), "failed"))
