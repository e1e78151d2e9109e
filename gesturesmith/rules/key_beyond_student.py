"""A key signature is none of the keys a student has learnt.

Checks  the written key signatures of passages, those they change to as well, against `keys` in the profile of a
        student; a minor key has the signature of its major key
Why     a student reads the signatures learnt so far, and in any other plays notes of the wrong key
Fires
    instrument: "first-year.toml"
    pitches: written
    passage a
      key: A major
      play: A2 for 2, C#3 for 2
Passes
    instrument: "first-year.toml"
    pitches: written
    passage a
      key: Eb major
      play: Eb3 for 2, G3 for 2
Fix     leave out `key`, so that every accidental is at its note, move the music into one of the student's keys, or
        add the key to `keys` once it is learnt
"""

from collections.abc import Iterator

from gesturesmith.evidence import PLAYER, Sourced
from gesturesmith.model.changes import KeyChange
from gesturesmith.rules.base import Finding, PassageCase, passage_rule
from gesturesmith.units import KeySignature


@passage_rule("GS732", "key-beyond-student", severity="advice")
def check(passage: PassageCase) -> Iterator[Finding]:
    case = next((c for c in passage.cases if c is not None), None)
    student = case.instrument.student if case is not None else None
    if case is None or student is None or not student.keys:
        return
    piece = passage.passage
    changed = (change.key for change in piece.changes if isinstance(change, KeyChange))
    keys = [
        key.transposed(-case.instrument.sounding) for key in (piece.key, *changed) if key is not None and key.mode
    ]
    known = ", ".join(KeySignature(fifths, "major").name for fifths in student.keys)
    for key in dict.fromkeys(key for key in keys if key.fifths not in student.keys):
        yield Finding(
            span=piece.spans.get("key", piece.span),
            text=f"this player has not learnt the signature of {key.name} ({_signs(key.fifths)}); learnt so far: "
            f"{known}",
            hint="leave out the key, so that the accidentals are at the notes, or move the music into a key learnt",
            evidence=Sourced(student.keys, PLAYER, f"{student.name or 'the profile'}: {known}"),
        )


def _signs(fifths: int) -> str:
    """Three sharps, no sharps or flats."""
    count, one = abs(fifths), "sharp" if fifths > 0 else "flat"
    return f"{count} {one}{'s' if count > 1 else ''}" if count else "no sharps or flats"
