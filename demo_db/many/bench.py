"""The bench of a large book: how far a player starts up, what is read, done and tested."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta
from decimal import Decimal
from types import SimpleNamespace
from typing import Any

from app.trade.bench.case import opens_the_case
from app.trade.bench.facts import SafetyTestFact, TrialFact
from app.trade.bench.kinds import HowSeen, Warmth
from app.trade.bench.safety_test import Overall
from app.trade.bench.stages import Left, MainsClass, Moment, Outcome, TrialOutcome, Way
from app.trade.money import MICRO
from app.trade.office.invoice import LineKind
from app.trade.settings.bench import SAFETY_STANDARD
from app.trade.settings.prices import HOURLY_RATE
from app.trade.settings.shop_settings import ShopSettings
from app.work.bench.bench_lists import shipped_changes
from demo_db.hands import Shop
from demo_db.many.changes import raise_coil, reverse
from demo_db.many.readings import Judge
from demo_db.many.rows import Rows
from demo_db.many.safety import Tester, steps_of, typed_of
from demo_db.many.stock import Stock
from demo_db.many.visit import Visit
from demo_db.plan import PlannedReading
from demo_db.scenario import Scenario
from demo_db.sums import FEE, RATE, lines_of

A_STEP = timedelta(minutes=6)
RUNGS = 12


class Bench:
    """Writes down what is done at it."""

    def __init__(
        self,
        shop: Shop,
        texts: Scenario,
        judge: Judge,
        settings: ShopSettings,
        rows: Rows,
        staff: Mapping[int, str],
    ) -> None:
        self._shop = shop
        self._texts = texts
        self._judge = judge
        self._settings = settings
        self._rows = rows
        self._staff = staff
        self._mirr = shop.people["mirr"]
        self._stock = Stock(shop, texts, rows)
        self._tester = Tester(settings[SAFETY_STANDARD], shop.people["sanna"], shop.tools["tester"])

    def climb(self, visit: Visit, rung: int, moment: Moment, at: datetime) -> None:
        self._rows.add(
            "start_up_results",
            job_id=visit.key,
            transport_id=visit.player.transport,
            rung=rung,
            seen=HowSeen.NORMAL_USE,
            warmth=Warmth.COLD,
            moment=moment,
            at=at,
            by=visit.by,
        )
        if moment is Moment.FINAL:
            visit.rung_final = rung

    def read(
        self, visit: Visit, planned: PlannedReading, moment: Moment, at: datetime, **conditions: Any
    ) -> None:
        player = visit.player
        columns, fact = self._judge.read(
            player.kind.name, player.label, planned, moment=moment, at=at, by=visit.by, **conditions
        )
        self._rows.add("readings", job_id=visit.key, transport_id=player.transport, **columns)
        visit.readings.append(fact)

    def mend(self, visit: Visit) -> str:
        """The repair with its trial; gives what helped."""
        job, rows, player = visit.job, self._rows, visit.player
        repair, at = job.repair, job.begun + 3 * A_STEP
        inside = bool(job.part) or any(opens_the_case(one.quantity) for one in job.before)
        self._case(visit, at, opened=True, assumed=inside)
        if player.modifications and repair.key == "arm_drag":
            reverse(player, visit.key, visit.by, self._staff[visit.by], at)
        raised = repair.change == "coil_current"
        words = "coil current raised" if raised else shipped_changes()[repair.change].words
        coil = player.kind.coil
        trial = rows.add(
            "trials",
            job_id=visit.key,
            transport_id=player.transport,
            number=1,
            change=repair.change,
            words=words,
            reference=coil["where"] if raised else "",
            outcome=TrialOutcome.BETTER if raised else TrialOutcome.CURED,
            left=Left.LEFT_INSIDE if raised else Left.LEFT_SO,
            rung_before=job.rung,
            rung_after=RUNGS,
            at=at,
            by=visit.by,
        )
        visit.trials.append(TrialFact(number=1, change=repair.change, at=at))
        if job.new_label is not None:
            self._renew(visit, job.new_label / 1000, at)
        if job.part:
            self._stock.use(job.part, visit.key, visit.by, at)
            visit.parts = 1
        if raised:
            raise_coil(
                rows, player, visit.key, visit.number, trial, visit.by, self._staff, job.unit.owner.name, at
            )
            self._warm_run(visit, at + 8 * A_STEP)
        for reading in job.after:
            self.read(visit, reading, Moment.FINAL, job.done - 2 * A_STEP)
        self.climb(visit, RUNGS, Moment.FINAL, job.done - 2 * A_STEP)
        rows.add(
            "labour",
            job_id=visit.key,
            words=repair.work,
            hours=int(job.hours * MICRO),
            rate=self._settings[HOURLY_RATE],
            vat_rate=RATE,
            at=job.done - A_STEP,
            by=visit.by,
        )
        if job.note:
            rows.add("job_notes", job_id=visit.key, text=job.note, at=job.done - A_STEP, by=visit.by)
        if job.message:
            rows.add(
                "messages",
                job_id=visit.key,
                to_customer=True,
                way=Way.TELEPHONE,
                text=job.message,
                at=job.done,
                by=self._mirr,
            )
        return words

    def _renew(self, visit: Visit, label: Decimal, at: datetime) -> None:
        player = visit.player
        self._rows.add(
            "part_changes",
            transport_id=player.transport,
            job_id=visit.key,
            words="pick-up",
            label_before=player.label,
            label_after=label,
            at=at,
            by=visit.by,
        )
        player.label = label

    def _warm_run(self, visit: Visit, at: datetime) -> None:
        """The final readings that a raised coil current asks for."""
        ohms = Decimal(visit.player.kind.coil["coil"])
        for quantity, typed, tool, conditions in (
            ("driver_temp", "52", "thermo", {"warm_minutes": 30}),
            ("radial_coil_r", str(ohms), "meter", {"room": Decimal(22)}),
            ("radial_coil_r", str(ohms + Decimal("0.6")), "meter", {"warm_minutes": 30}),
            ("dropout_passed", "0.75", "", {}),
        ):
            self.read(visit, PlannedReading(quantity, typed, tool, ""), Moment.FINAL, at, **conditions)

    def leave(self, visit: Visit) -> None:
        """Not mended: the fee, and the customer's no where there was one."""
        job = visit.job
        if visit.row["outcome"] is Outcome.NO_FAULT_SHOWN:
            self.climb(visit, RUNGS, Moment.FINAL, job.begun + 2 * A_STEP)
        else:
            self._rows.add(
                "agreements",
                job_id=visit.key,
                kind="work",
                yes=False,
                what="no repair at the price told",
                way=Way.TELEPHONE,
                said_by=job.unit.owner.name,
                said_at=job.begun + 2 * A_STEP,
                at=job.begun + 2 * A_STEP,
                by=self._mirr,
            )
        fee = lines_of(job, self._texts)[0]
        self._rows.add(
            "charges",
            job_id=visit.key,
            kind=LineKind.FEE.value,
            words=fee.words,
            quantity=fee.quantity,
            unit=fee.unit,
            price=fee.price,
            price_with_vat=FEE,
            vat_rate=fee.vat_rate,
            at=job.begun + 2 * A_STEP,
            by=self._shop.people["ine"],
        )

    def _case(self, visit: Visit, at: datetime, *, opened: bool, assumed: bool = False) -> None:
        self._rows.add("case_events", job_id=visit.key, opened=opened, assumed=assumed, at=at, by=visit.by)

    def make_safe(self, visit: Visit) -> None:
        """The case shut, and tested but for a player with a supply of its own."""
        player, at = visit.player, visit.job.done
        self._case(visit, at, opened=False)
        if player.mains is MainsClass.EXTERNAL:
            return
        typed = typed_of(visit.job, player.mains)
        columns, result = self._tester.test(player.mains, typed, at)
        test = self._rows.add("safety_tests", job_id=visit.key, unit_id=player.unit, **columns)
        steps = [{"test_id": test, **step} for step in steps_of(result, typed)]
        for step in steps:
            self._rows.add("safety_steps", **step)
        player.tested.append(SimpleNamespace(id=test, job_id=visit.key, note="", **columns))
        player.steps = [SimpleNamespace(**step) for step in steps]
        player.tests.append(
            SafetyTestFact(
                at=at,
                by=self._staff[columns["by"]],
                passed=result.overall is Overall.PASSED,
                edition=f"{columns['standard']}:{columns['edition']}".strip(":"),
            )
        )
