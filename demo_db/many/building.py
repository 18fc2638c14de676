"""Builds a large book for measuring: the plan of the demo shop over twenty years, laid down in bulk.

Every visit has what people write down of it, from the fault in the customer's words to the paid invoice and its
paper; the newest stand on the bench. The same rules judge, sum up and raise flags as where people do the work.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta
from decimal import Decimal
from itertools import islice
from pathlib import Path

from app.book.bulk import Laying, lay_down
from app.book.office.shop_settings import settings_of
from app.trade.sentence import Sentence
from app.work.office.quantity_list import quantity_list
from app.work.shop_book import close_book, open_shop
from demo_db.build import ZONE, clear
from demo_db.days import Days, StoryClock
from demo_db.hands import Shop
from demo_db.many.invoices import Filed
from demo_db.many.readings import Judge
from demo_db.many.rows import Rows
from demo_db.many.visits import Visits
from demo_db.plan import PlannedJob, Planner
from demo_db.scenario import scenario
from demo_db.settings_up import renew_certificate, set_up

JOBS, SEED = 100_000, 20
CUSTOMERS_IN_TEN, UNITS_IN_TEN = 6, 7  # to ten jobs
SPAN = timedelta(days=20 * 365)
ON_THE_BENCH = 40  # at most; of few jobs one in ten
READINGS_OF_NEWEST = 50  # the job whose sheet is measured
PAPERS = timedelta(
    days=4 * 365
)  # invoices of the last years have their paper, older ones where they name a change
OWN_PAPERS = 40  # the newest have a PDF of their own
FIRST_JOB = 1001
AT_ONCE = 500  # jobs whose rows wait together


def build_many(folder: Path, until: datetime, jobs: int = JOBS, seed: int = SEED) -> Path:
    """Write FOLDER/book.sqlite with so many jobs; the same seed and day give the same. Replaces an earlier one."""
    folder.mkdir(parents=True, exist_ok=True)
    clear(folder)
    path = folder / "book.sqlite"
    days = Days(ZONE)
    last = days.after(days.day_of(until), -1)
    texts = scenario()
    planned = Planner(texts, days, seed).years(
        last - SPAN,
        last,
        customers=max(1, jobs * CUSTOMERS_IN_TEN // 10),
        units=max(1, jobs * UNITS_IN_TEN // 10),
        jobs=jobs,
    )
    clock = StoryClock(days.at(last, "9:00"))
    book = open_shop(path, clock=clock, make=True, draft=True)
    try:
        shop = Shop(book, clock, days)
        set_up(shop, texts, first_job=FIRST_JOB, certificate=last)
        _certify(shop, last)
        judge = Judge.of(shop, texts, {one.id: one for one in quantity_list(book)})
        with book.ask() as session:
            settings = settings_of(session)
        clock.go_to(until)
        with lay_down(book, shop.people["mirr"], Sentence("took in a player")) as laying:
            rows = Rows(laying)
            visits = Visits(shop, texts, judge, settings, rows, _last_labels(planned[: _here_from(planned)]))
            _lay(visits, planned, rows, laying)
    finally:
        close_book(book)
    return path


def _certify(shop: Shop, last: date) -> None:
    """The years of certificates that came before the one that the shop begins with."""
    for years in range(3, SPAN.days // 365 + 3, 3):
        renew_certificate(shop, last.replace(year=last.year - 3 - years))


def _here_from(planned: list[PlannedJob]) -> int:
    """The place of the first job that still stands on the bench."""
    return len(planned) - min(ON_THE_BENCH, len(planned) // 10)


def _last_labels(finished: list[PlannedJob]) -> dict[int, Decimal]:
    """What the label of each player's pick-up says in the end, where one was renewed."""
    return {id(job.unit): job.new_label for job in finished if job.new_label is not None and job.mended}


def _lay(visits: Visits, planned: list[PlannedJob], rows: Rows, laying: Laying) -> None:
    numbers = laying.take_numbers("job", len(planned), FIRST_JOB)
    here_from = _here_from(planned)
    by_day = sorted(range(here_from), key=lambda at: (planned[at].back, at))
    invoices = dict(zip(by_day, laying.take_numbers("invoice", here_from), strict=True))
    own = set(by_day[-OWN_PAPERS:])
    papers_from = planned[-1].taken_in - PAPERS
    for at, (number, job) in enumerate(zip(numbers, planned, strict=True)):
        if at < here_from:
            paper = Filed.OWN if at in own else Filed.SHARED if job.back >= papers_from else Filed.NONE
            visits.finished(number, job, invoices[at], paper)
        elif at < len(planned) - 1:
            visits.here(number, job)
        else:
            alike = (one for other in reversed(planned) for one in other.before)
            visits.here(number, job, tuple(islice(alike, READINGS_OF_NEWEST - len(job.before))))
        if at % AT_ONCE == 0:
            rows.lay()
    rows.finish()
