"""What happens in the shop over the years, drawn from the scenario before anything is written in a book.

The same plan is done by people's deeds for the demo shop, and in bulk for the book of 100,000 jobs.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from random import Random

from demo_db.days import SATURDAY, Days
from demo_db.people import PlannedCustomer, draw_customers
from demo_db.scenario import PlayerKind, Repair, Said, Scenario, Span, Symptom

WINDOW = 180  # days within which a return with the same fault is a comeback
QUIET = frozenset({(1, 1), (12, 24), (12, 25), (12, 26), (12, 31)})  # nobody comes
VAT = Decimal("1.19")


@dataclass(frozen=True, slots=True)
class PlannedUnit:
    """A player that comes in at least once, with the transport inside it."""

    kind: PlayerKind
    serial: str
    marking: str
    label: Decimal  # mA
    look: str
    owner: PlannedCustomer


@dataclass(frozen=True, slots=True)
class PlannedReading:
    """A value as it is typed."""

    quantity: str
    typed: str
    tool: str
    detail: str


@dataclass(frozen=True, slots=True)
class PlannedJob:
    """One visit from taking in to handing back, in the order in which it happens."""

    unit: PlannedUnit
    repair: Repair
    said: Said
    taken_in: datetime
    promised: date
    begun: datetime  # first moment on the bench
    done: datetime  # the case shut and tested
    back: datetime
    technician: str
    rung: int
    before: tuple[PlannedReading, ...]
    after: tuple[PlannedReading, ...]
    new_label: Decimal | None
    hours: Decimal
    part: str
    price: Decimal  # of the part, net
    marks: str
    came_with: tuple[str, ...]
    disc_inside: str
    shelf: str
    limit: int | None  # minor units
    insulation: str
    leakage: str
    earth: str
    means: str
    unpaid: bool
    note: str
    message: str
    comeback: bool  # the same fault again, within the window
    deny: str  # why a comeback that the book may propose is none

    @property
    def mended(self) -> bool:
        """The player left working."""
        return self.repair.mends


class Planner:
    """Draws jobs. The same seed, end and numbers give the same plan."""

    def __init__(self, scenario: Scenario, days: Days, seed: int) -> None:
        self.scenario = scenario
        self.days = days
        self.rng = Random(seed)
        self._serials: set[str] = set()

    def years(self, first: date, last: date, *, customers: int, units: int, jobs: int) -> list[PlannedJob]:
        """``jobs`` visits handed back on ``last`` at the latest, by day and hour of taking in."""
        people = draw_customers(self.rng, self.scenario.customers, self.scenario.counter, customers)
        machines = self._units(people, units)
        visits = [self._visit(unit, self._day(first, last)) for unit in machines]
        visits = [job for job in visits if self.days.day_of(job.back) <= last]
        visits += self._comebacks(visits, last)
        visits += self._other_returns(visits, last, jobs - len(visits))
        return sorted(visits[:jobs], key=lambda job: (job.taken_in, job.unit.serial))

    # players and people

    def _units(self, people: Sequence[PlannedCustomer], count: int) -> list[PlannedUnit]:
        kinds = self.scenario.players
        weights = [kind.of for kind in kinds]
        owners = [*people, *self.rng.choices(people, k=max(0, count - len(people)))][:count]
        return [self.unit(self.rng.choices(kinds, weights)[0], owner) for owner in owners]

    def unit(self, kind: PlayerKind, owner: PlannedCustomer) -> PlannedUnit:
        """A player of this kind with numbers that no other has."""
        label = kind.label[0] + Decimal(self.rng.randint(0, int((kind.label[1] - kind.label[0]) * 2))) / 2
        return PlannedUnit(
            kind,
            self._number(f"{kind.maker} ", kind.serial),
            self._number(f"{kind.transport} ", kind.marking),
            label,
            self.rng.choice(kind.looks),
            owner,
        )

    def _number(self, of: str, pattern: str) -> str:
        """A number of this pattern that was not given yet; longer ones once the pattern is nearly used up."""
        for extra in range(6):
            for _ in range(12):
                figures = "".join(str(self.rng.randint(0, 9)) if sign == "#" else sign for sign in pattern)
                if figures in self.scenario.kept_numbers:
                    continue
                if (key := of + figures) not in self._serials:
                    self._serials.add(key)
                    return figures
            pattern += "#" if extra < 5 else ""
        raise ValueError(f"no number of {pattern} is left")

    # when

    def _day(self, first: date, last: date) -> date:
        """An open day, with fewer people around the turn of the year and in high summer."""
        span = (last - first).days
        while True:
            day = self.days.next_open(first + timedelta(days=self.rng.randint(0, span)))
            quiet = (day.month, day.day) in QUIET or (day.month == 8 and self.rng.random() < 0.35)
            if not quiet and (day.isoweekday() < SATURDAY or self.rng.random() < 0.6):
                return day

    def _hour(self, day: date, earliest: int, latest: int) -> datetime:
        """A minute of the day, counted from midnight, kept inside opening hours."""
        if day.isoweekday() == SATURDAY:
            earliest, latest = 9 * 60 + 5, 12 * 60 + 50
        minute = self.rng.randint(earliest, latest)
        return self.days.instant(day, time(minute // 60, minute % 60, self.rng.randint(0, 59)))

    # one visit

    def _visit(
        self,
        unit: PlannedUnit,
        day: date,
        repair: Repair | None = None,
        *,
        comeback: bool = False,
        deny: str = "",
    ) -> PlannedJob:
        rng, days = self.rng, self.days
        kind = self.scenario.transports[unit.kind.transport]
        if repair is None:
            fitting = [one for one in self.scenario.repairs if one.fits(kind)]
            repair = rng.choices(fitting, [one.of for one in fitting])[0]
        taken_in = self._hour(day, 9 * 60 + 5, 17 * 60 + 35)
        bench = days.next_working(days.after(day, rng.choice((1, 1, 2, 2, 3, 4, 5))))
        begun = self._hour(bench, 9 * 60 + 5, 14 * 60)
        done = begun + timedelta(minutes=rng.randint(100, 150))
        back = self._hour(days.after(bench, rng.choice((1, 1, 2, 2, 3, 4, 6, 8))), 9 * 60 + 30, 17 * 60 + 40)
        label = unit.label
        new_label = None
        if repair.change == "pickup_renew":
            new_label = label + Decimal(rng.randint(-4, 4)) / 2
        hours = self._quarter(repair.hours)
        part = self.scenario.part_for(repair, kind) if repair.mends else ""
        price = next((Decimal(p.price) for p in self.scenario.parts if p.code == part), Decimal(0))
        return PlannedJob(
            unit=unit,
            repair=repair,
            said=rng.choice(repair.said),
            taken_in=taken_in,
            promised=days.after(day, 10),
            begun=begun,
            done=done,
            back=back,
            technician=rng.choice(("tobbe", "tobbe", "tobbe", "sanna")),
            rung=rng.randint(*repair.rung),
            before=tuple(self._reading(one, one.bad, label) for one in repair.symptoms),
            after=tuple(self._reading(one, one.good, new_label or label) for one in repair.symptoms),
            new_label=new_label,
            hours=hours,
            part=part,
            price=price,
            marks=rng.choice(self.scenario.counter["marks"]),
            came_with=self._came_with(unit),
            disc_inside="tray" if rng.random() < 0.03 else "",
            shelf=rng.choice(self.scenario.counter["shelves"]),
            limit=self._limit(hours, price),
            insulation=f"> {rng.choice((100, 200, 200, 500))}",
            leakage=f"0.{rng.randint(3, 18):02d}",
            earth=f"0.{rng.randint(8, 19):02d}",
            means=rng.choice(("cash", "card", "card", "card", "transfer")),
            unpaid=rng.random() < 0.015,
            note=rng.choice(self.scenario.counter["notes"]) if rng.random() < 0.2 else "",
            message=rng.choice(self.scenario.counter["messages"]) if rng.random() < 0.3 else "",
            comeback=comeback,
            deny=deny,
        )

    def _came_with(self, unit: PlannedUnit) -> tuple[str, ...]:
        lists = "supply_with" if unit.kind.mains == "external supply" else "came_with"
        return tuple(self.rng.choice(self.scenario.counter[lists]))

    def _limit(self, hours: Decimal, price: Decimal) -> int | None:
        """What the customer lets the shop spend without asking: well above what it comes to, or no limit named."""
        if self.rng.random() < 0.4:
            return None
        rate = Decimal(self.scenario.settings["hourly_rate"])
        comes_to = (hours * rate + price) * VAT
        return int((comes_to * Decimal("1.4")) // 10 * 10 + 20) * 100

    def _quarter(self, span: Span) -> Decimal:
        quarters = int((span.high - span.low) * 4)
        return span.low + Decimal(self.rng.randint(0, quarters)) / 4

    def _reading(self, symptom: Symptom, span: Span, label: Decimal) -> PlannedReading:
        exponent = span.low.as_tuple().exponent
        assert isinstance(exponent, int)
        steps = int((span.high - span.low).scaleb(-exponent))
        value = span.low + Decimal(self.rng.randint(0, steps)).scaleb(exponent)
        if symptom.share:
            value = (value * label).quantize(Decimal("0.1"))
        return PlannedReading(symptom.quantity, str(value), symptom.tool, symptom.detail)

    # those that come again

    def _comebacks(self, visits: Sequence[PlannedJob], last: date) -> list[PlannedJob]:
        """Of each transport type the share that comes back, with the same fault within the window."""
        by_type: dict[str, list[PlannedJob]] = defaultdict(list)
        for job in visits:
            if job.mended and (last - self.days.day_of(job.back)).days > WINDOW:
                by_type[job.unit.kind.transport].append(job)
        again = []
        for name, mended in sorted(by_type.items()):
            count = round(self.scenario.transports[name].comes_back * len(mended))
            for job in self._weighted(mended, count):
                back = self.days.day_of(job.back)
                day = self.days.next_open(back + timedelta(days=self.rng.randint(12, 150)))
                again.append(self._visit(job.unit, day, self._same_fault(job.repair), comeback=True))
        return again

    def _same_fault(self, repair: Repair) -> Repair:
        """A change that hid the fault is not made twice: what it hid is found the next time."""
        if repair.change != "coil_current":
            return repair
        return next(one for one in self.scenario.repairs if one.key == "arm_drag")

    def _weighted(self, jobs: Sequence[PlannedJob], count: int) -> list[PlannedJob]:
        """So many of them, those that come back more easily more often (Efraimidis and Spirakis' keys)."""
        keyed = [
            (self.rng.random() ** (1 / job.repair.again), at)
            for at, job in enumerate(jobs)
            if job.repair.again > 0
        ]
        return [jobs[at] for _, at in sorted(keyed, reverse=True)[:count]]

    def _other_returns(self, visits: Sequence[PlannedJob], last: date, count: int) -> list[PlannedJob]:
        """Players that come again with something else, most of them long after."""
        latest: dict[str, PlannedJob] = {}
        for job in sorted(visits, key=lambda one: one.back):
            latest[job.unit.kind.maker + job.unit.serial] = job
        jobs = list(latest.values())
        self.rng.shuffle(jobs)
        found: list[PlannedJob] = []
        while len(found) < count and jobs:
            before = jobs.pop()
            gap = (
                self.rng.randint(WINDOW + 10, WINDOW + 500)
                if self.rng.random() < 0.9
                else self.rng.randint(20, WINDOW)
            )
            day = self.days.next_open(self.days.day_of(before.back) + timedelta(days=gap))
            other = self._another(before)
            job = self._visit(before.unit, day, other, deny="another fault" if gap <= WINDOW else "")
            if self.days.day_of(job.back) <= last:
                found.append(job)
                jobs.insert(0, job)
        return found

    def _another(self, before: PlannedJob) -> Repair:
        kind = self.scenario.transports[before.unit.kind.transport]
        fitting = [r for r in self.scenario.repairs if r.fits(kind) and r.group != before.repair.group]
        return self.rng.choices(fitting, [one.of for one in fitting])[0]
