"""What a line of what was said cannot be without."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from app.trade.counter.agreements import (
    AgreementEntry,
    AgreementKind,
    MessageEntry,
    check_agreement,
    check_message,
)
from app.trade.money import Money

YES = AgreementEntry(kind=AgreementKind.WORK, yes=True, what="go ahead", said_by="B. Arnsvik")


def test_a_message_needs_its_words(now):
    assert check_message(MessageEntry(text="Rang."), now) == {}
    assert set(check_message(MessageEntry(text=""), now)) == {"text"}
    assert set(check_message(MessageEntry(text="x" * 2001), now)) == {"text"}
    assert set(check_message(MessageEntry(text="x", spoke_with="x" * 301), now)) == {"spoke_with"}


def test_nothing_was_said_in_the_future(now):
    later = now + timedelta(minutes=1)
    assert set(check_message(MessageEntry(text="Rang.", at=later), now)) == {"at"}
    assert check_message(MessageEntry(text="Rang.", at=now), now) == {}
    assert set(check_agreement(replace(YES, said_at=later), now, "EUR")) == {"said_at"}
    assert check_agreement(replace(YES, said_at=now), now, "EUR") == {}


def test_a_yes_says_exactly_what_and_who(now):
    assert set(check_agreement(replace(YES, what=" ", said_by=""), now, "EUR")) == {"what", "said_by"}
    long = replace(YES, what="x" * 2001, said_by="x" * 301)
    assert set(check_agreement(long, now, "EUR")) == {"what", "said_by"}


def test_a_yes_to_a_price_names_it_and_a_no_need_not(now):
    price = replace(YES, kind=AgreementKind.PRICE)
    assert set(check_agreement(price, now, "EUR")) == {"amount"}
    assert check_agreement(replace(price, yes=False), now, "EUR") == {}
    assert check_agreement(replace(price, amount=Money(100, "EUR")), now, "EUR") == {}
    assert set(check_agreement(replace(price, amount=Money(100, "USD")), now, "EUR")) == {"amount"}
    assert set(check_agreement(replace(price, amount=Money(-1, "EUR")), now, "EUR")) == {"amount"}


def test_a_yes_to_a_modification_says_which(now):
    said = replace(YES, kind=AgreementKind.MODIFICATION)
    assert set(check_agreement(said, now, "EUR")) == {"modification_id"}
    assert check_agreement(replace(said, modification_id=1), now, "EUR") == {}
