"""Hypothesis strategies for gesture files, as composers may type them.

`gesture_files()` gives text that reads without an error, with every freedom the language allows: white space, line
ends, signs, quotes, comments, continued values, order of keys. `broken_files()` damages such a file.
"""

from __future__ import annotations

from hypothesis import strategies as st

from gesturesmith.lang.words import LEVELS, MARKS, MUTES, NOTEHEADS, ORDERS

type Tokens = list[str]

TECHNIQUES = ("ordinary", "bend", "half-valve", "harmonic-gliss", "flutter-tongue", "stopped", "air", "scoop")
NAMES = ("a", "beacon", "knocks-2", "rise", "fog-horn-b", "g1", "Über-Ton", "x", "n", "t2-3a")
_WORDS = st.text(alphabet='ab Ñü#:,.-~"“”„«»\\♯\t', max_size=12)
_OPEN = {'"': '"', "“": "”", "„": "“", "«": "»"}


@st.composite
def texts(draw: st.DrawFn) -> str:
    """A quoted text, in any of the pairs of quotes."""
    sign = draw(st.sampled_from(list(_OPEN)))
    inner = draw(_WORDS).replace("\\", "\\\\").replace('"', '\\"')
    if sign != '"':
        inner = inner.replace(_OPEN[sign], "")
    return f"{sign}{inner}{_OPEN[sign]}"


def wholes(least: int = 1, most: int = 12) -> st.SearchStrategy[str]:
    """A whole number as text."""
    return st.integers(least, most).map(str)


@st.composite
def numbers(draw: st.DrawFn, least: int = 1) -> str:
    """A number in one of its three forms."""
    whole = draw(st.integers(least, 16))
    form = draw(st.sampled_from(("", ".5", ".25", "/2", "/3")))
    return f"{whole}{form}"


@st.composite
def notes(draw: st.DrawFn, *, plain: bool = False) -> str:
    """A note; with an x or with cents unless `plain`."""
    signs = (
        "",
        "#",
        "b",
        "##",
        "bb",
        "^",
        "v",
        "#^",
        "/",
        "b\\",
        "bv",
        "#v",
        "b^",
        "♯",
        "♭",
        "♮",
        "𝄲",
        "𝄳",
        "♯𝄲",
        "♭𝄳",
        "𝄪",
        "𝄫",
    )
    letter, octave = draw(st.sampled_from("ABCDEFG")), draw(st.integers(0, 9))
    name = f"{letter}{draw(st.sampled_from(signs))}{octave}"
    extra = "" if plain else draw(st.sampled_from(("", "", "x", "c")))
    if extra == "x":
        return f"x{name}"
    return f"{name}{draw(st.sampled_from('+-−'))}{draw(st.integers(0, 60))}c" if extra else name


@st.composite
def bands(draw: st.DrawFn) -> Tokens:
    """A register, or two pitches, the lower first."""
    if draw(st.booleans()):
        return [draw(st.sampled_from(("low", "middle", "high", "top")))]
    low, high = draw(st.integers(0, 4)), draw(st.integers(6, 9))
    sign = draw(st.sampled_from(("", "#", "b", "^")))
    return [f"{draw(st.sampled_from('ABCDEFG'))}{sign}{low}", "..", f"{draw(st.sampled_from('ABCDEFG'))}{high}"]


@st.composite
def points(draw: st.DrawFn) -> Tokens:
    """A sounding point, with everything that may follow it in any order."""
    heights = ("low", "mid", "high", "35%", "12.5%", "1/3%", "highest", "lowest")
    head = draw(st.one_of(notes(), st.sampled_from(heights)))
    after: list[Tokens] = []
    if draw(st.booleans()):
        after.append([f"@{draw(numbers(0))}"])
    if draw(st.integers(0, 3)) == 0:
        after.append(["as", draw(st.sampled_from(TECHNIQUES))])
    if draw(st.integers(0, 3)) == 0:
        after.append([draw(st.sampled_from(LEVELS))])
    marks = st.lists(st.sampled_from([m for m in MARKS if m != "exhale"]), unique=True, max_size=2)
    after += [[m] for m in draw(marks)]
    after += draw(
        st.sampled_from(
            ([], [['"inside"']], [["say", '"sh"']], [["half-closed"]], [["open"]], [['"a \\" b"'], ["say", '"f"']])
        )
    )
    return [head] + [token for part in draw(st.permutations(after)) for token in part]


@st.composite
def contours(draw: st.DrawFn) -> Tokens:
    """Points and lines; next to a silence only commas."""
    tokens = draw(points())
    for _ in range(draw(st.integers(0, 4))):
        if draw(st.integers(0, 4)) == 0:
            tokens += [
                ",",
                "r",
                *draw(st.sampled_from(([], ["fermata"], ["@5/2"], ["inhale", "say", '"ha"']))),
                ",",
                *draw(points()),
            ]
            continue
        line = draw(st.sampled_from(("--", "~~", "::", "..", "->", "__", ",", "–", "—", "→")))
        growth = draw(st.sampled_from(([], ["growing"], ["fading"]))) if line == "~~" else []
        tokens += [line, *growth, *draw(points())]
    return tokens


@st.composite
def dynamics(draw: st.DrawFn) -> Tokens:
    """Levels with places and hairpins."""
    tokens: Tokens = []
    for i in range(draw(st.integers(1, 4))):
        if i and draw(st.booleans()):
            tokens.append(draw(st.sampled_from("<>")))
        tokens.append(draw(st.sampled_from(LEVELS)))
        if draw(st.booleans()):
            tokens.append(f"@{draw(numbers(0))}")
    return tokens


@st.composite
def fingerings(draw: st.DrawFn) -> Tokens:
    """One fingering or several."""
    if draw(st.booleans()):
        return [draw(st.sampled_from(("auto", "held")))]
    tokens: Tokens = []
    for i in range(draw(st.integers(1, 3))):
        tokens += [","] if i else []
        tokens += draw(st.sampled_from(([], ["F"], ["Bb"], ["B♭"], ["T"], ["short"], ["long"], ["T", "short"])))
        tokens.append(draw(st.sampled_from(("0", "1", "1-2", "1-2-3", "2–3", "6"))))
    return tokens


def _tokens(*strategies: st.SearchStrategy[str] | str) -> st.SearchStrategy[Tokens]:
    return st.tuples(*(st.just(s) if isinstance(s, str) else s for s in strategies)).map(list)


def _separated(item: st.SearchStrategy[Tokens]) -> st.SearchStrategy[Tokens]:
    """One to three items with commas between."""

    def join(items: list[Tokens]) -> Tokens:
        tokens = items[0]
        for more in items[1:]:
            tokens = [*tokens, ",", *more]
        return tokens

    return st.lists(item, min_size=1, max_size=3).map(join)


def plays(names: tuple[str, ...]) -> st.SearchStrategy[Tokens]:
    """The items of a passage, from gestures called `names`."""
    move = st.sampled_from(([], ["up", "2"], ["down", "P5"], ["up", "A4"], ["up", "M2"]))
    name = st.sampled_from(names)
    item = st.one_of(
        st.tuples(name, move).map(lambda pair: [pair[0], *pair[1]]),
        _tokens("rest", numbers()),
        _tokens("rest", numbers(), "beats"),
        _tokens(notes(), "for", numbers(), st.sampled_from((*LEVELS, *MARKS))),
        _tokens(notes(), "tenuto", "for", numbers(), "beat", "as", "air"),
        _tokens(notes(), "say", '"f"', "for", numbers(), '"away"'),
    )
    return _separated(item)


_TEXT = st.one_of(_tokens(texts()), st.tuples(texts(), texts()).map(lambda pair: [pair[0], "\n", pair[1]]))
_METER = st.sampled_from((["4/4"], ["3/8"], ["free"], ["7/16"]))
_TEMPO = st.one_of(_tokens(wholes(20, 300)), _tokens(texts(), wholes(20, 300)), _tokens("66.5"))
_WHOLE = _tokens(wholes())
_UNIT = st.sampled_from(("beat", "beats", "s"))

SETTINGS: dict[str, st.SearchStrategy[Tokens]] = {
    "language": st.just(["1"]),
    "tempo": _TEMPO,
    "title": _TEXT,
    "subtitle": _TEXT,
    "composer": _TEXT,
    "part": _TEXT,
    "wording": st.sampled_from((["en"], ["de", ",", "fr"])),
    "words": st.sampled_from((["international"], ["language"])),
    "meter": _METER,
    "heights": st.sampled_from((["auto"], ["band"], ["lines"])),
    "accidentals": st.sampled_from((["stein"], ["arrows"])),
    "fingerings": st.sampled_from((["needed"], ["all"], ["none"])),
    "paper": st.sampled_from((["a4"], ["A4"], ["letter"], ["210", "x", "297", "mm"], ["230", "×", "310.5"])),
    "staff": st.sampled_from((["7"], ["6.5", "mm"])),
}
GESTURE: dict[str, st.SearchStrategy[Tokens]] = {
    "technique": st.one_of(
        _tokens(st.sampled_from(TECHNIQUES)), _tokens(st.sampled_from(TECHNIQUES), "+", st.sampled_from(TECHNIQUES))
    ),
    "band": bands(),
    "lasts": _tokens(numbers(), _UNIT),
    "dynamics": dynamics(),
    "attacks": st.one_of(_WHOLE, _tokens(wholes(), st.sampled_from(("accelerating", "slowing")))),
    "fingering": fingerings(),
    "mute": _tokens(st.sampled_from(MUTES)),
    "sing": contours(),
    "fallback": _tokens(st.sampled_from(TECHNIQUES)),
    "text": _TEXT,
    "footnote": _TEXT,
    "note": _TEXT,
    "notehead": _tokens(st.sampled_from(NOTEHEADS)),
}
EXERCISES: dict[str, st.SearchStrategy[Tokens]] = {
    "start": st.one_of(_separated(_tokens(notes(plain=True))), st.just(["G4", "..", "C5", "by", "1"])),
    "lasts": st.one_of(
        _separated(_tokens(numbers())).map(lambda t: [*t, "beats"]), st.just(["8", "..", "4", "by", "1/2", "beats"])
    ),
    "tempo": st.one_of(_separated(_tokens(wholes(20, 300))), st.just(["60", "..", "84", "by", "4"])),
    "dynamics": _separated(dynamics()),
    "band": _separated(bands()),
    "stretch": _separated(_tokens(numbers())),
    "mirror": st.sampled_from((["yes"], ["no"])),
    "order": st.sampled_from([o.split() for o in ORDERS]),
    "keep": st.sampled_from((["12"], ["all"], ["one", "page"])),
    "times": _WHOLE,
    "fingerings": st.just(["all"]),
    "meter": _METER,
    "instruction": _TEXT,
}

_COMMENTS = ("", "", "  # a comment", '\t# F#4, "quoted', "   #", "  ")
_GLUED = (",", "--", "~~", "::", "->", "__", "–", "—", "→", "<", ">", "+")


@st.composite
def _value(draw: st.DrawFn, tokens: Tokens, deeper: str, contour: bool) -> str:
    """Tokens with white space in between, sometimes continued on the next line."""
    text = ""
    for i, token in enumerate(tokens):
        if token == "\n":
            continue
        before = tokens[i - 1] if i else ""
        if before == "\n" or (before and draw(st.integers(0, 9)) == 0):
            text += draw(st.sampled_from(_COMMENTS)) + f"\n{deeper}"
        elif (
            before in _GLUED
            or token in _GLUED
            or token.startswith("@")
            or (".." in (before, token) and not contour)
        ):
            text += draw(st.sampled_from(("", " ", "  ", "\u00a0")))
        elif before:
            text += draw(st.sampled_from((" ", "  ", "\t", "\u00a0 ", "\u202f")))
        text += token
    return text


@st.composite
def _lines(draw: st.DrawFn, keys: dict[str, Tokens], indent: str, unit: str) -> list[str]:
    """`key: value` lines in any order, each perhaps with comments and empty lines around."""
    lines = []
    for key in draw(st.permutations(list(keys))):
        deeper = indent + unit * draw(st.integers(1, 2))
        value = draw(_value(keys[key], deeper, key in ("contour", "sing")))
        if draw(st.integers(0, 9)) == 0:
            value = f"\n{deeper}{value}"
        colon = draw(st.sampled_from((": ", ":", " : ", ":\t")))
        lines.append(f"{indent}{key}{colon}{value}{draw(st.sampled_from(_COMMENTS))}")
        lines += draw(st.sampled_from(([], [], [""], ["  "], ["# margin"], [f"{indent}# here"])))
    return lines


def _some(keys: dict[str, st.SearchStrategy[Tokens]], most: int) -> st.SearchStrategy[dict[str, Tokens]]:
    """Values for up to `most` of `keys`."""
    chosen = st.lists(st.sampled_from(list(keys)), unique=True, max_size=most)
    return chosen.flatmap(lambda names: st.fixed_dictionaries({n: keys[n] for n in names}))


@st.composite
def _block(draw: st.DrawFn, kind: str, name: str, names: tuple[str, ...], unit: str) -> list[str]:
    title = draw(st.sampled_from(("", ' "Title"', " “Titel”  # with a comment")))
    if kind == "gesture":
        keys = {"contour": draw(contours()), **draw(_some(GESTURE, 5))}
    elif kind == "passage":
        keys = {"play": draw(plays(names)), **draw(_some({"repeat": _WHOLE, "tempo": _TEMPO, "meter": _METER}, 2))}
    else:
        keys = {"from": [names[0]], **draw(_some(EXERCISES, 5))}
    lines = [f"{kind} {name}{title}", *draw(_lines(keys, unit, unit))]
    if kind == "gesture":
        lines += draw(st.sampled_from(([], [f'{unit}allow: a-rule "why"', f"{unit}allow: b-rule “why not”"])))
    return lines


@st.composite
def gesture_files(draw: st.DrawFn) -> str:
    """A whole file without an error of reading."""
    unit = draw(st.sampled_from(("  ", "    ", "\t", " ")))
    keys = {"instrument": ["horn"], "pitches": [draw(st.sampled_from(("written", "sounding")))]}
    lines = draw(_lines(keys | draw(_some(SETTINGS, 4)), "", unit))
    names = draw(st.lists(st.sampled_from(NAMES), unique=True, min_size=1, max_size=4))
    for name in names:
        lines += draw(_block("gesture", name, tuple(names), unit))
    for kind in draw(st.lists(st.sampled_from(("passage", "exercises")), max_size=2, unique=True)):
        lines += draw(_block(kind, f"the-{kind}", tuple(names), unit))
    end = draw(st.sampled_from(("\n", "\r\n", "\r")))
    start = draw(st.sampled_from(("", "\ufeff")))
    return start + end.join("\n".join(lines).split("\n")) + draw(st.sampled_from(("", end)))


@st.composite
def broken_files(draw: st.DrawFn) -> str:
    """A file with something removed, inserted or doubled at a few places."""
    text = draw(gesture_files())
    pieces = st.sampled_from(
        ("", "#", " # ", '"', "\n", "\t", ":", ",", "--", "@", "x", "H4", "1/0", "\x07", "“", "gesture")
    )
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(text)))
        text = text[:at] + draw(pieces) + text[at + draw(st.integers(0, 3)) :]
    return text
