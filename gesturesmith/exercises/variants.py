"""The lines of an exercise sheet: the playable variants, in the order asked for, thinned to the number to keep.

A sheet uses `lines(exercise)`:

    practice = lines(exercise)            # or Checked.practices[exercise.name], if `check` has run
    practice.kept                         # the lines to engrave, first to last
    practice.left_out                     # (label, reason) of every refused variant, in listing order
    line.case, line.findings              # how it is played, for the engraver; its findings
    line.label, line.difficulty           # "from G4, 8 beats, tempo 60"; 0 to 100

Only the page knows how many lines it holds. For `keep: one page` every playable line is kept here, and the sheet
calls `practice.at_most(count)` once it knows how many fit; `keep: 12` does the same.
"""

from __future__ import annotations

from collections.abc import Sequence

from gesturesmith.diagnostics import Finding, Severity
from gesturesmith.difficulty.score import Difficulty, difficulty
from gesturesmith.evidence import PLAYER
from gesturesmith.judge.gesture import Judged, judge
from gesturesmith.kinds import Order
from gesturesmith.model.piece import Exercise
from gesturesmith.rules.base import Case
from gesturesmith.values import frozen


@frozen(kw_only=True)
class PlayableVariant:
    """A playable variant.

    number       its number among all variants, from 1
    label        what it varies, in words
    judged       how it is played, and its findings
    hardness     its difficulty with the reasons
    """

    number: int
    label: str
    judged: Judged
    hardness: Difficulty

    @property
    def case(self) -> Case:
        return self.judged.case

    @property
    def findings(self) -> tuple[Finding, ...]:
        return self.judged.findings

    @property
    def difficulty(self) -> int:
        """0 to 100."""
        return self.hardness.number


@frozen(kw_only=True)
class Practice:
    """The result of an exercises block.

    playable   every playable line, in listing order
    kept       those to print, in the order to practise them
    left_out   label and reason of each refused variant, in listing order
    """

    exercise: Exercise
    playable: tuple[PlayableVariant, ...]
    kept: tuple[PlayableVariant, ...]
    left_out: tuple[tuple[str, str], ...]

    def at_most(self, count: int) -> tuple[PlayableVariant, ...]:
        """The lines to print if only `count` (at least 1) fit: `kept`, thinned further in even steps."""
        return _arranged(self.playable, self.exercise.order, min(count, len(self.kept)))


def lines(exercise: Exercise) -> Practice:
    """Judge every variant, leave out the refused ones, order and thin the rest."""
    playable: list[PlayableVariant] = []
    left_out: list[tuple[str, str]] = []
    for number, (label, variant) in enumerate(zip(exercise.labels, exercise.variants, strict=True), start=1):
        judged = judge(variant)
        beyond = [*judged.refusals, *(f for f in judged.findings if _of_player(f))]
        if beyond:
            left_out.append((label, _reason(beyond[0])))
        else:
            hardness = difficulty(judged.case)
            playable.append(PlayableVariant(number=number, label=label, judged=judged, hardness=hardness))
    count = exercise.keep if isinstance(exercise.keep, int) else len(playable)
    row = tuple(playable)
    return Practice(
        exercise=exercise, playable=row, kept=_arranged(row, exercise.order, count), left_out=tuple(left_out)
    )


def _of_player(finding: Finding) -> bool:
    """Whether it is a caution beyond what this player can do: a line for others, not for practising."""
    evidence = finding.evidence
    return finding.severity is Severity.CAUTION and evidence is not None and evidence.kind is PLAYER


def _reason(refused: Finding) -> str:
    where = f"{refused.where}: " if refused.where else ""
    return f"{where}{refused.text} ({refused.rule})"


def _arranged(playable: Sequence[PlayableVariant], order: Order, count: int) -> tuple[PlayableVariant, ...]:
    """The lines in an `order` of the language page, thinned to `count`; equals stay in listing order."""
    if order == "as listed":
        return _thinned(playable, count)
    if order == "hardest first":
        return _thinned(sorted(playable, key=lambda line: (-line.hardness.exact, line.number)), count)
    row = _thinned(sorted(playable, key=lambda line: (line.hardness.exact, line.number)), count)
    # Thinned first: even steps through a mixed row could take only the easy ones.
    return _mixed(row) if order == "mixed" else row


def _thinned(row: Sequence[PlayableVariant], count: int) -> tuple[PlayableVariant, ...]:
    """`count` of a row in even steps, always including the first and the last; for 1, the first."""
    if count >= len(row):
        return tuple(row)
    if count <= 1:
        return tuple(row[:count])
    last = len(row) - 1
    return tuple(row[(2 * k * last + count - 1) // (2 * (count - 1))] for k in range(count))


def _mixed(row: Sequence[PlayableVariant]) -> tuple[PlayableVariant, ...]:
    """An easier and a harder line in turn, each series getting harder."""
    half = (len(row) + 1) // 2
    return tuple(row[k // 2 + (half if k % 2 else 0)] for k in range(len(row)))
