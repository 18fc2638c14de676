"""Know-how cards: written, changed, retired, found; every former text stays in history."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, and_, or_, select
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.tables import Attachment, Card, Fitting, HistoryRow, Job, Staff, Transport, TransportType, Unit
from app.trade.bench.cards import CardEntry, CardSection, check_card
from app.trade.find.fold import fold_words
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True)
class CardPicture:
    """A picture on a card; ``caption`` says what it shows, ``name`` is that of its file."""

    id: int
    name: str
    caption: str

    @property
    def words(self) -> str:
        """What stands under it."""
        return self.caption or self.name


@dataclass(frozen=True, slots=True, kw_only=True)
class CardFacts:
    """A card as it stands. ``transport_type`` is its name, empty where it concerns a unit model only."""

    id: int
    version: int
    entry: CardEntry
    transport_type: str
    at: datetime
    by: str
    pictures: tuple[CardPicture, ...] = ()

    @property
    def concerns(self) -> str:
        """What it is about: Velk A1, Quellmar Larch 2."""
        model = f"{self.entry.unit_maker} {self.entry.unit_model}".strip()
        return ", ".join(part for part in (self.transport_type, model) if part)


@dataclass(frozen=True, slots=True)
class FormerText:
    """What a section, or the title, said before it was changed; who changed it and when."""

    at: datetime
    by: str
    section: CardSection | None
    text: str


def save_card(
    book: Book, who: int, entry: CardEntry, *, card_id: int | None = None, version: int | None = None
) -> Done[int]:
    """Write a card, or change one read at ``version``. Raises FieldRefusal, StaleRow."""
    if wrong := check_card(entry):
        raise FieldRefusal(wrong)
    entry = entry.tidy()
    sections = {section.value: text for section, text in entry.sections.items()}
    with book.change(who, Sentence("wrote a know-how card")) as change:
        if card_id is None:
            row = change.add(
                Card(
                    title=entry.title,
                    transport_type_id=entry.transport_type_id,
                    unit_maker=entry.unit_maker,
                    unit_model=entry.unit_model,
                    sections=sections,
                    retired=entry.retired,
                    at=change.now,
                    by=change.by,
                )
            )
        else:
            row = change.get(Card, card_id, version=version)
            row.title, row.sections = entry.title, sections
            row.transport_type_id = entry.transport_type_id
            row.unit_maker, row.unit_model = entry.unit_maker, entry.unit_model
            row.retired = entry.retired
            row.at, row.by = change.now, change.by
    return Done(row.id, change.changes)


def cards(book: Book, typed: str = "", *, retired: bool = False) -> tuple[CardFacts, ...]:
    """The cards in which every typed word begins a word, by title; with ``retired`` those put away as well."""
    with book.ask() as session:
        return cards_in(session, typed, retired=retired)


def cards_in(session: Session, typed: str, *, retired: bool = False) -> tuple[CardFacts, ...]:
    """The same, inside a question that was begun."""
    asked = fold_words(typed)
    found = _facts(session, *(() if retired else (Card.retired.is_(False),)))
    return tuple(card for card in found if _holds(card, asked))


def card_of(book: Book, card_id: int) -> CardFacts:
    """One card. Raises NoResultFound for one that is not there."""
    with book.ask() as session:
        session.get_one(Card, card_id)
        return _facts(session, Card.id == card_id)[0]


def cards_beside(session: Session, job_id: int) -> tuple[CardFacts, ...]:
    """The cards that concern the player of a job or the transport that is in it now, by title."""
    maker, model, type_id = session.execute(
        select(Unit.maker, Unit.model, Transport.type_id)
        .join(Job, Job.unit_id == Unit.id)
        .outerjoin(Fitting, and_(Fitting.unit_id == Unit.id, Fitting.removed_at.is_(None)))
        .outerjoin(Transport, Transport.id == Fitting.transport_id)
        .where(Job.id == job_id)
    ).one()
    found = _facts(
        session, Card.retired.is_(False), or_(Card.transport_type_id == type_id, Card.unit_model != "")
    )
    ours = (fold_words(maker), fold_words(model))
    return tuple(
        card
        for card in found
        if (card.entry.transport_type_id is not None and card.entry.transport_type_id == type_id)
        or (fold_words(card.entry.unit_maker), fold_words(card.entry.unit_model)) == ours
    )


def former_texts(book: Book, card_id: int) -> tuple[FormerText, ...]:
    """Every former text of a card, newest first."""
    with book.ask() as session:
        names = dict(session.execute(select(Staff.id, Staff.name)).all())
        rows = session.scalars(
            select(HistoryRow)
            .where(
                HistoryRow.row_table == "cards",
                HistoryRow.row_id == card_id,
                HistoryRow.happened == "changed",
            )
            .order_by(HistoryRow.seq.desc())
        )
        return tuple(
            FormerText(row.at, names.get(row.staff_id or 0, ""), section, text)
            for row in rows
            for section, text in _former(row.fields)
        )


def _former(fields: dict[str, Any]) -> list[tuple[CardSection | None, str]]:
    former: list[tuple[CardSection | None, str]] = []
    if "title" in fields:
        former.append((None, fields["title"][0]))
    if "sections" in fields:
        before, after = (json.loads(text) for text in fields["sections"])
        former += [
            (section, before[section.value])
            for section in CardSection
            if section.value in before and before[section.value] != after.get(section.value)
        ]
    return former


def _facts(session: Session, *where: ColumnElement[bool]) -> Sequence[CardFacts]:
    rows = session.execute(
        select(Card, TransportType.name, Staff.name)
        .outerjoin(TransportType, TransportType.id == Card.transport_type_id)
        .join(Staff, Staff.id == Card.by)
        .where(*where)
        .order_by(Card.title, Card.id)
    )
    found = list(rows)
    pictures = _pictures(session, [card.id for card, _, _ in found])
    return [
        CardFacts(
            id=card.id,
            version=card.version,
            entry=CardEntry(
                title=card.title,
                transport_type_id=card.transport_type_id,
                unit_maker=card.unit_maker,
                unit_model=card.unit_model,
                sections={CardSection(key): text for key, text in card.sections.items()},
                retired=card.retired,
            ),
            transport_type=kind or "",
            at=card.at,
            by=name,
            pictures=tuple(pictures[card.id]),
        )
        for card, kind, name in found
    ]


def _pictures(session: Session, card_ids: Sequence[int]) -> dict[int, list[CardPicture]]:
    """The pictures of each card, first put on first."""
    found: dict[int, list[CardPicture]] = defaultdict(list)
    rows: Any = session.execute(
        select(Attachment.card_id, Attachment.id, Attachment.name, Attachment.note)
        .where(Attachment.card_id.in_(card_ids), Attachment.struck_at.is_(None))
        .order_by(Attachment.id)
    )
    for card_id, key, name, note in rows:
        found[card_id].append(CardPicture(key, name, note))
    return found


def _holds(card: CardFacts, asked: Sequence[str]) -> bool:
    known = fold_words(" ".join((card.entry.title, card.concerns, *card.entry.sections.values())))
    return all(any(word.startswith(part) for word in known) for part in asked)
