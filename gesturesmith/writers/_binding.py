"""Several PDFs as one, to be printed on both sides of the paper: each begins on a right-hand page."""

from __future__ import annotations

import io
from collections.abc import Sequence

from pypdf import PdfReader, PdfWriter
from pypdf.errors import PyPdfError

from gesturesmith.writers.base import Binding, with_checksum


def bound(binding: Binding, pdfs: Sequence[bytes]) -> bytes:
    """One PDF with an even number of pages; after an odd number of pages there is a blank one of the same size.

    The same PDFs give the same bytes. ValueError if one of them cannot be read.
    """
    writer = PdfWriter()
    try:
        for data in pdfs:
            for page in PdfReader(io.BytesIO(data)).pages:
                writer.add_page(page)
            if len(writer.pages) % 2:
                writer.add_blank_page()
        # Fonts and other things that are the same in several of them.
        writer.compress_identical_objects()
        found = {"/Title": binding.title, "/Author": binding.author}
        writer.add_metadata({key: text for key, text in found.items() if text})
        made = io.BytesIO()
        writer.write(made)
    except (PyPdfError, ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise ValueError(f"the pages cannot be bound together ({type(error).__name__})") from error
    # A comment may follow the end of a PDF (see `pdf`).
    return with_checksum(made.getvalue().rstrip(b"\n") + b"\n% ", b"\n")
