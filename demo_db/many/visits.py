"""One visit of a large book after the other, each as people would have written it down."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from types import SimpleNamespace

from app.trade.bench.facts import DiscFact, JobFacts
from app.trade.bench.kinds import ComebackStanding, FaultGroup, HowOften, Means
from app.trade.bench.stages import (
    CauseFound,
    Collector,
    Moment,
    Outcome,
    Stage,
)
from app.trade.counter.in_short import first_words
from app.trade.office.guarantee import guarantee_until
from app.trade.settings.shop_settings import ShopSettings
from app.trade.settings.terms import GUARANTEE_DAYS
from app.trade.settings.thresholds import thresholds_of
from demo_db.hands import Shop
from demo_db.many.bench import A_STEP, Bench
from demo_db.many.flags import Flags
from demo_db.many.invoices import Filed, Invoices, StandIn
from demo_db.many.players import Former, Players
from demo_db.many.readings import Judge
from demo_db.many.rows import Rows
from demo_db.many.visit import NOTHING, Visit
from demo_db.plan import PlannedJob, PlannedReading
from demo_db.scenario import Scenario
from demo_db.sums import lines_of


class Visits:
    """Writes them down."""

    def __init__(
        self,
        shop: Shop,
        texts: Scenario,
        judge: Judge,
        settings: ShopSettings,
        rows: Rows,
        last_labels: Mapping[int, Decimal],
    ) -> None:
        self._shop = shop
        self._texts = texts
        self._settings = settings
        self._rows = rows
        self._staff = {shop.people[person.key]: person.name for person in texts.people}
        self._instruments = {shop.tools[tool.key]: SimpleNamespace(name=tool.name) for tool in texts.tools}
        self._mirr = shop.people["mirr"]
        self._players = Players(shop, texts, rows, last_labels)
        self._bench = Bench(shop, texts, judge, settings, rows, self._staff)
        owner = self._staff[shop.people["ine"]]
        self._flags = Flags(rows, thresholds_of(settings), shop.people, owner)
        self._invoices = Invoices(rows, settings, shop.book.files, self._staff, shop.people["ine"])

    def finished(self, number: int, job: PlannedJob, invoice: int, paper: Filed) -> None:
        """A visit from taking in to handing back."""
        repair = job.repair
        visit = self._begin(number, job)
        visit.row |= {
            "stage": Stage.HANDED_BACK,
            "outcome": Outcome(repair.outcome),
            "fault_group": FaultGroup(repair.group),
            "cause": CauseFound(repair.cause),
            "ready_at": job.done,
            "handed_back_at": job.back,
        }
        back = self._shop.days.day_of(job.back)
        helped = visit.row["fault_short"]
        if job.mended:
            visit.row["guarantee_until"] = guarantee_until(back, self._settings[GUARANTEE_DAYS])
            helped = self._bench.mend(visit)
            self._bench.make_safe(visit)
        else:
            self._bench.leave(visit)
        facts = self._invoice(visit, invoice, paper)
        self._flags.settle(facts, job.back - 2 * A_STEP)
        answers = self._flags.owner_looks(job.back - A_STEP)
        open_still = facts.balance if job.unpaid else NOTHING
        given = tuple(replace(disc, returned=True) for disc in facts.discs)
        self._flags.settle(
            replace(facts, stage=Stage.HANDED_BACK, balance=open_still, discs=given, answers=answers),
            job.back,
        )
        self._rows.add(
            "hand_backs",
            job_id=visit.key,
            at=job.back,
            by=self._mirr,
            collector=Collector.CUSTOMER,
            paid_words="by transfer within two weeks" if job.unpaid else "",
            shown_and_told=job.mended,
        )
        visit.player.former = Former(visit.key, number, back, helped)

    def here(self, number: int, job: PlannedJob, during: tuple[PlannedReading, ...] = ()) -> None:
        """A visit that has come as far as the bench; ``during`` are more readings."""
        visit = self._begin(number, job, returned=False)
        visit.row["stage"] = Stage.ON_THE_BENCH
        for reading in during:
            self._bench.read(visit, reading, Moment.DURING, job.begun + 2 * A_STEP)
        self._flags.settle(visit.facts(self._shop.days.day_of(job.begun)), job.begun + 2 * A_STEP)

    # taking in, and what was found

    def _begin(self, number: int, job: PlannedJob, *, returned: bool = True) -> Visit:
        player, first = self._players.of(job)
        rows, said = self._rows, job.said
        back = {"returned_at": job.back, "returned_by": self._mirr} if returned else {}
        former = player.former if job.comeback or job.deny else None
        row = {
            "number": number,
            "unit_id": player.unit,
            "customer_id": player.customer,
            "waiting": "nothing",
            "taken_in_at": job.taken_in,
            "taken_in_by": self._mirr,
            "promised_on": job.promised,
            "fault": said.words,
            "fault_short": first_words(said.words),
            "marks": job.marks,
            "transit_lock": player.lock,
            "shelf": job.shelf,
            "ring_when": job.unit.owner.ring_when,
            "go_ahead_limit": job.limit,
            "diagnosis_fee": 4500,
            "diagnosis_fee_told": True,
        }
        if former is not None:
            row["comeback_of_id"] = former.key
            row["comeback"] = ComebackStanding.DENIED if job.deny else ComebackStanding.CONFIRMED
            row["comeback_reason"] = job.deny
        key = rows.add_row("jobs", row)
        if first:
            rows.add(
                "fittings",
                transport_id=player.transport,
                unit_id=player.unit,
                fitted_at=job.taken_in,
                fitted_job_id=key,
            )
        rows.add("reported_faults", job_id=key, word=said.fault_word, how=HowOften(said.how))
        for words in job.came_with:
            rows.add("things_left", job_id=key, kind="thing", words=words, **back)
        came, by = self._shop.days.day_of(job.taken_in), self._shop.people[job.technician]
        visit = Visit(job, player, key, number, came, by, row)
        if job.disc_inside:
            disc = rows.add("things_left", job_id=key, kind="disc", words=job.disc_inside, **back)
            visit.discs = (DiscFact(disc, job.disc_inside),)
        self._flags.begin(key, player.flags)
        self._bench.climb(visit, job.rung, Moment.ARRIVAL, job.begun)
        for reading in job.before:
            self._bench.read(visit, reading, Moment.ARRIVAL, job.begun + A_STEP)
        return visit

    # money

    def _invoice(self, visit: Visit, number: int, filed: Filed) -> JobFacts:
        """Invoice, paper and payment; gives the facts as they are between the two."""
        job, player = visit.job, visit.player
        at = job.back - 2 * A_STEP
        day = self._shop.days.day_of(at)
        lines = lines_of(job, self._texts)
        key, draft, totals = self._invoices.issue(number, visit.row, visit.key, lines, day, at)
        facts = visit.facts(day, totals)
        if filed is not Filed.NONE or player.modifications:  # a modification stays named on paper
            stand = StandIn(
                visit.key,
                visit.row,
                self._settings,
                player.inside,
                modifications=[SimpleNamespace(**row) for row in player.changed],
                agreements=player.agreed,
                safety_tests=player.tested,
                safety_steps=player.steps,
                instruments=self._instruments,
                staff=self._staff,
            )
            self._invoices.paper(number, stand, facts, draft, totals, key, at, filed=filed)
        if not job.unpaid:
            self._rows.add(
                "payments",
                job_id=visit.key,
                invoice_id=key,
                kind="payment",
                amount=totals.due.minor,
                currency=totals.due.currency,
                means=Means(job.means),
                at=job.back,
                by=self._mirr,
            )
        return facts
