"""Labels: the tag on the bench and the one inside the cover of a modified player."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from app.book.tables import Modification, Paper
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.money import Money
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.settings.papers_and_days import TAG_SIZE
from app.work.counter.taking_in import receive_unit
from app.work.office.settings import change_settings
from app.work.papers.issuing import paper_pdf
from app.work.papers.labels import issue_bench_tag, issue_modified_label
from tests.papers.reading import sizes
from tests.work.counter.test_taking_in import LARCH, STOPS_WARM


def facts_of(shop, paper_id):
    with shop.book.ask() as session:
        return session.get_one(Paper, paper_id).facts


@pytest.fixture
def job(shop) -> int:
    intake = replace(LARCH, shelf="C 4", go_ahead_limit=Money(9000, "EUR"), disc_inside="tray")
    return receive_unit(shop.book, shop.mirr, intake).value.job_id


def test_the_bench_tag_says_what_stands_there_and_nothing_of_the_customer(shop, job):
    tag = issue_bench_tag(shop.book, shop.mirr, job).value
    facts = facts_of(shop, tag)
    assert (facts["job"], facts["shelf"], facts["limit"]) == (1001, "C 4", {"money": [9000, "EUR"]})
    assert facts["fault"] == LARCH.fault
    assert facts["flags"][0]["level"] == "caution"
    assert "Arnsvik" not in str(facts)
    assert paper_pdf(shop.book, tag).pdf.startswith(b"%PDF")


def test_the_bench_tag_is_as_large_as_the_shops_labels(shop, job):
    assert sizes(paper_pdf(shop.book, issue_bench_tag(shop.book, shop.mirr, job).value).pdf)[0][
        0
    ] == pytest.approx(62)
    change_settings(shop.book, shop.ine, {TAG_SIZE: "70x36"})
    small = paper_pdf(shop.book, issue_bench_tag(shop.book, shop.mirr, job).value).pdf
    assert sizes(small) == [pytest.approx((70, 36))]


@pytest.fixture
def resistor(shop, job) -> int:
    with shop.book.change(shop.tobbe, Sentence("modified")) as change:
        return change.add(
            Modification(
                job_id=job,
                unit_id=1,
                kind=Kind.REPLACED,
                circuit=Circuit.RADIAL_COIL,
                law=Law.CURRENT,
                reference="R314",
                value_before=Decimal("6.8"),
                value_after=Decimal("5.6"),
                at=change.now,
                by=change.by,
            )
        ).id


def test_the_label_of_a_modification_has_its_factors_and_the_way_back(shop, resistor):
    label = issue_modified_label(shop.book, shop.tobbe, resistor).value
    facts = facts_of(shop, label)
    assert facts["what"]["sentence"][1]["where"] == "R314"
    assert "times the maker's" in facts["factors"]["sentence"][0]
    assert facts["undo"]["sentence"][0] == "Fit {maker} at {where} again."
    assert paper_pdf(shop.book, label).pdf.startswith(b"%PDF")


def test_what_was_put_back_gets_no_label(shop, resistor):
    with shop.book.change(shop.tobbe, Sentence("put back")) as change:
        row = change.get(Modification, resistor)
        row.reversed_at, row.reversed_by = change.now, change.by
    with pytest.raises(Refusal, match="not in the player any more"):
        issue_modified_label(shop.book, shop.tobbe, resistor)


def test_where_nothing_was_typed_the_tag_says_the_words_that_were_picked(shop):
    intake = replace(LARCH, fault="", faults=(STOPS_WARM,))
    job = receive_unit(shop.book, shop.mirr, intake).value.job_id
    tag = issue_bench_tag(shop.book, shop.mirr, job).value
    assert facts_of(shop, tag)["fault"] == "stops when warm, when warm"
