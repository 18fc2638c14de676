"""A past written job by job, for the statistics: days are counted back from the shop's today (12 March 2026)."""

from __future__ import annotations

from contextlib import contextmanager, nullcontext
from datetime import UTC, datetime, timedelta

from app.book import tables as t
from app.trade.bench.kinds import Arrangement, FaultGroup, TransitLock
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import MainsClass, Outcome, Stage, Waiting
from app.trade.sentence import Sentence

RADIAL, SOUND = FaultGroup.RADIAL, FaultGroup.SOUND
DAY = timedelta(days=1)
NEEDED = {"kind": Kind.OTHER, "circuit": Circuit.OTHER, "law": Law.NEITHER, "reference": "R1"}


class Past:
    """Writes jobs by their days, counted back from the shop's today (12 March 2026)."""

    def __init__(self, shop):
        self.shop, self.number = shop, 1000
        self._open = None
        with self._change() as change:
            customer = change.add(t.Customer(name="Benedikt Arnsvik", created_at=change.now))
            self.customer = customer.id
            self.types = {
                name: change.add(t.TransportType(name=name, arrangement=arrangement)).id
                for name, arrangement in (
                    ("Velk A1", Arrangement.SWING_ARM),
                    ("Grellin S1", Arrangement.SLED),
                )
            }

    def _change(self):
        if self._open is not None:
            return nullcontext(self._open)
        return self.shop.book.change(self.shop.ine, Sentence("wrote the past"))

    @contextmanager
    def at_once(self):
        """What is written meanwhile is one change."""
        with self._change() as self._open:
            yield
        self._open = None

    def at(self, days_ago):
        return datetime(2026, 3, 12, 9, 0, tzinfo=UTC) - days_ago * DAY

    def unit(self, *, transport="Velk A1", fitted=4000, removed=None):
        with self._change() as change:
            unit = change.add(
                t.Unit(
                    maker="Quellmar",
                    model="Larch 2",
                    serial="1",
                    serial_key="1",
                    customer_id=self.customer,
                    mains_class=MainsClass.BATTERY,
                    created_at=change.now,
                )
            )
            if transport:
                mechanism = change.add(t.Transport(type_id=self.types[transport], created_at=change.now))
                change.add(
                    t.Fitting(
                        transport_id=mechanism.id,
                        unit_id=unit.id,
                        fitted_at=self.at(fitted),
                        removed_at=None if removed is None else self.at(removed),
                    )
                )
            return unit.id

    def job(self, unit, came, left=None, group=RADIAL, outcome=Outcome.MENDED, words=(), **more):
        self.number += 1
        with self._change() as change:
            job = change.add(
                t.Job(
                    number=self.number,
                    unit_id=unit,
                    customer_id=self.customer,
                    stage=Stage.TAKEN_IN if left is None else Stage.HANDED_BACK,
                    waiting=Waiting.NOTHING,
                    outcome=None if left is None else outcome,
                    taken_in_at=self.at(came),
                    taken_in_by=self.shop.ine,
                    handed_back_at=None if left is None else self.at(left),
                    fault="Hangs.",
                    fault_group=group,
                    transit_lock=TransitLock.NONE,
                    **more,
                )
            )
            for word in words:
                change.add(t.ReportedFault(job_id=job.id, word=word, how="always"))
            return job.id

    def modification(self, unit, job, made, reversed_at=None, struck=False):
        with self._change() as change:
            change.add(
                t.Modification(
                    unit_id=unit,
                    job_id=job,
                    **NEEDED,
                    at=self.at(made),
                    by=self.shop.ine,
                    reversed_at=None if reversed_at is None else self.at(reversed_at),
                    struck_at=self.at(0) if struck else None,
                )
            )
