"""Makes docs/gallery: pictures of everything in the gesture files there, and README.md, which shows them.

python docs/gallery.py [--check]

A gesture named TECHNIQUE-REGISTER-LENGTH belongs to the picture of its technique; the others of a file share one
picture, and so do its passages. Refused gestures have no picture and are listed with the reason. `--check` only
compares README.md with the gesture files, and does not need LilyPond.
"""

from __future__ import annotations

import re
import struct
import sys
import zlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from gesturesmith import techniques
from gesturesmith.backends import lilypond
from gesturesmith.checker import Checked, check_text
from gesturesmith.diagnostics import GestureReport, PassageReport, Severity, Verdict
from gesturesmith.lilypond import Job, LilyPond, MissingLilyPond, RunResult, find, start
from gesturesmith.lytext import LyText, code, joined, quoted
from gesturesmith.model.piece import Settings
from gesturesmith.pipeline import Options
from gesturesmith.pipeline.parts import systems
from gesturesmith.score import gesture_score, passage_score
from gesturesmith.sheets import _score, document
from gesturesmith.sheets import score as of_parts
from gesturesmith.source import Source

FOLDER = Path(__file__).parent / "gallery"
INDEX = "README.md"
HEAD = """<!-- Made by docs/gallery.py: change the gesture files, then run `make gallery`. -->

# Gallery

What the techniques look like on the page. Every picture is made from a gesture file in this folder by
`make gallery`. On the horn each technique is shown in its low, middle and high register, short and long; on the
other instruments once. Refused gestures have no picture and are listed with the first reason. Words above the music
appear at each gesture here, since each comes first; footnotes are left out.
"""
_REGISTERED = re.compile(r"(.+)-(low|middle|high)-(short|long)")
_COLUMNS = {"technique": 2, "gestures": 3, "passages": 1, "score": 1}

_SCORES = 0.7  # of the size of other staves, as scores are printed
_DPI = 112  # clear on a screen, and small files

# Scores in columns: the staves of a row at the same height, each with its name above.
_CONTACT = r"""
#(define-markup-command (gallery-contact layout props columns names scores) (index? list? markup-list?)
   (let* ((pictures (interpret-markup-list layout props scores))
          (cells (map (lambda (name picture)
                        (cons (interpret-markup layout props (markup #:fontsize -3 #:sans name)) picture))
                      names pictures))
          (rows (let loop ((left cells))
                  (if (<= (length left) columns) (list left)
                      (cons (take left columns) (loop (drop left columns))))))
          (right (lambda (stencil) (cdr (ly:stencil-extent stencil X))))
          (width (lambda (cell) (max (right (car cell)) (right (cdr cell)))))
          (widths (map (lambda (n)
                         (apply max (map (lambda (row) (if (> (length row) n) (width (list-ref row n)) 0)) rows)))
                       (iota columns)))
          (lefts (map (lambda (n) (apply + (* 5 n) (take widths n))) (iota columns)))
          (in-a-row
           (lambda (row)
             (let ((top (apply max (map (lambda (cell) (cdr (ly:stencil-extent (cdr cell) Y))) row))))
               (apply ly:stencil-add
                      (append-map (lambda (cell x)
                                    (list (ly:stencil-translate (car cell) (cons x (+ 1 top)))
                                          (ly:stencil-translate-axis (cdr cell) x X)))
                                  row (take lefts (length row))))))))
     (stack-stencils Y DOWN 2.5 (map in-a-row rows))))
"""


@dataclass(frozen=True)
class Entry:
    """One gesture or passage: its report and, unless it is refused, its music: of a file with parts, its staves."""

    name: str
    label: str
    report: GestureReport | PassageReport
    techniques: tuple[str, ...]
    engraving: Callable[[], lilypond.EngravedMusic]
    staves: of_parts.System = ()

    @property
    def refused(self) -> bool:
        return self.report.verdict is Verdict.NOT_AS_WRITTEN

    @property
    def reason(self) -> str:
        return next(f.text for f in self.report.findings if f.severity is Severity.REFUSED)


@dataclass(frozen=True)
class Picture:
    """One picture; `name` is its file without ending, `file` the gesture file it is made from."""

    name: str
    file: str
    title: str
    kind: str
    entries: tuple[Entry, ...]
    settings: Settings

    @property
    def shown(self) -> tuple[Entry, ...]:
        return tuple(e for e in self.entries if not e.refused)


def pictures(folder: Path = FOLDER) -> tuple[Picture, ...]:
    """All pictures of the gallery, by file name."""
    return tuple(p for path in sorted(folder.glob("*.gesture")) for p in _pictures_of(path))


def _pictures_of(path: Path) -> Iterator[Picture]:
    source = Source(path.name, path.read_text("utf-8"))
    checked = check_text(source, suggestions=False)
    piece = checked.reading.piece
    if checked.parts and not checked.report.errors:
        yield _of_parts(path, checked)
        return
    if piece is None or checked.report.errors:
        raise ValueError(f"{path.name}: {[e.message for e in checked.report.errors]}")
    settings = piece.settings
    groups: dict[tuple[str, str, str], list[Entry]] = {}
    for said in (*checked.report.gestures, *checked.report.passages):
        place, entry = _placed(said, checked, settings, path.stem)
        groups.setdefault(place, []).append(entry)
    for (kind, name, title), entries in groups.items():
        yield Picture(name, path.name, title, kind, tuple(entries), settings)


def _of_parts(path: Path, checked: Checked) -> Picture:
    """The scores of a file with parts; what one part cannot play is told of it."""
    settings = checked.reading.shared
    assert settings is not None
    entries = []
    for name, staves in systems(checked, Options()):
        said = next(p for p in checked.report.passages if p.name == name)
        first = staves[0].engraving
        entries.append(Entry(name, name, said, (), lambda first=first: first, staves))
    return Picture(path.stem, path.name, settings.title or path.stem, "score", tuple(entries), settings)


def _placed(
    said: GestureReport | PassageReport, checked: Checked, settings: Settings, stem: str
) -> tuple[tuple[str, str, str], Entry]:
    """A gesture or passage, and its picture: kind, name and title."""
    whole = settings.title or stem
    if isinstance(said, PassageReport):
        passage = checked.passage_cases[said.name]
        return ("passages", f"{stem}-passages", whole), Entry(
            said.name, said.name, said, (), lambda: lilypond.engraved(passage_score(passage, settings))
        )
    case = checked.cases[said.name]
    keys = tuple(t.key for t in case.gesture.techniques)
    match = _REGISTERED.fullmatch(said.name)
    label = f"{match[2]}, {match[3]}" if match else said.name
    entry = Entry(said.name, label, said, keys, lambda: lilypond.engraved(gesture_score(case, settings)))
    if match:
        title = f"{techniques.get(match[1]).title['en']} (`{match[1]}`)"
        return ("technique", f"{stem}-{match[1]}", title), entry
    return ("gestures", stem, whole), entry


def book(picture: Picture, *, columns: int = 0, more: str = "") -> LyText:
    """The `\\book` of a picture: everything that may be engraved, in columns. `more` is added to each layout."""
    scores, labels = [], []
    for entry in picture.shown:
        engraving = entry.engraving()
        music = engraving.music
        if entry.staves:
            texts = tuple(staff.engraving.ly for staff in entry.staves)
            shown, ending = of_parts.staves(entry.staves, texts), of_parts.layout(entry.staves, "Picture")
        else:
            shown, ending = _score.staff(music, picture.settings, engraving.ly), _score.layout(music, "Picture")
        layout = str(ending).removesuffix("}") + more + " }"
        inside = f"{shown}\n{layout}"
        scores.append(f"{_score.place_mark(music)}\n\\score {{\n{inside}\n}}")
        labels.append(quoted(entry.label))
    width = 180 if picture.kind in ("passages", "score") else 400
    return code(
        f"""\\gsCropped
\\book {{
\\paper {{
  \\gsSnippetPaper {_score.staff_size(picture.settings, _SCORES if picture.kind == "score" else 1)}
  paper-width = {width}\\mm line-width = {width - 20}\\mm paper-height = 3000\\mm
}}
\\bookOutputName "{picture.name}"
\\markup \\pad-around #1 \\gallery-contact #{columns or _COLUMNS[picture.kind]} #'({" ".join(labels)}) {{
{chr(10).join(scores)}
}}
}}
"""
    )


def documents(some: tuple[Picture, ...], *, columns: int = 0, more: str = "") -> LyText:
    """One document with all pictures."""
    books = (book(p, columns=columns, more=more) for p in some if p.shown)
    return joined((document(()), code(f"#(ly:set-option 'resolution {_DPI})"), code(_CONTACT), *books))


def make(some: tuple[Picture, ...], lilypond: LilyPond, formats: tuple[str, ...] = ("png",)) -> RunResult:
    """LilyPond's files of the pictures."""
    with start(lilypond, formats) as waiting:
        waiting.feed(Job(document=documents(some), timeout_s=600.0))
        return waiting.result()


def grey(data: bytes | None) -> bytes:
    """A picture with colours and transparency as one in greys on white, a third of the size; b"" for none.

    RGBA of 8 bits without interlacing, as LilyPond makes it, with any of the five filters of the PNG specification.
    """
    if not data:
        return b""
    width, height = struct.unpack(">II", data[16:24])
    raw = zlib.decompress(b"".join(body for kind, body in _chunks(data) if kind == b"IDAT"))
    before, out = bytearray(4 * width), bytearray()
    for n in range(height):
        start = n * (4 * width + 1)
        row = bytearray(raw[start + 1 : start + 1 + 4 * width])
        _unfiltered(raw[start], row, before)
        out.append(0)
        out += bytes(255 - (255 - row[x]) * row[x + 3] // 255 for x in range(0, 4 * width, 4))
        before = row
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", zlib.compress(bytes(out), 9)), (b"IEND", b""))
    return data[:8] + b"".join(
        struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
        for kind, body in chunks
    )


def _chunks(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    place = 8
    while place < len(data):
        size = struct.unpack(">I", data[place : place + 4])[0]
        yield data[place + 4 : place + 8], data[place + 8 : place + 8 + size]
        place += size + 12


def _unfiltered(filter_type: int, row: bytearray, above: bytearray) -> None:
    """Undo the filter of one row in place."""
    for x in range(len(row) if filter_type else 0):
        left, up, corner = (row[x - 4], above[x], above[x - 4]) if x >= 4 else (0, above[x], 0)
        if filter_type == 4:
            near = min((left, up, corner), key=lambda value: abs(left + up - corner - value))
        else:
            near = (left, up, (left + up) // 2)[filter_type - 1]
        row[x] = (row[x] + near) & 255


def index(some: tuple[Picture, ...]) -> str:
    """README.md: every picture with its title, and a list of what is not shown."""
    parts = [HEAD]
    file = ""
    for picture in some:
        if picture.file != file:
            file = picture.file
            parts.append(f"\n## {picture.settings.title}\n\nMade from [{file}]({file}).\n")
        if picture.kind == "technique":
            parts.append(f"\n### {picture.title}\n")
        if picture.shown:
            what = "; ".join(e.label for e in picture.shown)
            parts.append(f"\n![{picture.title.replace('`', '')}: {what}]({picture.name}.png)\n")
        refused = [f"- not as written: {e.label}: {e.reason}\n" for e in picture.entries if e.refused]
        if refused:
            parts.append("\n" + "".join(refused))
    return "".join(parts)


def main() -> int:
    if sys.argv[1:] not in ([], ["--check"]):
        print(__doc__)
        return 2
    some = pictures()
    if sys.argv[1:]:
        stale = (FOLDER / INDEX).read_text("utf-8") != index(some)
        print("run: make gallery" if stale else "up to date")
        return int(stale)
    lilypond = find()
    if isinstance(lilypond, MissingLilyPond):
        print(lilypond.reason, file=sys.stderr)
        return 3
    run = make(some, lilypond)
    if run.ended or run.messages:
        print(run.ended, *run.messages, sep="\n", file=sys.stderr)
        return 3
    for old in FOLDER.glob("*.png"):
        old.unlink()
    for picture in some:
        if picture.shown:
            (FOLDER / f"{picture.name}.png").write_bytes(grey(run.file(picture.name, "png")))
    (FOLDER / INDEX).write_text(index(some), "utf-8")
    shown = sum(len(p.shown) for p in some)
    print(f"{shown} gestures and passages in {len(list(FOLDER.glob('*.png')))} pictures")
    return 0


if __name__ == "__main__":
    sys.exit(main())
