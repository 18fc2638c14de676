"""The first days of the book: the shop's settings, people, instruments, transport types, limits and parts."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

from app.trade.bench.cards import CardEntry, CardSection
from app.trade.bench.kinds import Arrangement
from app.trade.bench.safety_limits import PROPOSED
from app.trade.bench.stages import Mark
from app.trade.bench.units import UNITS
from app.trade.settings import (
    ADDRESS_LINES,
    BANK_LINES,
    CALLING_CODE,
    CITY,
    COUNTRY,
    CURRENCY,
    DIAGNOSIS_FEE,
    EMAIL,
    FIRST_JOB,
    HOURLY_RATE,
    IBAN,
    OPEN_DAYS,
    PHONE,
    POSTCODE,
    PRICES_WITH_VAT,
    SAFETY_STANDARD,
    SHOP_NAME,
    SPECIMEN,
    TAX_NUMBER,
    TRADE_LINE,
    VAT_ID,
)
from app.work.bench.cards import save_card
from app.work.office.parts import PartEntry, save_part
from app.work.office.quantity_list import quantity_list
from app.work.office.settings import change_settings
from app.work.office.shop_lists import (
    InstrumentLine,
    LimitLine,
    TypeLine,
    instruments,
    save_instrument,
    save_limit,
    save_transport_type,
)
from app.work.office.stock import receive_part
from app.work.people.pins import set_pin
from app.work.people.staff import add_staff, give_mark
from demo_db.hands import Shop, micro
from demo_db.scenario import Scenario, ServiceLimit

A_YEAR = timedelta(days=365)


def set_up(shop: Shop, scenario: Scenario, *, first_job: int, certificate: date) -> None:
    """Write down who and what the shop is. Sanna's first certificate ends on the day of the next."""
    _people(shop, scenario, certificate)
    _settings(shop, scenario, first_job)
    for tool in scenario.tools:
        today = shop.days.day_of(shop.clock())
        shop.tools[tool.key] = save_instrument(
            shop.book,
            shop.people["ine"],
            InstrumentLine(
                name=tool.name,
                kind=tool.kind,
                serial=tool.serial,
                percent=_decimal(tool.percent),
                digits=_decimal(tool.digits),
                step=_decimal(tool.step),
                calibrated_on=today,
                due_on=today + A_YEAR,
            ),
        ).value
    _types(shop, scenario)
    for card in scenario.cards:
        save_card(
            shop.book,
            shop.people[card.who],
            CardEntry(
                title=card.title,
                transport_type_id=shop.types[card.type] if card.type else None,
                unit_maker=card.maker,
                unit_model=card.model,
                sections={CardSection(section): text for section, text in card.sections.items()},
            ),
        )
    for part in scenario.parts:
        shop.parts[part.code] = save_part(
            shop.book,
            shop.people["ine"],
            PartEntry(
                code=part.code,
                words=part.words,
                price=micro(part.price),
                supplier=part.supplier,
                order_code=part.order_code,
                cost=micro(part.cost) if part.cost else None,
                bin=part.bin,
                rating=part.rating,
                safety_type=part.must_carry,
                safety_critical=part.safety_critical,
                lead_days=part.lead_days,
            ),
        ).value
        receive_part(shop.book, shop.people["ine"], shop.parts[part.code], Decimal(part.stock))


def _people(shop: Shop, scenario: Scenario, certificate: date) -> None:
    for person in scenario.people:
        first = next(iter(shop.people.values()), None)
        shop.people[person.key] = add_staff(shop.book, first, person.name).value
        shop.pins[person.key] = person.pin
    ine = shop.people["ine"]
    give_mark(shop.book, None, ine, Mark.OWNER, proof="trade register of Mossgate", dated=date(2019, 4, 1))
    give_mark(
        shop.book,
        ine,
        shop.people["sanna"],
        Mark.COMPETENT,
        proof="course certificate",
        proof_from="Mossgate evening school",
        dated=certificate.replace(year=certificate.year - 3),
        ends=certificate,
    )
    for key, pin in shop.pins.items():
        set_pin(shop.book, shop.people[key], shop.people[key], pin)


def renew_certificate(shop: Shop, dated: date) -> None:
    """Sanna comes back from her course: the certificate counts for three years."""
    give_mark(
        shop.book,
        shop.people["ine"],
        shop.people["sanna"],
        Mark.COMPETENT,
        proof="course certificate",
        proof_from="Mossgate evening school",
        dated=dated,
        ends=dated.replace(year=dated.year + 3),
    )


def calibrate(shop: Shop, key: str, due: date | None = None) -> None:
    """An instrument comes back from its calibration, due again in a year unless said otherwise."""
    today = shop.days.day_of(shop.clock())
    line = next(line for line in instruments(shop.book) if line.id == shop.tools[key])
    save_instrument(
        shop.book, shop.people["ine"], replace(line, calibrated_on=today, due_on=due or today + A_YEAR)
    )


def _settings(shop: Shop, scenario: Scenario, first_job: int) -> None:
    said = scenario.settings
    change_settings(
        shop.book,
        shop.people["ine"],
        {
            SHOP_NAME: said["shop_name"],
            TRADE_LINE: said["trade_line"],
            ADDRESS_LINES: tuple(said["address_lines"]),
            POSTCODE: said["postcode"],
            CITY: said["city"],
            COUNTRY: said["country"],
            PHONE: said["phone"],
            CALLING_CODE: said["calling_code"],
            EMAIL: said["email"],
            TAX_NUMBER: said["tax_number"],
            VAT_ID: said["vat_id"],
            BANK_LINES: tuple(said["bank_lines"]),
            IBAN: said["iban"],
            CURRENCY: said["currency"],
            HOURLY_RATE: micro(said["hourly_rate"]),
            DIAGNOSIS_FEE: micro(said["diagnosis_fee"]),
            PRICES_WITH_VAT: said["prices_with_vat"],
            OPEN_DAYS: frozenset(said["open_days"]),
            SPECIMEN: True,
            FIRST_JOB: first_job,
            SAFETY_STANDARD: _standard(said["standard"], said["edition"]),
        },
    )


def _standard(standard: str, edition: str) -> object:
    return replace(PROPOSED, standard=standard, edition=edition)


def _types(shop: Shop, scenario: Scenario) -> None:
    for kind in scenario.transports.values():
        shop.types[kind.name] = save_transport_type(
            shop.book,
            shop.people["ine"],
            TypeLine(
                name=kind.name,
                arrangement=Arrangement(kind.arrangement),
                has_transit_lock=kind.transit_lock,
                not_testable=kind.not_testable,
                sheet=kind.sheet,
                note=kind.note,
            ),
        ).value
    units = {quantity.id: quantity.unit for quantity in quantity_list(shop.book)}
    for limit in scenario.limits:
        save_limit(
            shop.book,
            shop.people["ine"],
            limit_line(limit, shop.types[limit.type], units[limit.quantity].shown),
        )


def limit_line(limit: ServiceLimit, type_id: int, unit: str) -> LimitLine:
    """A limit of the scenario as the Office enters it: SI, or shares of the label."""
    if limit.share is not None:
        low, high = (Decimal(str(end)) if end else None for end in limit.share)
    else:
        low, high = (UNITS[unit].to_si(Decimal(end)) if end else None for end in (limit.low, limit.high))
    return LimitLine(
        quantity=limit.quantity,
        detail=limit.detail,
        source=limit.source,
        low=low,
        high=high,
        transport_type_id=type_id,
        relative_to="label" if limit.share is not None else "",
        must=limit.must,
    )


def _decimal(text: str) -> Decimal | None:
    return Decimal(text) if text else None
