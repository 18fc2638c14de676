"""What can be chosen in the filters."""

from __future__ import annotations

from app.book import tables as t
from app.trade.bench.stages import Left, TrialOutcome
from app.work.statistics.choices import Choices, choices


def test_what_the_book_has_by_name(past, add):
    job = past.job(past.unit(), 410, 400)
    said = {"words": "cleaned it", "outcome": TrialOutcome.CURED, "left": Left.LEFT_SO}
    add(
        t.Trial(job_id=job, number=1, change="clean_lens", at=past.at(1), by=past.shop.tobbe, **said),
        t.Trial(job_id=job, number=2, change="", at=past.at(1), by=past.shop.tobbe, **said),
    )
    found = choices(past.shop.book)
    assert found.transport_types == ("Grellin S1", "Velk A1")
    assert found.players == (("Quellmar", "Larch 2"),)
    assert [key for key, _ in found.changes] == ["clean_lens"]
    assert (past.shop.ine, "Ine Varloes") in found.people


def test_an_empty_book_has_its_people_only(shop):
    assert choices(shop.book) == Choices(people=choices(shop.book).people)
