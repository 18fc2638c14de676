"""The guarantee on a repair."""

from __future__ import annotations

from datetime import date

import pytest

from app.trade.office.guarantee import (
    Answer,
    Covers,
    Promised,
    covers,
    days_left,
    denied_proposal,
    guarantee_proposal,
    guarantee_until,
    modified_clause,
    running,
)

BACK = date(2026, 11, 27)


def test_the_last_day_counts_in_full() -> None:
    until = guarantee_until(BACK, 181)
    assert until == date(2027, 5, 27)
    assert days_left(until, date(2027, 1, 13)) == 134  # counted by hand: 18 + 28 + 31 + 30 + 27
    assert days_left(until, date(2027, 5, 27)) == 0
    assert days_left(until, date(2027, 5, 28)) is None


def test_a_shop_may_give_none() -> None:
    assert guarantee_until(BACK, 0) is None
    assert days_left(None, BACK) is None
    assert running(2131, None, BACK) is None


def test_the_counter_reads_what_is_left() -> None:
    until = guarantee_until(BACK, 181)
    many = running(2131, until, date(2027, 1, 13))
    assert many is not None
    assert many.values == {"job": "2131", "until": until, "days": 134}
    one = running(2131, until, date(2027, 5, 26))
    assert one is not None
    assert "one day" in one.key
    last = running(2131, until, date(2027, 5, 27))
    assert last is not None
    assert "last day" in last.key
    assert running(2131, until, date(2027, 5, 28)) is None


def test_a_leap_day_is_a_day() -> None:
    assert guarantee_until(date(2028, 2, 28), 2) == date(2028, 3, 1)


def test_what_is_covered_says_whether_a_modified_player_is() -> None:
    assert covers(modified=False, modified_covered=False) is Covers.WORK
    assert covers(modified=True, modified_covered=True) is Covers.MODIFIED_TOO
    assert covers(modified=True, modified_covered=False) is Covers.NOT_MODIFIED
    assert modified_clause(Covers.WORK) is None
    assert modified_clause(Covers.MODIFIED_TOO) != modified_clause(Covers.NOT_MODIFIED)


PROMISED = Promised(2131, date(2027, 5, 26), Covers.WORK)


def test_a_comeback_on_the_last_day_is_proposed_at_no_charge() -> None:
    proposal = guarantee_proposal(PROMISED, date(2027, 5, 26), mended=True)
    assert proposal is not None
    assert (proposal.job, proposal.answer) == (2131, Answer.NO_CHARGE)
    assert proposal.reason.values == {"job": "2131", "until": date(2027, 5, 26)}
    assert guarantee_proposal(PROMISED, date(2027, 5, 27), mended=True) is None
    assert guarantee_proposal(None, date(2027, 5, 26), mended=True) is None


def test_where_nothing_is_charged_no_invoice_is_proposed() -> None:
    proposal = guarantee_proposal(PROMISED, date(2027, 1, 1), mended=False)
    assert proposal is not None
    assert proposal.answer is Answer.NO_INVOICE


def test_a_modified_player_that_is_left_out_is_looked_at_by_a_person() -> None:
    left_out = Promised(2131, date(2027, 5, 26), Covers.NOT_MODIFIED)
    proposal = guarantee_proposal(left_out, date(2027, 1, 1), mended=True)
    assert proposal is not None
    assert proposal.answer is Answer.CHARGED
    assert "modification" in proposal.reason.key
    too = Promised(2131, date(2027, 5, 26), Covers.MODIFIED_TOO)
    agreed = guarantee_proposal(too, date(2027, 1, 1), mended=True)
    assert agreed is not None
    assert agreed.answer is Answer.NO_CHARGE


@pytest.mark.parametrize(("mended", "answer"), [(True, Answer.NO_CHARGE), (False, Answer.NO_INVOICE)])
def test_what_nobody_confirmed_is_told_as_a_guess(mended: bool, answer: Answer) -> None:
    proposal = guarantee_proposal(PROMISED, date(2027, 1, 1), mended=mended, confirmed=False)
    assert proposal is not None
    assert proposal.answer is answer
    assert "may be the same fault" in proposal.reason.key


def test_a_denied_comeback_is_charged_as_usual() -> None:
    proposal = denied_proposal(Promised(2131, date(2027, 5, 26), Covers.WORK))
    assert (proposal.job, proposal.answer) == (2131, Answer.CHARGED)
    assert proposal.reason.values == {"job": "2131"}
