"""A part for horn has a key signature.

Checks  passages with a `key`, for instruments played with the hand in the bell; the key named is the one in
        the part
Why     horns had crooks instead of keys, and their parts have accidentals at the notes to this day; players read
        a key signature without trouble, but do not expect one
Fires
    instrument: horn
    pitches: written
    passage a
      key: Bb major
      play: D5 for 2, Bb4 for 2
Passes
    instrument: horn
    pitches: written
    passage a
      play: D5 for 2, Bb4 for 2
Fix     leave out `key`, or in a file with parts write `key: none` in this one; every accidental is then at its note
"""

from collections.abc import Iterator

from gesturesmith.evidence import PRACTICE, Sourced
from gesturesmith.model.changes import KeyChange
from gesturesmith.rules.base import Finding, PassageCase, passage_rule

_TRADITION = Sourced("none", PRACTICE, "common practice: horn parts are written without key signatures")


@passage_rule("GS731", "key-signature-on-horn", severity="advice")
def check(passage: PassageCase) -> Iterator[Finding]:
    case = next((c for c in passage.cases if c is not None), None)
    if case is None or not case.instrument.gives("hand"):
        return
    piece = passage.passage
    changed = (change.key for change in piece.changes if isinstance(change, KeyChange))
    keys = [key for key in (piece.key, *changed) if key is not None and key.mode]
    if keys:
        written = keys[0].transposed(-case.instrument.sounding)
        yield Finding(
            span=piece.spans.get("key", piece.span),
            text=f"by tradition a horn part has no key signature; this one has that of {written.name}",
            hint="leave out the key, or of several parts give this one `key: none`: the accidentals are then at "
            "the notes",
            evidence=_TRADITION,
        )
