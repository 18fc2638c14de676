"""What the book knows: matches while typing, and everything that stands beside the form."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest

from app.book.tables import (
    Fitting,
    Job,
    Modification,
    Reading,
    Transport,
    TransportType,
    Trial,
    Unit,
)
from app.trade.bench.flag import Level
from app.trade.bench.kinds import Arrangement, FaultGroup
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import Moment, Outcome, Stage, TrialOutcome
from app.trade.bench.verdict import VerdictWord
from app.trade.sentence import Measure, Sentence
from app.work.counter.known_unit import match_units, unit_by_serial, what_book_knows
from tests.work.counter.test_taking_in import STOPS_WARM


@pytest.fixture
def former(shop, take_in) -> int:
    """The unit after a job that left a modification inside, was read at the end and handed back. Its id."""
    taken = take_in()
    with shop.book.change(shop.tobbe, Sentence("worked on")) as change:
        kind = change.add(
            TransportType(name="Velk A1", arrangement=Arrangement.SWING_ARM, has_transit_lock=True)
        )
        inside = change.add(Transport(type_id=kind.id, marking="55 871", created_at=change.now))
        change.add(Fitting(transport_id=inside.id, unit_id=taken.unit_id, fitted_at=change.now))
        change.add(_trial(change, taken.job_id, 1, "joints resoldered", TrialOutcome.NO_DIFFERENCE))
        change.add(_trial(change, taken.job_id, 2, "R314 5.6 for 6.8 ohm", TrialOutcome.BETTER))
        change.add(
            Modification(
                job_id=taken.job_id,
                transport_id=inside.id,
                kind=Kind.REPLACED,
                circuit=Circuit.RADIAL_COIL,
                law=Law.CURRENT,
                reference="R314",
                value_before=Decimal("6.8"),
                value_after=Decimal("5.6"),
                at=change.now,
                by=change.by,
            )
        )
        change.add(_final(change, taken.job_id, "seek_time", "1.3", "s", "within"))
        change.add(_final(change, taken.job_id, "rail_dc", "8", "V", "", detail="+8 V"))
        change.add(_final(change, taken.job_id, "no_such", "1", "s", ""))
        change.add(_final(change, taken.job_id, "radial_coil_r", None, "Ω", ""))
    shop.clock.advance(days=2)
    with shop.book.change(shop.mirr, Sentence("handed back")) as change:
        job = change.get(Job, taken.job_id)
        job.stage, job.outcome, job.handed_back_at = Stage.HANDED_BACK, Outcome.MENDED_MODIFIED, change.now
        job.fault_group, job.guarantee_until = FaultGroup.RADIAL, change.today + timedelta(days=180)
    shop.clock.advance(days=47)
    return taken.unit_id


def _trial(change, job_id, number, words, outcome):
    return Trial(job_id=job_id, number=number, words=words, outcome=outcome, at=change.now, by=change.by)


def _final(change, job_id, quantity, typed, unit, verdict, detail=""):
    value = None if typed is None else Decimal(typed)
    return Reading(
        job_id=job_id,
        quantity=quantity,
        detail=detail,
        typed=typed or "open",
        value=None if value is None else float(value),
        digits=value,
        unit=unit,
        moment=Moment.FINAL,
        verdict=verdict,
        at=change.now,
        by=change.by,
    )


def test_the_margin_has_visits_readings_flags_guarantee_and_the_comeback(shop, former):
    known = what_book_knows(shop.book, former, [STOPS_WARM])
    (visit,) = known.visits
    assert (visit.number, visit.handed_back, visit.done) == (1001, date(2026, 3, 14), "R314 5.6 for 6.8 ohm")
    assert known.finals_of == 1001
    seek = known.finals[0]
    assert (seek.name.key, seek.value, seek.verdict) == (
        "seek time, first to last track",
        Measure(Decimal("1.3"), "s"),
        VerdictWord.WITHIN,
    )
    assert [r.value for r in known.finals[1:]] == [
        Measure(Decimal(8), "V"),
        Measure(Decimal(1), "s"),
        None,
    ]
    assert known.flags[0].level is Level.CAUTION
    assert "coil" in known.flags[0].word.key
    assert len(known.guarantees) == 1
    assert known.comeback is not None
    assert (known.comeback.job, known.comeback.days) == (1001, 47)
    assert known.comeback.sentence.values["modified"].key == "{what} left inside"
    assert known.comeback_job_id == visit.job_id
    assert known.transport is not None
    assert (known.transport.type, known.transport.marking) == ("Velk A1", "55 871")
    assert known.in_shop is None
    assert (known.customer, known.serial) == ("Benedikt Arnsvik", "0420 158")


def test_without_a_fault_word_no_comeback_is_proposed(shop, former):
    known = what_book_knows(shop.book, former)
    assert (known.comeback, known.comeback_job_id) == (None, None)


def test_a_first_visit_knows_little_and_says_that_the_player_is_here(shop, take_in):
    taken = take_in(maker="", model="Larch 2")
    known = what_book_knows(shop.book, taken.unit_id)
    assert known.in_shop == (taken.job_id, 1001)
    assert (known.transport, known.finals, known.finals_of, known.guarantees) == (None, (), None, ())
    assert known.visits[0].done == "Plays nicely from the start"
    assert known.visits[0].handed_back is None


def test_a_player_without_an_owner_is_nobodys(shop, take_in):
    taken = take_in()
    with shop.book.change(shop.ine, Sentence("donor")) as change:
        change.get(Unit, taken.unit_id).customer_id = None
    known = what_book_knows(shop.book, taken.unit_id)
    assert (known.customer_id, known.customer) == (None, "")


def test_serials_match_from_their_beginning_first_then_anywhere(shop, take_in):
    take_in()
    take_in(serial="0420 611")
    take_in(serial="20 0420", maker="Ostrind", model="Osier 7")
    found = match_units(shop.book, serial="0420")
    assert [match.serial for match in found] == ["0420 158", "0420 611", "20 0420"]
    assert [match.last_seen for match in found] == [shop.clock()] * 3
    assert match_units(shop.book, serial="0") == ()
    assert match_units(shop.book, serial="77") == ()


def test_makers_and_models_match_and_the_customers_own_players_stand_first(shop, take_in):
    mine = take_in()
    other = take_in(serial="9", name="Greta Lindqvarn", phone="")
    assert [m.id for m in match_units(shop.book, words="larch", customer_id=mine.customer_id)] == [
        mine.unit_id,
        other.unit_id,
    ]
    assert [m.id for m in match_units(shop.book, customer_id=other.customer_id)] == [other.unit_id]
    assert match_units(shop.book) == ()
    assert match_units(shop.book, words="osier") == ()


def test_a_whole_serial_names_one_player_or_none(shop, take_in):
    first = take_in()
    second = take_in(maker="Ostrind", model="Osier 7")
    assert unit_by_serial(shop.book, "0420158") is None
    assert unit_by_serial(shop.book, "0420158", "quellmar") == first.unit_id
    assert unit_by_serial(shop.book, "0420158", "", "OSIER 7") == second.unit_id
    assert unit_by_serial(shop.book, "") is None
