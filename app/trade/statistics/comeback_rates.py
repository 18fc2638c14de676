"""Comeback rates of groups, each against the rest of the shop, and what may be said about them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum

from app.trade.sentence import Measure, Sentence, Value, words
from app.trade.statistics.comebacks import WITH, By, Counted
from app.trade.statistics.proportions import exact_test, holm, wilson

FEWEST = 10  # repairs; under it nothing is said
LEVEL = 0.05
NAMED = 3  # groups in a headline; more are counted


class Verdict(StrEnum):
    """What may be said of a group against the rest."""

    MORE_OFTEN = words("more often")
    LESS_OFTEN = words("less often")
    CANNOT_TELL = words("cannot tell")
    TOO_FEW = words("too few to say")
    NO_REST = words("nothing to compare with")


@dataclass(frozen=True, slots=True)
class Rate:
    """One group: its share with 95 % score interval, the share of all others together, the test against them.

    ``share`` and ``rest_share`` are None where nothing could come back. ``p`` is the exact test's, ``adjusted``
    Holm's over the ``tests`` groups looked at together.
    """

    counted: Counted
    share: float | None
    low: float
    high: float
    rest_came_back: int
    rest_could: int
    p: float
    adjusted: float
    tests: int
    verdict: Verdict

    @property
    def label(self) -> str:
        """The group's name."""
        return self.counted.label

    @property
    def rest_share(self) -> float | None:
        """The share of all the other groups together."""
        return self.rest_came_back / self.rest_could if self.rest_could else None


def rates(groups: Sequence[Counted]) -> tuple[Rate, ...]:
    """Every group against all the others together, highest lower bound first.

    Groups with nothing to count take no part in the tests. Two groups are one comparison, not two.
    """
    came_back, could = sum(g.came_back for g in groups), sum(g.could for g in groups)
    tested = [g for g in groups if 0 < g.could < could]
    p_values = [exact_test(g.came_back, g.could, came_back - g.came_back, could - g.could) for g in tested]
    adjusted = p_values if len(tested) == 2 else holm(p_values)
    tests = 1 if len(tested) == 2 else len(tested)
    by_label = {g.label: (p, a) for g, p, a in zip(tested, p_values, adjusted, strict=True)}
    found = []
    for group in groups:
        low, high = wilson(group.came_back, group.could)
        p, a = by_label.get(group.label, (1.0, 1.0))
        rest = (came_back - group.came_back, could - group.could)
        verdict = _verdict(group, rest, a)
        share = group.came_back / group.could if group.could else None
        found.append(Rate(group, share, low, high, *rest, p, a, tests, verdict))
    return tuple(sorted(found, key=lambda rate: (rate.share is None, -rate.low, -rate.high, rate.label)))


def _verdict(group: Counted, rest: tuple[int, int], adjusted: float) -> Verdict:
    rest_came_back, rest_could = rest
    if group.could < FEWEST:
        return Verdict.TOO_FEW
    if not rest_could:
        return Verdict.NO_REST
    if adjusted >= LEVEL:
        return Verdict.CANNOT_TELL
    more = group.came_back * rest_could > rest_came_back * group.could
    return Verdict.MORE_OFTEN if more else Verdict.LESS_OFTEN


def headline(found: Sequence[Rate], by: By, window: int, name: Callable[[str], Value] = str) -> Sentence:
    """The one sentence over the picture. It names, or counts, only what stands after Holm's correction; ``name`` tells
    a label as people say it."""
    if all(rate.counted.could < FEWEST for rate in found):
        return Sentence("Too few repairs have been watched for {days} days to say anything", {"days": window})
    more = [rate for rate in found if rate.verdict is Verdict.MORE_OFTEN]
    less = [rate for rate in found if rate.verdict is Verdict.LESS_OFTEN]
    if by is By.MODIFICATION:
        return _headline_of_two(more, less)
    many, many_less, none = _HEADLINES.get(by, _ANY_GROUP)
    for stands, one, several, count in (
        (more, *(_OF_PLAYERS if by in _NAMES else _OF_REPAIRS)[:2], many),
        (less, *(_OF_PLAYERS if by in _NAMES else _OF_REPAIRS)[2:], many_less),
    ):
        names = tuple(name(rate.label) for rate in stands)
        if len(names) > NAMED:
            return Sentence(count.key, {"count": len(names)})
        if len(names) > 1:
            return Sentence(several.key, {"groups": names})
        if names:
            return Sentence(one.key, {"group": names[0]})
    return none


def _headline_of_two(more: Sequence[Rate], less: Sequence[Rate]) -> Sentence:
    if any(rate.label == WITH for rate in more):
        return Sentence("Players with a modification inside come back more often than the others")
    if any(rate.label == WITH for rate in less):
        return Sentence("Players with a modification inside come back less often than the others")
    return Sentence("With or without a modification inside: no difference can be told")


# What is called by a name of its own comes back itself; of all else, its repairs do.
_NAMES = (By.TRANSPORT_TYPE, By.MAKER, By.MODEL)
_OF_PLAYERS = (
    Sentence("{group} comes back more often than the rest"),
    Sentence("Come back more often than the rest: {groups}"),
    Sentence("{group} comes back less often than the rest"),
    Sentence("Come back less often than the rest: {groups}"),
)
_OF_REPAIRS = (
    Sentence("Repairs come back more often than the rest: {group}"),
    Sentence("Repairs come back more often than the rest: {groups}"),
    Sentence("Repairs come back less often than the rest: {group}"),
    Sentence("Repairs come back less often than the rest: {groups}"),
)
_ANY_GROUP = (
    Sentence("{count} groups come back more often than the rest"),
    Sentence("{count} groups come back less often than the rest"),
    Sentence("No group can be told from the rest"),
)
_HEADLINES = {
    By.TRANSPORT_TYPE: (
        Sentence("{count} transport types come back more often than the rest"),
        Sentence("{count} transport types come back less often than the rest"),
        Sentence("No transport type can be told from the rest"),
    ),
    By.FAULT_GROUP: (
        Sentence("{count} fault groups come back more often than the rest"),
        Sentence("{count} fault groups come back less often than the rest"),
        Sentence("No fault group can be told from the rest"),
    ),
}


def per_cent(share: float, places: int = 0) -> Measure:
    """A share as a percentage with so many decimals."""
    shown = (Decimal(repr(share)) * 100).quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)
    return Measure(shown, "%")


def shown_p(p: float) -> Measure | Sentence:
    """A p value with two figures that matter: 0.75, 0.040, 0.0066; under 0.0001 it says so."""
    if p < 0.0001:
        return Sentence("under {p}", {"p": Measure(Decimal("0.0001"))})
    number = Decimal(repr(p))
    places = 2 if p >= 0.1 else 1 - number.adjusted()
    return Measure(number.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP))


def why(rate: Rate) -> tuple[Sentence, ...]:
    """How the number came about, in sentences: share and interval, the rest, the test, the verdict."""
    counted = rate.counted
    if rate.share is None:
        return (Sentence("No repair of this group could have come back yet."),)
    sentences = [
        Sentence(
            "{came_back} of {could} is {share} ({low} to {high}, score interval, 95 %).",
            {
                "came_back": counted.came_back,
                "could": counted.could,
                "share": per_cent(rate.share, 1),
                "low": per_cent(rate.low, 1),
                "high": per_cent(rate.high, 1),
            },
        )
    ]
    rest = rate.rest_share
    if rest is None:
        return (*sentences, Sentence("There is no other group to compare it with."))
    sentences.append(
        Sentence(
            "All others together: {came_back} of {could}, {share}.",
            {"came_back": rate.rest_came_back, "could": rate.rest_could, "share": per_cent(rest, 1)},
        )
    )
    sentences.append(Sentence("Exact test of two shares: p {p}.", {"p": shown_p(rate.p)}))
    if rate.tests > 1:
        sentences.append(
            Sentence(
                "With {tests} groups looked at together (Holm): {p}.",
                {"tests": rate.tests, "p": shown_p(rate.adjusted)},
            )
        )
    return (*sentences, _said(rate))


def _said(rate: Rate) -> Sentence:
    match rate.verdict:
        case Verdict.MORE_OFTEN:
            return Sentence("Below {level}: more often than the rest.", {"level": _LEVEL_SHOWN})
        case Verdict.LESS_OFTEN:
            return Sentence("Below {level}: less often than the rest.", {"level": _LEVEL_SHOWN})
        case Verdict.TOO_FEW:
            return Sentence("Under {fewest} repairs: too few to say.", {"fewest": FEWEST})
        case _:
            return Sentence("Not below {level}: it cannot be told from the rest.", {"level": _LEVEL_SHOWN})


_LEVEL_SHOWN = Measure(Decimal("0.05"))
