"""Fills the sheet of a customer's own player that goes back unrepaired and unsafe, and its plug tag."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.bench.job_rows import JobRows
from app.book.office.job_lines import draft_of
from app.book.office.shop_settings import settings_of
from app.book.tables import Agreement, Customer, Job, Staff, Unit, UnsafeReturnKept
from app.papers.facts import Said, Sign
from app.papers.unsafe_return_facts import Offer, UnsafeReturnFacts
from app.trade.bench.facts import JobFacts
from app.trade.bench.flag import FlagRaised
from app.trade.bench.holds import unsafe_stops
from app.trade.bench.stages import MainsClass, Outcome, said
from app.trade.calendar.promise import local_day
from app.trade.money import Money
from app.trade.office.invoice import asked_with_vat
from app.trade.sentence import Sentence
from app.trade.settings.shop_settings import ShopSettings
from app.trade.settings.thresholds import thresholds_of
from app.work.papers.sheet_facts import money, player_facts, sheet_of, wording_of

_LASER_RULES = frozenset({"interlock"})
_MAINS_INSIDE = frozenset({MainsClass.I, MainsClass.II, MainsClass.NOT_KNOWN})


def unsafe_return_facts(
    session: Session, files: Path, job: Job, facts: JobFacts, decided: UnsafeReturnKept
) -> UnsafeReturnFacts:
    """The sheet as the owner decided it. Every part is needed: the shop may word them, not leave one out."""
    settings = settings_of(session)
    customer = session.get_one(Customer, job.customer_id)
    stops = unsafe_stops(facts, thresholds_of(settings))
    sheet = sheet_of(files, settings, customer)
    zone = wording_of(sheet).zone
    agreements = session.execute(
        select(Agreement, Staff.name)
        .join(Staff, Staff.id == Agreement.by)
        .where(Agreement.job_id == job.id)
        .order_by(Agreement.said_at, Agreement.id)
    ).all()
    return UnsafeReturnFacts(
        sheet=sheet,
        job=job.number,
        day=local_day(decided.at, zone),
        customer_name=customer.name,
        player=player_facts(session, session.get_one(Unit, job.unit_id)),
        warning=_warning(stops),
        unsafe=tuple(stop.sentence for stop in stops),
        not_measured=_not_measured(facts),
        first_steps=_first_steps(facts),
        signs=_signs(facts, stops),
        offers=tuple(
            Offer(_offered(row, settings), Sentence("accepted") if row.yes else Sentence("declined"))
            for row, _ in agreements
        )
        or (Offer(Sentence("repair"), said(job.outcome or Outcome.DECLINED)),),
        answered=_answered(agreements[-1][0], agreements[-1][1])
        if agreements
        else Sentence("at the counter"),
        owner=session.get_one(Staff, decided.by).name,
        owner_reason=decided.reason,
        decided=decided.at,
        declaration=Sentence(
            "I have read this sheet. I take the player back as it is, unrepaired and unsafe. I will not plug it"
            " in, use it or pass it on before it was made safe."
        ),
        fee=_fee(JobRows(session, job)),
        tag_hazard=stops[0].sentence if stops else Sentence("Unsafe."),
        tag_risk=_risk(stops),
    )


def _warning(stops: tuple[FlagRaised, ...]) -> Sentence:
    if stops and all(stop.rule in _LASER_RULES for stop in stops):
        return Sentence("Unseen laser light can leave this player and destroy an eye before it blinks.")
    return Sentence("Plugged in, this player can start a fire or give an electric shock that kills.")


def _risk(stops: tuple[FlagRaised, ...]) -> Sentence:
    if stops and all(stop.rule in _LASER_RULES for stop in stops):
        return Sentence("Risk to the eyes by unseen laser light.")
    return Sentence("Risk of fire and electric shock.")


def _not_measured(facts: JobFacts) -> Sentence:
    if facts.safety_tests:
        return Sentence("We repaired nothing. What else may be unsafe was not looked for.")
    return Sentence(
        "We repaired nothing. The electrical safety test was not done; what else may be unsafe was not looked for."
    )


def _first_steps(facts: JobFacts) -> tuple[Said, ...]:
    steps: list[Said] = [
        Sentence("The player stays unplugged; the tag stays on the plug."),
        Sentence("A competent person makes it safe and tests it."),
        Sentence("Local law comes first: ask before it is sold, given away or thrown away."),
    ]
    return tuple(steps if facts.mains_class in _MAINS_INSIDE else steps[1:])


def _signs(facts: JobFacts, stops: tuple[FlagRaised, ...]) -> tuple[Sign, ...]:
    signs = [Sign.GENERAL]
    if facts.mains_class in _MAINS_INSIDE:
        signs += [Sign.ELECTRIC, Sign.PLUG]
    if any(stop.rule in _LASER_RULES for stop in stops):
        signs.append(Sign.LASER)
    return tuple(signs)


def _offered(row: Agreement, settings: ShopSettings) -> Said:
    if row.amount is None:
        return row.what
    amount = money(row.amount, settings)
    assert amount is not None
    return Sentence("{what}, {amount}", {"what": row.what, "amount": amount})


def _answered(row: Agreement, noted_by: str) -> Sentence:
    return Sentence("{when}, {way} ({by})", {"when": row.said_at, "way": said(row.way), "by": noted_by})


def _fee(rows: JobRows) -> Money | None:
    """What the fees on the invoice come to, with VAT; None when nothing is charged."""
    asked = asked_with_vat(draft_of(rows, fees_only=True))
    return asked if asked.minor else None
