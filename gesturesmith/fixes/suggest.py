"""Suggestions: edits of a gesture's own lines, each read and judged before it is shown."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from gesturesmith.diagnostics import Edit, Finding, Severity, Suggestion, Verdict
from gesturesmith.diagnostics.changes import Fix, LineChange, PitchChange
from gesturesmith.fixes import propose
from gesturesmith.fixes.divide import cuts
from gesturesmith.fixes.tester import EditTester
from gesturesmith.judge.gesture import Judged, judge_case, refuses, verdict_of
from gesturesmith.judge.places import point_at
from gesturesmith.lang.nodes import Block
from gesturesmith.rules.base import Case
from gesturesmith.source import Span
from gesturesmith.values import frozen

MOST = 3  # suggestions for one finding
TRIES = 24  # edits judged for one gesture: one with many faults must not delay the rest
POINTS = 150  # points judged for one gesture, over all its edits: nor must one with many points
ATTACKS = 8  # this many on one point cost as much to judge as another point
STEPS = 4  # edits combined if no single one is enough

type Place = tuple[str, int | None]


def with_suggestions(tester: EditTester, judged: Judged) -> tuple[Finding, ...]:
    """The findings of a gesture, each with up to three edits that were checked and passed."""
    block = tester.block(judged.case.gesture.name)
    wanted = any(f.proposed_fixes or f.severity is Severity.REFUSED for f in judged.findings)
    if block is None or not wanted:
        return judged.findings
    if not tester.may_go_on():
        return tuple(replace(f, proposed_fixes=()) for f in judged.findings)
    trial = _Trial(tester, block, judged)
    return tuple(replace(f, suggestions=trial.suggestions(f), proposed_fixes=()) for f in judged.findings)


@frozen(kw_only=True)
class _Seen:
    """What matters of a gesture, or of its halves, when edits are compared."""

    judged: tuple[Judged, ...]
    verdict: Verdict
    places: Counter[Place]  # number of findings of each rule at each point
    graver: tuple[Counter[str], ...]  # number of findings of each rule at least as severe, by rank

    @classmethod
    def of(cls, judged: tuple[Judged, ...]) -> _Seen:
        places, graver = Counter[Place](), tuple(Counter[str]() for _ in Severity)
        for one in judged:
            spots = {p.span: i for i, p in enumerate(one.case.gesture.points)}
            for finding in one.findings:
                places[_place(one, finding, spots)] += 1
                for rank in range((finding.severity or Severity.CAUTION).rank + 1):
                    graver[rank][finding.rule] += 1
        verdict = verdict_of(f for one in judged for f in one.findings)
        return cls(judged=judged, verdict=verdict, places=places, graver=graver)

    @property
    def refusals(self) -> Counter[str]:
        return self.graver[Severity.REFUSED.rank]


def _place(judged: Judged, finding: Finding, spots: dict[Span, int]) -> Place:
    index = spots.get(finding.span)
    return finding.rule, point_at(judged.case.gesture, finding.span) if index is None else index


@frozen(kw_only=True)
class _Offer:
    """A possible suggestion; `others` are its edits in other blocks, by block name."""

    edits: tuple[Edit, ...]
    others: Mapping[str, tuple[Edit, ...]]
    ease: int
    changes_music: bool
    words: str = ""

    @property
    def all_edits(self) -> tuple[Edit, ...]:
        return (*self.edits, *(e for edits in self.others.values() for e in edits))


class _Trial:
    """Finds the suggestions for one gesture; every edit is judged once, however many findings propose it."""

    def __init__(self, tester: EditTester, block: Block, judged: Judged) -> None:
        self._tester = tester
        self._block = block
        self._judged = judged
        self._case = judged.case
        self._before = _Seen.of((judged,))
        self._spots = {p.span: i for i, p in enumerate(judged.case.gesture.points)}
        self._refusals = judged.refusals
        self._rules = {f.rule for f in judged.refusals}
        points = max(len(judged.case.gesture.points), judged.case.gesture.size // ATTACKS)
        self._left = max(4, min(TRIES, POINTS // points))
        self._more = max(4, min(4 * STEPS, 10 * POINTS // points))  # for combined edits
        self._cases: dict[tuple[Edit, ...], tuple[Case, ...] | None] = {}
        self._seen: dict[tuple[Edit, ...], _Seen] = {}
        self._worse: dict[tuple[tuple[Edit, ...], int], bool] = {}
        self._made: dict[tuple[tuple[Fix, ...], bool, bool], tuple[_Offer, ...]] = {}
        self._joined: tuple[Suggestion, ...] | None = None

    def suggestions(self, finding: Finding) -> tuple[Suggestion, ...]:
        """Up to three edits that remove the finding, are not refused, and cause nothing as severe."""
        refused = finding.severity is Severity.REFUSED
        if not refused and self._before.verdict is Verdict.NOT_AS_WRITTEN:
            return ()  # refusals are fixed first
        if len(self._rules) > 1:
            self._together()  # a single edit is hardly enough: only those tried here are considered
            self._left = 0
        good = tuple(self._passing(finding))
        if not good and refused:
            good = self._together()
        return good

    # --- one edit ----------------------------------------------------------------------------------------

    def _passing(self, finding: Finding) -> Iterator[Suggestion]:
        count = 0
        known = set[tuple[Edit, ...]]()
        for offer in self._offers(finding):
            if offer.edits in known:
                continue
            known.add(offer.edits)
            if finding.severity is Severity.REFUSED and self._still_refused(finding.rule, offer.edits):
                continue
            again = self._again(offer.edits)
            if again is None or not self._answers(finding, again) or self._harms(finding, offer):
                continue
            yield _suggestion(offer, again)
            count += 1
            if count == MOST:
                return

    def _offers(self, finding: Finding) -> tuple[_Offer, ...]:
        """The edits for a finding, the easiest concessions first: those its rule proposes and, for a refusal,
        general ones."""
        own, refused = finding.proposed_fixes, finding.severity is Severity.REFUSED
        if refused and len(self._refusals) > 1:  # a fault in several places is not fixed at this one alone
            own = tuple(c for c in own if len(c) > 1 or not propose.is_part(c))
        key = own, refused, self._divisible(finding)
        if key not in self._made:
            if self._rules == {finding.rule} and refused:
                united = [tuple(propose.united(self._refusals, kind)) for kind in (LineChange, PitchChange)]
                own = (*own, *united[0], *propose.general(self._case, finding), *united[1])
            offers = [o for c in dict.fromkeys(own) if (o := self._offer(c)) is not None]
            offers += self._divisions() if key[2] else ()
            self._made[key] = tuple(sorted(offers, key=lambda o: o.ease))
        return self._made[key]

    def _offer(self, changes: Fix) -> _Offer | None:
        written = propose.expanded(changes, self._case)
        if not propose.keeps_kin(written, self._case):
            return None
        edits = self._tester.writer.edits(self._block, written) if written else None
        if edits is None:
            return None
        ease = propose.ease(written, self._case)
        return _Offer(edits=edits, others={}, ease=ease, changes_music=propose.changes_music(written))

    def _divisible(self, finding: Finding) -> bool:
        """Whether two gestures may help: if it is refused for lack of time, or a slide has to break."""
        if finding.severity is Severity.REFUSED and propose.divisible(self._case, finding):
            return True
        return _place(self._judged, finding, self._spots)[1] in self._case.realisation.breaks

    def _divisions(self) -> Iterator[_Offer]:
        for cut in cuts(self._case):
            made = self._tester.divider.divided(self._block, self._case.gesture, cut)
            if made is not None:
                yield _Offer(
                    edits=made.edits,
                    others=made.others,
                    ease=propose.DIVISION,
                    changes_music=cut.in_line,
                    words=made.words,
                )

    def _again(self, edits: tuple[Edit, ...]) -> _Seen | None:
        """The gesture with edits applied, judged; None if it cannot be read or enough has been tried."""
        cases = self._read(edits)
        if cases is not None and edits not in self._seen:
            self._seen[edits] = _Seen.of(tuple(map(judge_case, cases)))
        return self._seen.get(edits)

    def _still_refused(self, rule: str, edits: tuple[Edit, ...]) -> bool:
        """Whether a rule still refuses the gesture with edits applied: most do, and no other needs to be asked."""
        return edits not in self._seen and any(refuses(rule, case) for case in self._read(edits) or ())

    def _read(self, edits: tuple[Edit, ...]) -> tuple[Case, ...] | None:
        """The gesture with edits applied, read once; None as `_again` says."""
        if edits not in self._cases:
            if self._left <= 0:
                return None
            self._left -= 1
            self._cases[edits] = self._tester.cases_again(self._block, edits)
        return self._cases[edits]

    def _answers(self, finding: Finding, again: _Seen) -> bool:
        """Whether the finding is gone, nothing is refused, and no rule has more findings as severe."""
        if again.verdict is Verdict.NOT_AS_WRITTEN:
            return False
        rank = (finding.severity or Severity.CAUTION).rank
        before, after = self._before.graver[rank], again.graver[rank]
        if any(n > before[rule] for rule, n in after.items()):
            return False
        if len(again.judged) > 1:  # points are numbered separately in each half
            return after[finding.rule] < before[finding.rule]
        place = _place(self._judged, finding, self._spots)
        return again.places[place] < self._before.places[place]

    def _harms(self, finding: Finding, offer: _Offer) -> bool:
        """Whether a passage that plays the gesture would be worse off."""
        rank = (finding.severity or Severity.CAUTION).rank
        key = offer.edits, rank
        if key not in self._worse:
            again = self._again(offer.edits)
            judged = again.judged if again is not None else ()
            self._worse[key] = self._tester.harms(self._block, offer.edits, offer.others, judged, rank)
        return self._worse[key]

    # --- several edits put together ----------------------------------------------------------------------

    def _together(self) -> tuple[Suggestion, ...]:
        """A single suggestion of several edits, for a gesture with several faults; the same for all of its
        refusals."""
        if self._joined is None:
            self._left = max(self._left, self._more)
            found = self._in_steps() or self._as_plain()
            self._joined = (found,) if found is not None else ()
        return self._joined

    def _in_steps(self, start: Fix = (), now: _Seen | None = None) -> Suggestion | None:
        """An edit for each reason, all at once; else one at a time, each the one that leaves the fewest refusals.
        Edits that turn out not to be needed are dropped."""
        taken = [start] if start else []
        now = now or self._before
        for _ in range(STEPS):
            tried = self._tried(now, taken)
            if not taken and (found := self._one_each(tried)) is not None:
                return found
            fewer = [t for t in tried if t[1].refusals.total() < now.refusals.total()]
            if not fewer:
                return None
            changes, now = min(fewer, key=lambda t: t[1].refusals.total())
            taken.append(changes)
            if now.verdict is not Verdict.NOT_AS_WRITTEN:
                return self._without_idle(taken)
        return None

    def _tried(self, now: _Seen, taken: Sequence[Fix]) -> list[tuple[Fix, _Seen]]:
        """The results of each further edit, easiest first, up to the first without refusals."""
        (judged,) = now.judged
        by_rule: dict[str, list[Finding]] = {}
        for finding in judged.refusals:
            by_rule.setdefault(finding.rule, []).append(finding)
        rows = tuple(by_rule.values())
        proposals = [c for found in rows for c in propose.united(found, LineChange)]
        proposals += [*propose.steps(judged.case), *(c for found in rows for c in found[0].proposed_fixes)]
        proposals += [c for found in rows for c in propose.united(found, PitchChange)]
        written = dict.fromkeys(c for p in proposals if (c := propose.expanded(p, judged.case)))
        left: list[tuple[Fix, _Seen]] = []
        for changes in sorted(written, key=lambda c: propose.ease(c, judged.case)):
            again = self._merged(taken, changes)
            if again is None or any(n > now.refusals[r] for r, n in again.refusals.items()):
                continue
            left.append((changes, again))
            if again.verdict is not Verdict.NOT_AS_WRITTEN:
                break
        return left

    def _one_each(self, tried: Sequence[tuple[Fix, _Seen]]) -> Suggestion | None:
        """For each rule that refuses, the easiest edit after which it does not, all combined."""
        taken: list[Fix] = []
        for rule in self._before.refusals:
            cure = next((changes for changes, again in tried if not again.refusals[rule]), None)
            if cure is None:
                return None
            if cure not in taken:
                taken.append(cure)
        again = self._merged(taken, ())
        if again is None or again.verdict is Verdict.NOT_AS_WRITTEN:
            return None
        return self._without_idle(taken)

    def _merged(self, taken: Iterable[Fix], more: Fix) -> _Seen | None:
        edits = self._tester.writer.edits(self._block, propose.merged((*taken, more)))
        return None if edits is None else self._again(edits)

    def _without_idle(self, taken: list[Fix]) -> Suggestion | None:
        for changes in tuple(taken):
            rest = [c for c in taken if c is not changes]
            again = self._merged(rest, ()) if rest else None
            if again is not None and again.verdict is not Verdict.NOT_AS_WRITTEN:
                taken = rest
        return self._if_good(propose.merged(taken))

    def _as_plain(self) -> Suggestion | None:
        """Ordinary notes, and steps from there: the last resort."""
        self._left = max(self._left, self._more)
        best: tuple[Fix, _Seen] | None = None
        for changes in propose.plain(self._case):
            written = propose.merged((propose.expanded(changes, self._case),))
            again = self._merged((), written) if written else None
            if again is not None and again.verdict is not Verdict.NOT_AS_WRITTEN:
                return self._if_good(written)
            if again is not None and (best is None or again.refusals.total() < best[1].refusals.total()):
                best = written, again
        return None if best is None else self._in_steps(*best)

    def _if_good(self, changes: Fix) -> Suggestion | None:
        offer = self._offer(changes)
        again = self._again(offer.edits) if offer is not None else None
        if offer is None or again is None or again.verdict is Verdict.NOT_AS_WRITTEN:
            return None
        return None if self._harms(self._refusals[0], offer) else _suggestion(offer, again)


def _suggestion(offer: _Offer, again: _Seen) -> Suggestion:
    return Suggestion(
        edits=offer.all_edits, verdict=again.verdict, changes_music=offer.changes_music, words=offer.words
    )
