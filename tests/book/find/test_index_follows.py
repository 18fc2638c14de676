"""The search index follows every word that it holds, also words of something else that a document shows."""

from __future__ import annotations

from typing import Any

from app.book.check_index import index_findings
from app.trade.bench.kinds import Arrangement
from app.trade.bench.stages import Stage
from app.trade.counter.taking_in import Intake
from app.work.bench.transport_life import transport_life
from app.work.bench.transports import change_label, note_transport
from app.work.counter.stages import set_stage
from app.work.counter.taking_in import receive_unit
from app.work.find.find import find
from app.work.office.shop_lists import TypeLine, save_transport_type
from tests.work.conftest import cheap_pins, shop, shop_template

__all__ = ["cheap_pins", "shop", "shop_template"]


def job_with_transport(shop: Any, marking: str) -> tuple[int, int]:
    kind = save_transport_type(
        shop.book, shop.tobbe, TypeLine(name="Velk A1", arrangement=Arrangement.SWING_ARM)
    ).value
    intake = Intake(name="Rune Halstad", serial="0431 207", maker="Quellmar", model="Larch 2", fault="dead")
    job = int(receive_unit(shop.book, shop.mirr, intake).value.job_id)
    return job, note_transport(shop.book, shop.tobbe, job, kind, marking).value


def test_a_corrected_marking_finds_the_job_and_the_old_one_does_not(shop: Any) -> None:
    job, transport = job_with_transport(shop, "55871")
    assert [found.id for found in find(shop.book, "55871").jobs] == [job]
    life = transport_life(shop.book, transport)
    change_label(shop.book, shop.tobbe, transport, "66999", None, version=life.version)
    assert [found.id for found in find(shop.book, "66999").jobs] == [job]
    assert not find(shop.book, "55871")
    assert index_findings(shop.book)[1] == []


def test_moving_a_job_on_leaves_its_document_as_it_is(shop: Any) -> None:
    job, _ = job_with_transport(shop, "55871")
    set_stage(shop.book, shop.tobbe, job, Stage.ON_THE_BENCH)
    assert [found.id for found in find(shop.book, "halstad").jobs] == [job]
    assert index_findings(shop.book)[1] == []
