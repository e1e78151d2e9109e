"""Compares what is read from the page with what the file says."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import zip_longest

from reading.notation import Heard, Note, Reading
from reading.says import Asked, Said

from gesturesmith.units import LETTERS, Spelling

_OWN = {"staccato"}  # a mark also used by techniques: dots of double tonguing
_INSTANT = Fraction(1, 8)  # beats: a head where a line stops is this close to the end


_ROUNDED = Fraction(1, 100)  # beats per minute


def differences(reading: Reading, said: Said) -> list[str]:
    """Every difference between the page and the file, one line each, for people."""
    found = [f"cannot be read: {fault}" for fault in reading.faults]
    if reading.meter != said.meter:
        found.append(f"meter: the page says {reading.meter}, the file {said.meter}")
    for sung in (False, True):
        asked = [a for a in said.notes if a.sung is sung]
        printed = [n for n in reading.notes if n.sung is sung]
        found += _voice(printed, asked, said, "sung " if sung else "")
    found += _silences(reading, said)
    found += _signs(reading, said)
    found += _levels(reading, said)
    found += _trills(reading, said)
    for what, have, want in (
        ("boxes", reading.frames, said.frames),
        ("repeated", reading.repeated_on, said.repeated_on),
    ):
        if len(have) != len(want) or not all(_alike(one, other) for one, other in zip(have, want, strict=True)):
            found.append(f"{what}: {_row(have)} on the page, {_row(want)} in the file")
    if reading.repeated != said.repeated:
        found.append(f"played {reading.repeated} times on the page, {said.repeated} in the file")
    if reading.tempo is not None and said.tempo is not None and abs(reading.tempo - said.tempo) > _ROUNDED:
        found.append(f"tempo: {float(reading.tempo):g} on the page, {float(said.tempo):g} in the file")
    for what, have, want in (("pickup", reading.pickup, said.pickup), ("key", reading.key, said.key)):
        if have != want:
            found.append(f"{what}: {have} on the page, {want} in the file")
    if reading.changes != list(said.changes):
        found.append(f"changes: {_row(reading.changes)} on the page, {_row(said.changes)} in the file")
    return [*found, *_bar_numbers(reading, said)]


def _bar_of(said: Said, at: Fraction) -> Fraction:
    """The number of the bar that begins at a moment."""
    number, rows = Fraction(said.bar or 1), [(m or said.pickup, meter) for m, meter in said.meters if m <= at]
    ends = [*(moment for moment, _ in rows[1:]), at]
    return number + sum((end - start) / Fraction(4 * c, u) for (start, (c, u)), end in zip(rows, ends, strict=True))


def _bar_numbers(reading: Reading, said: Said) -> list[str]:
    """Bars are numbered at the beginning of lines, from the number that the first one has."""
    if said.bar is None or said.meter is None:
        return [f"bar number {number} on the page, none in the file" for _, number in reading.numbers]
    if not reading.numbers and said.bar > 1:
        return ["no bar numbers on the page"]
    return [
        f"bar {number} at beat {float(at):g} on the page, {_bar_of(said, at)} in the file"
        for at, number in reading.numbers
        if number != _bar_of(said, at)
    ]


def _alike(have: tuple, want: tuple) -> bool:
    """Whether something stands where it should; at a line break its end has no time."""
    return all(one in (None, other) for one, other in zip(have, want, strict=True))


def _row(found: Sequence[tuple]) -> str:
    return "; ".join(" ".join(map(str, one)) for one in found) or "none"


def part_of(printed: list[Note], said: Said, *, in_time: bool) -> list[str]:
    """The differences of notes that should be successive ones among those asked for: their pitches, how those after
    the first begin and, if `in_time`, their distances; for the best match."""
    ways = []
    for sung in (False, True):
        asked = [a for a in said.notes if a.sung is sung]
        mine = [n for n in printed if n.sung is sung]
        if mine:
            found = [_from(mine, asked[n:], in_time) for n in range(len(asked) - len(mine) + 1)]
            shown = " ".join(_name(n) for n in mine)
            ways += min(found, key=len, default=[f"{len(mine)} notes of {len(asked)}: {shown}"])
    return ways


def _from(printed: list[Note], asked: list[Asked], in_time: bool) -> list[str]:
    found = []
    for n, (note, want) in enumerate(zip(printed, asked, strict=False)):
        found += [*_pitch(note, want), *(_beginning(note, want) if n else ())]
    first, start = printed[0].at, asked[0].at
    for note, want in zip(printed, asked, strict=False):
        if not in_time or want.at is None or start is None or note.stops or want.stops:
            continue
        if note.at - first != want.at - start:
            found.append(f"{_name(note)} comes {float(note.at - first):g} beats after the first")
    return found


def _voice(printed: list[Note], asked: list[Asked], said: Said, which: str) -> list[str]:
    if len(printed) != len(asked):
        have, want = " ".join(_name(n) for n in printed), " ".join(_asked_name(a) for a in asked)
        return [f"{which}notes: {len(printed)} on the page, {len(asked)} in the file: {have} / {want}"]
    found: list[str] = []
    loose = any(n.value is None and not n.stops and not n.grace for n in printed)
    for number, (note, want) in enumerate(zip(printed, asked, strict=True), start=1):
        for problem in _note(note, want, said, loose):
            found.append(f"{which}note {number} at beat {float(note.at):g}: {problem}")
    return found


def _note(note: Note, want: Asked, said: Said, loose: bool) -> list[str]:
    found = [*_pitch(note, want), *_time(note, want, said)]
    if note.form != want.form:
        found.append(f"head: {note.form} on the page, {want.form} in the file")
    if note.marks - _OWN != want.marks - _OWN or not want.marks <= note.marks:
        marks = [" ".join(sorted(m)) or "nothing" for m in (note.marks, want.marks)]
        found.append(f"marks: {marks[0]} on the page, {marks[1]} in the file")
    if note.repeats != want.repeats and not want.rolled:
        values = [
            "not repeated" if v is None else f"repeated every {v} beats" for v in (note.repeats, want.repeats)
        ]
        found.append(f"{values[0]} on the page, {values[1]} in the file")
    if want.words and want.words not in note.words:
        found.append(f"no words on the page that say {want.words!r}")
    if note.grace != want.grace:
        found.append(f"grace note: {note.grace or 'none'} on the page, {want.grace or 'none'} in the file")
    if note.stops is not want.stops:
        found.append(f"{'ends a line' if note.stops else 'is a full note'} on the page, not in the file")
    return [*found, *_beginning(note, want)]


def _beginning(note: Note, want: Asked) -> list[str]:
    loose = note.value is None and want.begins == "attack" and not note.feathered and want.timed
    if note.begins == want.begins or loose:
        return []
    return [f"begins: {note.begins} on the page, {want.begins} in the file"]


def _pitch(note: Note, want: Asked) -> list[str]:
    if want.spelling is None:
        return _height(note, want)
    if note.pitch is None:
        return [f"pitch: none on the page, {want.spelling.name} in the file"]
    spelling = want.spelling
    if want.above is None and note.above:
        return ["two heads, where one is asked for"]
    if want.above is not None:
        apart = [p.cents - note.pitch.cents for p in note.above]
        if len(apart) != 1 or apart[0] not in want.above or note.above[0].steps == note.pitch.steps:
            return [f"the heads {_name(note)} {' '.join(p.name for p in note.above)} are no neighbouring partials"]
    alter = note.pitch.eighth if spelling.alter.denominator == 4 else note.pitch.alter
    plain = (note.pitch.steps, alter) == (spelling.steps, spelling.alter)
    if not spelling.cents:
        if plain and not note.cents:
            return []
        if spelling.alter.denominator == 4 and note.cents and sounded(note) == spelling.pitch_cents:
            return []  # arrows mean quarter tones there
        return [f"pitch: {_name(note)} on the page, {spelling.name} in the file"]
    total = sounded(note)
    # The nearest plain note may be on a letter next to the written one.
    if total != spelling.pitch_cents or abs(note.pitch.steps - spelling.steps) > 1:
        return [f"pitch: {_name(note)} on the page, {spelling.name} in the file"]
    return []


def sounded(note: Note) -> Fraction | None:
    """Cents above C-1 of a note with the row above it: from the note named there, else from itself."""
    if note.pitch is None:
        return None
    text = note.cents.replace("−", "-").replace("±", "").replace("¢", "").strip()
    if not text:
        return note.pitch.cents
    words = text.split()
    base = note.pitch.cents
    if words[0][0] in LETTERS:
        name = "".join(words[:-1])
        alter = name.count("♯") - name.count("♭")
        near = [Spelling(name[0], Fraction(alter), octave).pitch_cents for octave in range(-1, 10)]
        base = min(near, key=lambda c: abs(c - note.pitch.cents))
    return base + int(words[-1])


def _height(note: Note, want: Asked) -> list[str]:
    if want.three_lines:
        if note.pitch is not None:
            return ["a clef with pitches, where only heights are asked for"]
        place: Fraction | float = Fraction(note.position).limit_denominator(1000)
    elif note.pitch is None:
        return ["no clef, where a band of pitches is asked for"]
    else:
        place = note.pitch.steps
    if want.steps is None:
        beyond = note.position >= 5 if want.extreme == "highest" else note.position <= -5
        return [] if beyond or not want.extreme else [f"{want.extreme}: stands within the staff"]
    slack = 1 if want.vague else Fraction(1, 2) if not want.three_lines else Fraction(1, 100)
    if abs(place - want.steps) > slack:
        return [f"height: {float(place):g} on the page, {float(want.steps):g} in the file"]
    return []


def _time(note: Note, want: Asked, said: Said) -> list[str]:
    found = []
    if want.at is not None:
        late = note.at - want.at
        right = 0 >= late >= -_INSTANT if want.stops else late == 0
        if not right:
            found.append(f"onset: beat {float(note.at):g} on the page, {float(want.at):g} in the file")
    if note.stops or want.stops or note.grace or want.grace:
        return found
    if note.feathered or want.feathered:
        # A passed point under such a beam has no stem.
        if want.feathered and not note.feathered and want.begins == "attack":
            found.append("attacks that speed up or slow down without a beam that says so")
        elif note.feathered and not want.feathered:
            found.append("a beam that opens or closes, where attacks are even")
        return found
    if note.value is None:
        if not want.timed:
            found.append("no note value on the page, though there is one for it")
        return found
    if want.begins == "line" and want.ends is None and not want.led:
        found.append("a note value on a point that a line only passes")
    if want.ends is None or want.at is None:
        return found
    length = want.ends - want.at
    if want.stroke:
        if note.value > length:
            found.append(f"length: {float(note.value):g} on the page, at most {float(length):g} in the file")
    elif note.value != length:
        found.append(f"length: {float(note.value):g} on the page, {float(length):g} in the file")
    return found


def _silences(reading: Reading, said: Said) -> list[str]:
    """Rests are exactly where the file is silent, and after strokes, which have no length."""
    strokes = [(a.at, a.ends) for a in said.notes if a.stroke and a.at is not None and a.ends is not None]
    found = []
    for start, end in said.silences:
        if not any(a <= start and end <= b for a, b in reading.silences):
            found.append(f"silence from beat {float(start):g} to {float(end):g} is no rest on the page")
    for start, end in reading.silences:
        if not _covered(start, end, [*said.silences, *strokes]):
            found.append(f"rests from beat {float(start):g} to {float(end):g} on the page, where the file sounds")
    return found


def _covered(start: Fraction, end: Fraction, by: list[tuple[Fraction, Fraction]]) -> bool:
    at = start
    for a, b in sorted(by):
        if a <= at < b:
            at = b
    return at >= end


def _signs(reading: Reading, said: Said) -> list[str]:
    """What is said at points stands there, and nowhere else; above the staff there may be other words as well."""
    found = [
        f"{text!r} at beat {float(at):g} does not stand above the page's staff"
        for at, kind, text in said.signs
        if kind == "words" and not any(abs(a - at) <= _INSTANT and text in there for a, there in reading.texts)
    ]
    found += [
        f"{text} at beat {float(at):g} does not stand above the page's staff"
        for at, kind, text in said.signs
        if kind == "hand" and not any(abs(a - at) <= _INSTANT and text == sign for a, sign in reading.hands)
    ]
    rows = [
        sorted((s for s in row if s[1] not in ("words", "hand")), key=_where) for row in (reading.signs, said.signs)
    ]
    same = [s[1:] for s in rows[0]] == [s[1:] for s in rows[1]]
    if not same or any(abs(a[0] - b[0]) > _INSTANT for a, b in zip(*rows, strict=True)):
        names = [" ".join(f"{kind} {text}@{float(at):g}" for at, kind, text in row) or "nothing" for row in rows]
        found.append(f"said: {names[0]} on the page, {names[1]} in the file")
    return found


def _trills(reading: Reading, said: Said) -> list[str]:
    """Each trill has its sign and its other note where it begins, and no other note has any."""
    have, want = {at: rest for at, *rest in reading.trills}, {t.at: t for t in said.trills}
    found = [f"a trill at beat {float(at):g} on the page, none in the file" for at in sorted(have.keys() - want)]
    for at, trill in sorted(want.items()):
        signed, other = have.get(at, (False, None))
        where = f"trill at beat {float(at):g}"
        if signed != trill.signed:
            found.append(f"{where}: {'a sign' if signed else 'no sign'} on the page, not in the file")
        named = trill.other
        if named is None:
            apart = None if other is None else round((other.cents - _plain(trill.note)) / 100)
            if apart is not None and apart not in trill.apart:
                found.append(f"{where}: {apart} half steps on the page")
            elif apart is None and trill.apart and not signed:
                found.append(f"{where}: no other note on the page")
        elif other is None or (other.steps, other.alter) != (named.steps, named.alter):
            found.append(f"{where}: {other.name if other else 'none'} on the page, {named.name} in the file")
    fingers = dict(reading.fingers)
    return found + [
        f"fingering at beat {float(at):g}: {fingers.get(at, 'none')} on the page, {text} in the file"
        for at, text in said.fingers
        if fingers.get(at) != text
    ]


def _plain(note: Spelling) -> Fraction:
    return note.pitch_cents - note.cents


def _where(sign: tuple[Fraction, str, str]) -> tuple[Fraction, str]:
    """Sorted by kind and text within a moment: where a line stops it is just before the end."""
    return (Fraction(round(8 * sign[0]), 8), sign[1])


def _levels(reading: Reading, said: Said) -> list[str]:
    """The levels in order, each at its time; niente has its own sign, and repeated levels may be left out."""
    strokes = [(a.at, a.ends) for a in said.notes if a.stroke and a.at is not None and a.ends is not None]
    quiet = [*reading.silences, *strokes]
    have = _once(reading.levels)
    want = _once([level for level in said.levels if level[1] != "n"])
    names = [" ".join(level for _, level in row) for row in (have, want)]
    if names[0] != names[1]:
        return [f"levels: {names[0]} on the page, {names[1]} in the file"]
    found = [
        f"level {level}: beat {float(at):g} on the page, {float(time):g} in the file"
        for (at, level), (time, _) in zip(have, want, strict=True)
        if not _there(at, time, quiet)
    ]
    signs = [" ".join(sign for _, _, sign in row) for row in (reading.hairpins, said.hairpins)]
    if signs[0] != signs[1]:
        return [*found, f"hairpins: {signs[0]} on the page, {signs[1]} in the file"]
    for (start, end, sign), (begins, ends, _) in zip(reading.hairpins, said.hairpins, strict=True):
        if not _there(start, begins, quiet) or not _there(end, ends, quiet):
            shown = "?" if end is None else f"{float(end):g}"
            found.append(f"hairpin {sign} ends at beat {shown} on the page, {float(ends):g} in the file")
    return found


def _there(at: Fraction | None, time: Fraction, quiet: list[tuple[Fraction, Fraction]]) -> bool:
    """Whether something is at its time: for the end of a sound just before it, before a silence there, or under a
    stroke. At a line break a bound has no time."""
    if at is None or abs(at - time) <= _INSTANT:
        return True
    return any(start - _INSTANT <= at < time <= end for start, end in quiet)


def _once(levels: list[tuple[Fraction, str]]) -> list[tuple[Fraction, str]]:
    return [level for n, level in enumerate(levels) if n == 0 or level[1] != levels[n - 1][1]]


def _name(note: Note) -> str:
    pitch = note.pitch.name if note.pitch is not None else f"height {note.position:g}"
    return f"{pitch} ({note.cents})" if note.cents else pitch


def _asked_name(want: Asked) -> str:
    return want.spelling.name if want.spelling is not None else f"height {want.steps}"


def prepared(read: list[Heard], want: list[Spelling]) -> list[str]:
    """Compare the small notes before a line with its preparation."""
    pairs = zip_longest(read, want)
    found = []
    for number, (heard, spelling) in enumerate(pairs, start=1):
        same = (
            heard is not None
            and spelling is not None
            and (heard.steps, heard.alter) == (spelling.steps, spelling.alter)
        )
        if not same:
            found.append(
                f"preparation note {number}: {heard.name if heard else 'nothing'} on the page, "
                f"{spelling.name if spelling else 'nothing'} in practice"
            )
    return found
