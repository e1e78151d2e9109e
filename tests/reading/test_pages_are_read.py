"""Pages of every kind read back as a player reads them: a sample. `make soak` reads all (everything.py)."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest
from reading import dump, generate, pages
from sampling import sample

from gesturesmith.source import Source

pytestmark = pytest.mark.lilypond

HERE = Path(__file__).parent
DOCS = HERE.parent.parent / "docs"
DEMO, TOGETHER = DOCS / "demo" / "fog-signals.gesture", DOCS / "gallery" / "together.gesture"
GRACES, ATTACKS, BOXES = (DOCS / "gallery" / f"{name}.gesture" for name in ("graces", "attacks", "boxes"))
CHANGES = DOCS / "gallery" / "changes.gesture"
PITCHES, FREE = DOCS / "gallery" / "pitches.gesture", DOCS / "gallery" / "free.gesture"
SIGNS, WAVES = DOCS / "gallery" / "signs.gesture", DOCS / "gallery" / "waves.gesture"
# In steps that cover all meters.
GENERATED = sample(range(0, 1000, 41), 4)
PARTS = sample(range(0, 70, 8), 4)
# A technique for each kind of notation: lines, two voices, trills, slides, signs at a note, heads without pitch.
SHEETS = (
    ("horn", "half-valve", (1,)),
    ("horn", "multiphonic", (3,)),
    ("trumpet", "valve-trill", (2,)),
    ("trombone", "slide-gliss", (4,)),
    ("tuba", "bend", (5,)),
    ("horn", "mouthpiece-pop", (2,)),
)


def test_the_reader_shares_nothing_with_what_it_reads():
    """The reader and the expectations use neither engraving nor layout; pages are made by the pipeline."""
    for path in sorted(HERE.glob("*.py")):
        names = set()
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Import):
                names |= {alias.name for alias in node.names}
            elif isinstance(node, ast.ImportFrom):
                names |= {f"{node.module}.{alias.name}" for alias in node.names} | {node.module}
        rooms = {name.split(".")[1] for name in names if name.startswith("gesturesmith.")}
        assert not rooms & {"score", "backends", "sheets", "lytext"}, path.name
        if path.stem in ("dump", "notation", "says", "compare", "generate"):
            assert rooms <= {"lang", "model", "source", "units", "instruments", "acoustics", "lilypond", "paths"}, (
                path.name
            )


def _read(job: pages.Job, folder: Path) -> pages.Count:
    count = pages.read_job(job, folder)
    assert count.found == []
    return count


def test_pages_snippets_and_concert_scores(tmp_path):
    job = pages.Job()
    for path in (DEMO, TOGETHER, GRACES, ATTACKS, BOXES, PITCHES, FREE, SIGNS, WAVES):
        pages.add_file(job, Source(path.name, path.read_text("utf-8")), path.parent, snippets=path is DEMO)
    pages.add_file(job, Source(DEMO.name, DEMO.read_text("utf-8")), DEMO.parent, pitches="sounding")
    count = _read(job, tmp_path)
    assert (count.scores, count.notes) > (80, 400)


def test_notes_pages(tmp_path):
    job = pages.Job()
    for path in (DEMO, TOGETHER, GRACES, ATTACKS, BOXES, PITCHES, FREE):
        pages.add_notes(job, Source(path.name, path.read_text("utf-8")), path.parent)
    assert _read(job, tmp_path).scores > 60


def test_sheets(tmp_path):
    job = pages.Job()
    pages.add_exercises(job, Source(DEMO.name, DEMO.read_text("utf-8")), DEMO.parent)
    for instrument, technique, levels in sample(SHEETS, 4):
        pages.add_graded(job, technique, instrument, levels)
    count = _read(job, tmp_path)
    assert (count.scores, count.notes) > (20, 200)


@pytest.mark.parametrize(
    ("instrument", "sounds"),
    sample(
        [
            ("horn", "a perfect fifth lower than written"),
            ("trombone", "as written"),
            ("natural-horn", "a perfect fifth lower than written"),
        ],
        3,
    ),
)
def test_charts(instrument, sounds, tmp_path):
    job = pages.Job()
    pages.add_charts(job, instrument)
    assert all(f"the part sounds {sounds}." in book for book in job.books)
    assert _read(job, tmp_path).notes > 50


def test_in_a_composers_score(tmp_path):
    """Between a composer's own notes, in a key; transposed up a tone over another voice: the key requires
    accidentals."""
    job = pages.Job()
    source = Source(TOGETHER.name, TOGETHER.read_text("utf-8"))
    graces = Source(GRACES.name, GRACES.read_text("utf-8"))
    cases = (
        (source, {"transposed": True, "company": True}),
        (source, {}),
        (graces, {"transposed": True, "company": True}),
        (source, {"cue": True}),
    )
    for one, how in sample(cases, 3):
        pages.add_ily(job, one, **how)
    assert _read(job, tmp_path).scores > 25


def test_room_for_a_hairpin_under_one_note_in_a_composers_score(tmp_path):
    """In 5/4 it is longer than two beats, and nothing else keeps its ends apart."""
    gesture = "gesture swell\n  technique: timbre-trill\n  contour: Bb3\n  lasts: 5 beats\n  dynamics: p < mf > p\n"
    job = pages.Job()
    pages.add_ily(job, Source("swell", "instrument: horn\npitches: written\n" + gesture))
    assert _read(job, tmp_path).scores == 1


def test_a_cue_of_what_is_sung_and_played_is_what_is_played(tmp_path):
    gesture = "gesture both\n  technique: multiphonic\n  sing: C4 -- D4@2 -- C4\n  contour: F3\n  lasts: 4 beats\n"
    job = pages.Job()
    pages.add_ily(job, Source("both", "instrument: horn\npitches: written\n" + gesture), cue=True)
    assert len(job.scores) == 1
    assert _read(job, tmp_path).notes == 1


def test_the_harmonics_of_a_sweep_that_turns_stand_each_on_its_own_line(tmp_path):
    gesture = "gesture turn\n  technique: harmonic-gliss\n  contour: F2 ~~ F3@2 ~~ C3@3\n  lasts: 4 beats\n"
    job = pages.Job()
    pages.add_notes(job, Source("turn", "instrument: tuba\npitches: written\n" + gesture))
    count = _read(job, tmp_path)
    assert count.notes > 6


def test_passages_in_meters(tmp_path):
    job = pages.Job()
    for seed in GENERATED:
        pages.add_file(job, Source(f"generated {seed}", generate.file(seed)), draft=True)
    count = _read(job, tmp_path)
    assert count.pages == len(GENERATED)
    assert count.notes > 15 * len(GENERATED)


CHANGING = """pitches: written
part horn "The horn"
  instrument: horn
part trumpet "The trumpet"
  instrument: trumpet
part trombone "The trombone"
  instrument: trombone
gesture call
  technique: half-valve
  contour: xG4 grace, xG4 ~~ xD5@2 ~~ xF5@4
  lasts: 4 beats
passage p
  meter: 4/4
  tempo: 60
  key: Eb major
  pickup: 1 beat
  bar: 5
  horn: rest 5, mark A, call, accelerando to 90 over 1 bar, C5 for 4, tempo 90, double bar, meter 3/4, call, rest 2
  trumpet: C5 for 1, rest 8, F#5 for 2, E5 for 4, Db5 for 3, D5 for 1/2, E^5 for 1/2
  trombone: rest 1, F3 for 6, rest 2 fermata, C3 for 4, key C major, Eb3 for 3, ritardando to 60 over 3, E3 for 3
"""


def test_changes_of_tempo_meter_and_key(tmp_path):
    """As marks and signs at their places, in a part and in each staff of a score."""
    job = pages.Job()
    pages.add_file(job, Source(CHANGES.name, CHANGES.read_text("utf-8")), CHANGES.parent)
    pages.add_parts(job, Source("changing", CHANGING), draft=True, snippets=False)
    pages.add_parts(job, Source("changing in C", CHANGING), draft=True, pitches="sounding")
    count = _read(job, tmp_path)
    assert count.notes > 120


def test_scores_and_parts(tmp_path):
    """Each staff says what its part has, written or in C, and what sounds together stands under each other."""
    job = pages.Job()
    for seed in PARTS:
        source = Source(f"parts {seed}", generate.parts(seed))
        pages.add_parts(job, source, draft=True, snippets=seed == PARTS[0])
        pages.add_parts(job, source, draft=True, pitches="sounding")
    count = _read(job, tmp_path)
    assert count.pages > 6 * len(PARTS)
    assert count.notes > 100 * len(PARTS)


CUED = """pitches: written
meter: 3/4
part horn "The horn"
  instrument: horn
part trombone "The trombone"
  instrument: trombone
part trumpet "The trumpet"
  instrument: trumpet
passage p
  horn: C5 for 3, rest 18, G4 for 3, A4 for 3
  trombone: F3 for 3, rest 10, D3 for 1, E3 for 2, F3 for 1, G#3 for 1, A3 for 3, rest 3, F3 for 3
  trumpet: rest 13, C5 for 1/2, Eb5 for 1/2, rest 10, G5 for 3
"""


def test_two_players_of_one_line(tmp_path):
    """Both, one, the other, divided on two staves: what each reads is what the line says."""
    path = DOCS / "gallery" / "parts-two-horns.gesture"
    job = pages.Job()
    pages.add_parts(job, Source(path.name, path.read_text("utf-8")), snippets=True)
    assert _read(job, tmp_path).notes > 80


def test_grace_notes_before_the_first_note_of_one_line(tmp_path):
    """LilyPond would print the meter twice in each staff."""
    lines = "  one: G4 grace, A4 grace, C5 for 3\n  two: C2 for 3\n  three: G4 grace, C5 for 2, rest 1\n"
    parts = "".join(
        f"part {n}\n  instrument: {i}\n" for n, i in (("one", "horn"), ("two", "tuba"), ("three", "horn"))
    )
    job = pages.Job()
    pages.add_parts(job, Source("graces", f"pitches: written\nmeter: 3/4\n{parts}passage p\n{lines}"))
    assert _read(job, tmp_path).scores == 4


def test_a_box_in_one_line_frames_nothing_of_another(tmp_path):
    text = """pitches: written
part one
  instrument: horn
part two
  instrument: tuba
box swarm
  play: G4 for 1, C5 for 1
  lasts: 8 beats
passage p
  one: C5 for 2, swarm, G4 for 2
  two: C2 for 12
"""
    job = pages.Job()
    pages.add_parts(job, Source("boxed", text))
    (grobs, *_) = dump.read(pages.whole(job), tmp_path).values()
    (frame,) = [g for g in grobs if g.name == "GestureFrame"]
    first, *inside = sorted(
        (g for g in grobs if g.name == "NoteHead" and g.staff == frame.staff), key=lambda g: g.x
    )
    assert first.right < frame.x < inside[0].x < inside[1].right < frame.right < inside[2].x


def test_cues(tmp_path):
    """A horn, transposed, after a trombone."""
    job = pages.Job()
    pages.add_parts(job, Source("cued", CUED), cues=True)
    count = pages.read_job(job, tmp_path)
    assert count.found == []
    assert count.cues == 4


def test_levels_between_notes_and_at_the_end(tmp_path):
    """A gesture at the beginning of its staff with levels between its notes: they must all be in one voice."""
    gesture = "gesture swell\n  contour: C5\n  lasts: 4 beats\n  dynamics: p < mf > p\n"
    job = pages.Job()
    pages.add_file(job, Source("swell", "instrument: trumpet\npitches: written\n" + gesture), snippets=True)
    assert _read(job, tmp_path).scores == 2


def test_strokes_in_triplets(tmp_path):
    """Beside a mute that the next passage takes out; that it says so is tested with the pages of a file."""
    text = (
        "instrument: trumpet\npitches: written\nmeter: 4/4\n"
        "gesture shut\n  technique: muted\n  mute: straight\n  contour: C5\n  lasts: 4 beats\n"
        "passage one\n  play: C5 for 2/3 sixteenths, D5 for 1/3, E5 for 1/3 sixteenths, F5 for 2/3 eighths,"
        " rest 2, shut\n"
        "passage two\n  play: C5 for 4\n"
    )
    job = pages.Job()
    pages.add_file(job, Source("triplets", text))
    assert _read(job, tmp_path).scores == 3


def test_the_same_seed_gives_the_same_file():
    assert generate.file(7) == generate.file(7) != generate.file(8)


def test_a_clef_after_a_head_where_a_line_stops(tmp_path):
    """High above the staff the clef used to slip below that head, which then seemed to be in it."""
    job = pages.Job()
    for seed in (734, 881):
        pages.add_file(job, Source(f"generated {seed}", generate.file(seed)), draft=True)
    _read(job, tmp_path)
