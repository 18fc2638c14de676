"""Two whole processes issue in one book at once: no gap, no double, dates in order, each job invoiced once."""

from __future__ import annotations

import json
import subprocess
import sys
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

from sqlalchemy import select

from app.book.check import check
from app.book.tables import CreditNote, Invoice, Paper
from app.trade.bench.stages import Stage
from app.trade.money import MICRO
from app.trade.office.invoice import LineKind
from app.trade.office.numbers import gaps_in
from app.trade.office.vat import VatRate
from app.work.counter.stages import set_stage
from app.work.counter.taking_in import receive_unit
from app.work.office.charges import ChargeEntry, add_charge
from app.work.papers.issuing import file_paper
from app.work.shop_book import open_shop
from tests.work.asked import unfiled_papers
from tests.work.office.conftest import LARCH

ROOT = Path(__file__).parents[3]
FEE = ChargeEntry(kind=LineKind.FEE, words="Diagnosis", price=40 * MICRO, vat=VatRate(1900))
EACH = 4


def test_numbers_have_no_gap_and_dates_rise_while_two_processes_issue_at_once(bench):
    jobs = []
    for number in range(2 * EACH + 1):
        serial = replace(LARCH, serial=f"77 {number:03d}")
        job = receive_unit(bench.book, bench.who, serial).value.job_id
        set_stage(bench.book, bench.who, job, Stage.ON_THE_BENCH)
        add_charge(bench.book, bench.who, job, FEE)
        jobs.append(job)
    today = bench.shop.clock.advance(days=1)
    contested, path = jobs.pop(), bench.shop.path
    bench.book.close()
    one = [contested, *jobs[:EACH]]
    two = [contested, *jobs[EACH:]]
    issued = _at_once(path, bench.who, today, (one, today), (two, today - timedelta(days=1)))
    assert sorted(bool(numbers) for numbers in (issued[0][0], issued[1][0])) == [False, True]

    book = open_shop(path, clock=bench.shop.clock)
    try:
        with book.ask() as session:
            for table in (Invoice, CreditNote):
                kept = session.execute(select(table.number, table.issued_on).order_by(table.number)).all()
                assert len(kept) == 2 * EACH + 1
                assert gaps_in([number for number, _ in kept]) is None
                days = [day for _, day in kept]
                assert days == sorted(days)
            assert len(session.scalars(select(Paper.id).where(Paper.invoice_id.is_not(None))).all()) == 2 * (
                2 * EACH + 1
            )
        for paper in unfiled_papers(book):
            file_paper(book, paper)
        assert check(book).found == ()  # history's chain, the sums and the find index, too
    finally:
        book.close()


def _at_once(path, who, now, *shares):
    """What each process issued. Both are loaded and wait at the door before either is told to begin."""
    processes = [
        subprocess.Popen(
            [sys.executable, "-m", "tests.work.office.issuers", str(path)],
            cwd=ROOT,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        for _ in shares
    ]
    for process in processes:
        assert process.stdout.readline() == "ready\n"
    for process, (jobs, day) in zip(processes, shares, strict=True):
        question = {"now": now.isoformat(), "who": who, "jobs": jobs, "day": day.date().isoformat()}
        process.stdin.write(json.dumps(question) + "\n")
        process.stdin.flush()
    answers = [process.communicate()[0] for process in processes]
    assert [process.returncode for process in processes] == [0, 0]
    return [json.loads(answer) for answer in answers]
