"""Well-known passages, typed from memory: details of rhythm and pitch may differ from the printed parts.

All composers died more than seventy years ago. Each passage says whether its pitches are written; the number after
the colon is the length in quarters; `r` is a rest.
"""

from __future__ import annotations

from typing import NamedTuple


class Passage(NamedTuple):
    work: str
    instrument: str
    pitches: str  # written | sounding
    tempo: int
    notes: str


_TILL = "G4:1/2 C5:1/2 D5:1/2 D#5:1/2 E5:3/2 "

PASSAGES = (
    Passage(
        "Strauss, Till Eulenspiegels lustige Streiche (1895), horn call",
        "horn", "written", 150,
        f"{_TILL} r:1/2 {_TILL} r:1/2 {_TILL} F5:1/2 F#5:1/2 G5:1/2 E5:1/2 C5:1/2 G4:1/2 E4:1/2 C4:1 r:1 "
        "G3:1/2 C3:3",
    ),
    Passage(
        "Brahms, Symphony 1 (1876), finale, alphorn call",
        "horn", "sounding", 62,
        "E4:3 D4:1/2 C4:1/2 G3:4 D4:3 E4:1/2 D4:1/2 C4:4 r:1 E4:3 D4:1/2 C4:1/2 G4:3 F4:1 E4:2 D4:4",
    ),
    Passage(
        "Wagner, Siegfried (1876), act 2, horn call",
        "horn", "written", 120,
        "G4:3/2 C5:1 G4:1/2 C5:3/2 D5:1 E5:1/2 D5:3/2 C5:1 G4:1/2 A4:3/2 r:1/2 G4:3/2 C5:1 G4:1/2 C5:3/2 D5:1 "
        "E5:1/2 G5:3/2 E5:1 C5:1/2 G5:3/2 C5:3",
    ),
    Passage(
        "Beethoven, Symphony 3 (1804), trio of the scherzo, horn 1",
        "horn", "sounding", 240,
        "Eb4:2 G4:1 Bb4:2 G4:1 Bb4:1 Eb5:1 Bb4:1 G4:3 r:3 Eb4:2 G4:1 Bb4:2 G4:1 Ab4:1 G4:1 F4:1 Eb4:3",
    ),
    Passage(
        "Mussorgsky, Pictures at an Exhibition (1874), Promenade, as Ravel gives it to the trumpet",
        "trumpet-c", "sounding", 104,
        "G4:1 F4:1 Bb4:1 C5:1/2 F5:1/2 D5:1 C5:1/2 F5:1/2 D5:1 Bb4:1 C5:1 G4:1 F4:1 r:1 "
        "F4:1 G4:1 D4:1 F4:1/2 G4:1/2 C4:1 G4:1/2 D5:1/2 C5:1 F4:1 Bb4:1 D5:1 C5:1",
    ),
    Passage(
        "Haydn, Trumpet Concerto (1796), first movement",
        "trumpet", "sounding", 120,
        "Eb4:2 F4:2 G4:3 F4:1 Eb4:1 r:1 G4:2 Ab4:2 Bb4:3 Ab4:1 G4:1 r:1 Eb5:2 D5:1/2 C5:1/2 Bb4:1/2 Ab4:1/2 G4:1 "
        "F4:1 Eb4:2",
    ),
    Passage(
        "Mahler, Symphony 5 (1902), opening",
        "trumpet", "sounding", 80,
        "C#4:1/3 C#4:1/3 C#4:1/3 C#4:2 r:1 C#4:1/3 C#4:1/3 C#4:1/3 C#4:2 r:1 C#4:1/3 C#4:1/3 C#4:1/3 E4:3 "
        "C#4:1/3 C#4:1/3 C#4:1/3 G#4:3 G#4:1/3 G#4:1/3 G#4:1/3 A4:4 r:1 C#5:2 G#4:1 E4:1 C#4:4",
    ),
    Passage(
        "Beethoven, Leonore 3 (1806), call behind the scene",
        "trumpet", "sounding", 140,
        "Bb4:3/2 F4:1/2 Bb4:1 D5:1 F5:2 D5:1/3 D5:1/3 D5:1/3 F5:1 D5:1 Bb4:1 F4:1 D4:1 Bb3:1 D4:1 F4:1 Bb4:4",
    ),
    Passage(
        "Mozart, Requiem (1791), Tuba mirum",
        "trombone", "sounding", 66,
        "Bb2:2 D3:2 F3:2 Bb3:2 r:1 Bb3:1 A3:1/2 Bb3:1/2 C4:1 D4:1/2 C4:1/2 Bb3:1 F3:1 D3:1 Bb2:1 F3:1 Bb3:2",
    ),
    Passage(
        "Wagner, Die Walküre (1870), ride of the valkyries",
        "trombone", "sounding", 126,
        "F#3:1/4 B3:3/4 F#3:1/4 B3:1/2 D4:3/2 B3:3/2 D4:3/4 B3:1/4 D4:1/2 F#4:3/2 D4:3/2 F#4:3/4 D4:1/4 F#4:1/2 "
        "A4:3/2 A3:3/2 D4:3/4 A3:1/4 D4:1/2 F#4:3",
    ),
    Passage(
        "Beethoven, Symphony 5 (1808), opening of the finale",
        "trombone", "sounding", 168,
        "C3:2 E3:2 G3:3 F3:1 E3:1 D3:1 C3:1 D3:1 C3:2 r:1 G3:1 G3:2 A3:2 B3:1 C4:1 D4:1 C4:1 C4:4",
    ),
    Passage(
        "Wagner, Tannhäuser (1845), overture, chorus of the pilgrims",
        "trombone", "sounding", 50,
        "B2:1 E3:3/2 D#3:1/2 C#3:1 B2:1 E3:1 F#3:1 G#3:3/2 F#3:1/2 E3:1 r:1 B3:1 E4:3/2 D#4:1/2 C#4:1 B3:1 "
        "A3:1 G#3:1 F#3:2",
    ),
    Passage(
        "Wagner, Die Meistersinger (1868), prelude, bass tuba",
        "tuba", "sounding", 100,
        "C3:1 G2:3/2 G2:1/2 E2:1 C2:1 r:1/2 D2:1/2 E2:1/2 F2:1/2 G2:1/2 A2:1/2 B2:1/2 C3:1 A2:1 D3:1 G2:1 "
        "C3:1 E3:1/2 D3:1/2 C3:1/2 B2:1/2 C3:2",
    ),
    Passage(
        "Berlioz, Symphonie fantastique (1830), Dies irae",
        "tuba", "sounding", 104,
        "Eb3:3/2 D3:3/2 Eb3:3/2 C3:3/2 D3:3/2 Bb2:3/2 C3:3/2 C3:3/2 r:3/2 Eb3:3/2 Eb3:3/2 F3:3/2 Eb3:3/2 "
        "D3:3/2 C3:3/2 Bb2:3/2 D3:3/2 Eb3:3/2 D3:3/2 C3:3/2",
    ),
    Passage(
        "Mahler, Symphony 1 (1889), third movement",
        "tuba", "sounding", 60,
        "D3:1 E3:1 F3:1 D3:1 D3:1 E3:1 F3:1 D3:1 F3:1 G3:1 A3:2 F3:1 G3:1 A3:2 r:1 A3:3/4 Bb3:1/4 A3:1/2 "
        "G3:1/2 F3:1 D3:1 D3:1 A2:1 D3:2",
    ),
    Passage(
        "Wagner, Die Walküre (1870), ride of the valkyries, contrabass tuba",
        "tuba", "sounding", 126,
        "F#2:1/4 B2:3/4 F#2:1/4 B2:1/2 D3:3/2 B2:3/2 D3:3/4 B2:1/4 D3:1/2 F#3:3/2 D3:3/2 F#3:3/4 D3:1/4 F#3:1/2 "
        "A3:3/2 A2:3/2 D3:3/4 A2:1/4 D3:1/2 F#3:3",
    ),
)  # fmt: skip
