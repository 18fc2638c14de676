"""Transport types by keys alone: what they are, their sheet in order, what cannot be seen on them."""

from __future__ import annotations

from dataclasses import replace

from app.trade.bench.kinds import Arrangement
from app.trade.bench.sheet_order import When
from app.work.office.shop_lists import TypeLine, save_transport_type, transport_types
from tests.screens.office.conftest import lines

VELK = TypeLine(
    name="Velk A1",
    arrangement=Arrangement.SWING_ARM,
    has_transit_lock=True,
    not_testable=(5, 6),
    sheet=("laser_current", "hf_eye"),
    note="Belt slips in the cold.",
)


def kept(office, line=VELK):
    return save_transport_type(office.book, office.shop.ine, line).value


def test_one_is_written_down_by_keys_alone(office):
    office.open("transport_types")
    office.press("Return")
    page = office.page
    office.type("Grellin S1")
    page.arrangement.setFocus()
    office.press("Right")
    page.lock.setFocus()
    office.press("Space")
    page.sheet_order.offer.set_value("hf_eye")
    page.sheet_order.offer.set_value("laser_current")
    page.unseen.ticks[4].setFocus()
    office.press("Space")
    page.note.setFocus()
    office.type("Lens is loose.")
    office.press("Ctrl+Return")
    (line,) = transport_types(office.book)
    assert (line.name, line.arrangement, line.has_transit_lock) == ("Grellin S1", Arrangement.SLED, True)
    assert (line.sheet, line.not_testable, line.note) == (("hf_eye", "laser_current"), (5,), "Lens is loose.")
    assert lines(office.page.table) == [
        [
            "Grellin S1",
            "sled three-beam",
            "has one",
            "2 readings",
            "rung 5",
            "Lens is loose.",
        ]
    ]


def test_the_sheet_is_put_in_order(office):
    page = office.open("transport_type", kept(office))
    order = page.sheet_order
    assert lines(order.table) == [["1", "laser current", ""], ["2", "HF eye", ""]]
    order.table.mark("hf_eye")
    office.push(order.up)
    assert order.value() == ["hf_eye", "laser_current"]
    assert order.table.marked_key() == "hf_eye"
    office.push(order.up)  # it is the first already
    office.push(order.down)
    assert order.value() == ["laser_current", "hf_eye"]
    order.offer.set_value("jitter")
    office.push(order.out)
    assert order.value() == ["laser_current", "hf_eye"]
    office.push(order.out)
    office.push(order.out)
    assert order.value() == []
    assert office.focus is order.offer
    order._move(1)
    order._take_out()
    office.press("Ctrl+Return")
    assert transport_types(office.book)[0].sheet == ()


def test_a_list_of_types_tells_them_apart(office):
    kept(office)
    kept(office, TypeLine(name="Old one", arrangement=Arrangement.SLED, sheet=("hf_eye",), retired=True))
    page = office.open("transport_types")
    assert len(lines(page.table)) == 1
    office.push(page.turn)
    assert [row[0] for row in lines(page.table)] == ["Old one no longer used", "Velk A1"]
    assert lines(page.table)[0][3] == "1 reading"
    assert lines(page.table)[1][4] == "rung 5, 6"


def test_a_type_needs_a_name_of_its_own(office):
    kept(office)
    page = office.open("transport_type")
    office.press("Ctrl+Return")
    assert page.name.error() == "Give the type a name."
    office.type("Velk A1")
    office.press("Ctrl+Return")
    assert page.name.error() == "There is a type of this name."


def test_what_was_half_chosen_is_kept(office):
    key = kept(office)
    office.open("transport_types")
    page = office.open("transport_type", key)
    page.sheet_order.offer.set_value("jitter")
    page.unseen.ticks[0].setChecked(True)
    office.settle()
    office.press("Esc")
    office.window.trail.close_page("transport_type", key)
    page = office.open("transport_type", key)
    assert page.sheet_order.value() == ["laser_current", "hf_eye", "jitter"]
    assert page.unseen.value() == [1, 5, 6]


def test_its_limits_are_one_step_away(office):
    page = office.open("transport_type", kept(office))
    office.push(page.limits)
    assert office.page.title == "Limits"
    assert "Of Velk A1 only." in office.sees()


def test_two_savers_see_both(office):
    key = kept(office)
    page = office.open("transport_type", key)
    office.type_into(page.note, "Ours")
    (line,) = transport_types(office.book)
    save_transport_type(
        office.book,
        office.shop.sanna,
        replace(line, note="Theirs", has_transit_lock=False, not_testable=(1,), sheet=("jitter",)),
    )
    page.save()
    office.settle()
    assert [(row.what, row.mine, row.theirs) for row in page.stale.rows] == [
        ("Transit lock", "has one", "none"),
        ("Readings", "laser current, HF eye", "jitter"),
        ("Cannot be seen", "5, 6", "1"),
        ("Note", "Ours", "Theirs"),
    ]


def test_fields_made_of_parts_carry_their_sentence_and_name(office):
    page = office.open("transport_type")
    for part in (page.sheet_order, page.unseen):
        part.set_error("Not like this.")
        assert "Not like this." in office.sees(part)
        part.set_error("")
        assert "Not like this." not in office.sees(part)
    assert page.sheet_order.words_of("gone") == "gone"
    assert page.unseen.ticks[0].accessibleName().startswith("Cannot be seen: 1 ")


def test_the_sheet_asks_for_a_reading_at_its_stage_only(office):
    key = kept(office)
    page = office.open("transport_type", key)
    order = page.sheet_order
    assert order.when.value() is When.ALWAYS
    order.table.mark("hf_eye")
    order.when.set_value(When.FINAL)
    order._time(When.FINAL)
    assert order.value() == ["laser_current", "hf_eye: at the end"]
    order.table.mark("laser_current")
    assert order.when.value() is When.ALWAYS  # of the marked one
    office.press("Ctrl+Return")
    (line,) = transport_types(office.book)
    assert line.sheet == ("laser_current", "hf_eye: at the end")
    page = office.open("transport_type", key)
    assert [row[-1] for row in lines(page.sheet_order.table)] == ["", "at the end"]
    assert dict(page.facts(line))["Readings"] == "laser current, HF eye at the end"
