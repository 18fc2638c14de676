"""Models: Qt's own tester agrees, 100,000 rows load only what is seen, groups stand between."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QModelIndex, Qt
from pytestqt.modeltest import ModelTester

from app.screens.kit.cells import Column, Figure, Group, Row, Words
from app.screens.kit.rows import CELL, KEPT_PAGES, PAGE, ROW, PagedModel, RowsModel

COLUMNS = (Column("job", "Job", 58, tip="The number people say"), Column("player", "Player"))


def row(key: int) -> Row:
    return Row(key, (Figure(str(key)), Words(f"player {key}", "serial")))


def rows_of(keys: Sequence[int]) -> dict[int, Row]:
    return {key: row(key) for key in keys}


def test_qts_own_tester_accepts_rows_and_groups(qtmodeltester: ModelTester) -> None:
    model = RowsModel(COLUMNS, [Group("Late", "2 jobs", "caution"), row(1), row(2), Group("Later"), row(3)])
    qtmodeltester.check(model)
    model.set_rows([row(9)])
    assert model.rowCount() == 1


def test_qts_own_tester_accepts_pages(qtmodeltester: ModelTester) -> None:
    model = PagedModel(COLUMNS, fetch=rows_of)
    model.set_ids(range(300), [(0, Group("Late")), (10, Group("Later"))])
    qtmodeltester.check(model)


def test_words_are_what_a_screen_reader_says() -> None:
    model = RowsModel(
        COLUMNS,
        [
            Group("Late", "2 jobs"),
            row(7),
            Row(8, (Figure("8"),), struck=True, rest="struck out", rest_from=1),
        ],
    )
    said = [[model.index(r, c).data() for c in range(2)] for r in range(3)]
    assert said == [["Late 2 jobs", ""], ["7", "player 7 serial"], ["8", "struck out"]]
    assert model.index(1, 1).data(Qt.ItemDataRole.AccessibleTextRole) == "player 7 serial"
    assert model.index(1, 0).data(CELL) == Figure("7")
    assert model.index(0, 0).data(CELL) is None
    assert model.index(1, 0).data(ROW) == row(7)
    assert model.data(QModelIndex()) is None


def test_headers_have_their_words_and_their_long_form() -> None:
    model = RowsModel(COLUMNS)
    across = Qt.Orientation.Horizontal
    assert model.headerData(0, across) == "Job"
    assert model.headerData(0, across, Qt.ItemDataRole.ToolTipRole) == "The number people say"
    assert model.headerData(1, across, Qt.ItemDataRole.ToolTipRole) is None
    assert model.headerData(0, Qt.Orientation.Vertical) is None


def test_groups_cannot_be_marked() -> None:
    model = RowsModel(COLUMNS, [Group("Late"), row(1)])
    paged = PagedModel(COLUMNS, fetch=rows_of)
    paged.set_ids([1], [(0, Group("Late"))])
    for m in (model, paged):
        assert m.flags(m.index(0, 0)) == Qt.ItemFlag.NoItemFlags
        assert m.flags(m.index(1, 0)) & Qt.ItemFlag.ItemIsSelectable
        assert m.flags(QModelIndex()) == Qt.ItemFlag.NoItemFlags


def test_of_100_000_rows_only_those_seen_are_fetched() -> None:
    asked: list[Sequence[int]] = []

    def fetch(ids: Sequence[int]) -> Mapping[int, Row]:
        asked.append(ids)
        return rows_of(ids)

    model = PagedModel(COLUMNS, fetch=fetch)
    model.set_ids(range(100_000))
    assert model.rowCount() == 100_000
    assert asked == []
    assert model.index(70_000, 0).data() == "70000"
    assert model.index(70_001, 0).data() == "70001"
    assert len(asked) == 1
    assert len(asked[0]) == PAGE


def test_pages_long_unseen_are_let_go() -> None:
    asked: list[int] = []

    def fetch(ids: Sequence[int]) -> Mapping[int, Row]:
        asked.append(ids[0])
        return rows_of(ids)

    model = PagedModel(COLUMNS, fetch=fetch)
    model.set_ids(range(PAGE * (KEPT_PAGES + 5)))
    for page in range(KEPT_PAGES + 5):
        model.index(page * PAGE, 0).data()
    assert len(list(model.known())) == KEPT_PAGES * PAGE
    model.index(0, 0).data()
    assert asked.count(0) == 2


class Elsewhere:
    """Fetches that answer when told."""

    def __init__(self) -> None:
        self.waiting: list[tuple[Sequence[Any], Callable[[Mapping[Any, Row]], None]]] = []

    def ask(self, ids: Sequence[Any], deliver: Callable[[Mapping[Any, Row]], None]) -> None:
        self.waiting.append((ids, deliver))

    def answer(self) -> None:
        for ids, deliver in self.waiting:
            deliver(rows_of(ids))
        self.waiting.clear()


def test_rows_fetched_elsewhere_are_empty_until_they_come() -> None:
    elsewhere = Elsewhere()
    model = PagedModel(COLUMNS, ask=elsewhere.ask)
    model.set_ids(range(1000), [(0, Group("Late"))])
    told: list[tuple[int, int]] = []
    model.dataChanged.connect(lambda a, b: told.append((a.row(), b.row())))
    assert model.index(1, 0).data() == ""
    assert model.index(2, 0).data() == ""
    assert len(elsewhere.waiting) == 1
    elsewhere.answer()
    assert model.index(1, 0).data() == "0"
    assert told == [(1, PAGE)]


def test_an_answer_for_a_list_that_has_changed_is_dropped() -> None:
    elsewhere = Elsewhere()
    model = PagedModel(COLUMNS, ask=elsewhere.ask)
    model.set_ids([1, 2, 3])
    model.index(0, 0).data()
    model.set_ids([7, 8])
    elsewhere.answer()
    assert list(model.known()) == []
    model.index(0, 0).data()
    elsewhere.answer()
    assert model.index(0, 0).data() == "7"


def test_changed_rows_are_fetched_anew() -> None:
    asked: list[int] = []

    def fetch(ids: Sequence[int]) -> Mapping[int, Row]:
        asked.append(ids[0])
        return rows_of(ids)

    model = PagedModel(COLUMNS, fetch=fetch)
    model.forget()
    model.set_ids(range(3 * PAGE))
    for page in range(3):
        model.index(page * PAGE, 0).data()
    model.forget([PAGE + 1])
    for page in range(3):
        model.index(page * PAGE, 0).data()
    assert asked == [0, PAGE, 2 * PAGE, PAGE]
    model.forget()
    model.index(0, 0).data()
    assert asked[-1] == 0


GROUPED = st.integers(0, 30).flatmap(
    lambda n: st.tuples(st.just(n), st.lists(st.integers(0, n), max_size=6).map(sorted))
)


@given(GROUPED)
def test_places_and_keys_agree_wherever_groups_stand(case: tuple[int, list[int]]) -> None:
    count, befores = case
    model = PagedModel(COLUMNS, fetch=rows_of)
    model.set_ids([key * 10 for key in range(count)], [(before, Group(str(before))) for before in befores])
    seen = [model.row_at(place) for place in range(model.rowCount())]
    assert [r.key for r in seen if isinstance(r, Row)] == [key * 10 for key in range(count)]
    assert len([r for r in seen if isinstance(r, Group)]) == len(befores)
    for place, found in enumerate(seen):
        if isinstance(found, Row):
            assert model.place_of(found.key) == place
            assert model.key_at(place) == found.key
        else:
            assert model.key_at(place) is None
    for place, group in model.groups():
        assert seen[place] is group
    assert model.place_of("absent") == -1


@pytest.mark.parametrize("key", [1, 3, 9])
def test_rows_at_hand_are_found_by_key(key: int) -> None:
    model = RowsModel(COLUMNS, [Group("g"), row(1), row(3)])
    assert model.place_of(key) == {1: 1, 3: 2}.get(key, -1)
