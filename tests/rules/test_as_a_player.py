"""Cases on both sides of each limit, as a brass player would judge them, by what is asked.

Written before the checker was asked; where the two differed, evidence decided. Each has the verdicts that players
might give: p playable, c with care, n not as written.
"""

from __future__ import annotations

import pytest
from rules.test_both_sides import VERDICTS, verdict

# instrument, contour and further lines, verdicts, why
ATTACKS = [
    ("horn", "G4; attacks: 32; lasts: 4 s", "p", "8 a second, tonguing left to the player, who doubles"),
    ("horn", "G4; attacks: 44; lasts: 4 s", "p", "11 a second, doubled without being told"),
    ("trumpet", "C5; attacks: 48; lasts: 4 s", "p", "12 a second, doubled: sixteenths at 180"),
    ("trumpet", "C5; attacks: 60; lasts: 4 s", "c", "15 a second kept up for four seconds"),
    ("trumpet", "C5; attacks: 104; lasts: 4 s", "n", "26 a second"),
    ("horn", "G4; attacks: 120; lasts: 4 s; technique: double-tongue", "n", "30 a second, for four seconds"),
    ("horn", "C5, C5@0.075; lasts: 1 s", "p", "two attacks 75 ms apart are an upbeat"),
    ("trumpet", "C5, C5@0.07, C5@0.14; lasts: 1 s", "pc", "three at 14: a ruffle before the beat"),
    ("horn", "G4; attacks: 28; lasts: 4 s; technique: single-tongue", "p", "single, 7 a second"),
    ("horn", "G4; attacks: 22; lasts: 3 s; technique: single-tongue", "p", "single, sixteenths at 110"),
    ("horn", "G4; attacks: 36; lasts: 4 s; technique: single-tongue", "c", "single, 9 a second kept up"),
    ("horn", "G4; attacks: 56; lasts: 4 s; technique: single-tongue", "n", "single, 14 a second"),
    ("horn", "C3; attacks: 20; lasts: 4 s; technique: single-tongue", "p", "low single, 5 a second"),
    ("horn", "C3; attacks: 32; lasts: 4 s; technique: single-tongue", "c", "low single, 8 a second"),
    ("horn", "G4; attacks: 36; lasts: 4 s; technique: triple-tongue", "p", "triple, 9 a second"),
    ("horn", "xG4; attacks: 12; lasts: 4 s; technique: slap-tongue", "p", "slaps, 3 a second"),
    ("horn", "xG4; attacks: 32; lasts: 4 s; technique: slap-tongue", "c", "slaps, 8 a second"),
    ("horn", "xC4; attacks: 10; lasts: 5 s; technique: split-attack", "p", "split attacks, 2 a second"),
    ("horn", "xC4; attacks: 30; lasts: 5 s; technique: split-attack", "c", "split attacks, 6 a second"),
    ("trumpet", "C5 ~~ C6; technique: chromatic; lasts: 1 s", "pc", "chromatic octave in a second"),
    ("trumpet", "C5 ~~ C6; technique: chromatic; lasts: 1/4 s", "n", "48 semitones a second"),
    ("trombone", "F3 ~~ F4; technique: chromatic; lasts: 1 s", "pc", "chromatic octave by slide in a second"),
]
BENDS = [
    ("horn", "E3 -- A2 -- E3; technique: bend; lasts: 4 beats", "n", "a fifth down"),
    ("horn", "G3 -- Bb2 -- G3; technique: bend; lasts: 4 beats", "n", "a sixth down"),
    ("horn", "C3 -- C2 -- C3; technique: bend; lasts: 4 beats", "n", "an octave down"),
    ("horn", "C3 -- A2 -- C3; technique: bend; lasts: 4 beats", "pc", "a third at the bottom"),
    ("horn", "C4 -- B3 -- C4; technique: bend; lasts: 4 beats", "p", "a semitone, the daily exercise"),
    ("horn", "C4 -- D4 -- C4; technique: bend; lasts: 4 beats", "n", "up a whole tone: the lip jumps before"),
    ("horn", "C6 -- A5 -- C6; technique: bend; lasts: 4 beats", "n", "a third at the top, past the next partials"),
    ("horn", "C6 -- Cv6 -- C6; technique: bend; lasts: 4 beats", "p", "a quarter tone at the top"),
    ("trumpet", "G4 -- F#4 -- G4; technique: bend; lasts: 4 beats", "p", "the trumpeter's daily exercise"),
    ("trumpet", "C5 -- Eb4 -- C5; technique: bend; lasts: 4 beats", "n", "a sixth down"),
    ("trumpet", "C5 -- C^5 -- C5; technique: bend; lasts: 4 beats", "c", "a quarter tone up by the lip"),
    ("trombone", "Bb3 -- A3 -- Bb3; technique: bend; lasts: 4 beats", "p", "a semitone"),
    ("tuba", "C3 -- B2 -- C3; technique: bend; lasts: 4 beats", "p", "a semitone"),
    ("tuba", "C3 -- F2 -- C3; technique: bend; lasts: 4 beats", "n", "a fifth down"),
]
HAND = [
    ("horn", "C4 -- Ab3; technique: hand-gliss; lasts: 2 beats", "pc", "to a half step above G3"),
    ("horn", "C4 -- G3; technique: hand-gliss; lasts: 2 beats", "n", "onto the next partial"),
    (
        "horn",
        "C5 -- Bb4; technique: hand-gliss; lasts: 2 beats",
        "cn",
        "on the B-flat side just above the next partial",
    ),
    (
        "horn",
        "G4 -- F4; technique: hand-gliss; lasts: 2 beats",
        "pc",
        "to a half step above E4; a half step is usual",
    ),
    ("horn", "G4 -- Eb4; technique: hand-gliss; lasts: 2 beats", "n", "beyond the next partial"),
    ("horn", "C5 closed, C5@1/2 open, C5@1 closed, C5@3/2 open; lasts: 2 beats", "p", "+ and o on quarters at 120"),
    ("horn", "C5 closed, C5@1/4 open, C5@1/2 closed, C5@3/4 open; lasts: 1 beat", "pc", "+ and o, 4 a second"),
    (
        "horn",
        "C5 closed, C5@1/16 open, C5@1/8 closed, C5@3/16 open; lasts: 1/4 beat",
        "c",
        "+ and o, 16 a second",
    ),
    ("horn", "E5; technique: stopped; lasts: 2 beats; dynamics: ff", "p", "a stopped accent"),
    ("horn", "F#2; technique: stopped; lasts: 2 beats", "cn", "low stopped notes hardly speak"),
    ("trumpet", "C5; technique: half-stopped; lasts: 2 beats", "n", "nobody reaches the bell"),
]
SLIDES = [
    ("trombone", "Bb3 -- E3; technique: slide-gliss; lasts: 2 beats", "p", "a tritone on one partial"),
    ("trombone", "Bb3 -- Eb3; technique: slide-gliss; lasts: 2 beats", "n", "a fifth needs 0.73 m of slide"),
    ("trombone", "E2 -- F3; technique: slide-gliss; lasts: 2 beats", "n", "a ninth"),
    ("trombone", "E2 -- E4; technique: slide-gliss; lasts: 4 beats", "n", "two octaves"),
    ("trombone", "A3 -- F4; technique: slide-gliss; lasts: 2 beats", "n", "no partial holds a sixth"),
    ("trombone", "F4 -- B3; technique: slide-gliss; lasts: 2 beats", "p", "partial 6"),
    ("trombone", "B2 -- F3; technique: slide-gliss; lasts: 1 beat", "p", "up, as Bartók and everybody"),
    (
        "bass-trombone",
        "B1 -- F2; technique: slide-gliss; lasts: 2 beats",
        "cn",
        "Bartók's: the trigger leaves six positions",
    ),
    ("alto-trombone", "Eb4 -- A3; technique: slide-gliss; lasts: 2 beats", "p", "a tritone on the alto"),
    ("trombone", "E2; fingering: 7; lasts: 2 beats", "p", "seventh position"),
    ("trombone", "Bb2, E3, Bb2, E3, Bb2, E3, Bb2, E3; lasts: 8 beats", "p", "slide out and in, slowly"),
    ("trombone", "Bb2, B2, Bb2, B2, Bb2, B2, Bb2, B2; lasts: 1 s", "c", "first to seventh position, 8 a second"),
    ("horn", "C5 -- G4; technique: slide-gliss; lasts: 2 beats", "n", "no slide"),
]
GLISSANDI = [
    ("horn", "C3 ~~ C4; technique: harmonic-gliss; lasts: 2 beats", "c", "a horn-call arpeggio"),
    ("horn", "C4 ~~ G4; technique: harmonic-gliss; lasts: 2 beats", "cn", "three notes"),
    ("horn", "G4 ~~ C6; technique: harmonic-gliss; lasts: 2 beats", "p", "the horn glissando"),
    ("horn", "E4 ~~ E5; technique: harmonic-gliss; lasts: 2 beats", "p", "written often"),
    ("horn", "G2 ~~ D3; technique: fingered-gliss; lasts: 2 beats", "c", "too low to be heard as one"),
    ("horn", "G4 ~~ G5; technique: fingered-gliss; lasts: 2 beats", "p", "valve flutter"),
    ("horn", "C3 -- E3; technique: lip-gliss; lasts: 2 beats", "c", "low: it jumps"),
    ("horn", "D5 -- G5; technique: lip-gliss; lasts: 2 beats", "p", "high: it slides"),
    ("horn", "C4 -- C5; technique: lip-gliss; lasts: 2 beats", "c", "an octave: the partials are heard"),
    ("trumpet", "xG5 -- xC6; technique: half-valve; lasts: 2 beats", "p", "half-valve glissando"),
    ("horn", "F#4 ~~ C5 ~~ F#5; technique: harmonic-gliss; lasts: 3 beats", "p", "up the long tube"),
]
QUARTERS = [
    ("horn", "F^5, G^5, F^5, G^5, F^5, G^5, F^5, G^5; technique: quarter-tones; lasts: 8 beats", "pc", "slowly"),
    ("horn", "D^5, E5, D^5, E5, D^5, E5, D^5, E5; lasts: 1 s", "pc", "8 notes a second with their fingerings"),
    ("trumpet", "C^4; technique: quarter-tones; lasts: 2 beats", "c", "no fingering there: the lip must help"),
    ("trombone", "Bbv3, A^3, Bbv3, A^3; lasts: 4 beats", "p", "the slide has all pitches"),
]
LENGTHS = [
    ("horn", "G4; lasts: 10 s; dynamics: p", "p", "a soft long note"),
    ("horn", "G4; lasts: 30 s; dynamics: p", "c", "longer than a breath"),
    ("horn", "G4; lasts: 90 s; dynamics: f", "n", "a minute and a half of f in one breath"),
    ("tuba", "C2; lasts: 4 s; dynamics: ff", "pc", "much air"),
    ("tuba", "C2; lasts: 20 s; dynamics: ff", "cn", "nobody has so much air"),
    ("trumpet", "C5; lasts: 20 s; dynamics: p", "p", "the trumpet takes little air"),
    ("horn", "C5; technique: growl; lasts: 3 s; dynamics: f", "p", "a short growl"),
    ("horn", "C5; technique: growl; lasts: 30 s; dynamics: f", "cn", "the throat"),
    ("horn", "C5; technique: flutter-tongue; lasts: 3 s; dynamics: f", "p", "a flutter"),
    ("horn", "C5; technique: flutter-tongue; lasts: 25 s; dynamics: f", "cn", "the tongue tires"),
    ("horn", "C6; technique: flutter-tongue; lasts: 2 s; dynamics: f", "c", "least effective at the extremes"),
    ("horn", "G4; technique: flutter-tongue; lasts: 3 s; dynamics: pp", "c", "harder at low volume"),
    ("horn", "C4; technique: multiphonic; sing: E4; lasts: 3 s", "p", "sung above the played note"),
    ("horn", "C4; technique: multiphonic; sing: C3; lasts: 3 s", "pc", "sung below: men's voices"),
    ("trombone", "Bb2; technique: multiphonic; sing: A2; lasts: 3 s", "pc", "a low voice reaches A2"),
]
MUTES = [
    ("trumpet", "C5, r@1, C5@6 as muted; lasts: 8 beats; mute: straight", "p", "five seconds for a straight mute"),
    ("trumpet", "C5, r@1, C5@2 as muted; lasts: 4 beats; mute: straight", "c", "one second"),
    ("trumpet", "C5, r@1, C5@3 as muted; lasts: 5 beats; mute: cup", "c", "two seconds for a cup mute"),
    ("trumpet", "C5, r@1, C5@7 as muted; lasts: 9 beats; mute: cup", "p", "six seconds"),
    ("trumpet", "C5, r@1, C5@2 as muted; lasts: 4 beats; mute: plunger", "p", "a plunger is in the hand"),
    ("trumpet", "C5, C5@1 as muted; lasts: 2 beats; mute: straight", "c", "no time at all"),
    ("tuba", "C3; technique: muted; lasts: 2 beats", "p", "tubas have a mute"),
]
NATURAL = [
    ("natural-horn-eb", "C4, G3, C4, E4, G4, C5; lasts: 6 beats", "p", "an arpeggio"),
    ("natural-horn-d", "C4, Ab3; lasts: 2 beats", "c", "A-flat 3 by the hand"),
    ("natural-horn-d", "G2; lasts: 2 beats", "c", "Beethoven's factitious G2"),
    ("natural-horn-d", "D2; lasts: 2 beats", "n", "seven tones below partial 2"),
    ("natural-horn-eb", "C5, D5, E5, F5, G5, A5, G5; lasts: 7 beats", "p", "partials 11 and 13"),
    ("natural-horn", "Bb4, A4, G4; lasts: 3 beats", "p", "partial 7, and the hand"),
    ("natural-horn", "G6; lasts: 2 beats", "n", "partial 24"),
    ("natural-horn-eb", "C6; lasts: 2 beats; dynamics: f", "p", "partial 16, as in old parts"),
    ("natural-horn", "C4 -- D4 -- C4; technique: bend; lasts: 4 beats", "n", "a whole tone up by the lip"),
    ("natural-trumpet", "C5, D5, E5, F5, G5; lasts: 5 beats", "p", "clarino"),
    ("natural-trumpet", "D4; lasts: 2 beats", "n", "between partials 4 and 5; no hand in the bell"),
]
RANGES = [
    ("trumpet", "E6; lasts: 2 beats; dynamics: ff", "pc", "partial 10, the formal end of the range"),
    ("trumpet", "C7; lasts: 2 beats", "cn", "hardly anybody"),
    ("trombone", "C5; lasts: 2 beats", "p", "in every solo"),
    ("trombone", "C6; lasts: 2 beats", "n", "beyond"),
    ("trombone", "B1; lasts: 2 beats", "n", "the gap between E2 and the pedals"),
    ("trombone", "Bb1; lasts: 2 beats; dynamics: f", "p", "an ordinary pedal"),
    ("trombone", "Bb1; lasts: 4 s; dynamics: ff", "pc", "loud as a matter of course, but 4 litres of air"),
    ("trombone", "A1; lasts: 2 beats; dynamics: ff", "p", "Berlioz writes pedals Bb, A, G#"),
    ("bass-trombone", "Bb1; lasts: 2 beats; dynamics: ff", "p", "bass trombonists live there"),
    ("bass-trombone", "C2; lasts: 2 beats", "p", "with the trigger"),
    ("bass-trombone", "F1; lasts: 2 beats", "p", "a pedal in sixth position"),
    ("alto-trombone", "D5; lasts: 2 beats", "p", "usual"),
    ("alto-trombone", "C6; lasts: 2 beats", "cn", "beyond"),
    ("contrabass-trombone", "F1; lasts: 2 beats", "p", "usual"),
    ("tuba", "F4; lasts: 2 beats", "p", "the top of orchestral parts"),
    ("tuba", "A4; lasts: 2 beats", "c", "solo tuba"),
    ("tuba", "C5; lasts: 2 beats", "c", "the highest of solo literature"),
    ("tuba", "C6; lasts: 2 beats", "n", "beyond"),
    ("tuba-f", "C1; lasts: 2 beats", "c", "below the F tuba's first partial"),
    ("euphonium", "Bb1; lasts: 2 beats; dynamics: f", "p", "an ordinary pedal"),
    ("euphonium", "C5; lasts: 2 beats", "c", "solo"),
    ("euphonium", "G5; lasts: 2 beats", "n", "beyond"),
    ("tenor-horn", "C4, C5, G5; lasts: 3 beats", "p", "usual"),
    ("tenor-horn", "G6; lasts: 2 beats", "cn", "beyond"),
    ("baritone", "C4, C5, G5; lasts: 3 beats", "p", "usual"),
    ("wagner-tuba", "C5; lasts: 2 beats", "p", "usual"),
    ("piccolo-trumpet", "D6; lasts: 2 beats", "pc", "Bach"),
    ("bass-trumpet", "C5; lasts: 2 beats", "p", "usual"),
    ("cornet", "C6; lasts: 2 beats; dynamics: f", "p", "solos"),
    ("flugelhorn", "E6; lasts: 2 beats", "c", "the flugelhorn does not like it"),
    ("horn", "C2; lasts: 2 beats; technique: pedal; dynamics: mf", "pc", "a pedal"),
    ("horn", "C2; lasts: 2 beats; technique: pedal; dynamics: fff", "c", "it cannot be forced on the horn"),
]
LEVELS = [
    ("horn", "C6; lasts: 3 beats; dynamics: pp", "c", "top and pp"),
    ("horn", "G4; lasts: 3 beats; dynamics: pp", "p", "pp in the middle"),
    ("horn", "F#2; lasts: 3 beats; dynamics: mf", "p", "low and mf"),
    ("horn", "C6@0, C4@6; lasts: 8 beats; dynamics: pp < ff", "c", "the top at pp while it still is pp"),
    ("horn", "C4@0, C6@6; lasts: 8 beats; dynamics: pp < ff", "p", "by the time of C6 it is loud"),
    ("horn", "C4@0, C6@15/2; lasts: 8 beats; dynamics: ff > pp", "c", "by the time of C6 it is soft"),
    ("trumpet", "C5; lasts: 1/8 beat; dynamics: fp", "c", "no time for both"),
    ("trumpet", "C5; lasts: 2 beats; dynamics: fp", "p", "fp"),
    (
        "horn",
        "C5@0, C5@6; lasts: 8 beats; technique: brassy; dynamics: pp < ff",
        "c",
        "cuivré at pp, at the beginning",
    ),
    (
        "horn",
        "C5@0, C5@6 as brassy; lasts: 8 beats; dynamics: pp < fff",
        "p",
        "cuivré when it has grown loud",
    ),
    (
        "horn",
        "C5@0, C5@6 as flutter-tongue; lasts: 8 beats; dynamics: ff > pp",
        "c",
        "flutter when it has become soft",
    ),
    (
        "horn",
        "C5@0 as flutter-tongue, C5@3 as ordinary; lasts: 8 beats; dynamics: ff > pp",
        "p",
        "flutter while it is loud",
    ),
    ("horn", "C5@0, C5@6; lasts: 8 beats; technique: half-stopped; dynamics: p < mf", "p", "echo"),
    ("horn", "C5@0, C5@6; lasts: 8 beats; technique: half-stopped; dynamics: p < fff", "c", "an echo that shouts"),
]
TOGETHER = [
    ("horn", "C5; technique: stopped + flutter-tongue; lasts: 2 beats; dynamics: f", "p", "asked for often"),
    ("horn", "C5; technique: muted + flutter-tongue; lasts: 2 beats; dynamics: f", "p", "asked for often"),
    (
        "horn",
        "C5; technique: growl + flutter-tongue; lasts: 2 beats; dynamics: f",
        "cn",
        "throat and tongue at once",
    ),
    ("horn", "C5; technique: multiphonic + growl; sing: G4; lasts: 2 beats", "cn", "one voice"),
    ("horn", "C5; technique: lip-trill + flutter-tongue; lasts: 2 beats; dynamics: f", "cn", "lip and tongue"),
    ("horn", "C5; technique: single-tongue + double-tongue; attacks: 4; lasts: 2 beats", "n", "one or the other"),
    ("horn", "C5; technique: bells-up + brassy; lasts: 2 beats; dynamics: ff", "p", "Mahler"),
    ("horn", "C5; technique: bells-up + stopped; lasts: 2 beats; dynamics: ff", "cn", "the hand holds the bell up"),
    ("trombone", "F3 -- B2; technique: slide-gliss + flutter-tongue; lasts: 2 beats; dynamics: f", "p", "often"),
    ("trumpet", "C5; technique: muted + growl; lasts: 2 beats; mute: plunger; dynamics: f", "p", "of old"),
]

MORE = [
    ("horn", "C5; technique: lip-trill; lasts: 3 beats", "p", "whole-tone lip trill, classic"),
    ("horn", "G4; technique: lip-trill; lasts: 3 beats", "cn", "G4 to Bb4: too wide"),
    ("horn", "D5; technique: lip-trill; lasts: 3 beats", "p", "D5-E5"),
    ("horn", "G5; technique: lip-trill; lasts: 3 beats", "p", "close partials"),
    ("trumpet", "C4; technique: lip-trill; lasts: 2 beats", "cn", "a fifth"),
    ("trumpet", "C5; technique: valve-trill; trill: half; lasts: 2 beats", "p", "ordinary"),
    ("trombone", "F4; technique: lip-trill; lasts: 2 beats", "pc", "F4: partials 6 and 7 or on a longer tube 8-9"),
    ("trombone", "Bb2; technique: lip-trill; lasts: 2 beats", "cn", "a fifth away"),
    ("horn", "C5; technique: shake; lasts: 2 beats; dynamics: pp", "c", "a shake is loud"),
    ("horn", "C5; trill: whole; lasts: 30 s", "c", "breath"),
    ("horn", "G4; tremolo: m3; lasts: 2 beats", "pc", "valve tremolo of a third"),
    ("horn", "G4; tremolo: C6; lasts: 2 beats", "cn", "an eleventh"),
    ("trumpet", "xC5 ~~ xG5; technique: half-valve; lasts: 2 beats", "p", "half-valve"),
    ("natural-trumpet", "xC5 ~~ xG5; technique: half-valve; lasts: 2 beats", "n", "no valves"),
    ("trombone", "xF3 ~~ xBb3; technique: half-valve; lasts: 2 beats", "n", "no valves"),
    ("horn", "G4, A4, B4, C5, D5, E5, F5, G5; technique: half-valve-notes; lasts: 1 s", "c", "8 a second"),
    ("trombone", "C4 -- Bv3 -- C4; technique: slide-gliss; lasts: 2 beats", "p", "slide-gliss"),
    ("trombone-f", "F2 -- D2; technique: trigger-gliss; lasts: 2 beats", "pc", "with the trigger"),
    ("trombone-f", "C3 -- F2; technique: slide-gliss; lasts: 2 beats", "cn", "needs the trigger tube's fifth"),
    ("trombone", "Bb1 -- E1; technique: slide-gliss; lasts: 3 beats; dynamics: f", "pc", "pedal gliss"),
    ("trombone", "F3, E3, Eb3, D3, C#3, C3, B2; lasts: 1 s", "pc", "down the slide in a second"),
    ("trombone", "C3, B2, C3, B2, C3, B2, C3, B2; lasts: 1 s", "pc", "sixth to seventh 8/s"),
    ("natural-horn", "E4; technique: stopped; lasts: 2 beats", "pc", "stopped on the natural horn"),
    ("natural-horn", "B4 closed, C5@1 open; lasts: 2 beats", "p", "B4 closed"),
    ("natural-horn-c", "C6; lasts: 2 beats", "p", "partial 16 of a long tube"),
    ("natural-horn-bb-alto", "C6; lasts: 2 beats", "c", "partial 16 in B-flat alto is terribly high"),
    ("natural-horn", "C#4; lasts: 2 beats", "c", "far under partial 5"),
    ("natural-horn", "F#5; lasts: 2 beats", "p", "partial 11"),
    ("natural-horn", "D6; lasts: 2 beats; dynamics: f", "c", "partial 18"),
    ("natural-horn", "C2; lasts: 2 beats", "c", "the first partial"),
    ("trumpet", "C5 closed, C5@1/2 open; lasts: 1 beat; mute: plunger; technique: muted", "p", "wa"),
    ("trumpet", "C5; technique: wah-wah; speed: 2; mute: harmon; lasts: 2 beats", "p", "wah-wah"),
    ("trumpet", "C5; technique: stem-out; mute: harmon; lasts: 2 beats", "p", "stem-out"),
    ("horn", "C5; technique: muted; mute: stopping; lasts: 2 beats", "p", "muted"),
    ("horn", "C5 as muted, r@1, C5@2 as ordinary; lasts: 4 beats", "c", "one second"),
    ("tuba", "C2; technique: muted; lasts: 2 beats; dynamics: ff", "p", "muted"),
    ("horn", "xC4; technique: air; lasts: 8 s", "pc", "much air"),
    ("horn", "xC4; technique: air; lasts: 40 s", "cn", "air"),
    ("horn", "xC4; technique: slap-tongue; lasts: 1 beat", "p", "slap-tongue"),
    ("horn", "xC6; technique: slap-tongue; lasts: 1 beat", "c", "does not resonate"),
    ("horn", "xC4; technique: kiss; lasts: 1 beat", "p", "kiss"),
    ("trumpet", "xC4; technique: mouthpiece-alone; lasts: 2 beats", "p", "mouthpiece-alone"),
    ("horn", "C5; technique: rip; lasts: 2 beats; dynamics: f", "p", "rip"),
    ("horn", "F#2; technique: fall; lasts: 2 beats", "pc", "the pedal notes are below"),
    ("horn", "C6; technique: doit; lasts: 2 beats", "pc", "a step of room"),
    ("trumpet", "G5; technique: fall; lasts: 1 beat; dynamics: f", "p", "fall"),
    ("trumpet", "G5; technique: long-fall; lasts: 1/8 beat; dynamics: f", "c", "no time"),
    ("horn", "C5 grace, D5 grace, E5 grace, F5 grace, G5; lasts: 2 beats", "p", "C5 grace"),
    ("horn", "C3 grace, C6 grace, C4; lasts: 1/4 beat", "c", "leaps in no time"),
    ("horn", "E4; technique: multiphonic; sing: B4; lasts: 4 beats", "p", "a fifth above"),
    ("tuba", "F2; technique: multiphonic; sing: C3; lasts: 4 beats", "p", "multiphonic"),
    ("trumpet", "C5; technique: multiphonic; sing: E6; lasts: 4 beats", "cn", "soprano"),
    ("horn", "C4 __ E4 __ G4 __ C5 __ E5 __ G5 __ E5 __ C5; lasts: 1/2 s", "cp", "16 a second on partials"),
    ("tuba", "C3; attacks: 24; lasts: 4 s; technique: single-tongue", "p", "6 a second"),
    ("tuba", "C2; attacks: 40; lasts: 4 s", "pc", "double tonguing, 10 a second: the source has 12"),
    ("tuba", "C2; attacks: 80; lasts: 4 s", "nc", "20 a second low"),
    ("horn", "C5; attacks: 16; lasts: 2 s; technique: single-tongue", "c", "8 a second for two seconds"),
    ("horn", "G4 sixteenths; lasts: 4 beats", "p", "4 a second"),
    ("horn", "B1; lasts: 2 beats", "cn", "the first partial of F 2"),
    ("horn-f", "C6; lasts: 2 beats", "p", "C6"),
    ("horn-bb", "F2; lasts: 2 beats", "c", "pedal"),
    ("wagner-tuba", "G5; lasts: 2 beats", "p", "the top"),
    ("wagner-tuba", "D6; lasts: 2 beats", "cn", "D6"),
    ("wagner-tuba-f", "F2; lasts: 2 beats", "p", "F2"),
    ("cornet", "F#3; lasts: 2 beats", "p", "F#3"),
    ("trumpet-eb", "F#3; lasts: 2 beats", "p", "F#3"),
    ("contrabass-trombone", "C1; lasts: 2 beats; dynamics: f", "p", "C1"),
    ("contrabass-trombone", "C5; lasts: 2 beats", "cn", "C5"),
    ("euphonium", "C2; lasts: 2 beats", "p", "fourth valve"),
    ("tuba-bb", "Bb0; lasts: 3 s", "pc", "pedal"),
    ("tuba-f", "F4; lasts: 2 beats", "p", "F4"),
    ("tuba-f", "Bb4; lasts: 2 beats", "c", "Berlioz"),
    ("bass-trombone", "B1; lasts: 2 beats", "p", "two valves"),
    ("bass-trombone", "Bb4; lasts: 2 beats", "c", "high for a bass trombone"),
    ("bass-trombone", "C1; lasts: 2 beats", "c", "deep pedal"),
    ("trombone", "F#5; lasts: 2 beats", "cn", "F#5"),
    ("piccolo-trumpet", "A5; lasts: 2 beats; dynamics: f", "pc", "Bach's high G"),
    ("piccolo-trumpet", "G6; lasts: 2 beats; dynamics: f", "n", "sounding F7"),
]

GESTURES = [
    *ATTACKS, *BENDS, *HAND, *SLIDES, *GLISSANDI, *QUARTERS,
    *LENGTHS, *MUTES, *NATURAL, *RANGES, *LEVELS, *TOGETHER, *MORE,
]  # fmt: skip


def _passage(gesture: str, play: str, repeat: int = 1) -> str:
    return f"gesture a\n  {gesture}\npassage q\n  play: {play}\n  repeat: {repeat}"


# instrument, blocks of a file, verdicts, why
BLOCKS = [
    (
        "horn",
        _passage("technique: growl\n  contour: C5\n  lasts: 4 beats\n  dynamics: f", "a, a, a, a"),
        "c",
        "four growls of 4 s in a row",
    ),
    (
        "horn",
        _passage("technique: growl\n  contour: C5\n  lasts: 4 beats\n  dynamics: f", "a, rest 16, a, rest 16, a"),
        "p",
        "growls with long rests",
    ),
    (
        "horn",
        _passage("contour: C5, C5, C5, C5\n  lasts: 4 beats\n  dynamics: ff", "a", 32),
        "c",
        "128 s of ff without a rest",
    ),
    (
        "horn",
        _passage("contour: C5, C5, C5, C5\n  lasts: 4 beats\n  dynamics: ff", "a, rest 8", 16),
        "p",
        "ff with rests of twice the length",
    ),
    (
        "horn",
        _passage("technique: growl\n  contour: C5\n  lasts: 4 beats\n  dynamics: ff", "a", 32),
        "cn",
        "128 s of ff growl",
    ),
    ("horn", _passage("contour: C5 __ D5 __ C5 __ D5\n  lasts: 4 beats", "a", 12), "p", "a breath after each slur"),
    (
        "trumpet",
        _passage("contour: G5, G5, G5, G5\n  lasts: 4 beats\n  dynamics: ff", "a, rest 4", 6),
        "p",
        "a fanfare with rests",
    ),
    (
        "tuba",
        _passage("contour: C2 __ D2 __ E2 __ F2\n  lasts: 4 beats\n  dynamics: f", "a, rest 1", 6),
        "p",
        "a breath in every rest",
    ),
]


@pytest.mark.parametrize(("instrument", "body", "wanted", "why"), GESTURES)
def test_a_gesture(instrument: str, body: str, wanted: str, why: str) -> None:
    lines = "\n  ".join(line.strip() for line in body.split(";"))
    assert verdict(instrument, f"gesture a\n  contour: {lines}") in [VERDICTS[v] for v in wanted], why


@pytest.mark.parametrize(("instrument", "blocks", "wanted", "why"), BLOCKS)
def test_a_passage(instrument: str, blocks: str, wanted: str, why: str) -> None:
    assert verdict(instrument, blocks) in [VERDICTS[v] for v in wanted], why
