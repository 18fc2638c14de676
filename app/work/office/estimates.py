"""Writing an estimate: begun from the job, its options and lines put on and taken out, issued with its number."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import select

from app.book.bench.job_rows import JobRows
from app.book.door import Book, Change
from app.book.office.shop_settings import settings_of
from app.book.tables import Customer, Estimate, EstimateLine, EstimateOption, Job, Part
from app.trade.bench.stages import Waiting
from app.trade.money import MICRO
from app.trade.office.estimate import (
    MOST_LINES_OF_OPTION,
    MOST_OPTIONS,
    OptionEntry,
    check_head,
    check_option,
    check_to_issue,
)
from app.trade.office.invoice import Line, LineKind, net_of
from app.trade.office.invoice_check import check_line
from app.trade.office.numbers import invoice_number
from app.trade.office.on_the_bill import rates_offered
from app.trade.office.vat import VatRate
from app.trade.refusal import FieldRefusal, Held, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import CURRENCY, HOURLY_RATE, PRICES_WITH_VAT
from app.trade.settings.terms import ESTIMATE_DAYS
from app.work.bench.open_job import open_job
from app.work.office.estimate_paper import estimate_facts
from app.work.office.estimate_rows import option_of, options_of
from app.work.papers.issuing import issue_paper, preview_paper
from app.work.papers.sheet_facts import wording_to
from app.work.shop_book import Done

UNITS_OF = {LineKind.LABOUR: "HUR", LineKind.PART: "H87", LineKind.FIXED_CHARGE: "C62", LineKind.TEXT: "C62"}
TEXTS = ("title", "what", "design", "risk", "guarantee", "ready")


@dataclass(frozen=True, slots=True, kw_only=True)
class EstimatedLine:
    """A line as entered. ``price`` in millionths per unit, with VAT where the shop types prices so; None: of an
    hour the shop's own price, of a part that of the stock (``part_id``). A text line has none."""

    kind: LineKind
    words: str
    quantity: int = MICRO
    price: int | None = None
    part_id: int | None = None
    vat: VatRate


@dataclass(frozen=True, slots=True)
class EstimateIssued:
    """An issued estimate and its paper, to be filed next."""

    id: int
    number: str
    paper_id: int


def begin_estimate(book: Book, who: int, job_id: int) -> Done[int]:
    """Begin an estimate on an open job; one that went out before is taken as the pattern.

    Raises Refusal while another is being written.
    """
    with book.change(who, Sentence("began an estimate")) as change:
        job, session = open_job(change, job_id), change.session
        settings = settings_of(session)
        if _being_written(change, job.id) is not None:
            raise Refusal(
                Sentence("An estimate of this job is being written already."),
                Sentence("Go on with it, or give it up."),
            )
        former = session.scalars(
            select(Estimate)
            .where(Estimate.job_id == job.id, Estimate.issued_at.is_not(None))
            .order_by(Estimate.id.desc())
            .limit(1)
        ).first()
        row = change.add(
            Estimate(
                job_id=job.id,
                intro=former.intro if former else "",
                valid_until=change.today + timedelta(days=settings[ESTIMATE_DAYS]),
                at=change.now,
                by=change.by,
            )
        )
        if former is not None:
            for option in options_of(session, former.id):
                _copied(change, option.id, row.id)
        else:
            title = wording_to(session.get_one(Customer, job.customer_id), settings)(Sentence("repair"))
            change.add(EstimateOption(estimate_id=row.id, title=title))
    return Done(row.id, change.changes)


def set_head(
    book: Book, who: int, estimate_id: int, *, intro: str, valid_until: date, version: int | None = None
) -> Done[int]:
    """Say what was seen and tried, and until when the estimate stands. Raises FieldRefusal, StaleRow."""
    with book.change(who, Sentence("wrote on an estimate")) as change:
        row = _open_estimate(change, estimate_id, version)
        if wrong := check_head(intro, valid_until, change.today):
            raise FieldRefusal(wrong)
        row.intro, row.valid_until = intro.strip(), valid_until
    return Done(row.id, change.changes)


def add_option(
    book: Book, who: int, estimate_id: int, entry: OptionEntry, *, like: int | None = None
) -> Done[int]:
    """Add a way to mend it; ``like`` is the option whose lines it begins with. Raises FieldRefusal, Refusal."""
    with book.change(who, Sentence("added an option to an estimate")) as change:
        row = _open_estimate(change, estimate_id)
        _refuse_wrong(entry)
        if len(options_of(change.session, row.id)) >= MOST_OPTIONS:
            raise Refusal(
                Sentence(
                    "At most {most} options stand beside each other on the paper.", {"most": MOST_OPTIONS}
                )
            )
        option = change.add(EstimateOption(estimate_id=row.id, title=""))
        _put(option, entry)
        if like is not None:
            _copy_lines(change, like, option.id)
    return Done(option.id, change.changes)


def change_option(
    book: Book, who: int, option_id: int, entry: OptionEntry, *, version: int | None = None
) -> Done[int]:
    """Change the words of an option. Raises FieldRefusal, StaleRow."""
    with book.change(who, Sentence("wrote on an estimate")) as change:
        option = change.get(EstimateOption, option_id, version=version)
        _open_estimate(change, option.estimate_id)
        _refuse_wrong(entry)
        _put(option, entry)
    return Done(option.id, change.changes)


def take_out_option(book: Book, who: int, option_id: int) -> Done[int]:
    """Take an option out of an estimate that is being written."""
    with book.change(who, Sentence("took an option out of an estimate")) as change:
        option = change.get(EstimateOption, option_id)
        _open_estimate(change, option.estimate_id)
        option.taken_out_at = change.now
    return Done(option.id, change.changes)


def add_line(book: Book, who: int, option_id: int, entry: EstimatedLine) -> Done[int]:
    """Put a line on an option. Raises FieldRefusal under the fields of `check_line`."""
    with book.change(who, Sentence("put a line on an estimate")) as change:
        option = change.get(EstimateOption, option_id)
        _open_estimate(change, option.estimate_id)
        if len(option_of(change.session, option_id).lines) >= MOST_LINES_OF_OPTION:
            raise Refusal(
                Sentence("At most {most} lines have room in one option.", {"most": MOST_LINES_OF_OPTION})
            )
        row = change.add(_kept(change, option_id, entry))
    return Done(row.id, change.changes)


def change_line(
    book: Book, who: int, line_id: int, entry: EstimatedLine, *, version: int | None = None
) -> Done[int]:
    """Change a line of an estimate that is being written. Raises FieldRefusal, StaleRow."""
    with book.change(who, Sentence("changed a line of an estimate")) as change:
        row = change.get(EstimateLine, line_id, version=version)
        _open_estimate(change, change.get(EstimateOption, row.option_id).estimate_id)
        new = _kept(change, row.option_id, entry)
        for column in (
            "kind",
            "words",
            "quantity",
            "unit",
            "price",
            "price_with_vat",
            "vat_rate",
            "category",
            "vat_reason",
        ):
            setattr(row, column, getattr(new, column))
    return Done(row.id, change.changes)


def take_out_line(book: Book, who: int, line_id: int) -> Done[int]:
    """Take a line out of an estimate that is being written."""
    with book.change(who, Sentence("took a line out of an estimate")) as change:
        row = change.get(EstimateLine, line_id)
        _open_estimate(change, change.get(EstimateOption, row.option_id).estimate_id)
        row.taken_out_at = change.now
    return Done(row.id, change.changes)


def give_up(book: Book, who: int, estimate_id: int) -> Done[int]:
    """Give an estimate up that was begun and has not gone out."""
    with book.change(who, Sentence("gave an estimate up")) as change:
        row = _open_estimate(change, estimate_id)
        row.given_up_at = change.now
    return Done(row.id, change.changes)


def issue_estimate(book: Book, who: int, estimate_id: int) -> Done[EstimateIssued]:
    """Give it its number, freeze it with its paper, and let the job wait for the answer.

    Raises Held with every reason why it cannot go out yet.
    """
    with book.change(who, Sentence("issued an estimate")) as change:
        row = _open_estimate(change, estimate_id)
        job = change.get(Job, row.job_id)
        rows = JobRows(change.session, job)
        options = options_of(change.session, row.id)
        currency = rows.settings[CURRENCY]
        wrong = check_to_issue([one.option for one in options], row.valid_until, change.today, currency)
        if wrong:
            raise Held(Sentence("This estimate cannot go out yet."), wrong)
        taken = change.next_number("estimate")
        number = invoice_number("", taken)
        facts = estimate_facts(book.files, rows, row, options, number, change.today)
        paper = issue_paper(change, job.id, facts, number=number)
        row.number, row.issued_at, row.issued_by, row.paper_id = taken, change.now, change.by, paper.id
        job.waiting = Waiting.ANSWER
    return Done(EstimateIssued(row.id, number, paper.id), change.changes)


def preview_estimate(book: Book, estimate_id: int) -> bytes:
    """The PDF of an estimate as it would go out now, with "draft" behind every page."""
    with book.ask() as session:
        row = session.get_one(Estimate, estimate_id)
        rows = JobRows(session, session.get_one(Job, row.job_id))
        facts = estimate_facts(
            book.files, rows, row, options_of(session, row.id), "", book.today(), preview=True
        )
    return preview_paper(facts)


def _being_written(change: Change, job_id: int) -> int | None:
    return change.session.scalar(
        select(Estimate.id).where(
            Estimate.job_id == job_id, Estimate.issued_at.is_(None), Estimate.given_up_at.is_(None)
        )
    )


def _open_estimate(change: Change, estimate_id: int, version: int | None = None) -> Estimate:
    """An estimate that is being written, of an open job."""
    row = change.get(Estimate, estimate_id, version=version)
    open_job(change, row.job_id)
    change.touched.jobs.add(row.job_id)  # options and lines do not tell of which job they are
    if row.issued_at is not None:
        raise Refusal(
            Sentence("This estimate went to the customer as it stands."),
            Sentence("Begin a new one: it takes over what stands in this one."),
        )
    if row.given_up_at is not None:
        raise Refusal(Sentence("This estimate was given up."), Sentence("Begin a new one."))
    return row


def _refuse_wrong(entry: OptionEntry) -> None:
    if wrong := check_option(entry):
        raise FieldRefusal(wrong)


def _put(option: EstimateOption, entry: OptionEntry) -> None:
    for name in TEXTS:
        setattr(option, name, getattr(entry, name).strip())
    option.never_above = entry.never_above


def _copied(change: Change, option_id: int, estimate_id: int) -> None:
    """The same option with its lines on another estimate."""
    former = change.session.get_one(EstimateOption, option_id)
    texts = {name: getattr(former, name) for name in TEXTS}
    option = change.add(EstimateOption(estimate_id=estimate_id, never_above=former.never_above, **texts))
    _copy_lines(change, option_id, option.id)


def _copy_lines(change: Change, option_id: int, to: int) -> None:
    for kept in option_of(change.session, option_id).lines:
        change.add(_row(to, kept.line))


def _kept(change: Change, option_id: int, entry: EstimatedLine) -> EstimateLine:
    """The row of a line as entered, checked. Raises FieldRefusal."""
    settings = settings_of(change.session)
    line = _priced(change, entry)
    wrong = check_line(line, settings[CURRENCY])
    if entry.kind not in UNITS_OF:
        wrong["kind"] = Sentence("An estimate holds work, parts, fixed charges and text.")
    if wrong:
        raise FieldRefusal(wrong)
    return _row(option_id, line)


def _priced(change: Change, entry: EstimatedLine) -> Line:
    """The line with its net price: as typed, else that of the shop's hour or of the part in stock."""
    settings = settings_of(change.session)
    unit, vat, words = UNITS_OF.get(entry.kind, "C62"), entry.vat, entry.words.strip()
    if entry.kind is LineKind.TEXT:
        return Line(words, entry.kind, 0, unit, 0, 0)
    gross = entry.price if settings[PRICES_WITH_VAT] and vat.rate else None
    if entry.price is not None:
        price = entry.price if gross is None else net_of(gross, vat.rate)
    elif entry.part_id is not None:
        part = change.get(Part, entry.part_id)
        price, unit = part.price, part.unit
        known = {rate.rate: rate for rate in rates_offered(settings)[::-1]}
        vat = known.get(part.vat_rate, vat)
    elif entry.kind is LineKind.LABOUR:
        price = settings[HOURLY_RATE]
    else:
        raise FieldRefusal({"price": Sentence("Write what one costs.")})
    return Line(
        words,
        entry.kind,
        entry.quantity,
        unit,
        price,
        vat.rate,
        vat.category,
        vat.reason,
        price_with_vat=gross,
    )


def _row(option_id: int, line: Line) -> EstimateLine:
    return EstimateLine(
        option_id=option_id,
        kind=line.kind.value,
        words=line.words,
        quantity=line.quantity,
        unit=line.unit,
        price=line.price,
        price_with_vat=line.price_with_vat,
        vat_rate=line.vat_rate,
        category=line.category,
        vat_reason=line.vat_reason,
    )
