"""The list of jobs: which stand on it, in which order, and what each line says."""

from __future__ import annotations

from datetime import date

import pytest
from sqlalchemy import event, insert

from app.book.tables import Job
from app.trade.bench.flag import Level
from app.trade.bench.kinds import HowOften
from app.trade.bench.stages import Outcome, Stage, Waiting
from app.trade.counter import fault_words
from app.trade.counter.agreements import MessageEntry
from app.trade.counter.fault_words import FaultWord
from app.trade.sentence import Sentence
from app.work.counter.job_rows import job_rows
from app.work.counter.jobs_list import Group, Promise, Show, Sort, job_ids, shop_counts
from app.work.counter.messages import add_message
from app.work.counter.requests import note_unsafe_request


@pytest.fixture
def jobs(shop, take_in):
    """Seven jobs by a name for each; today is Thursday 12 March, moved on to the 20th."""
    ids = {
        "later": take_in(
            serial="1",
            maker="Ostrind",
            model="Osier 7",
            name="Jun Okeland",
            phone="",
            promised_on=date(2026, 3, 27),
        ).job_id,
        "today_at_ten": take_in(serial="2", promised_on=date(2026, 3, 20), promised_time="10:00").job_id,
        "today": take_in(serial="3", promised_on=date(2026, 3, 20)).job_id,
        "late": take_in(
            serial="4", maker="Zindermoor", model="Zelkova 9", promised_on=date(2026, 3, 17)
        ).job_id,
        "undated": take_in(
            serial="5",
            promised_on=None,
            fault="",
            faults=(fault_words.ReportedFault(FaultWord.SKIPS, HowOften.SOMETIMES),),
        ).job_id,
        "ready": take_in(serial="6", promised_on=date(2026, 3, 18)).job_id,
        "gone": take_in(serial="7", promised_on=date(2026, 3, 16)).job_id,
    }
    shop.clock.advance(days=8)
    with shop.book.change(shop.tobbe, Sentence("stages")) as change:
        change.get(Job, ids["ready"]).stage = Stage.READY
        change.get(Job, ids["late"]).stage = Stage.ON_THE_BENCH
        gone = change.get(Job, ids["gone"])
        gone.stage, gone.outcome, gone.handed_back_at = Stage.HANDED_BACK, Outcome.MENDED, change.now
    return ids


def shown(shop, jobs, *args, **more):
    names = {key: name for name, key in jobs.items()}
    return [names[key] for key in job_ids(shop.book, *args, **more).ids]


def test_in_the_shop_the_soonest_promise_stands_first_and_late_before_it(shop, jobs):
    assert shown(shop, jobs) == ["late", "today_at_ten", "today", "ready", "later", "undated"]
    assert job_ids(shop.book).groups == (
        Group(Promise.LATE, 0, 1),
        Group(Promise.TODAY, 1, 2),
        Group(Promise.COLLECT, 3, 1),
        Group(Promise.LATER, 4, 2),
    )


def test_the_list_is_filtered_by_stage_waiting_and_promise(shop, jobs):
    assert shown(shop, jobs, Show.READY) == ["ready"]
    assert shown(shop, jobs, Show.ON_THE_BENCH) == ["late"]
    assert "ready" not in shown(shop, jobs, Show.TO_WORK_ON)
    assert shown(shop, jobs, Show.HANDED_BACK) == ["gone"]
    assert shown(shop, jobs, Show.WAITING) == []
    with shop.book.change(shop.tobbe, Sentence("waits")) as change:
        change.get(Job, jobs["later"]).waiting = Waiting.ANSWER
    assert shown(shop, jobs, Show.WAITING) == ["later"]
    assert set(shown(shop, jobs, Show.EVERY)) == set(jobs)
    assert shown(shop, jobs, promise=Promise.TODAY) == ["today_at_ten", "today"]


def test_every_job_stands_in_the_same_order_with_those_that_are_gone_among_the_late(shop, jobs):
    assert shown(shop, jobs, Show.EVERY) == [
        "gone",
        "late",
        "today_at_ten",
        "today",
        "ready",
        "later",
        "undated",
    ]
    assert job_ids(shop.book, Show.EVERY).groups == ()
    assert shown(shop, jobs, Show.EVERY, promise=Promise.COLLECT) == ["ready"]
    assert shown(shop, jobs, Show.EVERY, promise=Promise.LATER) == ["later", "undated"]


def test_the_list_of_every_job_walks_along_its_index_and_sorts_nothing(shop, jobs):
    asked = []
    event.listen(shop.book.engine, "before_cursor_execute", lambda *a: asked.append((a[2], a[3])))
    job_ids(shop.book, Show.EVERY)
    late = next((statement, values) for statement, values in asked if "promised_time" in statement)
    with shop.book.ask() as session:
        plan = session.connection().exec_driver_sql(f"EXPLAIN QUERY PLAN {late[0]}", late[1]).all()
    assert [step.detail for step in plan] == [
        "SEARCH jobs USING COVERING INDEX ix_jobs_promised_on (promised_on<?)"
    ]


def test_handed_back_last_week_is_not_this_week(shop, jobs):
    shop.clock.advance(days=3)  # Monday
    assert shown(shop, jobs, Show.HANDED_BACK) == []


@pytest.mark.parametrize(
    ("sort", "first"),
    [
        (Sort.NUMBER, "later"),
        (Sort.PLAYER, "later"),  # Ostrind before Quellmar
        (Sort.CUSTOMER, "today_at_ten"),  # Arnsvik before Okeland
        (Sort.FAULT, "undated"),  # nothing typed before anything
        (Sort.STAGE, "later"),
        (Sort.FLAGS, "today_at_ten"),
    ],
)
def test_every_column_sorts_both_ways(shop, jobs, sort, first):
    note_unsafe_request(shop.book, shop.mirr, jobs["today_at_ten"], "bridge the lid switch")
    up = shown(shop, jobs, Show.IN_THE_SHOP, sort)
    assert up[0] == first
    assert shown(shop, jobs, Show.IN_THE_SHOP, sort, descending=True) == up[::-1]
    assert job_ids(shop.book, sort=sort).groups == ()


def test_by_promise_the_other_way_round_the_undated_still_stand_last(shop, jobs):
    assert shown(shop, jobs, descending=True) == [
        "later",
        "today_at_ten",
        "today",
        "ready",
        "late",
        "undated",
    ]


def test_a_line_says_who_what_when_and_how_late(shop, jobs):
    late, undated, ready = job_rows(shop.book, [jobs["late"], jobs["undated"], jobs["ready"], 999])
    assert (late.number, late.maker, late.serial, late.customer, late.days_late) == (
        1004,
        "Zindermoor",
        "4",
        "Benedikt Arnsvik",
        3,
    )
    assert late.fault == "Plays nicely from the start"
    assert (undated.fault, undated.fault_word.values["word"].key) == ("", "skips")
    assert ready.days_late == 0
    assert job_rows(shop.book, []) == ()


def test_the_worst_flag_of_job_player_and_transport_stands_first(shop, jobs):
    note_unsafe_request(shop.book, shop.mirr, jobs["late"], "bridge the lid switch")
    (row,) = job_rows(shop.book, [jobs["late"]])
    assert row.flags[0].level is Level.STOP


def test_while_an_answer_is_awaited_the_line_says_since_when(shop, jobs):
    add_message(shop.book, shop.mirr, jobs["later"], MessageEntry(text="Asked.", awaits_answer=True))
    (row,) = job_rows(shop.book, [jobs["later"]])
    assert row.waiting_since == date(2026, 3, 20)
    (gone,) = job_rows(shop.book, [jobs["gone"]])
    assert gone.handed_back_on == date(2026, 3, 20)


def test_the_counts_are_those_of_the_list(shop, jobs):
    counts = shop_counts(shop.book)
    assert (counts.in_the_shop, counts.late, counts.today) == (6, 1, 2)
    assert (counts.held, counts.to_work_on, counts.to_invoice, counts.ever) == (0, 5, 1, 7)
    note_unsafe_request(shop.book, shop.mirr, jobs["late"], "bridge the lid switch")
    assert shop_counts(shop.book).held == 1


def test_an_empty_book_counts_nothing(shop):
    counts = shop_counts(shop.book)
    assert (counts.in_the_shop, counts.ever, counts.to_invoice) == (0, 0, 0)
    assert job_ids(shop.book).ids == ()


def test_midnight_moves_a_job_to_the_next_group(shop, jobs):
    shop.clock.advance(days=1)
    assert shown(shop, jobs, promise=Promise.LATE) == ["late", "today_at_ten", "today"]
    assert job_rows(shop.book, [jobs["today"]])[0].days_late == 1


def test_flags_of_the_player_and_of_the_transport_inside_reach_the_line(shop, jobs):
    from app.book.tables import Fitting, Flag, Transport, TransportType
    from app.trade.bench.flag import Closing, Subject
    from app.trade.bench.kinds import Arrangement

    (row,) = job_rows(shop.book, [jobs["later"]])
    before = len(row.flags)
    with shop.book.change(shop.tobbe, Sentence("flags")) as change:
        unit = change.get(Job, jobs["later"]).unit_id
        kind = change.add(TransportType(name="Tirro A4", arrangement=Arrangement.SWING_ARM))
        gone = change.add(Transport(type_id=kind.id, marking="8", created_at=change.now))
        inside = change.add(Transport(type_id=kind.id, marking="7", created_at=change.now))
        change.add(Fitting(transport_id=inside.id, unit_id=unit, fitted_at=change.now))
    with shop.book.engine.begin() as connection:
        for rule, subject, owner in (
            ("trimmer_blind", Subject.UNIT, {"unit_id": unit}),
            ("other_type", Subject.TRANSPORT, {"transport_id": inside.id}),
            ("of one that left", Subject.TRANSPORT, {"transport_id": gone.id, "job_id": jobs["later"]}),
        ):
            connection.execute(
                insert(Flag).values(
                    rule=rule,
                    rule_version=1,
                    level=Level.CAUTION,
                    subject=subject,
                    word=Sentence(rule),
                    sentence=Sentence(rule),
                    clears=Sentence("never"),
                    closing=Closing.FACTS,
                    raised_at=shop.clock(),
                    detail="",
                    **owner,
                )
            )
    (row,) = job_rows(shop.book, [jobs["later"]])
    assert {flag.word.key for flag in row.flags} >= {"trimmer_blind", "other_type"}
    assert len(row.flags) == before + 2
    assert shown(shop, jobs, Show.IN_THE_SHOP, Sort.FLAGS)[0] == "later"
