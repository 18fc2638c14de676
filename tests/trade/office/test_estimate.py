"""Estimates: what each option comes to, how it stands to the limit, what keeps it from going out, the way back."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.money import MICRO, Money
from app.trade.office.estimate import (
    INTRO_ROOM,
    TEXT_ROOM,
    TITLE_ROOM,
    DeclinedFacts,
    Option,
    OptionEntry,
    Taken,
    against_limit,
    ceiling_of,
    check_head,
    check_option,
    check_to_issue,
    days_unanswered,
    declined_way,
    option_totals,
    taken_lines,
)
from app.trade.office.invoice import Draft, Line, LineKind, net_of, work_out
from app.trade.wording import plain

TODAY = date(2026, 11, 24)
UNTIL = date(2026, 12, 24)
WORK = Line("Bench work", LineKind.LABOUR, 2_250_000, "HUR", 62 * MICRO, 1900)
PART = Line("Resistor 5.6 ohm", LineKind.PART, MICRO, "H87", 2_150_000, 1900)
RUNNING_IN = Line("Running in, final readings", LineKind.FIXED_CHARGE, MICRO, "C62", 18 * MICRO, 1900)
TESTED = Line("Electrical safety test", LineKind.FIXED_CHARGE, MICRO, "C62", 12 * MICRO, 1900)
NOTE = Line("Your transport is kept.", LineKind.TEXT, 0, "C62", 0, 0)
LINES = (WORK, PART, RUNNING_IN, TESTED, NOTE)
B = Option("B", OptionEntry(title="modified, yours kept", never_above=21_500), LINES)


def said(sentences) -> list[str]:
    wording = plain(UTC)
    return [wording(sentence) for sentence in sentences]


def test_an_option_comes_to_what_the_picture_of_the_estimate_says():
    # Amounts of shared/look/papers/estimate.png, option B: 171.65 net, 32.61 VAT, 204.26 with VAT.
    totals = option_totals(LINES, "EUR")
    assert (totals.net.minor, totals.vat.minor, totals.due.minor) == (17_165, 3_261, 20_426)


@given(
    st.lists(
        st.builds(
            lambda quantity, price, rate, gross: Line(
                "x",
                LineKind.PART,
                quantity,
                "H87",
                net_of(price, rate) if gross else price,
                rate,
                price_with_vat=price if gross else None,
            ),
            st.integers(1, 20 * MICRO),
            st.integers(0, 500 * MICRO),
            st.sampled_from([1900, 700]),
            st.booleans(),
        ),
        max_size=12,
    )
)
def test_the_same_lines_come_to_the_same_amount_on_estimate_and_invoice(lines):
    assert option_totals(lines, "EUR").due == work_out(Draft("EUR", tuple(lines))).due


def test_choosing_an_option_agrees_to_its_highest_amount_or_to_its_sum():
    assert ceiling_of(B, "EUR") == Money(21_500, "EUR")
    assert ceiling_of(replace(B, entry=OptionEntry(title="b")), "EUR") == Money(20_426, "EUR")


@pytest.mark.parametrize(
    ("limit", "words"),
    [
        (None, None),
        (21_500, "Within the limit of 215.00 EUR named at taking in."),
        (21_499, "0.01 EUR above the limit of 214.99 EUR named at taking in: it needs the customer's yes."),
    ],
)
def test_an_option_is_set_against_the_limit_named_at_taking_in(limit, words):
    found = against_limit(Money(21_500, "EUR"), None if limit is None else Money(limit, "EUR"))
    assert (None if found is None else plain(UTC)(found).replace("\u00a0", " ")) == words


def test_the_invoice_takes_fixed_charges_with_the_bench_or_the_whole_option_or_nothing():
    assert taken_lines(LINES, Taken.AS_WORKED) == (RUNNING_IN, TESTED, NOTE)
    assert taken_lines(LINES, Taken.AS_ESTIMATED) == LINES
    assert taken_lines(LINES, Taken.FEES_ONLY) == ()


@pytest.mark.parametrize(
    ("entry", "fields"),
    [
        (OptionEntry(title="yours kept", risk="It may not help.", never_above=1), set()),
        (OptionEntry(title=" "), {"title"}),
        (OptionEntry(title="x" * (TITLE_ROOM + 1)), {"title"}),
        (OptionEntry(title="x", what="y" * (TEXT_ROOM + 1), design="\u202ez"), {"what", "design"}),
        (OptionEntry(title="x", risk="\x07", guarantee="\x07", ready="\x07"), {"risk", "guarantee", "ready"}),
        (OptionEntry(title="x", never_above=0), {"never_above"}),
        (OptionEntry(title="x", never_above=10**16), {"never_above"}),
    ],
)
def test_words_of_an_option_that_cannot_be_kept_are_refused_by_field(entry, fields):
    assert set(check_option(entry)) == fields


def test_an_estimate_stands_from_today_to_a_year_ahead():
    assert check_head("Stops at the long seek.", TODAY, TODAY) == {}
    assert set(check_head("x" * (INTRO_ROOM + 1), date(2026, 11, 23), TODAY)) == {"intro", "valid_until"}
    assert set(check_head("", date(2027, 11, 25), TODAY)) == {"valid_until"}
    assert check_head("", date(2027, 11, 24), TODAY) == {}


def test_what_keeps_an_estimate_from_going_out_is_told_in_sentences():
    assert check_to_issue((B,), UNTIL, TODAY, "EUR") == ()
    assert said(check_to_issue((), UNTIL, TODAY, "EUR")) == ["An estimate needs at least one way to mend it."]
    empty = replace(B, letter="A", lines=(NOTE,))
    free = replace(B, lines=(replace(WORK, price=0),))
    low = replace(B, entry=OptionEntry(title="b", never_above=20_425))
    wrong = replace(B, lines=(replace(WORK, vat_rate=-1),))
    found = said(check_to_issue((empty, free, low, wrong), date(2026, 11, 1), TODAY, "EUR"))
    assert [text.replace("\u00a0", " ") for text in found] == [
        "1 Nov 2026 is past: an estimate stands until a day to come.",
        "Option A has no line that costs anything.",
        "Option B: an hour of work has no price yet.",
        "Option B comes to 204.26 EUR, more than its highest amount 204.25 EUR.",
        "Option B: A VAT rate lies between 0 % and 100 %.",
    ]


@pytest.mark.parametrize(
    ("asked", "days"),
    [(None, None), (date(2026, 11, 20), None), (date(2026, 11, 19), 5), (date(2026, 11, 1), 23)],
)
def test_a_customer_is_reminded_of_from_the_day_that_the_shop_set(asked, days):
    assert days_unanswered(asked, TODAY, 5) == days


def test_a_declined_player_goes_back_as_it_came():
    facts = DeclinedFacts(Money(4500, "EUR"), False, 1, 1, True, True)
    steps = declined_way(facts)
    assert [(step.where, step.done) for step in steps] == [
        ("invoice", False),
        ("work", False),
        ("modifications", False),
        ("safety", False),
        ("hand back", False),
    ]
    assert "only the owner" in plain(UTC)(steps[-1].words)
    done = declined_way(DeclinedFacts(None, False, 0, 0, False, False))
    assert all(step.done for step in done)
    assert "No fee was told" in plain(UTC)(done[0].words)
    assert len(done) == 4
