"""What can be wrong with the meaning of a file: a stable code, a rule name and a sentence for each mistake.

A code never changes and is never reused. Words in braces are filled in where the mistake is found.
"""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.diagnostics import ReadError
from gesturesmith.source import Span

RULES: dict[str, tuple[str, str]] = {
    "part-without-instrument": (
        "GS021",
        "the part {name} has no instrument: add a line such as `instrument: horn`",
    ),
    "name-of-all-parts": ("GS022", "the parts of this file have names of their own: remove `part`"),
    "play-beside-lines": (
        "GS023",
        "this passage has lines for parts, so nobody plays `play`: give it to a part, or remove it",
    ),
    "no-lines": (
        "GS024",
        "the passage {name} plays nothing: give each part that plays a line, such as `{part}: rest 4, C4 for 2`",
    ),
    "part-without-line": (
        "GS025",
        "no passage has a line for the part `{name}`: add one such as `{name}: rest 4, C4 for 2`",
    ),
    "unplayed": (
        "GS026",
        "no part plays the {kind} `{name}`, so its instrument is not known: put it in a line of a passage, such "
        "as `{part}: {name}`",
    ),
    "uneven-lines": (
        "GS027",
        "the line of {name} is {length} long and that of {other} {longest}: in bars all lines are equally long; "
        "add `rest {rest}`",
    ),
    "one-player": (
        "GS028",
        "{what} is for two players who read one line: say `players: 2` in their `part` block",
    ),
    "uneven-division": (
        "GS029",
        "divided, both play equally long: the first for {length}, the second for {other}",
    ),
    "missing-instrument": (
        "GS150",
        "missing instrument: begin the file with a line such as `instrument: horn` ({names})",
    ),
    "unknown-instrument": ("GS151", "unknown instrument {name}: {names}"),
    "unreadable-profile": ("GS152", "cannot read the instrument {path}: {why}"),
    "missing-pitches": (
        "GS153",
        "the {instrument} transposes: say `pitches: written` if the notes are those in its part, "
        "`pitches: sounding` if they are those heard",
    ),
    "unknown-technique": ("GS154", "unknown technique {name}{meant}"),
    "unknown-register": ("GS155", "the {instrument} has no register {name}: {names}, or two notes as in `G4..F5`"),
    "unknown-rule": ("GS156", "unknown rule {name}{meant}"),
    "missing-contour": ("GS157", "the gesture {name} has no notes: add a line such as `contour: G4 ~~ C5`"),
    "missing-band": (
        "GS158",
        "{height} is a height in a band, and the gesture has none: add `band: middle` or `band: G4..F5`",
    ),
    "empty-band": ("GS159", "this band is empty: give it a lower and a higher note"),
    "upside-down-band": ("GS160", "the lower note of a band comes first: write `{low}..{high}`"),
    "first-point-late": (
        "GS161",
        "the first point is always at the start: remove `@{at}`, or begin with a silence: `r, …@{at}`",
    ),
    "times-fall": (
        "GS162",
        "this {what} comes at {at}, but an earlier one at {before}: times must increase",
    ),
    "past-end": (
        "GS163",
        "this {what} comes at {at}, but the gesture lasts {length}: place it earlier or make `lasts` longer",
    ),
    "no-slot-left": (
        "GS164",
        "this {what} comes at {at}, where the gesture ends, and no time is left {whom}: place it earlier or make "
        "`lasts` longer",
    ),
    "no-length": ("GS165", "a gesture needs some length: write `lasts: 1 beat` or more"),
    "lasts-twice": (
        "GS060",
        "the points have lengths of their own, {length} in all: remove `lasts`, or every `for`",
    ),
    "bar-without-meter": (
        "GS062",
        "bar {bar}, but without a meter there are no bars: add a line such as `meter: 4/4`",
    ),
    "change-without-meter": (
        "GS065",
        "{what}, but this passage has no bars: give it a first meter, a line such as `meter: 4/4`",
    ),
    "change-mid-bar": (
        "GS066",
        "{what} comes at a bar line, and this bar has {there} of {whole} so far: put it after {rest} more, or fill "
        "the bar",
    ),
    "tempo-backwards": (
        "GS067",
        "{turn} means getting {faster}, and this one goes from {now} to {to}: write {instead}",
    ),
    "tempo-overlap": (
        "GS068",
        "the tempo is still changing here, {gone} into a change over {length}: put this after it, or shorten that",
    ),
    "nothing-there": ("GS069", "{what} comes where nothing is played {where} it: put it between what is played"),
    "too-little-after": (
        "GS072",
        "{what}, and only {there} follow: make it shorter, or add rests for the remaining beats",
    ),
    "changed-twice": ("GS073", "the same holds here already: keep one of the two"),
    "pickup-too-long": (
        "GS074",
        "a pickup of {pickup} in bars of {bar}: it is shorter than a bar, and the passage longer than it",
    ),
    "while-tempo-changes": (
        "GS075",
        "{what} {lasts} seconds, and the tempo changes meanwhile: put the change before or after it",
    ),
    "pickup-inside": (
        "GS076",
        "{name} begins with a pickup of {pickup}, after which no bar begins here: leave out its `pickup`",
    ),
    "parts-contradict": (
        "GS077",
        "{what} here, but the line of {other} says {instead} at this place: a change holds for all parts, so one "
        "of them says it",
    ),
    "too-many-changes": ("GS078", "more than {limit} changes and marks in one passage: divide it"),
    "bars-without-meter": (
        "GS061",
        "{bars} bars need a meter: add `meter: 4/4` at the top of the file, or write the length in beats",
    ),
    "dynamics-twice": (
        "GS166",
        "{level} at a point, and the gesture has `dynamics` as well: keep one of them",
    ),
    "fingering-count": (
        "GS167",
        "{given} fingerings for {points}: write one for all, or one for each, separated by commas",
    ),
    "missing-play": (
        "GS168",
        "the passage {name} plays nothing: add a line such as `play: {example}, rest 4, C4 for 2`",
    ),
    "unknown-name": ("GS169", "no gesture or passage is called {name}{meant}"),
    "exercises-played": (
        "GS170",
        "{name} is a set of exercises: a passage plays gestures and other passages only",
    ),
    "plays-itself": ("GS171", "{passage} plays {chain}: a passage cannot play itself"),
    "cannot-move": ("GS172", "{name} cannot be moved: {why}"),
    "seconds-in-bars": (
        "GS173",
        "the length of {name} is in seconds, but there are bars here ({meter}): give it in beats, or set "
        "`meter: free`",
    ),
    "too-many-events": (
        "GS174",
        "written out with its repeats {where} more than {limit} notes, rests or bars: repeat less often, or divide",
    ),
    "other-tempo": (
        "GS175",
        "{name} has {its} of its own, and this passage {ours}: music played inside a passage goes on in the "
        "passage's {key}, so give both the same or leave out the inner one",
    ),
    "missing-from": ("GS176", "the exercises {name} vary no gesture: add a line such as `from: {example}`"),
    "not-a-gesture": ("GS177", "exercises vary one gesture, and {name} {is_what}"),
    "bad-range": ("GS178", "this range gives no values: {why}"),
    "too-many-variants": (
        "GS179",
        "these lists give {count} variants, but {limit} is the most: shorten a list or widen its steps",
    ),
    "too-many-points": ("GS180", "{count} points in one contour, but {limit} is the most: divide the gesture"),
    "too-many-gestures": ("GS181", "more than {limit} {what} in one file: divide the file here"),
    "sung-line": (
        "GS182",
        "the sung line takes only pitches, times and lines; {word} belongs in the played contour",
    ),
    "height-outside-band": ("GS183", "{height} lies outside the band: heights go from 0% to 100%"),
    "cannot-vary": ("GS184", "`{key}` does not work on {name}: {why}"),
    "too-long": ("GS185", "{what} lasts {length}, but {limit} beats is the most: divide it"),
    "too-many-exercises": (
        "GS186",
        "the exercises of this file have more than {limit} notes and rests in all their variants: shorten a list, "
        "or divide the file here",
    ),
    "ends-ordinary": (
        "GS187",
        "ordinary playing cannot end: name the technique that ends, as in "
        "`without growl`, or the one that begins, as in `as growl`",
    ),
    "attacks-not-notes": ("GS188", "{given} for {what}: {instead}"),
    "trill-below": (
        "GS040",
        "{to} is not above {note}: a trill goes up; write the note above or `half`",
    ),
    "trill-of-many": (
        "GS041",
        "{to} is one note, and this gesture trills on several pitches: write an interval such as `half`",
    ),
    "trill-on-itself": ("GS042", "{technique} stays on its pitch and goes to no other note: remove `trill`"),
    "fingering-pair": ("GS044", "a second fingering is for a trill, and nothing is trilled here: write only one"),
    "trill-and-tremolo": ("GS045", "a trill or a tremolo, not both: keep one of the two"),
    "waves-nowhere": (
        "GS046",
        "`{key}` is for the waves of a vibrato, trill, shake, tremolo or wah-wah, and this gesture has none: name "
        "one in `technique`, or remove `{key}`",
    ),
    "width-nowhere": (
        "GS047",
        "{technique} has no width of its own: `width` is for `vibrato` and `shake`; remove it",
    ),
    "stem-of-other-mute": (
        "GS048",
        "{technique} is for a {mute} mute: write `mute: {mute}`, or leave the stem alone",
    ),
    "trill-nowhere": (
        "GS043",
        "there is no exact pitch to trill on: remove `trill`",
    ),
    "attacks-timed": (
        "GS189",
        "`{shape}` says when the notes come, but this one has a time of its own: remove `@{at}` or `{shape}`",
    ),
    "box-without-end": (
        "GS083",
        "the box {name} has no end: say how long it is repeated, `lasts: 20 s`, `lasts: 8 beats`, or until what, "
        '`lasts: until "the oboe enters"`',
    ),
    "box-too-short": (
        "GS084",
        "the box {name} lasts {length} and its content {cell}: make `lasts` at least twice as long as the content",
    ),
    "box-choice": ("GS085", "the box {name} {what}"),
    "box-in-bars": (
        "GS086",
        "the box {name} {what}, but there are bars here ({meter}): {instead}, or set `meter: free`",
    ),
    "box-content": ("GS087", "{name} cannot stand in a box: a box repeats gestures, pitches and rests"),
    "box-unplayed": ("GS088", "no passage plays the box {name}: add its name to a `play`"),
    "strokes-misplaced": ("GS082", "`{word}` cannot stand here: {why}"),
    "graces-on-line": (
        "GS081",
        "{given} over several points, which grace notes cannot stand before or after: write the notes out, or "
        "leave out the grace notes",
    ),
    "no-such-harmonic": ("GS070", "{why}"),
    "fingering-twice": (
        "GS071",
        "this point names its tube, {name}, and `fingering` has {how} for it: leave one out, or write `auto` there",
    ),
}


def attacks(count: int) -> str:
    return "1 attack" if count == 1 else f"{count} attacks"


def error(
    rule: str, span: Span, *, block: str | None = None, nearest: tuple[str, ...] = (), **words: object
) -> ReadError:
    """The mistake called `rule`, with its sentence filled in."""
    code, text = RULES[rule]
    return ReadError(code=code, rule=rule, span=span, message=text.format(**words), nearest=nearest, gesture=block)


def amount(value: Fraction) -> str:
    """A number in everyday notation: `2`, `2.5`, `1/3`."""
    if value.denominator == 1:
        return str(value.numerator)
    rest = value.denominator
    while rest % 2 == 0:
        rest //= 2
    while rest % 5 == 0:
        rest //= 5
    if rest == 1 and value.denominator <= 1000:
        return f"{float(value):.6g}"
    return f"{value.numerator}/{value.denominator}"


def length(value: Fraction, seconds: bool) -> str:
    """A length with its unit: `4 beats`, `1 beat`, `2.5 s`."""
    if seconds:
        return f"{amount(value)} s"
    return f"{amount(value)} beat" if value == 1 else f"{amount(value)} beats"
