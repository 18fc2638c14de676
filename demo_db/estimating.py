"""Estimates of the demo shop, written and answered through app.work as a person would."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from app.trade.bench.stages import Way
from app.trade.money import MICRO
from app.trade.office.estimate import OptionEntry
from app.trade.office.invoice import LineKind
from app.work.office.estimate_answers import AnswerEntry, record_answer
from app.work.office.estimate_view import estimate_view
from app.work.office.estimates import (
    EstimatedLine,
    add_line,
    add_option,
    begin_estimate,
    change_option,
    issue_estimate,
    set_head,
)
from demo_db.hands import VAT_FULL, Shop, micro

Lines = Sequence[EstimatedLine]


def hours(words: str, many: str) -> EstimatedLine:
    """Working time at the shop's hour."""
    return EstimatedLine(kind=LineKind.LABOUR, words=words, quantity=micro(many), vat=VAT_FULL)


def part(words: str, euro: str) -> EstimatedLine:
    """One part, net."""
    return EstimatedLine(kind=LineKind.PART, words=words, quantity=MICRO, price=micro(euro), vat=VAT_FULL)


def fixed(words: str, euro: str) -> EstimatedLine:
    """A fixed charge, net."""
    return EstimatedLine(kind=LineKind.FIXED_CHARGE, words=words, price=micro(euro), vat=VAT_FULL)


def estimate(
    shop: Shop, job: int, intro: str, options: Sequence[tuple[OptionEntry, Lines]], who: str = "ine"
) -> int:
    """Write an estimate with these options and issue it; gives its id."""
    book, by = shop.book, shop.people[who]
    key = begin_estimate(book, by, job).value
    now = _written(shop, job)
    set_head(book, by, key, intro=intro, valid_until=now.valid_until)
    for at, (entry, lines) in enumerate(options):
        if at == 0:
            option = now.options[0].kept.id
            change_option(book, by, option, entry)
        else:
            option = add_option(book, by, key, entry).value
        for line in lines:
            add_line(book, by, option, line)
    shop.file(issue_estimate(book, by, key).value.paper_id)
    return key


def answered(
    shop: Shop,
    job: int,
    estimate_id: int,
    chosen: str | None,
    said_by: str,
    *,
    who: str = "mirr",
    **more: Any,
) -> None:
    """The answer to it: the letter of an option, or None for none of them."""
    out = estimate_view(shop.book, job).out
    assert out is not None
    option = (
        None if chosen is None else next(o.kept.id for o in out.options if o.kept.option.letter == chosen)
    )
    entry = AnswerEntry(option_id=option, said_by=said_by, way=more.pop("way", Way.TELEPHONE), **more)
    record_answer(shop.book, shop.people[who], estimate_id, entry)


def _written(shop: Shop, job: int) -> Any:
    now = estimate_view(shop.book, job).writing
    assert now is not None
    return now
