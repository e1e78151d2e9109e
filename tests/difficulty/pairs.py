"""Pairs of gestures in the order in which a professional would give them to a pupil, with the reason for each.

A gesture is a contour and further lines, separated by semicolons; an instrument other than the horn is before `|`.
"""

from __future__ import annotations

# (easier, harder, why). Written by us as players and teachers speak of them; no source orders all of these.
ORDERED: tuple[tuple[str, str, str], ...] = (
    # Techniques against plain playing: what must be learnt is harder than a height or a level that is everyday.
    ("C5; dynamics: ff", "C4; technique: multiphonic", "two lines at once against a loud note of every part"),
    ("C5; dynamics: ff", "C5; technique: lip-trill; lasts: 2 beats", "a lip trill takes years"),
    ("C5; dynamics: ff", "C4; technique: growl; lasts: 2 beats", "some players cannot growl at all"),
    ("C5; dynamics: ff", "C4; technique: split-tone; lasts: 2 beats", "the lip stays between two slots"),
    ("G5; lasts: 4 beats", "C4; technique: multiphonic; lasts: 4 beats", "a held G5 is in every solo"),
    ("G5; lasts: 4 beats", "C5; technique: lip-trill; lasts: 4 beats", "a held G5 is in every solo"),
    ("G5; lasts: 4 beats", "C4; technique: split-tone; lasts: 4 beats", "a held G5 is in every solo"),
    ("G5; lasts: 4 beats", "E4; technique: growl; lasts: 4 beats", "throat and tone together are learnt apart"),
    ("C4 __ C5, C4 __ C5", "C4; technique: multiphonic", "octave slurs are daily practice"),
    ("C4 __ C5, C4 __ C5", "C5; technique: lip-trill; lasts: 2 beats", "octave slurs are daily practice"),
    ("C4 __ C5, C4 __ C5", "C4; technique: split-tone; lasts: 2 beats", "octave slurs are daily practice"),
    ("C4, C5, C4, C5", "C4; technique: growl; lasts: 2 beats", "tongued octaves are daily practice"),
    ("G4 __ G5", "C4; technique: multiphonic; lasts: 2 beats", "the octave is practised from the second year on"),
    ("G4 __ G5", "C4; technique: split-tone; lasts: 2 beats", "the octave is practised from the second year on"),
    (
        "G4; attacks: 7; lasts: 1 s; technique: single-tongue",
        "G4; attacks: 10; lasts: 1 s; technique: double-tongue",
        "at 7 a single tongue is at ease; double tonguing at 10 must be even",
    ),
    (
        "C5 -- B4 -- C5; technique: bend; lasts: 4 beats",
        "C5; technique: lip-trill; lasts: 4 beats",
        "a semitone bend is an exercise for beginners",
    ),
    (
        "G4 -- F#4 -- G4; technique: bend; lasts: 4 beats",
        "G4; technique: split-tone; lasts: 4 beats",
        "a semitone bend is an exercise for beginners",
    ),
    (
        "G4 -- F#4 -- G4; technique: bend; lasts: 4 beats",
        "G4; technique: multiphonic; lasts: 4 beats",
        "a semitone bend is an exercise for beginners",
    ),
    (
        "A4; dynamics: f",
        "E4; technique: flutter-tongue; lasts: 2 beats",
        "a loud note in the middle is plain playing",
    ),
    ("E5", "E4; technique: stopped", "the hand stops, the fingering transposes"),
    ("D5; dynamics: f", "C5; technique: shake; lasts: 2 beats; dynamics: f", "a shake is a trill of the lip"),
    ("C5, D5, E5, F5", "F#^4, A^4; technique: quarter-tones", "a scale against fingerings of their own"),
    ("G4; lasts: 4 beats", "G4; technique: factitious; lasts: 4 beats", "a note that no harmonic supports"),
    # Height, depth and level.
    ("G4", "C5", "higher"),
    ("C5", "G5", "higher"),
    ("G5", "C6", "the end of the usual range"),
    ("C4", "C3", "an octave lower"),
    ("C3", "F#2", "the end of the usual range"),
    ("C5", "C5; dynamics: ff", "loud"),
    ("C5", "C5; dynamics: pp", "soft attacks may not speak"),
    ("G5; dynamics: mf", "G5; dynamics: pp", "high and soft"),
    ("C6; dynamics: f", "C6; dynamics: pp", "high and very soft"),
    ("C5; dynamics: p", "C5; dynamics: ppp", "softer"),
    ("E4; dynamics: mf < f", "E4; dynamics: pp < ff; lasts: 1 beat", "a wider swell"),
    ("C3", "C6", "the top costs more than the low register"),
    ("F5; lasts: 2 beats", "A5; lasts: 2 beats", "a third higher near the top"),
    ("trumpet|C5", "trumpet|A5", "higher"),
    ("trumpet|G5; dynamics: mf", "trumpet|C6; dynamics: mf", "higher"),
    ("trombone|F3", "trombone|Bb4", "higher"),
    ("tuba|C3", "tuba|C4", "higher"),
    ("euphonium|Bb3", "euphonium|Bb4", "higher"),
    # Length and breath.
    ("G4; lasts: 4 beats", "G4; lasts: 16 beats", "longer than a comfortable breath"),
    ("G4; lasts: 8 beats; dynamics: mf", "G4; lasts: 8 beats; dynamics: fff", "loud takes air"),
    ("E4, E4@6, E4@12; lasts: 18 beats", "E4 __ F4@6 __ E4@12; lasts: 18 beats", "no breath under a slur"),
    ("C4; technique: growl; lasts: 2 beats", "C4; technique: growl; lasts: 7 beats", "the throat tires"),
    (
        "E4; technique: flutter-tongue; lasts: 2 beats",
        "E4; technique: flutter-tongue; lasts: 9 beats",
        "air and lip",
    ),
    ("C4; technique: multiphonic; lasts: 2 beats", "C4; technique: multiphonic; lasts: 10 beats", "one breath"),
    # Speed of tongue and fingers.
    ("G4; attacks: 5; lasts: 1 s", "G4; attacks: 11; lasts: 1 s", "faster"),
    (
        "G4; attacks: 6; lasts: 1 s; technique: single-tongue",
        "G4; attacks: 8; lasts: 1 s; technique: single-tongue",
        "faster than a single tongue keeps up",
    ),
    (
        "G4; attacks: 8; lasts: 1 s; technique: double-tongue",
        "G4; attacks: 8; lasts: 1 s; technique: single-tongue",
        "at 8 single tonguing is at its end",
    ),
    (
        "G4; attacks: 8; lasts: 1 s; technique: double-tongue",
        "G4; attacks: 12; lasts: 1 s; technique: double-tongue",
        "faster",
    ),
    (
        "G4; attacks: 9; lasts: 1 s; technique: double-tongue",
        "C3; attacks: 9; lasts: 1 s; technique: double-tongue",
        "low notes speak late",
    ),
    ("C4 __ D4 __ E4 __ F4 __ G4; lasts: 2 s", "C4 __ D4 __ E4 __ F4 __ G4; lasts: 0.5 s", "faster"),
    ("C4, D4, E4, F4; lasts: 2 s", "C4, D4, E4, F4; lasts: 0.4 s", "faster"),
    ("C4 -- C5; technique: chromatic; lasts: 2 s", "C4 -- C5; technique: chromatic; lasts: 1 s", "faster"),
    (
        "G4; technique: split-attack; attacks: 2; lasts: 1 s",
        "G4; technique: split-attack; attacks: 5; lasts: 1 s",
        "each must be prepared",
    ),
    (
        "trombone|Bb3, A3, Bb3; lasts: 1 s; fingering: 1, 2, 1",
        "trombone|Bb3, E3, Bb3; lasts: 0.7 s; fingering: 1, 7, 1",
        "the whole slide in no time",
    ),
    (
        "trombone|F3 -- E3; technique: slide-gliss; lasts: 2 beats",
        "trombone|F3 -- B2; technique: slide-gliss; lasts: 1 s",
        "the whole slide, and quicker",
    ),
    # Leaps.
    ("C4, E4", "C4, C5", "an octave instead of a third"),
    ("C4, G4", "C4, G5", "an octave and a fifth"),
    ("C4 __ D4", "C4 __ C5", "the lip finds the octave by itself"),
    ("G4, C5, G4, C5; lasts: 4 beats", "G4, G5, G4, G5; lasts: 2 beats", "octaves, quicker"),
    ("C3, G3", "C3, C5", "two octaves"),
    # Bends, lines, glissandi.
    (
        "G4 -- F#4 -- G4; technique: bend; lasts: 4 beats",
        "G4 -- F4 -- G4; technique: bend; lasts: 4 beats",
        "wider",
    ),
    (
        "G4 -- F#4 -- G4; technique: bend; lasts: 4 beats",
        "G5 -- F#5 -- G5; technique: bend; lasts: 4 beats",
        "bends narrow with height",
    ),
    (
        "G4 ~~ C5; technique: half-valve; lasts: 4 beats",
        "G4 ~~ G5; technique: half-valve; lasts: 2 beats",
        "wider and faster",
    ),
    (
        "xG4 ~~ xD5; technique: half-valve; lasts: 4 beats",
        "G4, B4, D5, F5; technique: half-valve-notes; lasts: 4 beats",
        "vague slots, exact pitches",
    ),
    (
        "G4 ~~ C5; technique: harmonic-gliss; lasts: 2 beats",
        "G4 ~~ C5; technique: lip-gliss; lasts: 2 beats",
        "the lip must hide the slots instead of sounding them",
    ),
    (
        "G4 ~~ G5; technique: harmonic-gliss; lasts: 2 beats",
        "G4 ~~ G5; technique: oscillating-gliss; lasts: 2 beats",
        "to and fro on the way",
    ),
    (
        "C5 -- B4; technique: hand-gliss; lasts: 2 beats",
        "C5 -- Bb4; technique: hand-gliss; lasts: 1 beat",
        "wider and quicker",
    ),
    (
        "G4 ~~ C5; technique: fingered-gliss; lasts: 4 beats",
        "C4 ~~ C6; technique: fingered-gliss; lasts: 2 beats",
        "two octaves, to the top",
    ),
    (
        "trombone|F3 -- D3; technique: slide-gliss; lasts: 2 beats",
        "trombone|F3 ~~ Bb3; technique: against-the-grain; lasts: 2 beats",
        "slide and lip go opposite ways",
    ),
    ("G4 -- A4; technique: lip-gliss; lasts: 2 beats", "G4 -- D5; technique: lip-gliss; lasts: 2 beats", "wider"),
    # Edges.
    ("G4", "G4; technique: scoop", "a plain note"),
    ("G4; technique: scoop", "C5; technique: scoop", "scoops harder with height"),
    ("C5; technique: scoop", "G5; technique: scoop", "scoops harder with height"),
    ("G5; technique: scoop", "C6; technique: scoop", "scoops harder with height"),
    ("C5; technique: fall", "C5; technique: flip", "letting go against two turns"),
    ("C5; technique: short-fall", "C5; technique: long-doit", "down a little against up a long way"),
    ("C5; technique: scoop", "C5; technique: shake; lasts: 2 beats", "a bend against a rough trill"),
    ("C5; technique: fall", "C5; technique: doit", "up is harder than down"),
    (
        "trumpet|G4; technique: fall",
        "trumpet|G4; technique: shake; lasts: 2 beats",
        "letting go against a rough trill",
    ),
    ("C5; technique: doit", "C5; technique: lip-trill; lasts: 2 beats", "an edge against a trill of the lip"),
    # Trills.
    (
        "C5; technique: valve-trill; lasts: 2 beats",
        "C5; technique: lip-trill; lasts: 2 beats",
        "fingers against lip",
    ),
    (
        "C5; technique: timbre-trill; lasts: 2 beats",
        "C5; technique: lip-trill; lasts: 2 beats",
        "fingers against lip",
    ),
    (
        "C5; technique: vibrato; lasts: 2 beats",
        "C5; technique: shake; lasts: 2 beats",
        "a small movement against a wide one",
    ),
    (
        "C5; technique: valve-trill; lasts: 2 beats",
        "C5; technique: tremolo; lasts: 2 beats",
        "a step against a third",
    ),
    (
        "trumpet|C5; technique: valve-trill; lasts: 2 beats",
        "trumpet|C5; technique: shake; lasts: 2 beats",
        "fingers against lip",
    ),
    # The bell and mutes.
    ("E4", "E4; technique: muted", "a mute resists"),
    ("E4; technique: muted", "E4; technique: stopped", "a mute needs no new fingering"),
    (
        "E4; technique: stopped; lasts: 2 beats",
        "C4; technique: multiphonic; lasts: 2 beats",
        "orchestral against rare",
    ),
    (
        "C4, E4; technique: stopped; lasts: 4 beats",
        "C4 as stopped, E4 as ordinary, C4 as stopped, E4 as ordinary; lasts: 2 beats",
        "the hand goes to and fro",
    ),
    ("E4; technique: stopped", "E4; technique: stopped + flutter-tongue", "one thing more"),
    ("E4; technique: bells-up", "E4; technique: half-stopped", "arms against a tuning of its own"),
    # Noises and air: what needs no lip is easy.
    ("G4; technique: valve-clicks", "G4; technique: stopped", "fingers only"),
    ("xG4; technique: air", "G4; technique: flutter-tongue", "breath against a roll"),
    ("xG4; technique: mouthpiece-pop", "G4; technique: slap-tongue", "a palm against a stroke of the tongue"),
    ("xG4; technique: air", "G4; technique: half-stopped", "breath against tuning by ear"),
    ("xG4; technique: kiss", "G4; technique: split-tone", "a noise against two notes at once"),
    ("G4; technique: air-tone", "G4; technique: lip-trill", "a breathy tone against a trill of the lip"),
    ("G4; technique: bell-tap", "G4; technique: split-attack", "a finger against force"),
    # Together.
    ("E4; technique: flutter-tongue", "E4; technique: multiphonic + flutter-tongue", "one thing more"),
    ("E4; technique: growl", "E4; technique: growl + half-valve", "one thing more"),
    ("E4; technique: half-valve", "E4; technique: half-valve + growl", "one thing more"),
    ("C4; technique: growl", "C4; technique: multiphonic", "a rough voice against a sung pitch"),
    ("E4; technique: flutter-tongue", "E4; technique: growl", "flutter is the less taxing (Hynds)"),
    (
        "E4; technique: flutter-tongue; dynamics: f",
        "C3; technique: flutter-tongue; dynamics: f",
        "the roll breaks low notes up",
    ),
    ("E4; technique: flutter-tongue; dynamics: f", "G5; technique: flutter-tongue; dynamics: f", "higher"),
    # Natural horn.
    ("natural-horn|G4", "natural-horn|F4", "the hand makes it"),
    ("natural-horn|C5, D5, E5", "natural-horn|C5, B4, A4", "hand notes between the harmonics"),
    # Other brass.
    ("trumpet|C5; technique: muted", "trumpet|C5; technique: growl", "a mute against the throat"),
    (
        "trombone|F3; technique: flutter-tongue; dynamics: f",
        "trombone|F3; technique: multiphonic; dynamics: mf",
        "voice and lip",
    ),
    ("tuba|C3; lasts: 2 beats", "tuba|C3; technique: multiphonic; lasts: 2 beats", "voice and lip"),
    ("trumpet|G5; lasts: 2 beats", "trumpet|C5; technique: lip-trill; lasts: 2 beats", "high G is in every part"),
    # Other techniques, other instruments: a second hand's order.
    ("trombone|Bb3; lasts: 2 beats", "trombone|Bb1; lasts: 2 beats", "a pedal note against the middle"),
    (
        "trombone|Bb1; lasts: 2 beats; dynamics: f",
        "trombone|E1; lasts: 2 beats; dynamics: f",
        "the seventh pedal is the hardest",
    ),
    (
        "trombone|F3 -- B2; technique: slide-gliss; lasts: 2 beats",
        "trombone|D4; technique: lip-trill; lasts: 2 beats",
        "the trombone's own effect against a trill of the lip",
    ),
    ("trombone|F3; technique: muted", "trombone|F3; technique: growl; dynamics: f", "a mute against the throat"),
    (
        "trumpet|C5; technique: valve-trill; lasts: 2 beats",
        "trumpet|G4 ~~ C5; technique: lip-gliss; lasts: 2 beats",
        "fingers against a lip that hides the step",
    ),
    (
        "trumpet|G4; technique: fall",
        "trumpet|G5; technique: shake; lasts: 2 beats; dynamics: f",
        "an effect of the first year in a band against the lead's",
    ),
    (
        "trumpet|C5 __ D5 __ E5 __ F5 __ G5; lasts: 2 s",
        "trumpet|C5; technique: multiphonic; lasts: 2 s",
        "a scale against two lines",
    ),
    (
        "trumpet|G4; attacks: 12; lasts: 2 s; technique: single-tongue",
        "trumpet|G4; attacks: 24; lasts: 2 s; technique: triple-tongue",
        "six a second with one stroke, twelve with three",
    ),
    (
        "trumpet|F#^4; technique: quarter-tones",
        "trumpet|C^4; technique: quarter-tones",
        "a fingering of its own against the lip",
    ),
    ("tuba|C2; lasts: 2 beats; dynamics: mf", "tuba|D1; lasts: 2 beats; dynamics: f", "air, and an octave of it"),
    (
        "tuba|C3; technique: flutter-tongue; lasts: 2 beats; dynamics: f",
        "tuba|F1; technique: flutter-tongue; lasts: 2 beats; dynamics: f",
        "the roll breaks low notes up",
    ),
    ("tuba|C3, G3", "tuba|C2, C4", "two octaves"),
    (
        "euphonium|Bb3; technique: vibrato; lasts: 2 beats",
        "euphonium|Bb3; technique: lip-trill; lasts: 2 beats",
        "every solo against few players",
    ),
    (
        "G4; technique: bells-up; dynamics: ff",
        "G4; technique: half-stopped; dynamics: p",
        "arms against a tuning of its own",
    ),
    (
        "C5 as stopped, C5@1 as ordinary; lasts: 2 beats",
        "C5 -- B4; technique: hand-gliss; lasts: 2 beats",
        "two notes against a slide by the hand",
    ),
    (
        "G4 ~~ G5; technique: harmonic-gliss; lasts: 2 beats",
        "C4; technique: multiphonic; lasts: 2 beats",
        "the horn's own sweep against two lines",
    ),
    ("E4; technique: brassy; dynamics: ff", "E4; technique: growl; dynamics: f", "loud against rough"),
    (
        "natural-horn|C5, D5, E5; lasts: 3 beats",
        "natural-horn|G4, Ab4, A4; lasts: 3 beats",
        "open notes against three degrees of the hand",
    ),
    ("natural-horn|G3; lasts: 2 beats", "natural-horn|G2; lasts: 2 beats", "a partial against a factitious note"),
    ("alto-trombone|Eb4; lasts: 2 beats", "alto-trombone|Eb5; lasts: 2 beats", "an octave higher"),
    (
        "C3; lasts: 4 beats; dynamics: mf",
        "C2; technique: pedal; lasts: 4 beats; dynamics: mf",
        "a low note against the pedal an octave below",
    ),
    (
        "G4; technique: single-tongue; attacks: 4; lasts: 1 s",
        "G4; technique: split-attack; attacks: 4; lasts: 1 s",
        "each must be prepared",
    ),
    (
        "C5 __ E5 __ G5 __ E5; lasts: 4 beats",
        "C5 __ E5 __ G5 __ E5; lasts: 1/2 beat",
        "an arpeggio, eight times as fast",
    ),
    (
        "xG4; technique: air; lasts: 2 beats",
        "G4; technique: air-tone; lasts: 2 beats",
        "breath alone against breath and tone in balance",
    ),
)
