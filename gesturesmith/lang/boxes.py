"""How long a box is repeated: an amount, or until a cue."""

from __future__ import annotations

from gesturesmith.lang.nodes import Amount, BoxLength, Text
from gesturesmith.lang.reader import Reader

_FORM = '20 s, 8 beats, or until "the oboe enters"'
_LONGEST_CUE = 80  # characters: it stands over a line of music


def length(reader: Reader) -> BoxLength:
    """`20 s`, `8 beats`, `until "cue"`, `until "cue" within 30 s`."""
    first = reader.tok
    if first.kind == "word" and first.text == "until":
        reader.next()
        cue = _cue(reader)
        most = None
        if reader.tok.kind == "word" and reader.tok.text == "within":
            reader.next()
            most = _amount(reader)
        value = BoxLength(most, cue, reader.span_from(first))
        reader.finish('one cue, until "the oboe enters", optionally followed by within 30 s')
        return value
    if first.kind == "text":
        reader.fail("unexpected-sign", first.span, f"a cue needs `until` before it: until {first.text}")
    value = BoxLength(_amount(reader), None, reader.span_from(first))
    reader.finish(f"one length: {_FORM}")
    return value


def _cue(reader: Reader) -> Text:
    if reader.tok.kind != "text":
        reader.unexpected('the cue in quotes: until "the oboe enters"')
    cue = reader.text()
    if len(cue.text) > _LONGEST_CUE:
        reader.fail("out-of-range", cue.span, f"a cue of {len(cue.text)} characters: at most {_LONGEST_CUE}")
    return cue


def _amount(reader: Reader) -> Amount:
    first = reader.tok
    value = reader.positive(f"how long it is repeated: {_FORM}")
    unit = reader.unit(("beats", "s"))
    if not unit:
        reader.fail("missing-unit", first.span, f"{first.text} of what? Write {first.text} s or {first.text} beats")
    return Amount(value, unit, reader.span_from(first))
