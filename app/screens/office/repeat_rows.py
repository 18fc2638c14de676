"""Rates of comebacks as the picture, the table and the margin show them."""

from __future__ import annotations

from app.screens.kit.cells import Column, Figure, Leave, Row, Words
from app.screens.kit.comebacks import ComebackFacts
from app.screens.language import current, percent, say
from app.trade.bench.kinds import Arrangement
from app.trade.sentence import Sentence
from app.trade.statistics.comeback_rates import FEWEST, Rate, Verdict, shown_p
from app.trade.statistics.comebacks import UNKNOWN, WITH, WITHOUT, By
from app.work.office.repeat_faults import RepeatFaults

SHORT = {
    Arrangement.SWING_ARM: Sentence("swing arm, one beam"),
    Arrangement.SLED: Sentence("sled, three beams"),
}
HEADS = {
    By.TRANSPORT_TYPE: Sentence("Transport type"),
    By.FAULT_GROUP: Sentence("Fault group"),
    By.MODIFICATION: Sentence("Modification inside"),
}
_VERDICTS = {
    Verdict.MORE_OFTEN: "more",
    Verdict.LESS_OFTEN: "less",
    Verdict.CANNOT_TELL: "unclear",
    Verdict.TOO_FEW: "few",
    Verdict.NO_REST: "unclear",
}


_NAMES = {
    (By.TRANSPORT_TYPE, UNKNOWN): Sentence("no transport noted"),
    (By.FAULT_GROUP, UNKNOWN): Sentence("no fault group noted"),
    (By.MODIFICATION, WITH): Sentence("with a modification"),
    (By.MODIFICATION, WITHOUT): Sentence("without a modification"),
}


def name_of(label: str, by: By) -> str:
    """A group's name: a type as the shop calls it, the other words in the window's language."""
    if (by, label) in _NAMES:
        return say(_NAMES[by, label])
    return label if by is By.TRANSPORT_TYPE else say(label)


def counted_rates(found: RepeatFaults) -> list[Rate]:
    """The groups of which at least one repair could have come back: the others have no bar."""
    return [rate for rate in found.rates if rate.share is not None]


def facts_of(found: RepeatFaults) -> list[ComebackFacts]:
    """The rows of the picture."""
    by = found.question.by
    return [_facts(rate, by, found.arrangements.get(rate.label)) for rate in counted_rates(found)]


def _facts(rate: Rate, by: By, arrangement: Arrangement | None) -> ComebackFacts:
    counted, rest = rate.counted, rate.rest_share
    second = say(SHORT[arrangement]) if by is By.TRANSPORT_TYPE and arrangement is not None else ""
    return ComebackFacts(
        name=name_of(rate.label, by),
        second=second,
        share=rate.share or 0.0,
        low=rate.low,
        high=rate.high,
        counted=say("{x} of {n}", x=counted.came_back, n=counted.could),
        rest=rest,
        rest_counted=say("{x} of {n}", x=rate.rest_came_back, n=rate.rest_could),
        verdict=_VERDICTS[rate.verdict],
        verdict_word=say("no other group") if rest is None else say(rate.verdict.value),
        detail=detail_of(rate),
        tip=tip_of(rate),
        key=rate.label,
    )


def detail_of(rate: Rate) -> str:
    """What stands soft under the verdict."""
    if rate.verdict is Verdict.TOO_FEW:
        return say("under {fewest} jobs", fewest=FEWEST)
    if rate.verdict is Verdict.NO_REST:
        return ""
    p = current().value(shown_p(rate.adjusted))
    return say("adjusted p {p}", p=p) if rate.tests > 1 else say("p {p}", p=p)


def _p(rate: Rate) -> str:
    return (
        "" if rate.verdict in (Verdict.TOO_FEW, Verdict.NO_REST) else current().value(shown_p(rate.adjusted))
    )


def tip_of(rate: Rate) -> str:
    """What the p means, in trade words."""
    if rate.verdict in (Verdict.TOO_FEW, Verdict.NO_REST):
        return ""
    return say(
        "p says how often chance alone would show a difference like this one between groups that are the same. "
        "It is adjusted, because of several groups looked at together one always looks odd. Below 0.05 it is "
        "said aloud."
    )


def table_columns(by: By) -> tuple[Column, ...]:
    """The picture as a table."""
    return (
        Column("name", say(HEADS[by]), 0, least=120),
        Column("came", say("Came back"), 94, right=True),
        Column("could", say("Of"), 60, right=True, tip=say("Repairs that could have come back")),
        Column("share", say("Share"), 76, number=True),
        Column("low", say("from"), 68, number=True, tip=say("95 % score interval, lower end")),
        Column("high", say("to"), 68, number=True, tip=say("95 % score interval, upper end")),
        Column("rest", say("The rest"), 76, number=True),
        Column("verdict", say("Against the rest"), 128),
        Column("p", say("p"), 70),
    )


TABLE_LEAVING = (Leave("p"), Leave("rest"), Leave("came"), Leave("could"))


def table_row(rate: Rate, by: By) -> Row:
    """One group in the table."""
    none = rate.share is None
    strong = rate.verdict in (Verdict.MORE_OFTEN, Verdict.LESS_OFTEN)
    return Row(
        rate.label,
        (
            Words(name_of(rate.label, by), strong=strong),
            Words(str(rate.counted.came_back), right=True),
            Words(str(rate.counted.could), right=True),
            None if none else _share(rate.share or 0.0, strong=True),
            None if none else _share(rate.low),
            None if none else _share(rate.high),
            None if rate.rest_share is None else _share(rate.rest_share),
            Words(
                say("none watched long enough") if none else say(rate.verdict.value), strong=strong, soft=none
            ),
            None if none else Words(_p(rate), soft=True, tip=tip_of(rate)),
        ),
    )


def _share(share: float, *, strong: bool = False) -> Figure:
    text = percent(share, 1)
    return Figure(text.removesuffix("\u00a0%"), "%", strong=strong)
