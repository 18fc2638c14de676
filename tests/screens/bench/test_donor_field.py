"""The donor that a part comes out of: offered once known, and a draft's donor is not lost meanwhile."""

from __future__ import annotations

from typing import Any

from app.screens.bench.donor_field import DonorField
from app.work.office.stock import Donor

KELP, LARCH = Donor(4, "Kestovar Kelp 1", "77", 0), Donor(9, "Quellmar Larch 2", "", 3)


def test_the_first_donor_is_proposed_where_a_part_comes_out_of_one(qtbot: Any) -> None:
    field = DonorField()
    qtbot.addWidget(field)
    assert field.value() is None
    assert field.show_donors([KELP, LARCH])
    assert (field.value(), field.currentText()) == (4, "Kestovar Kelp 1, 77")
    assert not field.show_donors([])
    assert field.value() is None


def test_the_shelf_is_proposed_where_a_part_need_not(qtbot: Any) -> None:
    field = DonorField("the shelf")
    qtbot.addWidget(field)
    field.show_donors([KELP])
    assert field.currentText() == "the shelf"
    field.set_value(4)
    field.show_donors([LARCH, KELP])
    assert field.value() == 4
    field.set_value(None)  # as emptying a form does
    assert field.currentText() == "the shelf"


def test_a_drafts_donor_is_taken_up_once_donors_are_known(qtbot: Any) -> None:
    field = DonorField("the shelf")
    qtbot.addWidget(field)
    field.set_value(9)
    assert field.value() is None
    field.show_donors([KELP, LARCH])
    assert field.value() == 9
