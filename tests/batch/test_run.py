"""A batch: only what changed is remade, nothing is lost, and failures stay isolated."""

from __future__ import annotations

import json
import os
from dataclasses import replace
from pathlib import Path
from unicodedata import normalize

import pytest
from batch.conftest import everything, gestures, work

from gesturesmith import dependencies, writers
from gesturesmith.batch import Build, manifest_json, run, running
from gesturesmith.cache import Store, keys
from gesturesmith.cli.summary import lost
from gesturesmith.diagnostics import render_text
from gesturesmith.diagnostics.types import Report
from gesturesmith.lilypond import MissingLilyPond
from gesturesmith.pipeline import CompileResult

TWO = gestures(call="G4, C5", answer="C5, G4")
HIGH = gestures(call="G4, C5", beyond="G6")
WRONG = gestures(call="G4, C5") + "  conture: G4\n"


def told(done) -> str:
    """The reports of a build, without realisations, which are not cached."""
    return render_text(Report(files=done.reports), colour=False)


def test_everything_is_made_and_given_in_order(make, setup, fake):
    done = make(work(TWO, "b"), work(HIGH, "a"))
    assert [d.build.name for d in done] == ["b.gesture", "a.gesture"]
    pictures = ("a/call", "b/answer", "b/call")
    names = ["a.pdf", "b.pdf", *(f"{place}.{kind}" for place in pictures for kind in ("pdf", "svg"))]
    assert sorted(everything(setup.output)) == sorted(names)
    assert all(d.whole for d in done)
    assert [len(d.written) for d in done] == [5, 3]
    assert fake.books == 4  # the same picture of both files is made once


def test_a_run_over_what_is_unchanged_makes_nothing_and_says_the_same(make, setup, fake, monkeypatch):
    works = (work(TWO, "b"), work(HIGH, "a"))
    first = make(*works)
    before = everything(setup.output)
    monkeypatch.setattr("gesturesmith.pipeline.text.parse", lambda _: pytest.fail("compiled again"))
    second = make(*works)
    assert fake.runs == []
    assert [d.written for d in second] == [(), ()]
    assert [d.outputs for d in second] == [d.outputs for d in first]
    assert [told(d) for d in second] == [told(d) for d in first]
    assert everything(setup.output) == before


def test_files_that_nobody_has_touched_are_read_once(make, setup, fake, monkeypatch):
    """The first run makes them, the second reads and stamps them, the third need not."""
    monkeypatch.setattr(keys, "_LATELY_S", -1.0)
    make(work(TWO))
    make(work(TWO))
    with monkeypatch.context() as patch:
        patch.setattr(running, "file_digest", lambda path: pytest.fail(f"{path} was read again"))
        (done,) = make(work(TWO))
        assert (done.written, fake.runs) == ((), [])
    # Of the same length, and dated back: its times and number are not those of before.
    changed = setup.output / "study" / "call.svg"
    before, there = changed.read_bytes(), changed.stat()
    changed.write_bytes(before[::-1])
    os.utime(changed, ns=(there.st_atime_ns, there.st_mtime_ns))
    assert make(work(TWO))[0].blocked is not None
    changed.write_bytes(before)
    (done,) = make(work(TWO))
    assert (done.written, done.blocked) == ((), None)


def test_files_touched_just_now_are_read_again(make, setup, monkeypatch):
    """A change in the same moment would not show in their times."""
    monkeypatch.setattr(keys, "_LATELY_S", 1e9)
    make(work(TWO))
    make(work(TWO))
    read = []
    monkeypatch.setattr(running, "file_digest", lambda path: read.append(path) or keys.file_digest(path))
    make(work(TWO))
    assert len(read) == 5


def test_one_gesture_that_changed_is_made_alone(make, setup, fake):
    """Its own picture and the page that shows it: the other picture is unchanged, wherever its block is now."""
    make(work(TWO))
    before = everything(setup.output)
    changed = gestures(new="E4", answer="C5, G4", call="G4, D5")
    (done,) = make(work(changed))
    assert fake.books == 3
    assert sorted(p.name for p in done.written) == ["call.pdf", "call.svg", "new.pdf", "new.svg", "study.pdf"]
    after = everything(setup.output)
    assert after["study/answer.pdf"] == before["study/answer.pdf"]


def test_music_that_is_kept_is_not_engraved_again(make, setup, monkeypatch):
    from gesturesmith.backends.lilypond import voices

    pieces = voices.pieces
    engraved = []
    monkeypatch.setattr(voices, "pieces", lambda music: engraved.append(1) or pieces(music))
    make(work(TWO, store=Store(setup.store.folder)))
    assert len(engraved) == 2
    moved = 'title: "Other"\n'.join(TWO.split("instrument", 1)[:1]) + TWO
    changed = moved.replace("contour: G4, C5", "contour: G4, D5")
    make(work(changed, store=Store(setup.store.folder)))
    assert len(engraved) == 3


@pytest.mark.parametrize(("damage", "force"), [(Path.unlink, False), (lambda p: p.write_bytes(b"half"), True)])
def test_what_was_taken_away_or_damaged_is_put_back(make, setup, fake, damage, force):
    """A changed file may be somebody's work, so replacing it takes force."""
    make(work(TWO))
    before = everything(setup.output)
    damage(setup.output / "study" / "call.svg")
    if force:
        assert make(work(TWO))[0].blocked is not None
    (done,) = make(work(TWO), force=force)
    assert fake.runs == []
    assert [p.name for p in done.written] == ["call.svg"]
    assert everything(setup.output) == before


def test_what_the_store_has_lost_is_made_again(make, setup, fake):
    """Missing from its place, and damaged in the store, where its header still has the hash."""
    (first,) = make(work(TWO))
    before = everything(setup.output)
    lost = next(m for m in first.outputs if m.place.name == "call.svg")
    (entry,) = setup.store.folder.glob(f"??/{lost.key}")
    entry.write_bytes(entry.read_bytes()[:-1] + b"!")
    (setup.output / "study" / "call.svg").unlink()
    (done,) = make(work(TWO))
    assert fake.books == 1
    assert [p.name for p in done.written] == ["call.svg"]
    assert everything(setup.output) == before
    make(work(TWO))
    assert fake.runs == []


def test_somebody_elses_file_is_blocked_unless_forced(make, setup, fake):
    setup.output.mkdir()
    (setup.output / "study.pdf").write_text("a letter")
    (done,) = make(work(TWO))
    assert "was not made by Gesturesmith" in done.blocked.reason
    assert done.outputs == ()
    assert everything(setup.output) == {"study.pdf": b"a letter"}
    (done,) = make(work(TWO), force=True)
    assert done.whole
    assert len(done.written) == 5


@pytest.mark.parametrize("force", [False, True])
def test_an_input_is_never_written_over(make, setup, force):
    setup.output.mkdir()
    (setup.output / "study.pdf").write_text("a text")
    (done,) = make(work(TWO), force=force, inputs=(setup.output / "study.pdf",))
    assert "is one of the input files" in done.blocked.reason
    assert (setup.output / "study.pdf").read_text() == "a text"


def test_options_count(make, fake):
    make(work(TWO))
    make(work(TWO, pitches="sounding"))
    assert fake.books == 3
    make(work(TWO, draft=True))
    assert fake.books == 3


def test_another_lilypond_counts(make, fake, lilypond):
    from gesturesmith.batch.record import identity

    make(work(TWO))
    os.utime(lilypond.path, (1, 1))
    identity.cache_clear()
    make(work(TWO))
    assert fake.books == 3


def read_from(sources, options) -> CompileResult:
    from gesturesmith.pipeline import Options, compile_file

    dependencies.record_dependency(options)
    text = options.read_text()
    outcome = compile_file(sources, Options(stem="study", formats=("svg",)))
    return replace(outcome, names=(text,))


def test_files_read_beside_count(make, tmp_path):
    """Such as profiles: the record of a build is valid only while they are unchanged."""
    profile = tmp_path / "profile"
    one = Build(name="a", compile=read_from, sources=work(TWO).sources, options=profile, formats=("svg",))
    for text in ("first", "second", "third"):
        profile.write_text(text)
        assert make(one)[0].names == (text,)
        assert make(one)[0].names == (text,)


def test_what_cannot_be_read_gives_nothing_and_stops_nobody(make, setup, fake):
    done = make(work(WRONG, "wrong"), work(TWO, "good"))
    assert not done[0].reports[0].readable
    assert done[0].outputs == ()
    assert len(done[1].written) == 5
    make(work(WRONG, "wrong"))
    assert fake.runs == []


def test_one_that_lilypond_cannot_set_is_named_and_the_others_are_made(make, setup, fake):
    """Split in half until it is alone; failures are not cached, finished files are."""
    many = {f"g{chr(97 + n)}": "C5" for n in range(20)} | {"broken": "D5"}
    fake.bad = "d''"
    (done,) = make(work(gestures(**many), formats=("svg",)))
    assert [f.gesture for f in done.failures] == ["broken"]
    assert not done.whole
    assert len(everything(setup.output)) == 20
    assert len(fake.runs) < 12
    (again,) = make(work(gestures(**many), formats=("svg",)))
    assert fake.books == 1
    assert [f.gesture for f in again.failures] == ["broken"]
    fake.bad = "\x00"
    (mended,) = make(work(gestures(**many), formats=("svg",)))
    assert fake.books == 1
    assert mended.whole
    assert [p.name for p in mended.written] == ["broken.svg"]


def test_without_a_lilypond_what_needs_none_is_made(make, setup):
    formats = ("ily", "pdf")
    (done,) = make(work(TWO, formats=formats), lilypond=MissingLilyPond("there is none"))
    assert done.lacking == ("pdf",)
    assert not done.whole
    assert sorted(everything(setup.output)) == ["study/answer.ily", "study/call.ily", "study/gesturesmith.ily"]


def test_without_a_lilypond_what_needs_none_is_remembered(make, setup, monkeypatch):
    works, none = work(TWO, formats=("ly",)), MissingLilyPond("")
    (first,) = make(works, lilypond=none)
    monkeypatch.setattr("gesturesmith.pipeline.text.parse", lambda _: pytest.fail("compiled again"))
    (second,) = make(works, lilypond=none)
    assert (second.written, second.outputs) == ((), first.outputs)


def test_what_a_format_cannot_hold_is_told_once_and_remembered(make, setup, monkeypatch):
    ly = writers.get("ly")
    less = replace(ly, lacks=lambda item: ("a moustache",) if "call" in item.excerpts else ())
    monkeypatch.setattr(writers, "get", lambda name: less)
    for _ in range(2):
        done = make(work(TWO, formats=("ly",)))
        assert {m.place.name: m.lacks for m in done[0].outputs} == {
            "answer.ly": (),
            "call.ly": ("a moustache",),
            "study.ly": ("a moustache",),
        }
        assert list(lost(done)) == ["ly cannot hold: a moustache"]


def test_a_format_that_nothing_can_be_made_in_is_told(make, monkeypatch):
    pages = replace(writers.get("ly"), kinds=("page",))
    monkeypatch.setattr(writers, "get", lambda name: pages)
    done = make(work(TWO, formats=("ly",), only="call"))
    assert list(lost(done)) == ["nothing here can be made as ly"]
    assert list(lost(make(work(TWO, formats=("ly",))))) == []


def test_two_works_for_one_place(make, setup):
    """Neither is made, since nobody could tell whose it would be. The third is."""
    one, other = work(TWO, "Study"), work(HIGH, "study")
    done = make(one, other, work(TWO, "third"))
    assert "Study.gesture and study.gesture would both be written to" in done[0].blocked.reason
    assert done[1].blocked is not None
    assert done[2].whole
    assert {p.split("/")[0].split(".")[0] for p in everything(setup.output)} == {"third"}


def test_an_accent_typed_in_two_ways_is_one_place(make, setup):
    """On some disks they are one file (Apple File System), and nobody sees the difference."""
    done = make(work(TWO, normalize("NFC", "été")), work(HIGH, normalize("NFD", "été")))
    assert [one.blocked is not None for one in done] == [True, True]


def test_names_from_a_pattern(make, setup):
    titled = 'title: "Fog Signals"\ncomposer: "A. Nobody"\n' + TWO
    make(work(titled, name="study", formats=("pdf",)))
    (done,) = make(replace(work(titled), options=replace(work(titled).options, name="{composer}-{title}-{part}")))
    assert {str(m.place).split("/")[0].removesuffix(".pdf") for m in done.outputs} == {
        "A._Nobody-Fog_Signals-Horn_in_F"
    }


def test_a_store_that_fails_is_no_trouble_but_for_the_next_run(make, setup, fake):
    (setup.output.parent / "blocked").write_text("")
    store = Store(setup.output.parent / "blocked" / "cache")
    (done,) = make(work(TWO), store=store)
    assert done.whole
    assert store.problem
    assert len(everything(setup.output)) == 5
    make(work(TWO), store=store)
    assert fake.books == 3


def test_a_run_that_is_left_early_ends_its_crew(setup, fake):
    doing = run((work(TWO, "a"), work(TWO, "b")), setup)
    next(doing)
    doing.close()
    assert {p.split("/")[0].split(".")[0] for p in everything(setup.output)} == {"a"}


def test_the_manifest(make, setup):
    works = (work(TWO, "b"), work(HIGH, "a"), work(WRONG, "c"))
    first = manifest_json(make(*works), [("gone.gesture", "no such file")])
    again = manifest_json(reversed(make(*works)), [("gone.gesture", "no such file")])
    assert first == again
    value = json.loads(first)
    assert [s["file"] for s in value["sources"]] == ["a.gesture", "b.gesture", "c.gesture", "gone.gesture"]
    failed = {s["file"]: s["failed"] for s in value["sources"] if "failed" in s}
    assert list(failed) == ["c.gesture", "gone.gesture"]
    assert "conture" in failed["c.gesture"][0]
    import hashlib

    there = everything(setup.output)
    assert {o["file"]: o["sha256"] for o in value["outputs"]} == {
        place: hashlib.sha256(data).hexdigest() for place, data in there.items()
    }
    page = next(o for o in value["outputs"] if o["file"] == "b.pdf")
    assert (page["from"], page["shows"]) == (["b.gesture"], ["call", "answer"])


def test_the_manifest_has_the_findings_of_what_is_shown(make):
    careful = gestures(call="G4, C5", soft="Bb5").replace("contour: Bb5", "contour: Bb5\n  dynamics: pp")
    (done,) = make(work(careful))
    value = json.loads(manifest_json([done], []))
    by_place = {o["file"]: {f["name"] for f in o["findings"]} for o in value["outputs"]}
    assert by_place["study/soft.pdf"] == {"soft"}
    assert by_place["study/call.pdf"] == set()
    assert by_place["study.pdf"] == {"soft"}
