"""What engraving gives: the music of one gesture or passage, ready to be laid out."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction

from gesturesmith.lytext import LyText, code
from gesturesmith.tones import Performance
from gesturesmith.values import frozen

# A mark as the score writes it. In a user's text the quote would stand behind a backslash.
_MARK = re.compile(r'\\gsMark "([0-9, ]+)"')


# As the layouts in `templates/` have it: a place is as wide as a head in brackets and the gap after it.
USUAL_PLACE = Fraction(1, 12)


@frozen(kw_only=True)
class Footnote:
    """A footnote: its number as printed at the note and its text, plain.

    techniques  keys of the techniques whose standard wording it is, in order
    own         the composer's own words in it, or ""
    """

    number: str
    text: str
    techniques: tuple[str, ...] = ()
    own: str = ""


@frozen(kw_only=True)
class Music:
    """One gesture or one passage.

    name, title   as in the file
    kind          "gesture" | "passage"
    ly            the content of a staff; it calls commands of the stencils and LilyPond's notation, no more
    pitches       "written" in a part, "sounding" in a concert score
    free          spaced in proportion to time
    place         then, whole notes a place on the page
    staff_lines   5, or 3 for heights without pitch
    clef          the clef at its beginning; `last_clef` the one at its end
    meter         time signature; None: free, no bar lines
    tempo         quarters a minute where a tempo is printed, None where nothing is counted in beats; with the words
                  before it
    footnotes     in order of their numbers, counted within this music
    last_bar      the bar line at its end; "" where a repeat sign stands there
    description   the music in words, for those who cannot see it
    cautions      sentences for pages that carry cautions
    draft         lines of the findings to be printed with a draft; () where it is none
    performance   what is heard of it
    """

    name: str
    title: str | None
    kind: str
    ly: LyText
    pitches: str
    free: bool
    staff_lines: int
    clef: str
    last_clef: str
    meter: tuple[int, int] | None
    tempo: Fraction | None
    tempo_text: str | None
    last_bar: str = "|"
    place: Fraction = USUAL_PLACE
    footnotes: tuple[Footnote, ...]
    description: str
    cautions: tuple[str, ...]
    draft: tuple[str, ...] = ()
    performance: Performance

    def marked(self, mark: Callable[[tuple[Footnote, ...]], str]) -> LyText:
        """`ly` with what `mark` says at each mark in place of its numbers; without footnotes as it is."""
        if not self.footnotes:
            return self.ly
        known = {f.number: f for f in self.footnotes}
        return code(_MARK.sub(lambda match: mark(tuple(known[n] for n in match[1].split(", "))), self.ly))

    def renumbered(self, numbers: Mapping[str, str]) -> LyText:
        """`ly` with other numbers at its marks: own number -> number on the page, or several with commas."""

        def mark(footnotes: tuple[Footnote, ...]) -> str:
            there = {n for footnote in footnotes for n in numbers[footnote.number].split(", ")}
            return f'\\gsMark "{", ".join(sorted(there, key=int))}"'

        return self.marked(mark)

    def noted(self, numbers: Mapping[str, str]) -> Music:
        """The music with the numbers of a notes page, where its footnotes are read: own number -> label there."""
        return replace(self, ly=self.renumbered(numbers), footnotes=())

    @property
    def unmarked(self) -> LyText:
        """`ly` without any mark, for a picture that stands beside its explanation."""
        return code(_MARK.sub("", self.ly))

    def mark_texts(self) -> tuple[tuple[str, ...], ...]:
        """The own numbers at each mark, in order."""
        return tuple(tuple(m.split(", ")) for m in _MARK.findall(self.ly))
