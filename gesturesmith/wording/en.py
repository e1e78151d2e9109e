"""English."""

TEXTS = {
    # Headings and short words on pages.
    "heading-notes": "Performance notes",
    "heading-general": "General remarks",
    "heading-transposition": "Transposition and clefs",
    "heading-gestures": "Gestures",
    "heading-passages": "Passages",
    "heading-cautions": "Cautions",
    "heading-remarks": "Remarks",
    "group-motion": "Movement of the pitch",
    "group-edge": "Beginnings and ends of notes",
    "group-valves": "Valves",
    "group-valves-slide": "Slide",
    "group-valves-single": "Harmonics",
    "group-valves-both": "Valves and slide",
    "group-bell": "At the bell",
    "group-mouth": "Lips, tongue and voice",
    "group-attack": "Attacks",
    "group-heads": "Noteheads",
    "group-lines": "Lines",
    "group-pitch": "Pitch",
    "group-time": "Time and dynamics",
    "group-breath": "Breath and voice",
    "page-of": "page {page} of {pages}",
    "seconds": "s",
    "beat": "beat",
    "beats": "beats",
    "quarter": "quarter",
    "quarters": "quarters",
    "warm-up": "Warm-up",
    "preparation": "Preparation",
    "rest-after": "rest {seconds} s",
    "chart-fingering-slide": "Slide positions",
    "chart-fingering-single": "Harmonics and hand notes",
    "chart-ladders-slide": "Harmonics of every slide position",
    "chart-ladders-single": "Harmonics",
    "map-unpitched": "Without pitch, and so in any register: {techniques}.",
    "map-rare": "Only with a mute that is rarely made for it: {techniques}.",
    "map-missing": "Not on this instrument: {techniques}.",
    "chart-fingering": "Fingering chart",
    "chart-quarter-tones": "Quarter tones",
    "chart-ladders": "Harmonics of every fingering",
    "chart-map": "Techniques and registers",
    "chart-fingering-legend-valves": (
        "Below each note is the usual fingering and, smaller, others that are in tune. 0 means no valve."
    ),
    "chart-fingering-legend-slide": (
        "Below each note is the usual slide position and, smaller, others that are in tune."
    ),
    "chart-fingering-legend-single": (
        "Below each note is the number of its harmonic; + means that the hand in the bell lowers it to the note, "
        "o that opening the hand raises it."
    ),
    "chart-quarter-tones-legend-valves": (
        "Below each note are its fingering and what brings it into tune, or in parentheses its error in cents (+ "
        "is sharp); smaller, others that are in tune."
    ),
    "chart-quarter-tones-legend-slide": (
        "Below each note are its slide position and what brings it into tune, or in parentheses its error in "
        "cents (+ is sharp); smaller, others that are in tune."
    ),
    "chart-quarter-tones-legend-single": (
        "Below each note are the number of its harmonic and what brings it into tune, or in parentheses its error "
        "in cents (+ is sharp)."
    ),
    "chart-fingering-tube": "Harmonics",
    "chart-fingering-legend-tube": "Below each note is the number of its harmonic.",
    "chart-quarter-tones-legend-tube": (
        "Below each note are the number of its harmonic and what brings it into tune, or in parentheses its error "
        "in cents (+ is sharp)."
    ),
    "chart-attachments": "The note named before a position is the first harmonic of the tube with its valves.",
    "chart-trigger": "T is the trigger.",
    "chart-triggers": "T is the trigger, TT both triggers together.",
    "chart-care": "Notes with black heads are insecure.",
    "chart-missing": "No fingering gives the notes in parentheses.",
    "chart-missing-slide": "No slide position gives the notes in parentheses.",
    "chart-sides": "F is the F side of the horn, Bb its B-flat side, with the thumb valve.",
    "chart-in-and-out": "Short means a little further in than the position, long a little further out.",
    "chart-corrected": "The number after {means} says by how many cents it brings the note up (+) or down (−).",
    "chart-or": "or",
    "chart-ladders-legend": (
        "Below each note are the number of the harmonic and its difference from equal temperament in cents (+ is "
        "sharp). Black heads are more than {cents} cents off; notes in parentheses lie outside the usual "
        "range."
    ),
    "correction-lip": "lip",
    "correction-slide": "slide",
    "correction-hand": "hand",
    "try-out": "Try-out sheet",
    "try-out-how": (
        "Play each line warmed up, once or twice, and tick what is true of you today: fine means you "
        "would play it so in a concert, with care that it needs preparation or luck, no that it does not "
        "go. Stop where it hurts. Leave out what you like; there is no good or bad answer."
    ),
    "try-out-player": "Player",
    "try-out-date": "Date",
    "answer-fine": "fine",
    "answer-care": "with care",
    "answer-no": "no",
    "cool-down": "Cool-down",
    "plain-first": "Play each line once without the technique, then as written.",
    "term": "Term",
    "term-week": "Week",
    "term-date": "From",
    "term-new": "New",
    "term-tempi": "Tempo",
    "term-title": "Week {week}",
    "term-new-line": "new",
    "term-from": "from week {week}",
    "term-again": "once more, from week {week}",
    "term-more": "{techniques}: more lines",
    "term-revision": "What was learnt, once more",
    "term-no-lesson": "no lesson",
    "term-minutes": "Practice: {minutes} minutes a week, a little every day.",
    "term-braces": "With braces: short turns, light pressure, and a pause as soon as it hurts.",
    "term-how": (
        "One page a week. Play each line at the slowest tempo, tick it when it goes well, then take the next."
    ),
    "level": "Level {level}",
    "players-a2": "a 2",
    "players-first": "1.",
    "players-second": "2.",
    "times": "{count} times",
    "choose-one": "choose one",
    "choose-any-order": "any order",
    "pace-as-fast-as-possible": "as fast as possible",
    "pace-irregular": "irregular",
    "until-cue": "until “{cue}”",
    "until-cue-within": "until “{cue}”, within {length}",
    "unmeasured": "as fast as possible",
    "measured": "measured",
    "said-of": "{titles}: {text}",
    "see-note": "{title}: see note {number}.",
    "see-notes": "The numbers above the notes refer to the performance notes.",
    # Mutes and registers, as in the words above a staff.
    "mute-straight": "straight",
    "mute-stopping": "stopping",
    "mute-cup": "cup",
    "mute-harmon": "harmon",
    "mute-plunger": "plunger",
    "mute-bucket": "bucket",
    "mute-practice": "practice",
    "mute-glass": "glass",
    "mute-cloth": "cloth",
    "register-low": "low register",
    "register-middle": "middle register",
    "register-high": "high register",
    "register-top": "top register",
    # Names of signs, as headings of their remarks.
    "sign-approximate": "Approximate pitch",
    "sign-highest": "Highest note",
    "sign-lowest": "Lowest note",
    "sign-slash-head": "Rhythm only",
    "sign-diamond-head": "Diamond-shaped head",
    "sign-stops": "Where a line stops",
    "sign-stemless": "Point on a line",
    "sign-small-start": "Small head at the start",
    "sign-wavy": "Wavy line",
    "sign-growing": "Growing waves",
    "sign-fading": "Fading waves",
    "sign-straight": "Straight line",
    "sign-arrow": "Line with an arrow",
    "sign-broken": "Broken line",
    "sign-dotted": "Dotted line",
    "sign-gradual": "Gradual change",
    "sign-band": "Register band",
    "sign-lines": "Three lines",
    "sign-quarter-tones-stein": "Quarter-tone accidentals",
    "sign-quarter-tones-arrows": "Quarter-tone accidentals",
    "sign-eighth-tones": "Eighth-tone accidentals",
    "sign-second-note": "Second note in parentheses",
    "sign-cents": "Cents",
    "sign-seconds": "Free time",
    "sign-beats": "Length in beats",
    "sign-strokes": "Strokes through a stem",
    "sign-unmeasured": "Unmeasured repetition",
    "sign-graces": "Grace notes",
    "sign-graces-after": "Grace notes at the end",
    "sign-accelerating": "Getting faster",
    "sign-slowing": "Getting slower",
    "sign-niente": "From nothing, to nothing",
    "sign-ad-lib": "Ad lib.",
    "sign-syllable": "Syllable",
    "sign-breathing": "Breathing in and out",
    # The meaning of signs; a page prints those it uses.
    "remark-approximate": (
        "Notes with x-shaped heads have approximate pitches. Play near the height shown; the shape of the gesture "
        "matters more than individual pitches."
    ),
    "remark-exact": "Notes with ordinary heads have exact pitches.",
    "remark-slash-head": "Notes with slashed heads have a rhythm only; their pitch is free.",
    "remark-diamond-head": "Diamond-shaped heads show the fingering, not a full tone.",
    "remark-diamond-head-slide": "Diamond-shaped heads show the slide position, not a full tone.",
    "remark-diamond-head-single": "Diamond-shaped heads show the height, not a full tone.",
    "remark-wavy": (
        "A wavy line is the contour of the gesture: follow it through its points, at their times. Only this line "
        "is wavy."
    ),
    "remark-growing": "Where the waves of a line grow, move around it more and more freely.",
    "remark-fading": "Where the waves of a line fade, become steadier until the line is smooth.",
    "remark-straight": "A straight line is an even slide from one note to the next.",
    "remark-arrow": "A line with an arrow is an even slide that leads to the note at its end.",
    "remark-broken": "A broken line is a movement that is suggested rather than played out.",
    "remark-dotted": "A dotted line is a movement that is barely perceptible.",
    "remark-stops": (
        "A small head in brackets shows the pitch where a line stops. Reach it at that moment and do not attack it."
    ),
    "remark-stemless": "A head without a stem on a line is a point that the line passes at that time.",
    "remark-small-start": "Play a small head at the start of a line as briefly as you like.",
    "remark-partials": "Small heads along a line are the harmonics that it passes; they have no exact rhythm.",
    "remark-band": (
        "A grey band with thin lines at its edges is the register in which to play. Pitches inside it are "
        "approximate, in proportion to their height in the band."
    ),
    "remark-lines": (
        "Three lines give no pitches: they stand for low, middle and high in the register that is named."
    ),
    "remark-highest": "A triangle pointing up is the highest note you can play.",
    "remark-lowest": "A triangle pointing down is the lowest note you can play.",
    "remark-quarter-tones-stein": (
        "Quarter tones have their own accidentals: a sharp with one vertical stroke raises by a quarter tone, one "
        "with three by three quarters; a reversed flat lowers by a quarter tone, a reversed and an ordinary flat "
        "together by three quarters."
    ),
    "remark-quarter-tones-arrows": (
        "An arrow on an accidental raises or lowers by a quarter tone, according to its direction."
    ),
    "remark-eighth-tones": (
        "An arrow on an accidental raises or lowers by an eighth of a tone (25 cents), according to its direction."
    ),
    "remark-second-note": "A small head in parentheses after a note is the other note of its trill or shake.",
    "remark-cents": (
        "Signed numbers above a note are cents, as a tuner shows them: the distance from the nearest note of "
        "equal temperament, which is named if it is not the written note. A hundred cents make a semitone."
    ),
    "remark-accidentals-note": "Each accidental applies only to the note it precedes.",
    "remark-accidentals-bar": "Accidentals apply for the whole bar, in their own octave.",
    "remark-accidentals-both": (
        "Where there are bar lines, accidentals apply for the whole bar, in their own octave; elsewhere each "
        "applies only to the note it precedes."
    ),
    "remark-fingerings": (
        "A fingering below a note replaces the usual one: first the side of the horn, then the valves."
    ),
    "remark-fingerings-valves": "A fingering below a note replaces the usual one.",
    "remark-positions": "A slide position below a note replaces the usual one.",
    "remark-seconds": (
        "Gestures under a bracket with a number of seconds are in free time: the spacing shows the time, left to "
        "right, and nothing is counted. A rest lasts as long as its space."
    ),
    "remark-beats": (
        "Gestures under a bracket with a number of beats last that long; they have no note values, and "
        "the spacing shows the time, left to right."
    ),
    "remark-box": (
        "Repeat what is in a box, in your own time, for as long as the line with the arrow says; then "
        "go on at once, wherever you are. Where there are several boxes, the words say how to choose."
    ),
    "remark-strokes": (
        "Repeat the note in the values that the strokes through its stem stand for: one stroke eighths, "
        "two sixteenths, three thirty-seconds."
    ),
    "remark-unmeasured": (
        "With these words, three strokes through a stem mean repeating the note as fast as possible, in "
        "no fixed rhythm."
    ),
    "remark-graces": (
        "Play small notes with a stroke through the stem as quickly as possible, just before the note they lead to."
    ),
    "remark-graces-after": "Small notes after a note come at the very end of its time.",
    "remark-accelerating": "A beam that fans out from one line to several means getting faster.",
    "remark-slowing": "Beams that close from several lines to one mean getting slower.",
    "remark-niente": "A circle at the end of a hairpin means from nothing, or to nothing.",
    "remark-ad-lib": (
        "From “ad lib.” on, the contour is only a suggestion: draw one of your own, within about the "
        "same heights and time."
    ),
    "remark-syllable": (
        "A syllable below a note or rest is spoken or breathed there, its sounds as in your own language: "
        "shape the air and the attack with it. Below a rest, say it away from the instrument."
    ),
    "remark-breathing": (
        "An arrow to a short upright line, which stands for the lips, means to breathe in audibly; an arrow "
        "away from it, to breathe out. Over a note with air only the air goes through the instrument, over "
        "a rest it does not."
    ),
    "remark-words": (
        "A word above the staff applies until it is cancelled, and is repeated at the beginning of a system; a "
        "word with a dashed line applies as far as the hook at the end of the line."
    ),
    "remark-gradual": "Two words or signs with an arrow between them are a gradual change from one to the other.",
    # Transposition and clefs.
    "transposition-lower": "{instrument}: the part sounds {interval} lower than written.",
    "transposition-higher": "{instrument}: the part sounds {interval} higher than written.",
    "transposition-none": "{instrument}: the part sounds as written.",
    "score-sounding": "This is a score in C: all pitches are written as they sound.",
    "score-written": "This is a transposed score: each line is written as in its part.",
    "score": "Score",
    "clef-horn-bass": (
        "The bass clef is used in the new way: it transposes by the same interval as the treble clef."
    ),
    "interval-m2": "a minor second",
    "interval-M2": "a major second",
    "interval-m3": "a minor third",
    "interval-M3": "a major third",
    "interval-P4": "a perfect fourth",
    "interval-A4": "an augmented fourth",
    "interval-d5": "a diminished fifth",
    "interval-P5": "a perfect fifth",
    "interval-m6": "a minor sixth",
    "interval-M6": "a major sixth",
    "interval-m7": "a minor seventh",
    "interval-M7": "a major seventh",
    "interval-P8": "an octave",
    "interval-m9": "a minor ninth",
    "interval-M9": "a major ninth",
    "interval-P15": "two octaves",
    # Cautions; the player decides.
    "caution-decide": "You and your teacher decide what is good for you; you may always play an easier version.",
    "caution-tiring": (
        "Some of these techniques tire the lips. Warm up first, practise them briefly and with rests, take the "
        "mouthpiece off the lips in the rests, and stop at any pain or numbness."
    ),
    "caution-loud": (
        "Some of these techniques are loud. Use hearing protection, keep away from other players’ bells, keep "
        "rehearsals of them short, and follow the local rules on noise exposure."
    ),
    "caution-flutter": (
        "Flutter-tonguing shakes the lips: practise it briefly and with rests, and play some plain long notes "
        "after it."
    ),
    "caution-growl": (
        "Growling strains the throat: practise it briefly and with rests, and stop if your throat hurts or you "
        "become hoarse."
    ),
    "caution-voice": "Sing lightly, and stop if your throat hurts or you become hoarse.",
    "caution-lip": (
        "This works against the lips: prepare it softly, practise it briefly and with rests, and do not press the "
        "mouthpiece harder to force it."
    ),
    "caution-pop": (
        "Strike lightly: a hard blow jams the mouthpiece in the instrument. Keep the instrument away from your "
        "teeth while you do it."
    ),
    # Drafts, and what is left out.
    "draft": "DRAFT",
    "draft-notice": "Draft, not for performance: the following is not playable as written, or is insecure.",
    "verdict-playable": "playable",
    "verdict-with-care": "with care",
    "verdict-not-as-written": "not as written",
    "draft-more": "and {count} more: the check lists them all",
    "refused-gesture": "“{title}” is left out here because it cannot be played as written.",
    "unread-gesture": "“{title}” is missing here: its text, or that of something it plays, could not be read.",
    # A gesture in words, for those who cannot see the page.
    "decimal": ".",
    "say-gesture": "{title}: {techniques}, {length}.",
    "say-passage": "{title}: passage in {meter}, {length}: {items}.",
    "say-free-meter": "free meter",
    "say-beat": "{number} beat",
    "say-beats": "{number} beats",
    "say-seconds": "{number} seconds",
    "say-point": "{point} at {time}",
    "say-about": "about {pitch}",
    "say-percent": "{number} % of the register",
    "say-highest": "the highest possible note",
    "say-lowest": "the lowest possible note",
    "say-silence": "silence",
    "say-as": "as {technique}",
    "say-without": "without {technique}",
    "say-straight": "in a straight slide to {point}",
    "say-wavy": "along a wavy line to {point}",
    "say-broken": "along a broken line to {point}",
    "say-dotted": "along a dotted line to {point}",
    "say-arrow": "along an arrow to {point}",
    "say-slur": "slurred to {point}",
    "say-none": "then {point}",
    "say-growing": "growing",
    "say-fading": "fading",
    "say-accent": "accent",
    "say-staccato": "staccato",
    "say-tenuto": "tenuto",
    "say-marcato": "marcato",
    "say-fermata": "fermata",
    "say-breath": "breath",
    "say-box": "in a box: {items}; repeated for {length}",
    "say-box-cue": "in a box: {items}; repeated until “{cue}”",
    "say-eighths": "{point}, repeated in eighths",
    "say-sixteenths": "{point}, repeated in sixteenths",
    "say-thirty-seconds": "{point}, repeated in thirty-seconds",
    "say-unmeasured": "{point}, repeated as fast as possible",
    "say-graces-before": "{point}, grace notes before it: {notes}",
    "say-graces-after": "{point}, grace notes after it: {notes}",
    "say-inhale": "breathing in",
    "say-exhale": "breathing out",
    "say-open": "open",
    "say-trill": "trilled with {pitch}",
    "say-words": "with the words “{text}”",
    "say-syllable": "on the syllable “{text}”",
    "say-attacks": "{count} attacks.",
    "say-attacks-accelerating": "{count} attacks, getting faster.",
    "say-attacks-slowing": "{count} attacks, getting slower.",
    "say-speed": "Speed {course}.",
    "say-width": "Width {course}.",
    "wave-slow": "slow",
    "wave-medium": "medium",
    "wave-fast": "fast",
    "wave-narrow": "narrow",
    "wave-wide": "wide",
    "wave-per-second": "{number} a second",
    "wave-course-to": "to {next}",
    "wave-course-then": "then {next}",
    "say-dynamics": "Dynamics {levels}.",
    "say-swell": "growing to {level}",
    "say-fade": "fading to {level}",
    "say-then": "then {level}",
    "say-niente": "niente",
    "say-rest": "rest for {length}",
    "say-note": "{pitch} for {length}",
    "say-rest-held": "rest for {length}, fermata",
    "say-pickup": "pickup of {length}",
    "say-key": "key of {name}",
    "say-no-key": "no key signature",
    "say-major": "{tonic} major",
    "say-minor": "{tonic} minor",
    "say-tempo": "tempo {number}",
    "say-tempo-words": "“{words}”, tempo {number}",
    "say-accelerando": "from here faster up to tempo {number} over {length}",
    "say-ritardando": "from here slower down to tempo {number} over {length}",
    "say-meter": "meter {meter}",
    "say-mark": "rehearsal mark {mark}",
    "say-double-bar": "double bar line",
}
