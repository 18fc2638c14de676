"""Quantities: what ships is read, what the shop adds or changes is its own."""

from __future__ import annotations

from decimal import Decimal

from app.screens import language
from app.work.language import wording_for
from app.work.office.quantity_list import own_quantities, quantity_list, save_quantity
from tests.screens.office.conftest import lines


def of(office, code):
    return {quantity.id: quantity for quantity in quantity_list(office.book)}[code]


def write(office, page):
    for field, text in (
        (page.words, "hum at the output"),
        (page.low_end, "-5"),
        (page.high_end, "200"),
        (page.example, "3,2"),
        (page.step, "0,1"),
    ):
        office.type_into(field, text)


def test_what_ships_can_be_read_and_not_typed_over(office):
    page = office.open("quantities")
    assert lines(page.table)[0] == "As they ship: to be read here"
    page.table.mark("hf_eye")
    office.press("Return")
    page = office.page
    assert page.title == "HF eye"
    assert "This one ships with the program." in office.sees()
    assert page.words.edit.isReadOnly()
    assert not page.save_button.isVisible()
    office.press("Ctrl+Return")
    assert own_quantities(office.book) == {}
    office.press("Esc")
    assert office.page.title == "Quantities"


def test_a_new_one_is_written_down(office):
    office.open("quantities")
    office.push(office.page.add_button)
    page = office.page
    write(office, page)
    page.arrangement.set_value("S")
    page.unit.set_value("mV")
    page.needs.set_value(3)
    page.inside.setChecked(True)
    office.press("Ctrl+Return")
    (code,) = own_quantities(office.book)
    kept = of(office, code)
    assert code == "own_hum_at_the_output"
    assert (str(kept.low), str(kept.high), kept.needs, kept.arrangement.name) == ("-5", "200", 3, "SWING_ARM")
    assert lines(office.page.table)[:2] == [
        "The shop's own",
        ["hum at the output", "mV", "\u22125 to 200", "", "3", "swing arm only", ""],
    ]
    page = office.open("quantity", code)
    assert (page.low_end.text(), page.share.text(), page.needs.value()) == ("\u22125", "2", 3)
    office.type_into(page.share, "2,5")
    page.retired.setChecked(True)
    office.press("Ctrl+Return")
    assert own_quantities(office.book)[code].retired
    assert own_quantities(office.book)[code].content["repeatability"] == {"share": "0.025"}


def test_what_cannot_be_right_is_told_under_its_field(office):
    page = office.open("quantity")
    office.press("Ctrl+Return")
    assert page.low_end.error()
    write(office, page)
    office.type_into(page.high_end, "-9")
    office.press("Ctrl+Return")
    assert "low and a high end" in page.high_end.error()
    office.type_into(page.high_end, "200")
    office.type_into(page.example, "900")
    office.press("Ctrl+Return")
    assert "lies inside the range" in page.example.error()
    office.type_into(page.example, "9")
    office.type_into(page.words, "")
    office.press("Ctrl+Return")
    assert page.words.error() == "Give the quantity a name."
    assert own_quantities(office.book) == {}


def test_a_shipped_one_is_changed_for_this_shop_and_taken_back(office):
    office.open("quantities")
    page = office.open("quantity", "hf_eye")
    office.push(page.change)
    assert not page.words.edit.isReadOnly()
    office.press("Ctrl+Return")  # nothing differs yet
    assert of(office, "hf_eye") == of(office, "hf_eye")
    assert own_quantities(office.book)["hf_eye"].content == {}
    page = office.open("quantity", "hf_eye")
    if not page.unlocked:
        office.push(page.change)
    office.type_into(page.high_end, "8")
    office.type_into(page.percent, "4")
    office.press("Ctrl+Return")
    kept = own_quantities(office.book)["hf_eye"].content
    assert set(kept) == {"range", "model"}
    assert of(office, "hf_eye").high == Decimal(8)
    assert lines(office.page.table)[0] == "Changed by the shop"
    page = office.open("quantity", "hf_eye")
    assert "Changed by the shop; what ships stays beside it." in office.sees()
    office.push(page.take_back)
    assert own_quantities(office.book)["hf_eye"].content == {}
    assert of(office, "hf_eye").high == Decimal(5)
    page = office.open("quantity", "hf_eye")
    assert "This one ships with the program." in office.sees()
    assert page.words.edit.isReadOnly()


def test_figures_are_written_as_the_language_writes_them_and_nothing_changes_by_it(office):
    language.use(wording_for("de", office.book.zone))
    page = office.open("quantity", "hf_eye")
    assert (page.example.text(), page.step.text()) == ("1,08", "0,02")
    office.push(page.change)
    office.press("Ctrl+Return")
    assert own_quantities(office.book)["hf_eye"].content == {}


def test_what_is_counted_or_worked_out_has_no_accuracy_to_type(office):
    page = office.open("quantity", "c1_inner")
    office.push(page.change)
    assert page.percent.edit.isReadOnly()
    assert not page.high_end.edit.isReadOnly()
    office.type_into(page.high_end, "7000")
    office.press("Ctrl+Return")
    assert set(own_quantities(office.book)["c1_inner"].content) == {"range"}


def test_nobody_at_work_takes_nothing_back(office):
    save_quantity(office.book, office.shop.ine, "hf_eye", {"range": ["0", "8"]})
    page = office.open("quantity", "hf_eye")
    office.desk.set_staff(None)
    office.push(page.take_back)
    assert "Ctrl+U" in page.trouble.words


def test_two_savers_see_both(office):
    save_quantity(office.book, office.shop.ine, "hf_eye", {"range": ["0", "8"]})
    page = office.open("quantity", "hf_eye")
    office.type_into(page.named["usual"], "over 1 Vpp")
    own = own_quantities(office.book)["hf_eye"]
    save_quantity(
        office.book, office.shop.sanna, "hf_eye", {"range": ["0", "9"], "inside": True}, version=own.version
    )
    page.save()
    office.settle()
    seen = [(row.what, row.mine, row.theirs) for row in page.stale.rows]
    assert ("Typed from, to", "0 – 8", "0 – 9") in seen
    assert [what for what, _, _ in seen].count("Usual") == 1
