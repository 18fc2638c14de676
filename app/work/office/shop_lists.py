"""The shop's lists: transport types, limits with their source, instruments with calibration."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from sqlalchemy import select

from app.book.bench.catalogue import quantities
from app.book.door import Book
from app.book.tables import Instrument, Limit, TransportType
from app.trade.bench.kinds import Arrangement
from app.trade.bench.quantities import HIGHEST_RUNG
from app.trade.bench.sheet_order import read_entry
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.trade.typed_words import check_typed
from app.work.bench.readings import EARLIER
from app.work.shop_book import Done

NAME_ROOM, NOTE_ROOM, SOURCE_ROOM, DETAIL_ROOM = 80, 600, 200, 40
LABEL = "label"  # a limit as a share of the current printed on the transport
LABELLED = frozenset({"laser_current"})  # quantities that have a label to be compared with


@dataclass(frozen=True, slots=True, kw_only=True)
class TypeLine:
    """A transport type. ``sheet``: entries in the order in which readings are entered, each as
    `app.trade.bench.sheet_order` writes it."""

    name: str
    arrangement: Arrangement
    has_transit_lock: bool = False
    not_testable: tuple[int, ...] = ()
    sheet: tuple[str, ...] = ()
    note: str = ""
    retired: bool = False
    id: int = 0
    version: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitLine:
    """A limit in SI, or as shares of the label's value or of the same transport's last value before the job
    (``relative_to``), with its source."""

    quantity: str
    source: str
    low: Decimal | None = None
    high: Decimal | None = None
    transport_type_id: int | None = None
    unit_maker: str = ""
    unit_model: str = ""
    detail: str = ""
    relative_to: str = ""
    must: bool = False
    retired: bool = False
    id: int = 0
    version: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class InstrumentLine:
    """An instrument. Accuracy: per cent of reading, per cent of range and digits; ``step`` and ``range_end`` (full
    scale) in SI."""

    name: str
    kind: str = ""
    serial: str = ""
    percent: Decimal | None = None
    digits: Decimal | None = None
    step: Decimal | None = None
    range_percent: Decimal | None = None
    range_end: Decimal | None = None
    calibrated_on: date | None = None
    due_on: date | None = None
    retired: bool = False
    id: int = 0
    version: int = 1


def type_line(row: Any) -> TypeLine:
    """A transport type from its row."""
    return TypeLine(
        name=row.name,
        arrangement=row.arrangement,
        has_transit_lock=row.has_transit_lock,
        not_testable=tuple(row.not_testable),
        sheet=tuple(row.sheet),
        note=row.note,
        retired=row.retired,
        id=row.id,
        version=row.version,
    )


def limit_line(row: Any) -> LimitLine:
    """A limit from its row."""
    return LimitLine(
        quantity=row.quantity,
        source=row.source,
        low=row.low,
        high=row.high,
        transport_type_id=row.transport_type_id,
        unit_maker=row.unit_maker,
        unit_model=row.unit_model,
        detail=row.detail,
        relative_to=row.relative_to,
        must=row.must,
        retired=row.retired,
        id=row.id,
        version=row.version,
    )


def instrument_line(row: Any) -> InstrumentLine:
    """An instrument from its row."""
    return InstrumentLine(
        name=row.name,
        kind=row.kind,
        serial=row.serial,
        percent=row.percent,
        digits=row.digits,
        step=row.step,
        range_percent=row.range_percent,
        range_end=row.range_end,
        calibrated_on=row.calibrated_on,
        due_on=row.due_on,
        retired=row.retired,
        id=row.id,
        version=row.version,
    )


def transport_types(book: Book, *, retired: bool = False) -> tuple[TypeLine, ...]:
    """Transport types by name."""
    with book.ask() as session:
        return tuple(
            type_line(row)
            for row in session.scalars(select(TransportType).order_by(TransportType.name))
            if retired or not row.retired
        )


def save_transport_type(book: Book, who: int, line: TypeLine) -> Done[int]:
    """Add or change a transport type. Raises FieldRefusal, StaleRow."""
    wrong: dict[str, Sentence] = {}
    if not line.name.strip():
        wrong["name"] = Sentence("Give the type a name.")
    wrong.update(_rooms(line, name=NAME_ROOM, note=NOTE_ROOM))
    if any(not 1 <= rung <= HIGHEST_RUNG for rung in line.not_testable):
        wrong["not_testable"] = Sentence("Rungs run from 1 to {top}.", {"top": HIGHEST_RUNG})
    with book.change(who, Sentence("changed a transport type")) as change:
        known = quantities(change.session)
        if any(read_entry(text).quantity not in known for text in line.sheet):
            wrong["sheet"] = Sentence("The sheet holds a quantity that is not in the list.")
        other = change.session.scalar(select(TransportType.id).where(TransportType.name == line.name.strip()))
        if other is not None and other != line.id:
            wrong["name"] = Sentence("There is a type of this name.")
        if wrong:
            raise FieldRefusal(wrong)
        row = TransportType() if not line.id else change.get(TransportType, line.id, version=line.version)
        row.name, row.arrangement = line.name.strip(), line.arrangement
        row.has_transit_lock, row.retired, row.note = line.has_transit_lock, line.retired, line.note.strip()
        row.not_testable, row.sheet = list(line.not_testable), list(line.sheet)
        change.add(row)
    return Done(row.id, change.changes)


def limits(
    book: Book, *, transport_type_id: int | None = None, retired: bool = False
) -> tuple[LimitLine, ...]:
    """Limits in use, by quantity; of one transport type where asked; with ``retired`` also former ones."""
    question = select(Limit).order_by(Limit.quantity, Limit.id)
    if not retired:
        question = question.where(Limit.retired.is_(False))
    if transport_type_id is not None:
        question = question.where(Limit.transport_type_id == transport_type_id)
    with book.ask() as session:
        return tuple(limit_line(row) for row in session.scalars(question))


def save_limit(book: Book, who: int, line: LimitLine) -> Done[int]:
    """Add or change a limit; verdicts given before stand. Raises FieldRefusal, StaleRow."""
    wrong: dict[str, Sentence] = {}
    if line.low is None and line.high is None:
        wrong["high"] = Sentence("A limit needs a low or a high end.")
    elif line.low is not None and line.high is not None and line.low > line.high:
        wrong["high"] = Sentence("The low end is above the high end.")
    if not line.source.strip():
        wrong["source"] = Sentence("Say where the limit comes from: document and page, or common practice.")
    wrong.update(
        _rooms(line, source=SOURCE_ROOM, detail=DETAIL_ROOM, unit_maker=NAME_ROOM, unit_model=NAME_ROOM)
    )
    if line.transport_type_id is None and not (line.unit_maker.strip() and line.unit_model.strip()):
        wrong["transport_type_id"] = Sentence("Choose a transport type, or a maker and model.")
    with book.change(who, Sentence("changed a limit")) as change:
        if line.quantity not in quantities(change.session):
            wrong["quantity"] = Sentence("Choose a quantity from the list.")
        elif line.relative_to == LABEL and line.quantity not in LABELLED:
            wrong["relative_to"] = Sentence("Only the laser current is compared with its label.")
        elif line.relative_to not in ("", LABEL, EARLIER):
            wrong["relative_to"] = Sentence("A limit is compared with the label or with the last value.")
        if wrong:
            raise FieldRefusal(wrong)
        row = Limit() if not line.id else change.get(Limit, line.id, version=line.version)
        row.quantity, row.detail, row.source = line.quantity, line.detail.strip(), line.source.strip()
        row.low, row.high, row.must, row.relative_to = line.low, line.high, line.must, line.relative_to
        row.transport_type_id, row.retired = line.transport_type_id, line.retired
        row.unit_maker, row.unit_model = line.unit_maker.strip(), line.unit_model.strip()
        change.add(row)
    return Done(row.id, change.changes)


def instruments(book: Book, *, retired: bool = False) -> tuple[InstrumentLine, ...]:
    """Instruments by name."""
    with book.ask() as session:
        return tuple(
            instrument_line(row)
            for row in session.scalars(select(Instrument).order_by(Instrument.name))
            if retired or not row.retired
        )


def save_instrument(book: Book, who: int, line: InstrumentLine) -> Done[int]:
    """Add or change an instrument or its calibration. Raises FieldRefusal, StaleRow."""
    wrong: dict[str, Sentence] = {}
    if not line.name.strip():
        wrong["name"] = Sentence("Give the instrument a name.")
    wrong.update(_rooms(line, name=NAME_ROOM, kind=NAME_ROOM, serial=DETAIL_ROOM))
    if line.calibrated_on and line.due_on and line.due_on < line.calibrated_on:
        wrong["due_on"] = Sentence("It cannot be due before it was calibrated.")
    for field in ("percent", "digits", "step", "range_percent", "range_end"):
        value = getattr(line, field)
        if value is not None and value < 0:
            wrong[field] = Sentence("This is not below 0.")
    if line.range_percent is not None and not line.range_end and "range_end" not in wrong:
        wrong["range_end"] = Sentence("Give the full scale of the range as well.")
    if wrong:
        raise FieldRefusal(wrong)
    with book.change(who, Sentence("changed an instrument")) as change:
        row = Instrument() if not line.id else change.get(Instrument, line.id, version=line.version)
        row.name, row.kind, row.serial = line.name.strip(), line.kind.strip(), line.serial.strip()
        row.percent, row.digits, row.step = line.percent, line.digits, line.step
        row.range_percent, row.range_end = line.range_percent, line.range_end
        row.calibrated_on, row.due_on, row.retired = line.calibrated_on, line.due_on, line.retired
        change.add(row)
    return Done(row.id, change.changes)


def _rooms(line: object, **rooms: int) -> dict[str, Sentence]:
    """What is too long or cannot be printed among the texts of a line, by field."""
    checked = {field: check_typed(getattr(line, field), room) for field, room in rooms.items()}
    return {field: why for field, why in checked.items() if why is not None}
