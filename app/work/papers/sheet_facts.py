"""What every paper is told: letterhead and language, who it is for, which player, its flags and safety notes."""

from __future__ import annotations

import base64
from collections.abc import Iterable
from pathlib import Path
from zoneinfo import ZoneInfo

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book import attachments, tables
from app.book.office.shop_settings import settings_of
from app.papers.facts import Caution, Customer, Flag, FlagLevel, PaperSize, Player, SheetFacts, Shop, Sign
from app.trade.bench.facts import JobFacts
from app.trade.bench.flag import FlagRaised
from app.trade.bench.flags import evaluate
from app.trade.bench.kinds import Arrangement
from app.trade.bench.safety_notes import NoteTold
from app.trade.bench.stages import MainsClass
from app.trade.money import Money
from app.trade.office.bank_account import compact, grouped
from app.trade.people.address import Address, town_lines, window_lines
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.settings.bank import ACCOUNT_HOLDER, BIC, IBAN
from app.trade.settings.papers_and_days import LANGUAGE, PAGE_SIZE, SPECIMEN, TIME_ZONE
from app.trade.settings.prices import CURRENCY
from app.trade.settings.shop import (
    ADDRESS_LINES,
    BANK_LINES,
    CITY,
    COUNTRY,
    EMAIL,
    LOGO,
    PHONE,
    POSTCODE,
    REGISTER_NUMBER,
    SHOP_NAME,
    TAX_NUMBER,
    TRADE_LINE,
    VAT_ID,
)
from app.trade.settings.shop_settings import ShopSettings
from app.trade.settings.thresholds import thresholds_of
from app.trade.wording import Wording
from app.work.language import locale_of, wording_for

_MAINS = {
    MainsClass.I: Sentence("class I mains"),
    MainsClass.II: Sentence("class II mains"),
    MainsClass.BATTERY: Sentence("battery"),
    MainsClass.EXTERNAL: Sentence("external supply"),
    MainsClass.NOT_KNOWN: Sentence("mains class not known"),
}
_ARRANGEMENTS = {
    Arrangement.SWING_ARM: Sentence("swing arm"),
    Arrangement.SLED: Sentence("sled, three beams"),
}


def sheet_of(
    files: Path, settings: ShopSettings, customer: tables.Customer, *, draft: bool = False
) -> SheetFacts:
    """Letterhead, sheet and language of a paper for this customer. ``files`` is where the logo lies."""
    return sheet_in(files, settings, customer.language or settings[LANGUAGE], draft=draft)


def sheet_in(files: Path, settings: ShopSettings, language: str, *, draft: bool = False) -> SheetFacts:
    """Letterhead and sheet of a paper in this language."""
    street = settings[ADDRESS_LINES]
    return SheetFacts(
        shop=Shop(
            name=settings[SHOP_NAME],
            trade_line=settings[TRADE_LINE],
            address=(*street, *town_lines(settings[POSTCODE], settings[CITY], settings[COUNTRY])),
            phone=settings[PHONE],
            email=settings[EMAIL],
            tax_number=settings[TAX_NUMBER],
            vat_id=settings[VAT_ID],
            register_number=settings[REGISTER_NUMBER],
            bank_lines=settings[BANK_LINES] or account_lines(settings),
            logo=_logo(files, settings[LOGO]),
        ),
        size=PaperSize(settings[PAGE_SIZE]),
        language=locale_of(language),
        zone=settings[TIME_ZONE],
        draft=draft,
        specimen=settings[SPECIMEN],
    )


def account_lines(settings: ShopSettings) -> tuple[str, ...]:
    """The account at the foot of a paper, where the shop wrote no lines of its own."""
    if not settings[IBAN]:
        return ()
    iban, bic = f"IBAN {grouped(settings[IBAN])}", compact(settings[BIC])
    return tuple(line for line in (settings[ACCOUNT_HOLDER], iban, bic and f"BIC {bic}") if line)


def _logo(files: Path, sha256: str) -> str:
    """The picture as base64. A missing one leaves the neutral mark: a ticket never waits for a picture."""
    if not sha256:
        return ""
    try:
        return base64.b64encode(attachments.read(files, sha256)).decode("ascii")
    except Refusal:
        return ""


def wording_of(sheet: SheetFacts) -> Wording:
    """The wording that a paper with this sheet is rendered in."""
    return wording_for(sheet.language, ZoneInfo(sheet.zone))


def wording_to(customer: tables.Customer, settings: ShopSettings) -> Wording:
    """The wording of what the book itself writes for this customer's papers."""
    return wording_for(customer.language or settings[LANGUAGE], ZoneInfo(settings[TIME_ZONE]))


def customer_facts(row: tables.Customer, settings: ShopSettings) -> Customer:
    """Who a paper is for."""
    address = Address("", row.street, row.postcode, row.city, row.country)
    return Customer(
        name=row.name,
        number=f"C {row.id:04d}",
        address=window_lines(address, settings[COUNTRY], row.country, most=5),
        phone=row.phone,
        vat_id=row.vat_id,
    )


def player_facts(session: Session, unit: tables.Unit) -> Player:
    """The player with the transport that is in it now."""
    inside = session.execute(
        select(tables.Transport, tables.TransportType)
        .join(tables.TransportType, tables.TransportType.id == tables.Transport.type_id)
        .join(tables.Fitting, tables.Fitting.transport_id == tables.Transport.id)
        .where(tables.Fitting.unit_id == unit.id, tables.Fitting.removed_at.is_(None))
    ).first()
    transport: tables.Transport | None = inside[0] if inside else None
    kind: tables.TransportType | None = inside[1] if inside else None
    return Player(
        name=f"{unit.maker} {unit.model}".strip(),
        serial="" if unit.serial_unreadable else unit.serial,
        looks=unit.look,
        mains=_MAINS[unit.mains_class],
        class_ii=unit.mains_class is MainsClass.II,
        transport=f"{kind.name} {transport.marking}".strip() if kind and transport else "",
        transport_kind=_ARRANGEMENTS[kind.arrangement] if kind else "",
        transport_type=kind.name if kind else "",
    )


def flag_facts(session: Session, facts: JobFacts) -> tuple[Flag, ...]:
    """The flags as the rules see them inside this transaction: rows are settled only when the door closes."""
    raised = evaluate(facts, thresholds_of(settings_of(session)))
    return tuple(flag_on_paper(flag) for flag in raised)


def flag_on_paper(flag: FlagRaised) -> Flag:
    """One flag with its sentence."""
    return Flag(FlagLevel(flag.level.value), flag.sentence, flag.word)


def cautions_of(notes: Iterable[NoteTold]) -> tuple[Caution, ...]:
    """Safety notes as papers print them."""
    return tuple(
        Caution(note.id, Sign(note.sign.value) if note.sign else None, note.title, note.text)
        for note in notes
    )


def money(minor: int | None, settings: ShopSettings) -> Money | None:
    """Minor units of the shop's currency, or nothing."""
    return None if minor is None else Money(minor, settings[CURRENCY])
