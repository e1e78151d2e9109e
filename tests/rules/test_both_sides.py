"""Cases on both sides of what players can do, from general knowledge of brass; none was made with a limit in view.

Each has the verdicts that players might give: p playable, c with care, n not as written.
"""

from __future__ import annotations

import pytest
from rules.checking import checked

from gesturesmith.diagnostics import Verdict

VERDICTS = {"p": Verdict.PLAYABLE, "c": Verdict.WITH_CARE, "n": Verdict.NOT_AS_WRITTEN}

# instrument, contour and further lines, verdicts, what it is
GESTURES = [
    ("horn", "C5, D5@1/4, C5@1/2, D5@3/4, E5@1; lasts: 5 beats", "p", "quick upbeat"),
    ("horn", "C4, C4, C4, C4, C4, C4, C4, C4; lasts: 1 s", "p", "8/s left to player"),
    (
        "horn",
        "C4, C4, C4, C4, C4, C4, C4, C4; lasts: 1 s; technique: single-tongue",
        "pc",
        "single tonguing at 8: a burst of eight",
    ),
    ("horn", "G4; attacks: 14; lasts: 1 s; technique: double-tongue", "c", "double 14"),
    ("horn", "G4; attacks: 40; lasts: 1 s", "n", "40 a second"),
    ("trumpet", "C5 __ D5 __ E5 __ F5 __ G5 __ F5 __ E5 __ D5; lasts: 1 s", "p", "slurred run 8/s"),
    ("trumpet", "C5 __ D5 __ E5 __ F5 __ G5 __ F5 __ E5 __ D5; lasts: 0.25 s", "nc", "slurred run 32/s"),
    ("horn", "G4 -- F#4 -- G4; technique: bend; lasts: 3 beats", "p", "semitone bend"),
    ("horn", "G4 -- D4 -- G4; technique: bend; lasts: 3 beats", "cn", "fourth bend"),
    ("horn", "G5 -- Eb5 -- G5; technique: bend; lasts: 3 beats", "cn", "third bend high"),
    ("horn", "C3 -- B2 -- C3; technique: bend; lasts: 3 beats", "p", "low bend semitone"),
    ("horn", "C5 -- D5 -- C5; technique: bend; lasts: 3 beats", "cn", "bend up a tone"),
    ("trumpet", "C5 -- B4 -- C5; technique: bend; lasts: 3 beats", "p", "trumpet semitone"),
    ("horn", "C5 -- B4; technique: hand-gliss; lasts: 2 beats", "p", "half step hand"),
    ("horn", "C5 -- G4; technique: hand-gliss; lasts: 2 beats", "n", "fourth by hand"),
    ("horn", "E4 -- C4; technique: hand-gliss; lasts: 2 beats", "cn", "third by hand E4"),
    ("trumpet", "C5; technique: stopped", "n", "trumpet cannot stop"),
    ("horn", "C5; technique: stopped", "p", "stopped"),
    ("horn", "E3; technique: stopped", "c", "low stopped"),
    ("trombone", "F3 -- B2; technique: slide-gliss; lasts: 2 beats", "p", "full slide"),
    ("trombone", "F3 -- Bb2; technique: slide-gliss; lasts: 2 beats", "n", "over the break"),
    ("trombone", "Bb2 -- E2; technique: slide-gliss; lasts: 2 beats", "p", "full slide low"),
    ("trombone", "D4 -- Ab3; technique: slide-gliss; lasts: 2 beats", "p", "partial 5"),
    ("trombone", "F4 -- B3; technique: slide-gliss; lasts: 1/8 beat", "c", "whole slide in an eighth of a second"),
    ("bass-trombone", "Bb1 -- E1; technique: slide-gliss; lasts: 2 beats", "pc", "pedal gliss"),
    ("trombone", "Bb4; lasts: 4 beats", "p", "high Bb4"),
    ("trombone", "F5; lasts: 4 beats", "c", "F5"),
    ("trombone", "E2; lasts: 4 beats", "p", "low E"),
    ("trombone", "D2; lasts: 4 beats", "n", "between E2 and pedals, no trigger"),
    ("trombone-f", "D2; lasts: 4 beats", "p", "with trigger"),
    ("trombone", "Bb1; lasts: 4 beats; dynamics: ff", "c", "four seconds of loud pedal: the low air"),
    ("trombone", "Bb1; lasts: 2 beats; dynamics: ff", "p", "loud pedal"),
    ("trombone", "E1; lasts: 4 beats", "pc", "lowest pedal"),
    ("horn", "C6; lasts: 2 beats", "p", "top"),
    ("horn", "D6; lasts: 2 beats", "c", "above top"),
    ("horn", "G6; lasts: 2 beats", "n", "too high"),
    ("horn", "F#2; lasts: 2 beats", "p", "bottom"),
    ("horn", "C2; lasts: 2 beats", "c", "pedal"),
    ("trumpet", "C6; lasts: 2 beats", "p", "C6 trumpet"),
    ("trumpet", "G6; lasts: 2 beats", "cn", "double high G"),
    ("trumpet", "F#3; lasts: 2 beats", "p", "lowest"),
    ("trumpet", "E3; lasts: 2 beats", "cn", "below lowest"),
    ("tuba", "C2; lasts: 2 beats", "p", "tuba low C"),
    ("tuba", "F1; lasts: 2 beats", "pc", "tuba F1"),
    ("tuba", "C1; lasts: 2 beats", "pc", "tuba pedal C"),
    ("tuba", "C5; lasts: 2 beats", "c", "a tone above Berlioz, who writes Bb4"),
    ("tuba", "F5; lasts: 2 beats", "n", "a fifth above the highest of any part"),
    ("euphonium", "Bb4; lasts: 2 beats", "p", "euph high"),
    ("horn", "C5; lasts: 6 s; technique: growl", "p", "growl 6s"),
    ("horn", "C5; lasts: 20 s; technique: growl", "c", "growl 20s"),
    ("horn", "C5; lasts: 6 s; technique: flutter-tongue", "p", "flutter"),
    ("horn", "C3; lasts: 2 s; technique: flutter-tongue; dynamics: f", "pc", "low flutter"),
    ("horn", "C2; lasts: 2 s; technique: flutter-tongue; dynamics: f", "c", "pedal flutter"),
    ("horn", "C5; technique: lip-trill; lasts: 3 beats", "p", "lip trill C5"),
    ("horn", "C4; technique: lip-trill; lasts: 3 beats", "cn", "lip trill C4, no close partial"),
    ("trumpet", "G5; technique: shake; lasts: 2 beats; dynamics: f", "p", "shake"),
    ("trumpet", "C4; technique: shake; lasts: 2 beats; dynamics: f", "cn", "shake low"),
    ("horn", "C4; technique: multiphonic; sing: G4; lasts: 4 beats", "p", "multiphonic"),
    ("horn", "C4; technique: multiphonic; sing: C7; lasts: 4 beats", "n", "sung too high"),
    ("horn", "G4 ~~ G5; technique: harmonic-gliss; lasts: 2 beats", "p", "gliss"),
    ("horn", "C3 ~~ G3; technique: harmonic-gliss; lasts: 2 beats", "n", "two partials"),
    ("horn", "C4 ~~ C5; technique: harmonic-gliss; lasts: 2 beats", "c", "arpeggio"),
    ("horn", "Ab5 -- C6; technique: hand-out; lasts: 3 beats", "p", "hand out high"),
    ("horn", "C4 -- E4; technique: hand-out; lasts: 3 beats", "cn", "hand out low"),
    ("horn", "C5 as muted, C5@1 as ordinary; lasts: 3 beats", "c", "mute off at once"),
    ("horn", "C5 as muted, r@1, C5@8 as ordinary; lasts: 10 beats", "p", "mute time"),
    ("horn", "C5 closed, C5@1 open, C5@2 closed, C5@3 open; lasts: 4 beats", "p", "hand to and fro at 60"),
    (
        "trumpet",
        "C5 closed, C5@1/8 open, C5@1/4 closed, C5@3/8 open; lasts: 1 beat; mute: plunger; technique: muted",
        "pc",
        "plunger 8/s",
    ),
    ("horn", "C4; lasts: 12 s", "p", "12 s mf"),
    ("horn", "C4; lasts: 40 s", "c", "40 s"),
    ("horn", "C4; lasts: 120 s", "n", "120 s"),
    ("horn", "C3; lasts: 8 s; dynamics: ff", "c", "low ff 8 s"),
    ("tuba", "C2; lasts: 8 s; dynamics: ff", "c", "tuba ff 8 s"),
    ("tuba", "C2; lasts: 3 s; dynamics: mf", "p", "tuba mf 3 s"),
    ("horn", "C4 __ E4 __ G4 __ C5 __ E5 __ G5; lasts: 1 s", "p", "arpeggio slur"),
    ("horn", "C4, G5, C4, G5; lasts: 1/2 s", "pc", "wide leaps fast"),
    ("horn", "F#^4, G^4, A^4, B^4; technique: quarter-tones; lasts: 4 beats", "pc", "quarter tones"),
    ("trumpet", "C5; technique: valve-slide-tremolo; lasts: 2 beats", "pc", "valve slide tremolo"),
    ("trombone", "C4; technique: valve-trill; lasts: 2 beats", "n", "valves on a slide"),
    ("natural-horn", "C5; technique: half-valve; lasts: 2 beats", "n", "no valves"),
    ("horn", "C5; technique: valve-clicks; dynamics: ff; lasts: 2 beats", "c", "loud clicks"),
    ("horn", "C6; dynamics: ppp; lasts: 2 beats", "c", "top very soft"),
    ("horn", "F#2; dynamics: fff; lasts: 2 beats", "c", "bottom very loud"),
    ("trumpet", "C5; technique: hand-gliss; lasts: 2 beats", "n", "no hand"),
    ("horn", "C5 grace, D5 grace, E5; lasts: 2 beats", "p", "graces"),
    ("alto-trombone", "Bb4; lasts: 2 beats", "p", "alto normal"),
    ("piccolo-trumpet", "G5; lasts: 2 beats", "pc", "picc"),
]

# instrument, blocks of a file whose last is judged, verdicts, what it is
BLOCKS = [
    (
        "horn",
        "gesture a\n  contour: C6\n  lasts: 8 beats\n  dynamics: ff < fff\npassage q\n  play: a, a, a",
        "c",
        "24 s of top ff",
    ),
    (
        "horn",
        "gesture a\n  contour: G4\n  lasts: 8 beats\npassage q\n  play: a\n  repeat: 40",
        "p",
        "320 s of mf G4 breathing",
    ),
    (
        "horn",
        "gesture a\n  contour: G4\n  lasts: 8 beats\npassage q\n  play: a\n  repeat: 90",
        "c",
        "12 minutes without a rest",
    ),
    (
        "horn",
        "gesture a\n  technique: flutter-tongue\n  contour: C5\n  lasts: 5 beats\npassage q\n  play: a, a, a",
        "c",
        "15 s flutter",
    ),
    (
        "horn",
        "gesture a\n  technique: flutter-tongue\n  contour: C5\n  lasts: 3 beats\npassage q\n  play: a,"
        " rest 3, a, rest 3, a",
        "p",
        "flutter rested",
    ),
    (
        "trumpet",
        "gesture a\n  technique: shake\n  contour: G5\n  lasts: 4 beats\n  dynamics: f\npassage q\n  play: a, a",
        "c",
        "8 s shake",
    ),
    (
        "trumpet",
        "gesture a\n  contour: G5, A5, B5, C6\n  lasts: 4 beats\n  dynamics: ff\npassage q\n  play: a\n"
        "  repeat: 12",
        "c",
        "48 s lead trumpet top ff",
    ),
    (
        "trumpet",
        "gesture a\n  contour: G4, A4, B4, C5\n  lasts: 4 beats\n  dynamics: mf\npassage q\n  play: a\n"
        "  repeat: 30",
        "p",
        "2 minutes mf",
    ),
    (
        "trombone",
        "gesture a\n  contour: F3, G3, A3, Bb3\n  lasts: 4 beats\n  dynamics: ff\npassage q\n  play: a\n"
        "  repeat: 8",
        "p",
        "32 s ff chorale",
    ),
    (
        "trombone",
        "gesture a\n  contour: F3, G3, A3, Bb3\n  lasts: 4 beats\n  dynamics: ff\npassage q\n  play: a\n"
        "  repeat: 30",
        "c",
        "2 minutes of ff",
    ),
    (
        "tuba",
        "gesture a\n  contour: C2, D2, E2, F2\n  lasts: 1 beat\n  dynamics: f\npassage q\n  play: a\n  repeat: 12",
        "c",
        "12 s of quick low f, no breath",
    ),
    (
        "tuba",
        "gesture a\n  contour: C2, D2, E2, F2\n  lasts: 4 beats\n  dynamics: f\npassage q\n  play: a\n  repeat: 6",
        "p",
        "quarters, breaths",
    ),
    (
        "horn",
        "gesture a\n  contour: C5 __ D5 __ E5 __ D5\n  lasts: 8 beats\npassage q\n  play: a, a, a",
        "p",
        "slurs of 8 s each",
    ),
    (
        "horn",
        "gesture a\n  technique: multiphonic\n  contour: C4\n  sing: G4\n  lasts: 6 beats\npassage q\n"
        "  play: a, a, a",
        "c",
        "18 s multiphonic",
    ),
    (
        "horn",
        "gesture a\n  technique: stopped\n  contour: C5\n  lasts: 2 beats\ngesture b\n  contour: C5\n"
        "  lasts: 2 beats\npassage q\n  play: a, b, a, b",
        "p",
        "stopped and open",
    ),
    (
        "horn",
        "gesture a\n  technique: muted\n  contour: C5\n  lasts: 2 beats\ngesture b\n  contour: C5\n"
        "  lasts: 2 beats\npassage q\n  play: a, b",
        "c",
        "mute at once",
    ),
    (
        "horn",
        "gesture a\n  technique: muted\n  contour: C5\n  lasts: 2 beats\ngesture b\n  contour: C5\n"
        "  lasts: 2 beats\npassage q\n  play: a, rest 6, b",
        "p",
        "mute with rest",
    ),
    ("horn", "gesture a\n  contour: C5\n  lasts: 20 beats\n  dynamics: pp < ff > pp", "c", "20 s swell to ff"),
    ("horn", "gesture a\n  contour: C5\n  lasts: 8 beats\n  dynamics: pp < ff > pp", "p", "8 s swell"),
    (
        "horn",
        "gesture a\n  technique: air-tone\n  contour: C4\n  lasts: 4 beats\n  dynamics: p < ff",
        "c",
        "air tone swelling to ff",
    ),
    (
        "horn",
        "gesture a\n  technique: growl\n  contour: C4\n  lasts: 4 beats\n  dynamics: pp < f",
        "c",
        "growl from pp",
    ),
    ("horn", "gesture a\n  contour: C6\n  lasts: 3 beats\n  dynamics: n < f", "p", "niente top? entry"),
    ("horn", "gesture a\n  technique: brassy\n  contour: C4\n  lasts: 4 beats\n  dynamics: p", "c", "brassy at p"),
    (
        "horn",
        "gesture a\n  technique: brassy + growl\n  contour: C4\n  lasts: 3 beats\n  dynamics: ff",
        "pc",
        "brassy growl",
    ),
    (
        "horn",
        "gesture a\n  technique: flutter-tongue + double-tongue\n  contour: C4, C4, C4\n  lasts: 1 beat",
        "cn",
        "flutter and double tongue",
    ),
    (
        "horn",
        "gesture a\n  technique: growl + multiphonic\n  contour: C4\n  lasts: 3 beats",
        "cn",
        "growl and sing",
    ),
    ("horn", "gesture a\n  technique: stopped + muted\n  contour: C5\n  lasts: 3 beats", "n", "hand and mute"),
    (
        "horn",
        "gesture a\n  technique: half-valve + flutter-tongue\n  contour: xG4 ~~ xC5\n  lasts: 3 beats",
        "p",
        "half valve flutter",
    ),
    (
        "horn",
        "box b\n  play: C5 for 1/4, D5 for 1/4\n  lasts: 60 s\npassage q\n  play: b",
        "c",
        "box without breath",
    ),
    ("horn", "gesture a\n  technique: growl\n  contour: G5\n  lasts: 7 beats\n  dynamics: f", "c", "growl high"),
]


def verdict(instrument: str, blocks: str) -> Verdict:
    report = checked(f"instrument: {instrument}\npitches: written\ntempo: 60\n\n{blocks}\n").report
    return (report.passages or report.gestures)[-1].verdict


@pytest.mark.parametrize(("instrument", "body", "wanted", "what"), GESTURES)
def test_a_gesture_on_one_side_or_the_other(instrument: str, body: str, wanted: str, what: str) -> None:
    lines = "\n  ".join(line.strip() for line in body.split(";"))
    assert verdict(instrument, f"gesture a\n  contour: {lines}") in [VERDICTS[v] for v in wanted], what


@pytest.mark.parametrize(("instrument", "blocks", "wanted", "what"), BLOCKS)
def test_a_passage_on_one_side_or_the_other(instrument: str, blocks: str, wanted: str, what: str) -> None:
    assert verdict(instrument, blocks) in [VERDICTS[v] for v in wanted], what
