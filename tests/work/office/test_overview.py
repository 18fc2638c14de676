"""What waits for the owner, in one look."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from app.book import tables as t
from app.trade.bench.flag import Closing, Level, Subject
from app.trade.bench.kinds import Arrangement
from app.trade.bench.stages import Mark, Outcome, Stage
from app.trade.sentence import Sentence
from app.work.office.invoices import issue_invoice
from app.work.office.overview import overview, owner_sees
from app.work.office.part_orders import OrderEntry, order_part
from app.work.office.shop_lists import InstrumentLine, save_instrument
from app.work.people.staff import add_staff

COIL, LASER = Sentence("coil current up"), Sentence("laser near its end")


def moved(bench, stage):
    with bench.book.change(bench.who, Sentence("moved")) as change:
        job = change.get(t.Job, bench.job)
        job.stage = stage
        if stage is Stage.READY:
            job.ready_at = change.now
        else:
            job.handed_back_at, job.outcome = change.now, Outcome.MENDED


def flagged(bench, word=COIL, subject=Subject.JOB, **more):
    """A caution for the owner's eyes, without the rules, which would clear what no fact raises."""
    bench.book._settle = ()
    with bench.book.change(bench.who, Sentence("raised")) as change:
        values = {
            "rule": "coil_up_big",
            "rule_version": 1,
            "level": Level.CAUTION,
            "subject": subject,
            "word": word,
            "sentence": word,
            "clears": word,
            "closing": Closing.SEEN,
            "owner_sees": True,
            "needs": Mark.OWNER,
            "raised_at": change.now,
            "detail": f"{word} {more}",
            **more,
        }
        return change.add(t.Flag(**values)).id


def seen(bench):
    return [(one.number, one.words) for one in owner_sees(bench.book)]


def test_a_new_shop_has_nothing_waiting(shop):
    found = overview(shop.book)
    assert (found.to_invoice, found.open_invoices, found.gone, found.owner_sees) == ((), (), (), ())
    assert (found.instruments_overdue, found.without_pin, found.orders_late) == (0, 0, 0)


def test_money_to_ask_for_in_its_three_states(worked):
    moved(worked, Stage.READY)
    assert [row.job_id for row in overview(worked.book).to_invoice] == [worked.job]
    moved(worked, Stage.HANDED_BACK)
    found = overview(worked.book)
    assert found.to_invoice == ()
    assert [row.job_id for row in found.gone] == [worked.job]
    issue_invoice(worked.book, worked.who, worked.job)
    found = overview(worked.book)
    assert found.gone == ()
    assert [row.job_id for row in found.open_invoices] == [worked.job]


def test_only_instruments_in_use_whose_day_has_passed_are_overdue(shop):
    for name, due, retired in (
        ("meter", date(2026, 3, 11), False),
        ("scope", date(2026, 3, 12), False),
        ("tester", None, False),
        ("old meter", date(2020, 1, 1), True),
    ):
        save_instrument(shop.book, shop.ine, InstrumentLine(name=name, due_on=due, retired=retired))
    assert overview(shop.book).instruments_overdue == 1


def test_who_cannot_sign_yet_is_counted(shop):
    add_staff(shop.book, shop.ine, "Jun Okeland")
    assert overview(shop.book).without_pin == 1


def test_cautions_of_the_job_its_player_and_the_mechanism_inside_are_one_line(bench):
    with bench.book.change(bench.who, Sentence("fitted")) as change:
        job = change.get(t.Job, bench.job)
        kind = change.add(t.TransportType(name="Velk A1", arrangement=Arrangement.SWING_ARM))
        mechanism = change.add(t.Transport(type_id=kind.id, created_at=change.now))
        change.add(t.Fitting(transport_id=mechanism.id, unit_id=job.unit_id, fitted_at=change.now))
        unit, transport = job.unit_id, mechanism.id
    flagged(bench, job_id=bench.job)
    flagged(bench, LASER, Subject.UNIT, unit_id=unit)
    flagged(bench, LASER, Subject.TRANSPORT, transport_id=transport)
    assert seen(bench) == [(1001, (COIL, LASER))]
    assert owner_sees(bench.book)[0].player == "Quellmar Larch 2"
    with bench.book.change(bench.who, Sentence("taken out")) as change:
        change.session.query(t.Fitting).one().removed_at = change.now
    flagged(bench, Sentence("arm weak"), Subject.TRANSPORT, transport_id=transport)
    assert seen(bench) == [(1001, (COIL, LASER))]


def test_what_was_looked_at_cleared_or_has_left_the_shop_waits_no_more(bench):
    first, second = flagged(bench, job_id=bench.job), flagged(bench, LASER, job_id=bench.job)
    flagged(bench, Sentence("not for the owner"), job_id=bench.job, owner_sees=False)
    with bench.book.change(bench.who, Sentence("looked at")) as change:
        change.get(t.Flag, first).acknowledged_at = change.now
    assert seen(bench) == [(1001, (LASER,))]
    with bench.book.change(bench.who, Sentence("cleared")) as change:
        change.get(t.Flag, second).cleared_at = change.now
    assert seen(bench) == []
    flagged(bench, Sentence("found later"), job_id=bench.job)
    moved(bench, Stage.HANDED_BACK)
    assert seen(bench) == []


def test_orders_that_should_have_been_here_are_counted(bench):
    order_part(bench.book, bench.who, OrderEntry(part_id=bench.part, quantity=Decimal(5)))
    assert overview(bench.book).orders_late == 0
    bench.shop.clock.advance(days=15)  # 14 are what a supplier takes
    assert overview(bench.book).orders_late == 1
