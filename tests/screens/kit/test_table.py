"""Tables: keys and mouse, columns that leave, numbers that are never cut."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QHelpEvent
from PySide6.QtWidgets import QApplication, QStyleOptionViewItem
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.cells import (
    Cell,
    Column,
    Drawing,
    Figure,
    Flags,
    Gate,
    Group,
    Leave,
    Link,
    Row,
    Stage,
    Two,
    Words,
)
from app.screens.kit.measure import px
from app.screens.kit.rows import PagedModel, RowsModel
from app.screens.kit.table import SmallTable, Table
from app.screens.kit.table_paint import CellPainter

COLUMNS = (
    Column("job", "Job", 58, sorts=True),
    Column("promised", "Promised", 156, sorts=True),
    Column("player", "Player", 234),
    Column("fault", "Fault, in short"),
    Column("stage", "Stage, and waiting for", 268, short="Stage"),
    Column("flags", "Flags", 164),
)
LEAVING = (
    Leave("fault"),
    Leave("stage", "second", 120),
    Leave("stage", "word", 90),
    Leave("player", "second", 70),
)


def job(number: int, *flags: tuple[str, str]) -> Row:
    return Row(
        number,
        (
            Words(str(number), strong=True),
            Words("5 days late", "Fri 20 Nov", strong=True),
            Words("Quellmar Larch 2", "0420 158"),
            Words("hangs on the last songs"),
            Stage(1, "on the bench", "waiting for part"),
            Flags(flags),
        ),
    )


ROWS = (Group("Late", "2 jobs", "caution"), job(2119, ("stop", "fuse"), ("note", "x")), job(2122), Group("Later"),
        job(2131, ("caution", "coil current up")))  # fmt: skip


@pytest.fixture
def table(qtbot: QtBot) -> Table:
    made = Table("Jobs in the shop", RowsModel(COLUMNS, ROWS), leaving=LEAVING)
    made.set_sorting("promised")
    qtbot.addWidget(made)
    made.resize(1204, 400)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def test_focus_marks_the_first_row_and_arrows_skip_groups(qtbot: QtBot, table: Table) -> None:
    marked: list[Any] = []
    table.marked.connect(marked.append)
    assert table.hasFocus()
    assert table.marked_key() == 2119
    for key in (Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Up):
        qtbot.keyClick(table, key)
    assert marked == [2122, 2131, 2122]


def test_enter_and_double_click_open_a_row(qtbot: QtBot, table: Table) -> None:
    opened: list[Any] = []
    table.opened.connect(opened.append)
    assert table.mark(2131)
    assert not table.mark(9)
    qtbot.keyClick(table, Qt.Key.Key_Return)
    at = table.visualRect(table.model().index(1, 0)).center()
    qtbot.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=at)
    qtbot.mouseDClick(table.viewport(), Qt.MouseButton.LeftButton, pos=at)
    assert opened == [2131, 2119]


def test_enter_with_nothing_marked_opens_nothing(qtbot: QtBot, table: Table) -> None:
    opened: list[Any] = []
    table.opened.connect(opened.append)
    table.rows_model().set_rows([Group("Late")])
    qtbot.keyClick(table, Qt.Key.Key_Return)
    assert opened == []
    assert table.marked_key() is None


def test_a_click_on_a_header_sorts_and_again_turns_it_round(qtbot: QtBot, table: Table) -> None:
    asked: list[tuple[str, bool]] = []
    table.sort_asked.connect(lambda key, down: asked.append((key, down)))
    head = table.horizontalHeader()

    def click(section: int) -> None:
        at = QPoint(head.sectionPosition(section) + 12, head.height() // 2)
        qtbot.mouseMove(head.viewport(), at)
        qtbot.mouseClick(head.viewport(), Qt.MouseButton.LeftButton, pos=at)

    for section in (0, 1, 2):
        click(section)
    table.set_sorting("promised", True)
    click(1)
    assert asked == [("job", False), ("promised", True), ("promised", False)]
    table.grab()


def test_sorting_goes_by_keyboard_too(qtbot: QtBot, table: Table) -> None:
    asked: list[tuple[str, bool]] = []
    table.sort_asked.connect(lambda key, down: asked.append((key, down)))
    control = Qt.KeyboardModifier.ControlModifier
    for key in (Qt.Key.Key_Left, Qt.Key.Key_Down, Qt.Key.Key_Up, Qt.Key.Key_Right):
        qtbot.keyClick(table, key, control)
    assert asked == [("job", False), ("promised", True), ("promised", False), ("job", False)]


def shown(table: Table) -> list[str]:
    model = table.rows_model()
    return [c.key for i, c in enumerate(model.columns) if not table.isColumnHidden(i)]


def test_columns_leave_in_the_order_given_and_flags_never(qtbot: QtBot, table: Table) -> None:
    steps: list[tuple[bool, bool, bool, bool]] = []
    for width in range(1204, 480, -8):
        table.resize(width, 400)
        hidden = table.hidden
        steps.append(
            (
                "fault" in hidden.columns,
                "stage" in hidden.seconds,
                "stage" in hidden.words,
                "player" in hidden.seconds,
            )
        )
        assert "flags" in shown(table)
    assert steps[0] == (False, False, False, False)
    assert steps[-1] == (True, True, True, True)
    assert sorted(set(steps), key=sum) == [tuple(i < n for i in range(4)) for n in range(5)]
    table.grab()


@pytest.mark.parametrize("width", [1204, 900, 720])
def test_the_columns_fill_the_width_there_is(table: Table, width: int) -> None:
    table.resize(width, 400)
    used = sum(table.columnWidth(i) for i in range(len(COLUMNS)) if not table.isColumnHidden(i))
    assert used >= table.viewport().width()
    assert table.overflows == (used > table.viewport().width())


READINGS = (
    Column("quantity", "Quantity", 148),
    Column("value", "Value", 60, number=True),
    Column("unit", "", 50),
    Column("verdict", "Verdict", 100),
    Column("with", "Read with"),
)


def reading(name: str, value: str, **more: Any) -> Row:
    cells: tuple[Cell, ...] = (Words(name), Figure(value, strong=True), Words("mA", soft=True), Words("within"),
                               Words("meter", soft=True))  # fmt: skip
    return Row(name, cells, **more)


def ink_at(table: Table, place: int, column: int) -> list[int]:
    """The columns of px in a cell that carry ink darker than the sheet."""
    rect = table.visualRect(table.model().index(place, column))
    image = table.viewport().grab(rect).toImage()
    dark = []
    for x in range(image.width()):
        if any(image.pixelColor(x, y).lightness() < 120 for y in range(4, image.height() - 4)):
            dark.append(x)
    return dark


def test_numbers_stand_on_their_decimal_mark_whatever_their_digits(qtbot: QtBot) -> None:
    table = SmallTable(
        "Readings", READINGS, [reading("a", "51.2"), reading("b", "1.08"), reading("c", "228")]
    )
    qtbot.addWidget(table)
    table.resize(700, table.sizeHint().height())
    table.show()
    mark_room = table.mark_rooms[1]
    assert mark_room == measure.width(".08", measure.strong())
    mark = table.columnWidth(1) - px(9) - mark_room
    ends = ink_at(table, 2, 1)
    assert abs(max(ends) - mark) <= 3  # 228 has no mark: it ends where the others have theirs


def test_a_number_is_never_cut_its_column_grows(qtbot: QtBot) -> None:
    table = SmallTable("Readings", READINGS, [reading("a", "−1234567890.123")])
    qtbot.addWidget(table)
    table.resize(700, 60)
    table.show()
    assert table.columnWidth(1) >= measure.width("−1234567890.123", measure.strong()) + 2 * px(9)


def test_a_small_table_is_as_tall_as_its_rows(qtbot: QtBot) -> None:
    table = SmallTable("Readings", READINGS, [reading("a", "1"), reading("b", "2")])
    qtbot.addWidget(table)
    assert table.sizeHint().height() == px(28) + 2 * px(27)
    table.mark("b")
    table.set_rows([reading(n, "1") for n in "abcd"])
    assert table.sizeHint().height() == px(28) + 4 * px(27)
    assert table.marked_key() == "b"
    bare = SmallTable("Readings", READINGS, [reading("a", "1")], header=False)
    qtbot.addWidget(bare)
    assert bare.sizeHint().height() == px(27)


def test_a_struck_row_has_a_line_through_it_and_tells_why(qtbot: QtBot) -> None:
    plain = SmallTable("Readings", READINGS, [reading("seek time", "0.48")])
    struck = SmallTable(
        "Readings",
        READINGS,
        [reading("seek time", "0.48", struck=True, rest="struck out 10:51", rest_from=3)],
    )
    for table in (plain, struck):
        qtbot.addWidget(table)
        table.resize(700, table.sizeHint().height())
        table.show()
    assert struck.columnSpan(0, 3) == 2
    assert struck.model().index(0, 3).data() == "struck out 10:51"
    rect = struck.visualRect(struck.model().index(0, 0))
    image = struck.viewport().grab(rect).toImage()
    middle = range(rect.height() // 2 - 3, rect.height() // 2 + 3)
    runs = max(sum(image.pixelColor(x, y).lightness() < 160 for x in range(image.width())) for y in middle)
    assert runs >= measure.width("seek time")


def test_a_row_not_saved_says_so_at_its_end(qtbot: QtBot) -> None:
    table = SmallTable("Readings", READINGS, [reading("a", "1", tail="kept here, not saved")])
    qtbot.addWidget(table)
    table.resize(700, 80)
    table.show()
    assert ink_at(table, 0, 4)


def test_links_open_by_click_and_by_enter(qtbot: QtBot) -> None:
    rows = [Row(1, (Words("Quellmar"), Link("1744", 1744, "and more"))), Row(2, (Words("x"), Words("y")))]
    table = SmallTable("Jobs", (Column("u", "Unit", 200), Column("j", "Jobs", 150)), rows, opens=True)
    qtbot.addWidget(table)
    table.resize(400, 120)
    table.show()
    table.activateWindow()
    qtbot.waitUntil(table.isActiveWindow)
    links: list[Any] = []
    opened: list[Any] = []
    table.link_opened.connect(links.append)
    table.opened.connect(opened.append)
    at = table.visualRect(table.model().index(0, 1)).center()
    qtbot.mouseMove(table.viewport(), at)
    qtbot.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=at)
    table.setFocus()
    qtbot.keyClick(table, Qt.Key.Key_Return)
    table.grab()
    qtbot.keyClick(table, Qt.Key.Key_Left)
    qtbot.keyClick(table, Qt.Key.Key_Return)
    assert links == [1744, 1744]
    assert opened == [1]


def test_a_table_can_be_opened_by_a_function(qtbot: QtBot) -> None:
    opened: list[Any] = []
    table = SmallTable("Jobs", COLUMNS, ROWS, opened=opened.append)
    qtbot.addWidget(table)
    table.mark(2122)
    qtbot.keyClick(table, Qt.Key.Key_Return)
    assert opened == [2122]


CELLS: tuple[Cell, ...] = (
    Words("words", "second", before="caution"),
    Words("right", right=True, strong=True),
    Figure("12.5", unit="mA"),
    Link("2131", 1, "soft"),
    Stage(4, "handed back", "x"),
    Flags((("stop", "fuse"), ("note", "y"))),
    Flags(),
    Gate("safety test", True),
    Gate("safety test"),
    Two("27 %", "9 of 33", strong=True, right=True),
    Drawing(lambda p, rect: p.fillRect(rect, Qt.GlobalColor.black), "a picture"),
    None,
)


@pytest.mark.parametrize("struck", [False, True])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_kind_of_cell_paints_in_both_schemes(
    qapp: QApplication, qtbot: QtBot, scheme: str, struck: bool
) -> None:
    from app.screens.kit import palette

    palette.apply(qapp, scheme)
    columns = tuple(Column(str(i), "", 120, number=isinstance(c, Figure)) for i, c in enumerate(CELLS))
    table = SmallTable("All", columns, [Row(1, CELLS, struck=struck), Row(2, ())])
    qtbot.addWidget(table)
    table.resize(1500, 100)
    table.mark(1)
    table.show()
    image = table.viewport().grab().toImage()
    assert len({image.pixelColor(x, 13).name() for x in range(0, image.width(), 2)}) > 4
    said = [table.model().index(0, i).data() for i in range(len(CELLS))]
    assert all(said[i] for i in (0, 1, 2, 3, 4, 5, 7, 8, 9, 10))


def test_what_is_cut_is_whole_in_the_tooltip_and_a_long_form_always_is(qtbot: QtBot) -> None:
    rows = [
        Row(1, (Words("an absurdly long name of a customer"), Words("p", tip="probability"), Words("short")))
    ]
    table = SmallTable("x", (Column("a", "A", 80), Column("b", "B", 80), Column("c", "C", 200)), rows)
    qtbot.addWidget(table)
    table.resize(400, 80)
    table.show()
    painter = table.itemDelegate()
    assert isinstance(painter, CellPainter)
    tips = [painter.tip(table.model().index(0, c)) for c in range(3)]
    assert tips == ["an absurdly long name of a customer", "probability", ""]
    event = QHelpEvent(QHelpEvent.Type.ToolTip, QPoint(5, 5), QPoint(5, 5))
    assert painter.helpEvent(event, table, QStyleOptionViewItem(), table.model().index(0, 0))


def test_100_000_rows_have_a_true_scroll_bar_and_load_what_is_seen(qtbot: QtBot) -> None:
    asked: list[int] = []

    def fetch(ids: Sequence[int]) -> dict[int, Row]:
        asked.append(len(ids))
        return {i: job(i) for i in ids}

    model = PagedModel(COLUMNS, fetch=fetch)
    table = Table("Jobs", model, leaving=LEAVING)
    qtbot.addWidget(table)
    table.resize(1204, 500)
    model.set_ids(range(100_000), [(0, Group("Late")), (50_000, Group("Later"))])
    table.show()
    table.grab()
    assert table.verticalScrollBar().maximum() > 99_000 * px(29)
    assert sum(asked) <= 3 * 64
    table.mark(99_999)
    assert table.marked_key() == 99_999
    table.grab()
    assert sum(asked) <= 6 * 64


@pytest.mark.parametrize("percent", measure.TEXT_SIZES)
def test_rows_are_tall_enough_at_every_text_size(qapp: QApplication, table: Table, percent: int) -> None:
    measure.set_text_size(qapp, percent)
    assert table.rowHeight(1) >= measure.line() + 4
    assert table.rowHeight(0) > table.rowHeight(1)
    assert table.horizontalHeader().height() >= measure.line() + 4
