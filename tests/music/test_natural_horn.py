"""The natural horn as classical writers use it: our own phrases in the idiom, and what is said of them.

None is refused. Cautions are for notes far below the partial that the hand closes, which are weak and uncertain on
any natural horn.
"""

from __future__ import annotations

import pytest
from rules.checking import checked

from gesturesmith.diagnostics import Verdict

# instrument, contour and further lines, why with care ("" for playable)
PHRASES = [
    ("natural-horn", "C5, D5, E5, C5, G4, C5", ""),  # call
    ("natural-horn", "C4, C4@1/2, C4@3/4, G4@1, E5@2; lasts: 3 beats", ""),  # hunting
    ("natural-horn-eb", "G4, E5@1, C5@2, D5@3, G4@3.5, C5@4; lasts: 5 beats", ""),  # horn fifths upper
    ("natural-horn-eb", "C4, G4@1, E4@2, G4@3, G3@3.5, C4@4; lasts: 5 beats", ""),  # horn fifths lower
    ("natural-horn-d", "C5 __ B4@1 __ C5@2 __ D5@2.5 __ E5@3; lasts: 4 beats", ""),  # leading tone B4 by hand
    ("natural-horn", "E5 __ F5@1 __ G5@2 __ F5@2.5 __ E5@3; lasts: 4 beats", ""),  # F5 partial 11 lowered
    ("natural-horn", "G5 __ A5@1 __ G5@2; lasts: 3 beats", ""),  # A5 partial 13 raised/14 lowered
    ("natural-horn", "C5 __ Bb4@1 __ A4@2 __ G4@3; lasts: 4 beats", ""),  # Bb4 partial 7, A4 by hand
    ("natural-horn", "G4 __ F#4@1 __ G4@2; lasts: 3 beats", ""),  # F#4 hand
    ("natural-horn", "G4 __ Ab4@1 __ G4@2; lasts: 3 beats", ""),  # Ab4 hand
    ("natural-horn", "C5 __ C#5@1 __ D5@2; lasts: 3 beats", ""),  # C#5 hand (partial 9 lowered)
    ("natural-horn", "E5 __ Eb5@1 __ D5@2; lasts: 3 beats", ""),  # Eb5 hand
    ("natural-horn", "G4 __ F4@1 __ E4@2; lasts: 3 beats", ""),  # F4 hand
    ("natural-horn", "E4 __ D4@1 __ C4@2; lasts: 3 beats", ""),  # D4 by hand (partial 5 lowered)
    ("natural-horn", "C4 __ B3@1 __ C4@2; lasts: 3 beats", ""),  # B3 hand
    (
        "natural-horn",
        "C4, Bb3@1, A3@2, Ab3@3, G3@4; lasts: 5 beats",
        "A3 and Ab3 need the hand closed further than a whole tone",
    ),  # low chromatic stopped
    ("natural-horn", "G3, F#3@1, F3@2, G3@3; lasts: 4 beats", ""),  # F#3, F3
    ("natural-horn", "C4, G3@1, C3@2; lasts: 3 beats", ""),  # low arpeggio
    ("natural-horn", "C3, G2@1, C3@2; lasts: 4 beats", "below partial 2, forced by the lip"),  # factitious G2
    (
        "natural-horn",
        "C3, D3@1, Eb3@2, E3@3, F3@4; lasts: 5 beats",
        "D3 to E3 lie between partials 2 and 3",
    ),  # low factitious
    ("natural-horn", "G5, F#5@1, G5@2; lasts: 3 beats", ""),  # F#5 partial 11 raised
    ("natural-horn-d", "C6, B5@1, A5@2, G5@3, F5@4, E5@5; lasts: 6 beats", ""),  # clarino descent
    ("natural-horn-a", "E5 __ F5@1/2 __ G5@1 __ E5@3/2, C5@2; lasts: 3 beats", ""),  # quick turn
    ("natural-horn-bb-basso", "C5, E5@1, G5@2, C6@3; lasts: 4 beats", ""),  # arpeggio to C6
    ("natural-horn-bb-alto", "C4, E4@1, G4@2, C5@3, E5@4; lasts: 5 beats", ""),  # arpeggio in B-flat alto
    ("natural-horn-bb-alto", "G5; lasts: 2 beats", ""),  # high G in B-flat alto
    ("natural-horn-c", "C5 __ B4@1/2 __ A4@1 __ B4@3/2 __ C5@2; lasts: 3 beats", ""),  # stepwise hand passage
    ("natural-horn", "D5 __ C#5@1/4 __ D5@1/2; lasts: 1 beat", ""),  # quick mordent by hand
    ("natural-horn", "Bb4, Bb4@1, C5@2; lasts: 3 beats", ""),  # partial 7 natural
    ("natural-horn", "C5 __ D5@1/4 __ E5@1/2 __ F5@3/4 __ G5@1; lasts: 2 beats", ""),  # quick scale
    (
        "natural-horn",
        "E4, Eb4@1, D4@2, Db4@3, C4@4; lasts: 5 beats",
        "Db4 is three semitones under partial 5",
    ),  # chromatic from E4
    ("natural-horn", "G3, Ab3@1, G3@2; lasts: 3 beats", "four semitones under partial 4"),  # A-flat 3
]


@pytest.mark.parametrize(("instrument", "body", "why"), PHRASES)
def test_classical_natural_horn_is_playable_or_has_a_reason(instrument: str, body: str, why: str) -> None:
    lines = body.replace("; ", "\n  ")
    text = f"instrument: {instrument}\npitches: written\ntempo: 80\n\ngesture a\n  contour: {lines}\n"
    (said,) = checked(text).report.gestures
    assert said.verdict is (Verdict.WITH_CARE if why else Verdict.PLAYABLE), [f.text for f in said.findings]
