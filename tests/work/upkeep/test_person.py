"""One person's data: as files to read, or erased."""

from __future__ import annotations

import json
from datetime import UTC
from pathlib import Path
from typing import Any

import pytest

from app.trade.refusal import Refusal
from app.trade.wording import plain
from app.work.counter.taking_in import receive_unit
from app.work.people.customers import customer_card
from app.work.upkeep.export import export_everything
from app.work.upkeep.person import erase_customer, export_customer
from tests.work.counter.test_taking_in import LARCH


@pytest.fixture
def customer(shop: Any) -> int:
    from app.book.tables import Job

    job = receive_unit(shop.book, shop.mirr, LARCH).value.job_id
    with shop.book.ask() as session:
        return int(session.get_one(Job, job).customer_id)


def test_a_persons_data_is_handed_out_as_text_and_json(shop: Any, customer: int, tmp_path: Path) -> None:
    name = customer_card(shop.book, customer).form.name
    text, data = export_customer(shop.book, customer, tmp_path / "out", plain(UTC))
    rows = json.loads(data.read_text(encoding="utf-8"))
    assert rows["customers"][0]["name"] == name
    assert len(rows["jobs"]) == 1
    lines = text.read_text(encoding="utf-8").splitlines()
    assert lines[0] == f"What the book holds of {name}, on 12\u00a0Mar\u00a02026."
    assert f"    name: {name}" in lines
    assert f"customers {customer}" in lines
    assert not any(line.endswith(": ") for line in lines)


def test_a_folder_that_cannot_be_written_is_said(shop: Any, customer: int, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(Refusal, match="Nothing could be written"):
        export_customer(shop.book, customer, tmp_path / "file", plain(UTC))


def test_a_customer_whose_player_is_in_the_shop_is_not_erased(shop: Any, customer: int) -> None:
    with pytest.raises(Refusal, match="still in the shop"):
        erase_customer(shop.book, shop.ine, shop.pin("ine"), customer)


def test_a_customer_is_erased_and_can_still_be_handed_out_as_a_number(
    shop: Any, customer: int, tmp_path: Path
) -> None:
    from app.book.tables import Job
    from app.trade.bench.stages import Stage
    from app.trade.sentence import Sentence

    with shop.book.change(shop.mirr, Sentence("handed back")) as change:
        change.get(Job, 1).stage = Stage.HANDED_BACK
    done = erase_customer(shop.book, shop.ine, shop.pin("ine"), customer)
    assert done.value.rows > 0
    assert done.changes.customers == {customer}
    assert customer_card(shop.book, customer).erased
    text, _ = export_customer(shop.book, customer, tmp_path, plain(UTC))
    assert f"of C {customer:04d}, on" in text.read_text(encoding="utf-8")


@pytest.mark.parametrize(("who", "pin"), [("ine", "000000"), ("mirr", "5508")])
def test_only_the_owner_erases_and_only_with_the_pin(shop: Any, customer: int, who: str, pin: str) -> None:
    with pytest.raises(Refusal):
        erase_customer(shop.book, getattr(shop, who), pin, customer)
    assert not customer_card(shop.book, customer).erased


def test_everything_can_be_taken_out(shop: Any, customer: int, tmp_path: Path) -> None:
    files = export_everything(shop.book, tmp_path / "out")
    assert {"jobs.csv", "customers.csv", "book.json"} <= {path.name for path in files}
