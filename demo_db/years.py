"""Lives a planned job through the door: everything that people do with it, at the time at which they do it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal

from app.trade.bench.case import opens_the_case
from app.trade.bench.kinds import FaultGroup, Means, TransitLock
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import (
    CaseStep,
    CauseFound,
    Left,
    MainsClass,
    Moment,
    Outcome,
    Stage,
    TrialOutcome,
)
from app.trade.counter.taking_in import Intake
from app.trade.money import Money
from app.trade.office.invoice import LineKind
from app.work.bench.bench_lists import shipped_changes
from app.work.bench.modifications import ModificationEntry
from app.work.bench.transport_life import transport_life
from app.work.bench.transports import change_label, renew_part
from demo_db.hands import Shop, faults, given
from demo_db.plan import PlannedJob, PlannedReading
from demo_db.scenario import Scenario
from demo_db.sums import FEE_WORDS, due_of

A_STEP = timedelta(minutes=6)
OWNERS_WORDS = "looked at together with the technician"
# What was suspected, where the repair is not named after it.
SUSPECTED = {
    "supply_caps": "rail_caps",
    "audio": "audio_out",
    "spindle": "spindle_motor",
    "display": "logic",
    "coil_raised": "radial_magnet",
    "sled_dry": "sled_rail",
    "gear": "sled_gear",
}
# Hours of looking for the fault in a player that was not mended.
LOOKING = {Outcome.DECLINED: "0.50", Outcome.NO_FAULT_SHOWN: "0.75", Outcome.BEYOND_REPAIR: "1.25"}


@dataclass
class Known:
    """What earlier visits of a player left: keys of the book."""

    customer: int
    unit: int
    last_job: int
    transport: int = 0
    labelled: bool = False
    modification: int = 0  # live, made by us


@dataclass
class Years:
    """Does planned jobs. ``rich_from``: later ones are written down in more detail. ``scope_away``: the days
    between which the oscilloscope is not read with."""

    shop: Shop
    scenario: Scenario
    rich_from: datetime
    known: dict[str, Known]
    scope_away: tuple[date, date]

    def live(self, job: PlannedJob) -> Iterator[datetime]:
        """The instants at which something happens with this job; between two of them it is done."""
        shop, repair = self.shop, job.repair
        yield job.taken_in
        key = f"{job.unit.kind.maker} {job.unit.serial}"
        before = self.known.get(key)
        received = shop.take_in(self._intake(job, before))
        it = received.job_id
        known = before or Known(received.customer_id, received.unit_id, it)
        known.last_job = it
        self.known[key] = known
        yield from self._bench(job, it, known)
        yield job.done
        if job.mended:
            self._make_safe(job, it)
            shop.move(it, Stage.READY, job.technician)
        if job.message and job.mended:
            shop.say(it, job.message)
        yield job.back - timedelta(minutes=9)
        free = job.comeback and shop.stands_by_it(it)
        shop.issue(it, file=bool(known.modification))
        if not (job.unpaid or free):
            shop.pay(it, due_of(job, self.scenario), Means(job.means))
        yield job.back
        if repair.change == "coil_current" or known.modification:
            shop.owner_looks(it, OWNERS_WORDS)
        shop.give_back(
            it,
            Outcome(repair.outcome),
            things=given(job.came_with, job.disc_inside),
            paid_words="by transfer within two weeks" if job.unpaid and not free else "",
            shown_and_told=job.mended,
        )

    # the counter

    def _intake(self, job: PlannedJob, before: Known | None) -> Intake:
        kind, owner = job.unit.kind, job.unit.owner
        lock = self.scenario.transports[kind.transport].transit_lock
        return Intake(
            customer_id=before.customer if before else None,
            unit_id=before.unit if before else None,
            name=owner.name,
            phone=owner.phone,
            email=owner.email,
            street=owner.street,
            postcode=owner.postcode,
            city=owner.city,
            ring_when=owner.ring_when,
            serial=job.unit.serial,
            maker=kind.maker,
            model=kind.model,
            look=job.unit.look,
            mains_class=MainsClass(kind.mains),
            mains_voltage=kind.voltage,
            transport_type_id=None if before else self.shop.types[kind.transport],
            transport_serial="" if before else job.unit.marking,
            fault=job.said.words,
            faults=faults(f"{job.said.fault_word}:{job.said.how}"),
            marks=job.marks,
            transit_lock=TransitLock.RELEASED if lock else TransitLock.NONE,
            came_with=job.came_with,
            disc_inside=job.disc_inside,
            go_ahead_limit=None if job.limit is None else Money(job.limit, "EUR"),
            diagnosis_fee=Money(4500, "EUR"),
            diagnosis_fee_told=True,
            shelf=job.shelf,
            promised_on=job.promised,
            comeback_of_id=before.last_job if before and job.comeback else None,
            comeback_denied=job.deny,
        )

    # the bench

    def _bench(self, job: PlannedJob, it: int, known: Known) -> Iterator[datetime]:
        shop, repair, who = self.shop, job.repair, job.technician
        rich = job.taken_in >= self.rich_from
        at = job.begun
        yield at
        if rich:
            shop.move(it, Stage.ON_THE_BENCH, who)
        shop.climb(it, job.rung, who=who)
        yield (at := at + A_STEP)
        if repair.change == "pickup_renew":
            self._label(job, it, known)
        for reading in self._read_of(job, job.before):
            self._read(it, reading, Moment.ARRIVAL, who)
        if not job.mended:
            yield (at := at + A_STEP)
            self._not_mended(job, it, who)
            return
        yield (at := at + 2 * A_STEP)
        if not (job.part or any(opens_the_case(r.quantity) for r in self._read_of(job, job.before))):
            shop.case(it, CaseStep.OPENED, who)
        if known.modification and repair.key == "arm_drag":
            shop.reverse(it, known.modification, who=who, note="the arm itself was the fault")
            known.modification = 0
        if repair.change == "coil_current":
            yield from self._raise_coil(job, it, known, at)
            at += 8 * A_STEP
        else:
            self._change(job, it, who)
        yield (at := at + A_STEP)
        for reading in self._read_of(job, job.after):
            self._read(it, reading, Moment.FINAL, who)
        shop.climb(it, 12, Moment.FINAL, who=who)
        yield at + A_STEP
        if rich and job.note:
            shop.note(it, job.note, who)
        shop.labour(it, repair.work, job.hours, who=who)
        shop.found(it, FaultGroup(repair.group), CauseFound(repair.cause), Outcome(repair.outcome), who=who)

    def _read_of(self, job: PlannedJob, readings: Sequence[PlannedReading]) -> Sequence[PlannedReading]:
        """The readings that were written down: of older jobs only the one that mattered."""
        return readings if job.taken_in >= self.rich_from else readings[:1]

    def _change(self, job: PlannedJob, it: int, who: str) -> None:
        shop, repair = self.shop, job.repair
        if repair.change == "pickup_renew":
            assert job.new_label is not None
            renew_part(shop.book, shop.people[who], it, "pick-up", label_after=job.new_label / 1000)
        if job.part:
            shop.use(it, job.part, who=who)
        words = shipped_changes()[repair.change].words
        shop.begin_trial(
            it,
            repair.change,
            words,
            suspect=SUSPECTED.get(repair.key, repair.key),
            outcome=TrialOutcome.CURED,
            left=Left.LEFT_SO,
            order_reason="laser current far over its label" if repair.change == "pickup_renew" else "",
            who=who,
        )

    def _raise_coil(self, job: PlannedJob, it: int, known: Known, at: datetime) -> Iterator[datetime]:
        """Coil current raised with the customer's yes, and the final readings that this asks for."""
        shop, repair, who = self.shop, job.repair, job.technician
        coil = self.scenario.transports[job.unit.kind.transport].coil
        trial = shop.begin_trial(
            it,
            "coil_current",
            "coil current raised",
            suspect=SUSPECTED[repair.key],
            reference=coil["where"],
            order_reason="wanted back this week; the transport would have to come out",
            who=who,
        )
        known.modification = shop.modify(
            it, coil_raised(coil, trial, "three changes before it did nothing"), who
        )
        shop.use(it, job.part, who=who)
        shop.agreed(
            it,
            f"{coil['where']} {coil['fitted']} for {coil['maker']} Ω, more coil current, can be undone",
            job.unit.owner.name,
            modification=known.modification,
        )
        yield at + 6 * A_STEP
        ohms = Decimal(coil["coil"])
        shop.read(it, "driver_temp", "52", Moment.FINAL, tool="thermo", warm_minutes=30, who=who)
        shop.read(it, "radial_coil_r", str(ohms), Moment.FINAL, tool="meter", room=Decimal(22), who=who)
        shop.read(
            it,
            "radial_coil_r",
            str(ohms + Decimal("0.6")),
            Moment.FINAL,
            tool="meter",
            warm_minutes=30,
            who=who,
        )
        shop.read(it, "dropout_passed", "0.75", Moment.FINAL, who=who)
        shop.judge(trial, TrialOutcome.BETTER, Left.LEFT_INSIDE, who)

    def _not_mended(self, job: PlannedJob, it: int, who: str) -> None:
        shop, repair = self.shop, job.repair
        outcome = Outcome(repair.outcome)
        if outcome is Outcome.NO_FAULT_SHOWN:
            shop.climb(it, 12, Moment.FINAL, who=who)
        else:
            shop.agreed(it, "no repair at the price told", job.unit.owner.name, yes=False)
        shop.charge(it, FEE_WORDS, "45.00", LineKind.FEE)
        shop.labour(it, "looked for the fault", LOOKING[outcome], who=who, charged=False)
        shop.found(it, FaultGroup(repair.group), CauseFound(repair.cause), outcome, who=who)

    def _label(self, job: PlannedJob, it: int, known: Known) -> None:
        """Note the current on the label of the transport, the first time it is looked at."""
        if known.labelled:
            return
        transport = self.shop.transport_in(it)
        life = transport_life(self.shop.book, transport)
        change_label(
            self.shop.book,
            self.shop.people[job.technician],
            transport,
            life.marking,
            job.unit.label / 1000,
            version=life.version,
        )
        known.labelled = True

    def _read(self, it: int, reading: PlannedReading, moment: Moment, who: str) -> None:
        away, back = self.scope_away
        today = self.shop.days.day_of(self.shop.clock())
        tool = "" if reading.tool == "scope" and away <= today <= back else reading.tool
        self.shop.read(it, reading.quantity, reading.typed, moment, tool=tool, detail=reading.detail, who=who)

    def _make_safe(self, job: PlannedJob, it: int) -> None:
        shop = self.shop
        shop.case(it, CaseStep.CLOSED, job.technician)
        if job.unit.kind.mains == "external supply":
            return
        if job.unit.kind.mains == "class I":
            shop.safety_test(
                it,
                MainsClass.I,
                pe_resistance=job.earth,
                insulation=job.insulation,
                pe_current=job.leakage,
                touch_current="0.02",
            )
        else:
            shop.safety_test(it, MainsClass.II, insulation=job.insulation, touch_current=job.leakage)


def coil_raised(coil: Mapping[str, str], trial: int, why: str) -> ModificationEntry:
    """The setting resistor of a swing arm, replaced by a smaller one."""
    return ModificationEntry(
        kind=Kind.REPLACED,
        circuit=Circuit.RADIAL_COIL,
        where=coil["where"],
        law=Law.CURRENT,
        maker_value=Decimal(coil["maker"]),
        new_value=Decimal(coil["fitted"]),
        maker_tolerance=Decimal(5),
        new_tolerance=Decimal(5),
        rating=Decimal("0.6"),
        power=Decimal("0.06"),
        current_before=Decimal(coil["current"]),
        coil_resistance=Decimal(coil["coil"]),
        why=why,
        way_back=f"fit {coil['maker']} Ω at {coil['where']} again, then read drive and seek",
        trial_id=trial,
    )
