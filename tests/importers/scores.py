"""Small MusicXML files for tests."""

from __future__ import annotations

HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
FOUR = "<attributes><divisions>4</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>"


def note(name: str, lasts: int = 4, inside: str = "", *, before: str = "", voice: str = "1") -> str:
    """A note of so many sixteenths: "C5", "F#4", "Bb3"; "r" for a rest. `inside`: its notations; `before`: what
    stands before its pitch (`<grace/>`, `<chord/>`)."""
    if name == "r":
        what = "<rest/>"
    else:
        alter = {"#": "<alter>1</alter>", "b": "<alter>-1</alter>"}.get(name[1:-1], "")
        what = f"<pitch><step>{name[0]}</step>{alter}<octave>{name[-1]}</octave></pitch>"
    length = "" if "grace" in before else f"<duration>{lasts}</duration>"
    after = f"<notations>{inside}</notations>" if inside and not inside.startswith("<tie ") else inside
    tie, after = (inside, "") if inside.startswith("<tie ") else ("", after)
    return f"<note>{before}{what}{length}{tie}<voice>{voice}</voice>{after}</note>"


def fingered(text: str) -> str:
    return f"<technical><fingering>{text}</fingering></technical>"


def words(text: str) -> str:
    return f"<direction><direction-type><words>{text}</words></direction-type></direction>"


def tempo(quarters: int) -> str:
    return f'<direction><direction-type><words>x</words></direction-type><sound tempo="{quarters}"/></direction>'


def part_list(*parts: str) -> str:
    """Parts by name, ids P1, P2, ..."""
    inside = "".join(
        f'<score-part id="P{n}"><part-name>{name}</part-name></score-part>' for n, name in enumerate(parts, 1)
    )
    return f"<part-list>{inside}</part-list>"


def bars(*contents: str, first: str = FOUR) -> str:
    """Bars numbered from 1; the first has the attributes."""
    return "".join(
        f'<measure number="{n}">{first if n == 1 else ""}{content}</measure>'
        for n, content in enumerate(contents, 1)
    )


def partwise(*parts: str, names: tuple[str, ...] = ("Horn in F",)) -> bytes:
    """A score of parts, each the text of its bars."""
    inside = "".join(f'<part id="P{n}">{text}</part>' for n, text in enumerate(parts, 1))
    return f'{HEAD}<score-partwise version="4.0">{part_list(*names)}{inside}</score-partwise>'.encode()
