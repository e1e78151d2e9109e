"""Pages, snippets and files for composers, as engraved by LilyPond: complete and without a warning."""

from __future__ import annotations

import io
import re
import unicodedata
from dataclasses import replace
from fractions import Fraction

import pypdf
import pytest
import timing
from golden.programs import PROGRAMS
from sampling import sample

from gesturesmith import paths, sheets
from gesturesmith.lilypond import Job, LilyPond, find, start
from gesturesmith.sheets import _score, ily, page, snippet

pytestmark = pytest.mark.lilypond

# A text that would end a string, run Scheme, open a block, reverse the line, or comment out the rest.
HOSTILE = r"\"} #(ly:error \"ran\") \\markup { %{ $(exit) \\include \"x\" " + "\u202e"
PLAIN = '"} #(ly:error "ran") \\markup { %{ $(exit) \\include "x"'

FILE = f"""
instrument: horn
pitches: written
title: "Title {HOSTILE}"
subtitle: "Subtitle {HOSTILE}"
composer: "Composer {HOSTILE}"
part: "Part {HOSTILE}"
tempo: "Words {HOSTILE}" 60
gesture one "Heading {HOSTILE}"
  contour: C5
  text: "Above {HOSTILE}"
  footnote: "Below {HOSTILE}"
gesture two
  technique: half-valve
  band: C4..G5
  contour: xC5 ~~ growing xE5@2 ~~ highest
  lasts: 4 beats
  note: "Added {HOSTILE}"
gesture three
  technique: split-attack
  band: low
  contour: high, low
gesture four
  contour: C5 ~~ D5@1, r@2
  lasts: 5/2 s
gesture loud
  contour: C5
  lasts: 4 beats
  dynamics: f > p
gesture soft
  technique: multiphonic
  contour: C4
  sing: G4 -- A4@2 -- G4
  lasts: 4 beats
  dynamics: pp
passage all "Passage {HOSTILE}"
  meter: 4/4
  tempo: "Slowly {HOSTILE}" 66
  play: one, two, rest 3, three
  repeat: 3
passage free
  play: loud, soft, rest 2, four, two
"""


def text_of(pdf: bytes) -> str:
    """The text of a PDF with ligatures split, and spaces for line endings."""
    pages = pypdf.PdfReader(io.BytesIO(pdf)).pages
    return re.sub(r"\s+", " ", unicodedata.normalize("NFKC", " ".join(p.extract_text() for p in pages)))


@pytest.fixture(scope="module")
def lilypond() -> LilyPond:
    found = find()
    assert isinstance(found, LilyPond)
    return found


@pytest.fixture(scope="module")
def made(lilypond, engraved):
    """One run: a page with everything, a draft, and a snippet of each music."""
    musics = engraved(FILE)
    settings = musics.pop("")
    drafts = tuple(_as_draft(m) for m in musics.values())
    books = [
        page.book(tuple(musics.values()), settings, output="page", refused=(("Left out", "Because."),)),
        page.book(drafts, settings, output="draft"),
        *(snippet.book(m, settings, output=f"s-{name}") for name, m in musics.items()),
    ]
    with start(lilypond, ("pdf",)) as waiting:
        waiting.feed(Job(document=sheets.document(tuple(books))))
        return waiting.result()


def _as_draft(one, lines=("not as written", f"first note: {PLAIN}")):
    return replace(one, music=replace(one.music, draft=lines))


def test_no_warning(made):
    assert made.messages == ()
    assert made.ended == ""


def test_every_text_is_on_the_page_as_it_was_written(made):
    text = text_of(made.file("page", "pdf")).replace(" ", "")
    for word in ("Title", "Subtitle", "Composer", "Part", "Words", "Heading", "Above", "Below", "Added", "Passage"):
        assert f"{word}{PLAIN}".replace(" ", "") in text, word


def test_what_is_left_out_is_said(made):
    assert "“Left out” is left out here" in text_of(made.file("page", "pdf"))
    assert "Because." in text_of(made.file("page", "pdf"))


def test_a_draft_says_so_with_its_findings(made):
    assert "DRAFT" in text_of(made.file("draft", "pdf"))
    assert "not as written" in text_of(made.file("draft", "pdf"))
    assert "DRAFT" not in text_of(made.file("page", "pdf"))


def test_a_snippet_has_its_footnotes_below(made):
    assert "1 Below" in text_of(made.file("s-one", "pdf"))


def test_each_message_leads_to_its_music(engraved):
    """Above the text of each score is the line that names it."""
    musics = engraved(FILE)
    settings = musics.pop("")
    book = page.book(tuple(musics.values()), settings, output="page")
    assert re.findall(r"^% (?:gesture|passage) (\S+)$", book, re.MULTILINE) == list(musics)


@pytest.mark.parametrize("paper", ["a4", "letter", "120 x 200 mm"])
def test_paper_and_staff(paper, engraved):
    settings = engraved(
        f"instrument: horn\npitches: written\npaper: {paper}\nstaff: 5\ngesture a\n  contour: C5\n"
    )[""]
    book = page.book((), settings, output="page")
    assert "#(layout-set-staff-size 14.226)" in book  # 5 mm at 72.27 points an inch
    width = {"a4": "210", "letter": "215.9", "120 x 200 mm": "120"}[paper]
    assert f"paper-width = {width}\\mm" in book


# --- in a composer's own score ----------------------------------------------------------------------------------

SCORE = r"""\version "2.24.0"
{first}
{second}
{first}
\paper {{ #(layout-set-staff-size 16) }}
\score {{
  <<
    \new Staff {{ \time 4/4 fis'4 gis' bes' r | \"gesture-one" r2. | \transpose c d' \"gesture-two" | fis'1 }}
    \new Staff {{ \clef bass cis4 dis eis fis | R1 | \"gesture-two" | bes,1 }}
  >>
}}
"""


def test_in_a_score_with_other_note_names(lilypond, engraved):
    """Included twice, transposed, on two staves, Dutch names before and after: nothing leaks."""
    musics = engraved(FILE)
    settings = musics.pop("")
    first, second = (ily.text(musics[n], settings) for n in ("one", "two"))
    with start(lilypond, ("pdf",)) as waiting:
        waiting.feed(Job(document=SCORE.format(first=first, second=second)))
        run = waiting.result()
    assert run.messages == ()
    assert run.files


def test_a_file_for_composers_says_what_it_is(engraved):
    musics = engraved(FILE)
    settings = musics.pop("")
    text = ily.text(musics["three"], settings)
    assert '"gesture-three" = \\absolute {' in text
    assert r"\gsThreeLines" in text
    assert all(line.startswith("%") for line in text.splitlines() if "Because" in line or "Split" in line)


def test_concert_pitches_reach_the_page(engraved):
    written = engraved("gesture one\n  contour: C5\n")["one"].music.description
    sounding = engraved("gesture one\n  contour: C5\n", pitches="sounding")["one"].music.description
    assert "C5" in written
    assert "F4" in sounding


def test_a_file_for_composers_needs_the_stencils_alone(lilypond, engraved):
    """Every command in it is defined by gesturesmith.ily, for a passage that uses many."""
    musics = engraved(FILE)
    settings = musics.pop("")
    files = "\n".join(ily.text(m, settings) for m in musics.values())
    staves = "\n".join(f'\\score {{ \\new Staff {{ \\"gesture-{name}" }} }}' for name in musics)
    with start(lilypond, ("pdf",)) as waiting:
        waiting.feed(Job(document=f"{files}\n{staves}\n"))
        run = waiting.result()
    assert run.messages == ()


# --- drafts and what is left out -----------------------------------------------------------------------------


def test_a_draft_speaks_the_language_of_its_page_and_keeps_room_for_the_music(engraved):
    musics = engraved("instrument: horn\npitches: written\nwording: de\ngesture one\n  contour: C5\n")
    settings = musics.pop("")
    few, many = (
        _as_draft(musics["one"], ("nicht wie notiert", *(f"finding {n}" for n in range(count)))) for count in (6, 9)
    )
    book = page.book((few,), settings, output="page")
    assert 'gs-stamp "ENTWURF"' in book
    assert "Entwurf, nicht zur Aufführung" in book
    assert book.count("gs-finding") == 1 + 7  # the notice, the verdict, six findings
    book = page.book((many,), settings, output="page")
    assert book.count("gs-finding") == 1 + 7
    assert "und 4 weitere" in book


def test_the_name_of_a_fingering_is_not_broken(engraved):
    settings = engraved("gesture one\n  contour: C5\n")[""]
    book = page.book((), settings, output="page", refused=(("One", "only partials 4 and 5 of F 0 lie there"),))
    assert "of F\N{NO-BREAK SPACE}0 lie" in book
    assert "partials 4 and" in book


def test_names_of_instruments_have_the_signs_of_the_music_font(engraved):
    text = "instrument: trumpet\npitches: written\n{}gesture one\n  contour: C5\n"
    for more, head in (
        ("", r'instrument = \markup \gs-name "Trumpet in B♭"'),
        ("wording: de\n", 'instrument = "Trompete in B"'),
        ("wording: fr, en\n", r'instrument = \markup \gs-name "Trompette en si bémol / Trumpet in B♭"'),
        ('part: "Trumpet in Bb"\nwording: it\n', 'instrument = "Trumpet in Bb"'),
    ):
        musics = engraved(text.format(more))
        settings = musics.pop("")
        assert head in page.book(tuple(musics.values()), settings, output="page")


@pytest.mark.lilypond
def test_a_flat_sign_in_any_text_is_a_glyph_of_the_music_font(lilypond, engraved):
    text = """
instrument: trumpet
pitches: written
title: "Study in B♭"
gesture one "To E♭"
  contour: C5
  technique: growl
  footnote: "From B♭ through C♯ to E♭, and so on, long enough that the text goes on to a second line of its own."
"""
    musics = engraved(text)
    settings = musics.pop("")
    books = [page.book(tuple(musics.values()), settings, output="page", refused=(("A♭", ""),))]
    with start(lilypond, ("pdf",)) as waiting:
        waiting.feed(Job(document=sheets.document(tuple(books))))
        run = waiting.result()
    assert run.messages == ()
    text = text_of(run.file("page", "pdf"))
    assert "♭" not in text
    assert "♯" not in text
    assert "and so on" in text


def test_reasons_are_english_and_stand_on_english_pages_only(engraved):
    for languages, there in (("en", True), ("de", False), ("de, en", True)):
        settings = engraved(
            f"instrument: horn\npitches: written\nwording: {languages}\ngesture a\n  contour: C5\n"
        )[""]
        book = page.book((), settings, output="page", refused=(("One", "too high"),))
        assert ("Too high." in book) is there
        assert ("fehlt hier" in book) is (languages != "en")


# --- tempo marks -----------------------------------------------------------------------------------------------

BEATS_OF = {
    (2, 0): 1,
    (2, 1): Fraction(3, 2),
    (3, 0): Fraction(1, 2),
    (3, 1): Fraction(3, 4),
    (4, 0): Fraction(1, 4),
}


# Compound meters are counted in dotted notes, three of the written unit each; the language page counts quarters.
# The speed is the same: notes of `log` and `dots` times their beats.
@pytest.mark.parametrize(
    ("meter", "note", "number"),
    [
        ("free", (2, 0), "72"),
        ("4/4", (2, 0), "72"),
        ("2/2", (2, 0), "72"),
        ("3/8", (3, 0), "144"),
        ("6/8", (2, 1), "48"),
        ("9/8", (2, 1), "48"),
        ("12/8", (2, 1), "48"),
        ("6/16", (3, 1), "96"),
        ("7/8", (3, 0), "144"),
    ],
)
def test_the_tempo_is_that_of_the_note_the_meter_counts(meter: str, note, number: str, engraved) -> None:
    made = engraved(f"tempo: 72\nmeter: {meter}\ngesture g\n  contour: C5\npassage one\n  play: C5 for 36\n")
    staff = _score.staff(made["one"].music, made[""], made["one"].ly)
    quarter = note == (2, 0)
    assert (rf'\gsTempo "" "{number}"' if quarter else rf'\gsTempoOf "" #{note[0]} #{note[1]} "{number}"') in staff
    assert int(number) * BEATS_OF[note] == 72
    head = page.book((made["one"],), made[""], output="p").split(r"\paper")[0]
    assert (
        rf'\gs-tempo "" "{number}"' if quarter else rf'\gs-tempo-of "" #{note[0]} #{note[1]} "{number}"'
    ) in head


def test_what_is_in_seconds_has_the_words_of_its_tempo_alone(engraved) -> None:
    text = 'gesture g\n  contour: C5\n  lasts: 3 s\npassage one\n  tempo: "Still" 60\n  play: g, g\n'
    made = engraved(text)
    staff = _score.staff(made["one"].music, made[""], made["one"].ly)
    assert r'\gsTempoWords "Still"' in staff
    assert "60" not in staff


# Over the sign at the end, right-aligned: a player looks there for the number of times.
def test_how_often_stands_at_the_repeat_sign(engraved) -> None:
    ly = " ".join(engraved("gesture g\n  contour: C5, D5\npassage one\n  repeat: 3\n  play: g\n")["one"].ly.split())
    assert r"""\repeat volta 3 { c''4 d''4 \gsTimes "3 times" }""" in ly
    assert r"\gsTimes" not in engraved("gesture g\n  contour: C5\npassage one\n  repeat: 2\n  play: g\n")["one"].ly


ENDS = r"""
#(define (right-of grob) (cdr (ly:grob-extent grob (ly:grob-system grob) X)))
#(define (left-of grob) (car (ly:grob-extent grob (ly:grob-system grob) X)))
#(define ((tell name edge) grob) (format (current-output-port) "~a ~a\n" name (edge grob)))
\layout { \context { \Score
  \override DynamicText.after-line-breaking = #(tell "level" right-of)
  \override TextMark.after-line-breaking = #(tell "times" right-of)
  \override BarLine.after-line-breaking = #(tell "bar" right-of)
  \override Rest.after-line-breaking = #(tell "rest" left-of)
} }
"""


@pytest.mark.parametrize("program", sample(PROGRAMS, 2), ids=str)
def test_a_last_level_ends_with_its_note_and_times_with_the_bar_line(program, engraved, tmp_path) -> None:
    text = "meter: 4/4\ngesture g\n  contour: C5, D5, E5, F5\n  lasts: 1 beat\n  dynamics: p < ff\n"
    made = engraved(f"{text}passage one\n  repeat: 3\n  play: g, rest 3, rest 3, g\n")
    staff = _score.staff(made["one"].music, made[""], made["one"].ly)
    head = "".join(f'\\include "{name}.ily"\n' for name in ("gesturesmith", "sheet"))
    ly = f'\\version "2.24.0"\n\\language "english"\n{head}{ENDS}\\score {{ {staff} \\layout {{}} }}'
    (tmp_path / "x.ly").write_text(ly, "utf-8")
    command = [str(program), "-l", "WARN", "-I", str(paths.templates()), "-dno-print-pages", "x.ly"]
    done = timing.run(command, cwd=tmp_path, text=True)
    assert (done.returncode, done.stderr) == (0, "")
    found: dict[str, list[float]] = {}
    for line in done.stdout.splitlines():
        name, x = line.split()
        found.setdefault(name, []).append(float(x))
    levels = sorted(found["level"])
    assert levels[1] < min(found["rest"])
    assert levels[3] < max(found["bar"])
    assert found["times"] == pytest.approx([max(found["bar"])], abs=0.7)
