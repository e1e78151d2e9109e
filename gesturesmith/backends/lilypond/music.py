"""A score with its LilyPond text, split at its footnote marks: each page fills in the marks."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from itertools import chain, zip_longest

from gesturesmith.backends.lilypond.marks import footnote_mark
from gesturesmith.lytext import LyText, code, joined
from gesturesmith.score.marks import FootnoteMark
from gesturesmith.score.music import Footnote, Music
from gesturesmith.values import frozen

_NO_MARK = code("")


@frozen(kw_only=True)
class EngravedMusic:
    """The content of a staff; it uses only LilyPond's notation and commands of the stencils.

    pieces   its text, split at each footnote mark of the music: always one more than the marks
    """

    music: Music
    pieces: tuple[LyText, ...]

    @property
    def ly(self) -> LyText:
        """Its text, with numbers at the marks."""
        return self._with(footnote_mark)

    @property
    def unmarked(self) -> LyText:
        """Its text without footnote marks, for a picture beside its explanation."""
        return self._with(lambda mark: _NO_MARK)

    def marked(self, mark: Callable[[tuple[Footnote, ...]], LyText]) -> LyText:
        """Its text, with `mark` applied to the footnotes at each mark; a mark whose footnotes are elsewhere keeps
        its numbers."""

        def printed(one: FootnoteMark) -> LyText:
            there = self.music.footnotes_at(one)
            return mark(there) if there else footnote_mark(one)

        return self._with(printed)

    def renumbered(self, numbers: Mapping[str, str]) -> EngravedMusic:
        """The music with other numbers at its marks: own number -> number on the page, or several with commas."""
        return replace(self, music=self.music.renumbered(numbers))

    def noted(self, numbers: Mapping[str, str]) -> EngravedMusic:
        """The music with the numbers of a notes page, which has its footnotes: own number -> label there."""
        return replace(self, music=self.music.noted(numbers))

    def _with(self, printed: Callable[[FootnoteMark], LyText]) -> LyText:
        marks = (printed(mark) for mark in self.music.footnote_marks)
        return joined(chain.from_iterable(zip_longest(self.pieces, marks, fillvalue=_NO_MARK)), "")
