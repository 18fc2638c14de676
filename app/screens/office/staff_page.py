"""Who works in the shop: marks that count today, and who cannot sign yet."""

from __future__ import annotations

from typing import Any

from app.screens.kit.cells import Column, Group, Leave, Row, Words
from app.screens.language import day, say
from app.screens.office.list_page import ListPage
from app.trade.sentence import Sentence
from app.work.people.staff import StaffCard, staff_list


class StaffPage(ListPage):
    """Registered as ``staff``."""

    help_topic = "staff"
    record = "person"
    words = Sentence("Staff")
    add_words = Sentence("Add somebody")
    empty_words = (Sentence("Everybody who works here stands in this list"), Sentence(""))
    leaving = (Leave("marks", "second", 160),)
    kinds = frozenset({"staff", "staff_marks"})

    def columns(self) -> tuple[Column, ...]:
        return (
            Column("name", say("Name"), 260),
            Column("marks", say("Marks held"), 0, least=200),
            Column("pin", say("PIN"), 236, tip=say("A PIN is a signature and an accident guard, not a lock")),
        )

    def fetch(self) -> Any:
        return staff_list(self.desk.book, former=self.former)

    def rows(self, found: Any) -> list[Row | Group]:
        here = [card for card in found if card.active]
        gone = [card for card in found if not card.active]
        rows: list[Row | Group] = [_row(card) for card in here]
        if gone:
            rows.append(Group(say("Worked here before")))
            rows += [_row(card) for card in gone]
        return rows


def marks_words(card: StaffCard) -> str:
    """The marks that count today."""
    return ", ".join(say(mark.value) for mark in sorted(card.marks))


def _row(card: StaffCard) -> Row:
    ends = [proof.ends for proof in card.proofs if proof.counts and proof.ends is not None]
    until = say("until {day}", day=day(min(ends))) if ends else ""
    pin = Words(say("set"), soft=True) if card.has_pin else Words(say("none yet: cannot sign"), before="note")
    return Row(
        card.id,
        (
            Words(card.name, strong=card.active, soft=not card.active),
            Words(marks_words(card), until),
            pin if card.active else None,
        ),
    )
