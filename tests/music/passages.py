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
    Passage(
        "Beethoven, Symphony 9 (1824), third movement, fourth horn",
        "natural-horn-eb", "written", 50,
        "C5:1/2 G4:1/2 E4:1/2 C4:1/2 G3:1 C4:1/2 E4:1/2 G4:1/2 C5:1/2 E5:1 D5:1/2 C5:1/2 B4:1/2 C5:1/2 r:1 C4:1/4 "
        "D4:1/4 E4:1/4 F4:1/4 G4:1/4 A4:1/4 B4:1/4 C5:1/4 D5:1/2 E5:1/2 C5:1 G4:1 r:1 C4:1/4 B3:1/4 A3:1/4 G3:1/4 "
        "C3:1",
    ),
    Passage(
        "Beethoven, Symphony 6 (1808), third movement, trio",
        "natural-horn", "written", 200,
        "C5:1 C5:1 C5:1 E5:1 D5:1 C5:1 G4:1 A4:1 G4:1 E4:2 r:1 C5:1 C5:1 C5:1 E5:1 D5:1 C5:1 D5:1 E5:1 D5:1 C5:2",
    ),
    Passage(
        "Beethoven, Horn Sonata op. 17 (1800), opening",
        "natural-horn", "written", 108,
        "C4:3/2 G3:1/2 C4:1 E4:1 G4:2 r:1 G4:1 C5:1 E5:1 D5:1 C5:1 B4:1 C5:1 r:1 G4:1/2 E4:1/2 C4:1/2 G3:1/2 C3:2",
    ),
    Passage(
        "Haydn, Symphony 31, Hornsignal (1765)",
        "natural-horn-d", "written", 120,
        "G4:1/2 C5:1/2 C5:1/2 C5:1/2 E5:1/2 C5:1/2 G4:1 C5:1/2 E5:1/2 G5:1/2 E5:1/2 C5:1 r:1 G5:1/2 E5:1/2 C5:1/2 "
        "E5:1/2 G5:1 C6:1 G5:1 E5:1 C5:2",
    ),
    Passage(
        "Mozart, Horn Concerto K. 495 (1786), rondo",
        "natural-horn-eb", "written", 200,
        "G4:1 C5:1 C5:1 C5:1 C5:2 E5:1 D5:1 D5:1 D5:1 D5:2 F5:1 E5:1 D5:1 E5:1 F5:1 E5:1 D5:1 C5:2 r:1 G5:1 E5:1 "
        "C5:1 G4:1 E4:1 C4:2",
    ),
    Passage(
        "Brahms, Trio op. 40 (1865), first movement, for natural horn",
        "natural-horn-eb", "written", 92,
        "G4:1 C5:2 B4:1 A4:1 G4:2 F#4:1 G4:1 E4:2 r:1 G4:1 C5:1 D5:1 E5:2 D5:1 C5:1 B4:1 A4:1 G4:2 F4:1 E4:2",
    ),
    Passage(
        "Weber, Der Freischütz (1821), overture",
        "natural-horn", "written", 60,
        "C4:2 E4:1 G4:1 G4:2 F4:1 E4:1 E4:3/2 D4:1/2 D4:1 E4:1 C4:2 r:1 E4:1 G4:2 C5:1 G4:1 E4:2 D4:1 G4:1 C4:3",
    ),
    Passage(
        "Bruckner, Symphony 4 (1874), opening",
        "horn", "sounding", 132,
        "Bb3:7/2 Eb3:1/2 Bb3:4 r:4 Cb4:7/2 Eb3:1/2 Bb3:4 r:4 Eb4:7/2 Ab3:1/2 Eb4:4 r:2 Bb3:2 Eb3:4",
    ),
    Passage(
        "Brahms, Symphony 2 (1877), first movement, horn solo",
        "horn", "sounding", 96,
        "D4:3 E4:2 F4:1 G4:3 A4:2 Bb4:1 B4:3 C5:2 B4:1 Bb4:2 A4:1 G#4:2 A4:1 F4:2 E4:1 D4:3 r:1 A3:2 D4:3",
    ),
    Passage(
        "Dvořák, Symphony 9 (1893), first movement",
        "horn", "sounding", 126,
        "E3:3/2 G3:1/2 B3:2 B3:3/2 G3:1/2 E3:2 D4:1/2 B3:3/2 G3:1 B3:1 E3:2 r:2 E3:3/2 G3:1/2 B3:2 E4:3/2 B3:1/2 "
        "G3:2 E3:2",
    ),
    Passage(
        "Wagner, Das Rheingold (1854), prelude, eighth horn",
        "horn", "sounding", 56,
        "Eb2:3/2 Bb2:1/2 Eb3:1 G3:1/2 Bb3:1/2 Eb4:3/2 G4:1/2 Eb4:3/2 Bb3:3 r:2 Eb2:3/2 Bb2:3/2 Eb3:3/2 G3:3/2 "
        "Bb3:3",
    ),
    Passage(
        "Strauss, Ein Heldenleben (1898), opening",
        "horn", "sounding", 116,
        "Eb2:2 Bb2:1/2 Eb3:1/2 G3:1/2 Bb3:1/2 Eb4:3 D4:1/2 C4:1/2 Bb3:1 G3:1 Eb3:1 Ab3:1 F4:2 Eb4:1 D4:1 C5:2 "
        "Bb4:1 G4:1 Eb4:2",
    ),
    Passage(
        "Mahler, Symphony 3 (1896), opening, eight horns",
        "horn", "sounding", 104,
        "A3:1 D4:3/2 E4:1/2 F4:2 D4:2 Bb4:2 A4:3/2 F4:1/2 E4:1 C4:1 A3:2 r:1 A3:1 D4:3/2 F4:1/2 A4:2 D5:2 C5:1 "
        "A4:1 F4:2",
    ),
    Passage(
        "Strauss, Horn Concerto 1 (1883), opening",
        "horn", "sounding", 120,
        "Bb3:1 Eb4:3/2 Eb4:1/2 Eb4:1 G4:1 Bb4:2 Eb5:3/2 Bb4:1/2 G4:1 Bb4:1 Ab4:1 F4:1 Eb4:2 r:1 Bb3:1 G3:1 Eb3:1 "
        "Bb2:2",
    ),
    Passage(
        "Dukas, Villanelle (1906), opening",
        "horn", "written", 66,
        "G4:1 C5:2 G4:1/2 E4:1/2 C4:1 G3:1 C4:1 E4:1/2 G4:1/2 C5:1 D5:1 E5:2 D5:1/2 C5:1/2 G4:2 r:1 G4:1 C5:1 "
        "E5:1 G5:3",
    ),
    Passage(
        "Bach, Brandenburg Concerto 2 (1721)",
        "piccolo-trumpet", "sounding", 92,
        "F5:1/4 C5:1/4 F5:1/4 A5:1/4 C6:1/2 A5:1/4 Bb5:1/4 C6:1/4 Bb5:1/4 A5:1/4 G5:1/4 A5:1/2 F5:1/2 G5:1/4 "
        "A5:1/4 Bb5:1/4 G5:1/4 C6:1/2 D6:1/2 C6:1/2 A5:1/2 F5:1",
    ),
    Passage(
        "Haydn, Trumpet Concerto (1796), finale",
        "trumpet", "sounding", 132,
        "Bb4:1 Eb5:1 Eb5:1 D5:1/2 Eb5:1/2 F5:1 Bb4:1 r:1 Bb4:1 G5:1 F5:1/2 Eb5:1/2 D5:1/2 Eb5:1/2 F5:1/2 D5:1/2 "
        "Eb5:1 Bb4:1 G4:1 Eb4:1",
    ),
    Passage(
        "Hummel, Trumpet Concerto (1803), first movement",
        "trumpet", "sounding", 132,
        "E4:2 E4:3/4 E4:1/4 G#4:1 B4:1 E5:2 B4:1 G#4:1 A4:1 C#5:1 B4:1 A4:1 G#4:2 r:1 E5:1 D#5:1/2 C#5:1/2 B4:1/2 "
        "A4:1/2 G#4:1 F#4:1 E4:2",
    ),
    Passage(
        "Rossini, Guillaume Tell (1829), overture",
        "trumpet", "sounding", 152,
        "B4:1/4 B4:1/4 B4:1/2 B4:1/4 B4:1/4 B4:1/2 B4:1/4 B4:1/4 E5:1/2 F#5:1/2 G#5:1/2 B4:1/4 B4:1/4 B4:1/2 "
        "B4:1/4 B4:1/4 E5:1/2 G#5:1/4 G#5:1/4 F#5:1/2 D#5:1/2 B4:1/2",
    ),
    Passage(
        "Wagner, Parsifal (1882), prelude",
        "trumpet", "sounding", 50,
        "Ab3:1 C4:1 Eb4:3/2 F4:1/2 G4:1 Ab4:3 Bb4:1/2 C5:1/2 G4:1 Ab4:2 F4:1 Eb4:2",
    ),
    Passage(
        "Strauss, Also sprach Zarathustra (1896), opening",
        "trumpet-c", "sounding", 60,
        "C5:3 G5:3 C6:2 r:1 E5:1/4 Eb5:4",
    ),
    Passage(
        "Verdi, Aida (1871), triumphal march",
        "trumpet", "sounding", 100,
        "Eb4:1 Ab4:2 Bb4:1/2 C5:1/2 Eb4:2 Eb4:1 Ab4:1 C5:1 Bb4:1 Ab4:1 F4:1 Ab4:2 Eb4:2 r:1 Eb5:2 Db5:1 C5:1 "
        "Bb4:1 C5:1 Ab4:2",
    ),
    Passage(
        "Mahler, Symphony 3 (1896), posthorn solo",
        "flugelhorn", "sounding", 60,
        "C4:1 F4:3/2 A4:1/2 C5:2 D5:1/2 C5:1/2 A4:1 F5:2 E5:1/2 D5:1/2 C5:1 A4:1 F4:2 r:1 C5:1 A5:2 G5:1/2 F5:1/2 "
        "C5:2",
    ),
    Passage(
        "Monteverdi, L'Orfeo (1607), toccata, clarino",
        "natural-trumpet", "written", 120,
        "C5:1 D5:1/4 E5:1/4 F5:1/4 G5:1/4 G5:1 G5:1 F5:1/4 E5:1/4 D5:1/4 C5:1/4 D5:1/2 E5:1/2 C5:1 E5:1/4 F5:1/4 "
        "G5:1/4 A5:1/4 G5:1 C5:2",
    ),
    Passage(
        "Berlioz, Grande Messe des morts (1837), Hostias: the pedal notes",
        "trombone", "sounding", 56,
        "Bb1:3 r:2 A1:3 r:2 Ab1:3 r:2 A1:3",
    ),
    Passage(
        "Ravel, Boléro (1928), trombone solo",
        "trombone", "sounding", 72,
        "Bb4:2 C5:1/2 Db5:1/2 C5:1/4 Bb4:1/4 A4:1/4 Bb4:1/4 C5:1 Bb4:1/2 A4:1/2 G4:1/2 F4:1/2 G4:1 F4:1/2 Eb4:1/2 "
        "Db4:1/2 C4:1/2 D4:1 Bb3:2",
    ),
    Passage(
        "Mahler, Symphony 3 (1896), first movement, trombone solo",
        "trombone", "sounding", 52,
        "A3:1/4 A3:1/4 A3:1/2 D4:2 D4:1/2 E4:1/2 F4:2 E4:1/2 D4:1/2 A3:1 Bb3:1/2 A3:1/2 F3:1 D3:2 r:1 A4:2 G4:1/2 "
        "F4:1/2 E4:1 D4:2",
    ),
    Passage(
        "Schumann, Symphony 3 (1850), fourth movement",
        "alto-trombone", "sounding", 54,
        "Bb3:2 Eb4:2 D4:1 G4:1 C4:1 F4:2 Bb4:2 Eb5:2 D5:1 C5:1 Bb4:1 Ab4:1 G4:2",
    ),
    Passage(
        "Rossini, La gazza ladra (1817), overture",
        "trombone", "sounding", 168,
        "E3:1 E3:1/3 E3:1/3 E3:1/3 G#3:1/3 B3:1/3 E4:1/3 B3:1 E4:1/3 D#4:1/3 C#4:1/3 B3:1/3 A3:1/3 G#3:1/3 F#3:1 "
        "E3:1",
    ),
    Passage(
        "Saint-Saëns, Symphony 3 (1886), adagio",
        "trombone", "sounding", 60,
        "Db4:2 Eb4:1 F4:1 F4:2 Eb4:1 Db4:1 Ab3:2 Bb3:1 C4:1 Db4:3 r:1 F4:2 Gb4:1 Ab4:1 Bb4:2 Ab4:1 F4:1 Db4:3",
    ),
    Passage(
        "Haydn, The Creation (1798), bass trombone",
        "bass-trombone", "sounding", 132,
        "C3:1/2 B2:1/2 A2:1/2 G2:1/2 F2:1/2 E2:1/2 D2:1/2 C2:1/2 G2:1 C3:1 G2:1 E2:1 C2:2 r:1 F2:1 D2:1 G2:1 C2:2",
    ),
    Passage(
        "Mussorgsky, Pictures at an Exhibition (1874), Bydło, as Ravel gives it to the tuba",
        "euphonium", "sounding", 52,
        "G#3:1/2 C#4:1 D#4:1/2 E4:1 D#4:1/2 C#4:1/2 D#4:1 G#3:1 F#3:1/2 G#3:1/2 A#3:1 G#3:1 r:1 G#3:1/2 B3:1/2 "
        "D#4:1 F#4:1/2 G#4:1/2 F#4:1 D#4:1 C#4:2",
    ),
    Passage(
        "Wagner, Siegfried (1871), act 2, Fafner",
        "tuba", "sounding", 60,
        "F1:1 C2:2 Gb1:1/2 F1:3/2 r:2 F2:1 B1:2 C2:1 F1:2 r:2 Gb2:1/2 F2:1/2 B1:2",
    ),
    Passage(
        "Berlioz, La Damnation de Faust (1846), Hungarian march",
        "tuba", "sounding", 132,
        "E2:1/2 E2:1/2 A2:1 C3:1/2 B2:1/2 A2:1 E3:1 F3:1/2 E3:1/2 D3:1/2 C3:1/2 B2:1/2 A2:1/2 G#2:1 A2:1 E2:1 "
        "A2:2",
    ),
    Passage(
        "Bruckner, Symphony 7 (1883), adagio, tenor tuba",
        "wagner-tuba", "sounding", 44,
        "C#4:2 D#4:1 E4:2 F#4:1/2 G#4:1/2 F#4:1 E4:1 D#4:2 r:1 C#4:1 B3:1 A3:1 G#3:2",
    ),
)  # fmt: skip
