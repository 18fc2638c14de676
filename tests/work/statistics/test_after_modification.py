"""How jobs fare whose player left with a change of ours, against standard repairs like them."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.book import tables as t
from app.trade.bench.kinds import HowSeen, Warmth
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Moment, Outcome
from app.trade.sentence import Sentence
from app.work.statistics.after_modification import Changed, after_modification
from app.work.statistics.question import Question


@pytest.fixture
def made(past, add):
    """Writes a modification of a job; gives its key."""

    def write(job, circuit=Circuit.RADIAL_COIL, ratio=Decimal("1.2"), **more):
        return t.Modification(
            job_id=job,
            unit_id=1,
            kind=Kind.PARALLEL,
            circuit=circuit,
            law=Law.CURRENT,
            reference="R1",
            ratio=ratio,
            at=past.at(401),
            by=past.shop.tobbe,
            **more,
        )

    return write


def climb(past, job, rung, days):
    return t.StartUpResult(
        job_id=job,
        rung=rung,
        seen=HowSeen.NORMAL_USE,
        warmth=Warmth.COLD,
        moment=Moment.ARRIVAL,
        at=past.at(days),
        by=past.shop.tobbe,
    )


def kinds(found):
    return {row.kind: set(row.jobs) for row in found.rows}


def test_jobs_are_told_apart_by_what_was_changed(past, add, made):
    jobs = [past.job(past.unit(), 410, 400) for _ in range(8)]
    coil, unmeasured, lowered, laser, both, found_so, undone, standard = jobs
    add(
        made(coil),
        made(unmeasured, Circuit.FOCUS_COIL, None),
        made(lowered, ratio=Decimal("0.8")),
        made(laser, Circuit.LASER_SUPPLY, None),
        made(both, Circuit.SERVO_GAIN, None),
        made(both, Circuit.LASER_SUPPLY, None),
        made(found_so, ours=False),
        made(undone, reversed_job_id=undone),
        made(standard, struck_at=past.at(0)),
    )
    past.job(past.unit(), 410, 400, outcome=Outcome.DECLINED)
    assert kinds(after_modification(past.shop.book, Question())) == {
        Changed.COIL: {coil, unmeasured},
        Changed.LASER: {laser, both},
        Changed.OTHER: {lowered},
        Changed.STANDARD: {found_so, undone, standard},
    }


@pytest.mark.parametrize(
    ("changed_back", "standard_back", "key"),
    [
        (12, 0, "Comes back more often than like standard repairs: {kind} (p {p})"),
        (0, 12, "Comes back less often than like standard repairs: {kind} (p {p})"),
        (3, 3, "No change can be told from standard repairs of the same kind"),
    ],
)
def test_changed_jobs_are_compared_with_standard_ones_of_the_same_type_and_rung(
    past, add, made, changed_back, standard_back, key
):
    rows = []
    with past.at_once():
        for at in range(12):
            for back, changed in ((changed_back, True), (standard_back, False)):
                unit = past.unit()
                job = past.job(unit, 410, 400)
                rows += [climb(past, job, 10, 409), climb(past, job, 12, 402)]
                if at < back:
                    past.job(unit, 390 - at, 380 - at, outcome=Outcome.DECLINED)
                if changed:
                    rows.append(made(job))
        for _ in range(3):  # stopped at another rung, so nothing to compare with
            rows.append(climb(past, past.job(past.unit(), 410, 400), 4, 409))
    add(*rows)
    found = after_modification(past.shop.book, Question())
    changed, like, standard = found.rows
    assert found.headline.key == key
    assert (changed.n, changed.like, standard.n, standard.test) == (12, 12, 15, None)
    assert (like.kind, like.n, like.came_back, like.test) == (Changed.LIKE, 12, standard_back, None)
    assert set(like.jobs) < set(standard.jobs)
    assert (found.why.n, found.why.events) == (27, changed_back + standard_back)  # no job twice
    assert (changed.could, changed.came_back, changed.share) == (12, changed_back, changed_back / 12)
    assert "not drawn by lot" in found.said[0].key


def test_readings_of_changed_transports_stand_in_order(past, add, made):
    unit = past.unit()
    job = past.job(unit, 410, 400)
    own = {
        "job_id": job,
        "transport_id": 1,
        "quantity": "laser_current",
        "typed": "51",
        "unit": "mA",
        "moment": Moment.FINAL,
        "by": past.shop.tobbe,
    }
    add(
        made(job),
        t.Reading(**own, value=0.051, at=past.at(400)),
        t.Reading(**own, value=0.050, at=past.at(405)),
        t.Reading(**own, value=None, at=past.at(404)),
        t.Reading(**own, value=0.070, at=past.at(403), struck_at=past.at(0)),
    )
    found = after_modification(past.shop.book, Question())
    assert [(point.value, point.job) for point in found.readings] == [(0.050, job), (0.051, job)]
    first = found.readings[0]
    assert (first.transport, first.name, first.shown, first.unit) == (
        "Velk A1",
        Sentence("laser current"),
        Decimal("50.0"),
        "mA",
    )


def test_a_reading_says_which_of_several_it_is_and_stands_when_its_quantity_is_no_longer_used(
    past, add, made
):
    job = past.job(past.unit(), 410, 400)
    own = {"job_id": job, "transport_id": 1, "typed": "8", "unit": "V", "moment": Moment.FINAL}
    own |= {"by": past.shop.tobbe, "value": 8.0, "at": past.at(400)}
    add(
        made(job),
        t.Reading(**own, quantity="rail_dc", detail="+8 V"),
        t.Reading(**own, quantity="the shop's own"),
    )
    rail, gone = after_modification(past.shop.book, Question()).readings
    assert rail.name == Sentence(
        "{quantity}, {detail}", {"quantity": Sentence("supply rail"), "detail": "+8 V"}
    )
    assert (rail.quantity, gone.name, gone.unit) == (
        "rail_dc +8 V",
        Sentence("{id}", {"id": "the shop's own"}),
        "V",
    )


def test_without_a_change_and_without_a_job_a_sentence(past):
    assert after_modification(past.shop.book, Question()).headline.key.startswith("No repair has been")
    past.job(past.unit(), 10, 2)
    unit = past.unit()
    past.job(unit, 700, 590)
    past.job(unit, 600, 580)
    found = after_modification(past.shop.book, Question())
    assert found.headline.key == "No repair left a change of ours inside"
    assert found.rows[0].share == 0.0
    assert found.said[-1].key == "1 job was set aside: its days cannot be right."
