"""A book with everything that may befall a repair, drawn by lot from a seed."""

from __future__ import annotations

import random

from app.book import tables as t
from app.trade.bench.kinds import ComebackStanding, FaultGroup
from app.trade.bench.stages import Outcome
from app.trade.counter.fault_words import FaultWord
from app.trade.sentence import Sentence
from tests.work.past import NEEDED, RADIAL, SOUND

GROUPS = [RADIAL, SOUND, FaultGroup.LIGHT, None]


def a_past_by_lot(past, seed, jobs=70, units=9):
    """A book with everything that may befall a repair: transports that move, days that cannot be right, open jobs."""
    lot = random.Random(seed)
    with past.at_once():
        own = [past.unit(transport=lot.choice(("Velk A1", "Grellin S1", ""))) for _ in range(units)]
        keys = []
        for _ in range(jobs):
            came = lot.randint(0, 900)
            left = lot.choice((None, came - lot.randint(-2, 30), came - lot.randint(0, 30)))
            words = lot.sample(list(FaultWord), lot.randint(0, 2))
            unit, group = lot.choice(own), lot.choice(GROUPS)
            keys.append(past.job(unit, came, left, group, lot.choice(list(Outcome)), words))
    with past.shop.book.change(past.shop.ine, Sentence("wrote the past")) as change:
        rows = [change.get(t.Job, key) for key in keys]
        for row in rows:
            others = [one for one in rows if one.unit_id == row.unit_id and one.taken_in_at < row.taken_in_at]
            if others:
                row.comeback_of_id = max(others, key=lambda one: one.taken_in_at).id
                row.comeback = lot.choice(list(ComebackStanding))
        for fitting in change.session.query(t.Fitting).all():
            fitting.removed_at = past.at(lot.randint(200, 800))
        transports = [fitting.transport_id for fitting in change.session.query(t.Fitting).all()]
        for transport in transports:
            for unit in lot.sample(own, 2):
                begun = lot.randint(100, 900)
                ended = past.at(begun - lot.randint(1, 300))
                change.add(
                    t.Fitting(
                        transport_id=transport, unit_id=unit, fitted_at=past.at(begun), removed_at=ended
                    )
                )
        for at in range(12):
            made = lot.randint(100, 900)
            change.add(
                t.Modification(
                    unit_id=lot.choice(own) if at % 2 else None,
                    transport_id=None if at % 2 else lot.choice(transports),
                    job_id=lot.choice(keys),
                    **NEEDED,
                    at=past.at(made),
                    by=past.shop.ine,
                    reversed_at=lot.choice((None, past.at(made - lot.randint(1, 300)))),
                    struck_at=lot.choice((None, None, past.at(0))),
                )
            )
    return past.shop.book
