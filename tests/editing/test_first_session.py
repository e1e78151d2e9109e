"""The first gestures of a new piece, written by somebody who has read nothing and takes what is offered."""

from __future__ import annotations

from gesturesmith.checker import check_text
from gesturesmith.diagnostics import Verdict
from gesturesmith.editing.complete import complete
from gesturesmith.editing.text import TextChange, applied
from gesturesmith.source import Source, Span

# What is typed, and which offer is taken; "" for typing alone.
SESSION = (
    ("French horn", "instrument: horn"), ("\n", ""),
    ("transposing", "pitches"), ("as written", "written"), ("\n", ""), ("\n", ""),
    ("gliss", "gesture … technique: harmonic-gliss"), ("c4", "contour: C4"), (" ", ""),
    ("gliss", "-- (harmonic-gliss)"), ("c5", "C5"), ("\n  ", ""), ("whole note", "lasts: 4 beats"), ("\n\n", ""),
    ("motif", "gesture"), ("mute-in\n  ", ""), ("con sordino", "mute: straight"), ("\n  ", ""),
    ("melody", "contour"), ("g4", "G4"), (", ", ""), ("fis4", "F#4"), ("\n\n", ""),
    ("ges", "gesture"), ("roll\n  ", ""), ("Flatterzunge", "technique: flutter-tongue"), ("\n  ", ""),
    ("notes", "contour"), ("do5", "C5"), ("\n  ", ""), ("loud", "dynamics: f"), ("\n\n", ""),
    ("ges", "gesture"), ("shakes\n  ", ""), ("notes", "contour"), ("c5", "C5"), (" ", ""),
    ("tr", "as lip-trill"), ("\n  ", ""), ("duration", "lasts"), ("half note", "2 beats"), ("\n\n", ""),
    ("ges", "gesture"), ("up-to\n  ", ""), ("notes", "contour"), ("g4", "G4"), (" ", ""),
    ("smear", "as smear"), ("\n\n", ""),
    ("ges", "gesture"), ("wows\n  ", ""), ("wah", "technique: wah-wah"), ("\n  ", ""),
    ("mute", "mute"), ("wah", "plunger"), ("\n  ", ""), ("notes", "contour"), ("g4", "G4"), ("\n  ", ""),
    ("quarter note", "lasts: 1 beat"), ("\n\n", ""),
    ("phrase", "passage"), ("all\n  ", ""), ("sequence", "play"), ("ro", "roll"), (", ", ""),
    ("pause", "rest"), ("4, ", ""), ("c5", "C5"), (" ", ""), ("half note", "for 2"), ("\n", ""),
)  # fmt: skip


def test_a_first_session_needs_no_manual():
    text = ""
    for typed, wanted in SESSION:
        source = Source("first.gesture", text + typed)
        line = source.text.count("\n") + 1
        column = len(source.text.rpartition("\n")[2]) + 1
        if not wanted:
            text = source.text
            continue
        found = complete(source, line, column)
        taken = next((offer for offer in found.offers if offer.word == wanted), None)
        assert taken is not None, (typed, [offer.word for offer in found.offers])
        text = applied(source.lines, (TextChange(Span(line, found.start, column), taken.insert),))
    report = check_text(Source("first.gesture", text)).report
    assert not report.errors, text
    assert len(report.gestures) == 6
    assert all(said.verdict is not Verdict.NOT_AS_WRITTEN for said in (*report.gestures, *report.passages)), text
