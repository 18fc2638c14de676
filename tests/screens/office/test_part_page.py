"""Parts in stock by keys alone: written down, received, counted, and every move seen."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from app.book.tables import Job, Unit
from app.trade.office.vat import VatRate
from app.trade.sentence import Sentence
from app.trade.settings import VAT_RATES
from app.work.bench.work_done import use_part
from app.work.office.part_orders import OrderEntry, order_part
from app.work.office.parts import PartEntry, parts, save_part
from app.work.office.settings import change_settings
from app.work.office.stock import receive_part
from tests.screens.office.conftest import lines

BELT = PartEntry(code="B-22", words="Loading belt 22 mm", price=3_800_000, safety_type="")


def kept(office, entry=BELT, stock=0):
    key = save_part(office.book, office.shop.ine, entry).value
    if stock:
        receive_part(office.book, office.shop.ine, key, Decimal(stock))
    return key


def test_a_part_is_written_down(office):
    office.open("parts")
    assert "Parts that the shop keeps stand here" in office.sees()
    office.press("Return")
    page = office.page
    office.type("F-315")
    office.press("Return")
    office.type("C4")
    office.press("Return")
    office.type("Fuse T 315 mA")
    office.type_into(page.price, "0,45")
    office.type_into(page.safety, "EN 60127")
    office.press("Ctrl+Return")
    (line,) = parts(office.book)
    assert (line.code, line.price, line.vat_rate, line.safety_type) == ("F-315", 450_000, 1900, "EN 60127")
    assert lines(office.page.table) == [
        ["F-315", "Fuse T 315 mA", "EN 60127", "C4", "", "0", "pieces", "", "0.45 EUR", "19 %"]
    ]


def test_what_cannot_be_right_is_told_under_its_field(office):
    kept(office)
    page = office.open("part")
    office.press("Ctrl+Return")
    assert page.price.error()
    office.type_into(page.price, "1")
    office.press("Ctrl+Return")
    assert page.code.error()
    office.type_into(page.code, "B-22")
    office.type_into(page.words, "Belt")
    office.press("Ctrl+Return")
    assert page.code.error()


def test_parts_are_received_and_counted(office):
    key = kept(office)
    office.open("parts")
    page = office.open("part", key)
    assert "On hand: 0" in office.sees()
    assert not page.stock.moves.isVisible()
    office.push(page.stock.receive)
    office.type("x")
    office.press("Ctrl+Return")
    assert page.stock.place.form.quantity.error()
    office.type_into(page.stock.place.form.quantity, "10")
    office.type_into(page.stock.place.form.note, "delivery note 7")
    office.press("Ctrl+Return")
    assert page.stock.place.form is None
    assert office.focus is page.stock.receive
    assert "On hand: 10" in office.sees()
    office.push(page.stock.count)
    office.type("8")
    office.press("Ctrl+Return")
    assert office.page is page  # it saved the count, not the part
    assert "On hand: 8" in office.sees()
    assert [row[1:4] for row in lines(page.stock.moves)] == [
        ["counted", "\u22122", "8"],
        ["bought", "+10", "10"],
    ]
    assert lines(page.stock.moves)[1][7] == "delivery note 7"
    office.push(page.stock.count)
    office.press("Esc")
    assert page.stock.place.form is None
    assert office.page is page
    office.press("Esc")
    assert office.page is not page


def test_a_move_of_a_job_leads_to_it(office, worked):
    page = office.open("part", worked.part)
    use = next(row for row in lines(page.stock.moves) if row[4])
    assert use[1:5] == ["fitted", "\u22121", "9", "1001"]
    page.stock.moves.link_opened.emit(("job", worked.job))
    office.settle()
    assert (type(office.page).__name__, office.page.key) == ("Blank", worked.job)


def test_more_used_than_there_was_stands_out(office, bench):
    page = office.open("parts")
    assert "more was used" not in office.sees()
    use_part(bench.book, bench.who, bench.job, bench.part, Decimal(12))
    page.reload()
    office.settle()
    assert "Of 1 part more was used than there was: count it." in office.sees()
    assert lines(page.table)[0][5] == "\u22122"
    other = kept(office, replace(BELT, code="B-23"))
    use_part(bench.book, bench.who, bench.job, other, Decimal(1))
    page.reload()
    office.settle()
    assert "Of 2 parts more was used than there was: count them." in office.sees()


def test_a_part_is_changed_and_kept_no_longer(office):
    key = kept(office)
    office.open("parts")
    page = office.open("part", key)
    assert page.title == "B-22  Loading belt 22 mm"
    assert page.price.text() == "3.80"
    office.type_into(page.price, "4,2")
    page.retired.setChecked(True)
    office.press("Ctrl+Return")
    (line,) = parts(office.book, retired=True)
    assert (line.price, line.retired) == (4_200_000, True)
    page = office.page
    assert not page.table.isVisible()
    office.push(page.turn)
    assert lines(page.table)[0][:2] == ["B-22", "Loading belt 22 mm no longer kept"]


def test_a_rate_that_the_shop_no_longer_has_stays_with_the_part(office):
    key = kept(office, replace(BELT, vat_rate=700))
    change_settings(office.book, office.shop.ine, {VAT_RATES: (VatRate(1900),)})
    page = office.open("part", key)
    assert page.rate.value() == 700


def test_two_savers_see_both(office):
    key = kept(office)
    page = office.open("part", key)
    office.type_into(page.price, "4")
    save_part(office.book, office.shop.sanna, replace(BELT, price=5_000_000), part_id=key, version=1)
    page.save()
    office.settle()
    assert [(row.what, row.mine, row.theirs) for row in page.stale.rows] == [
        ("Price, without VAT", "4.00", "5.00")
    ]
    office.press("Return")
    assert parts(office.book)[0].price == 4_000_000


def test_a_part_says_where_it_comes_from_and_that_it_protects_people(office):
    page = office.open("part")
    for field, text in (
        (page.code, "F-315"),
        (page.bin, "C4"),
        (page.words, "Fuse, glass"),
        (page.price, "0,45"),
        (page.cost, "0,11"),
        (page.supplier, "Harlow Components"),
        (page.order_code, "55-0315"),
        (page.lead, "x"),
    ):
        office.type_into(field, text)
    page.protects.setChecked(True)
    page.service.set_value(9900)
    office.press("Ctrl+Return")
    assert page.lead.error()
    office.type_into(page.lead, "21")
    office.press("Ctrl+Return")
    assert page.rating.error()
    office.type_into(page.rating, "T 315 mA 250 V")
    office.press("Ctrl+Return")
    (line,) = parts(office.book)
    assert (line.supplier, line.order_code, line.bin, line.cost) == (
        "Harlow Components",
        "55-0315",
        "C4",
        110_000,
    )
    assert (line.safety_critical, line.rating) == (True, "T 315 mA 250 V")
    assert (line.lead_days, line.service) == (21, 9900)
    page = office.open("part", line.id)
    assert (page.lead.text(), page.service.value(), page.cost.text()) == ("21", 9900, "0.11")


def test_what_a_part_cost_before_stands_below(office):
    key = kept(office, replace(BELT, supplier="Harlow Components", lead_days=9, cost=1_000_000))
    save_part(office.book, office.shop.sanna, replace(BELT, price=5_000_000), part_id=key, version=1)
    page = office.open("part", key)
    assert page.former_texts is not None
    text = page.former_texts.words
    assert "Price, without VAT: 3.80" in text
    assert "Supplier: Harlow Components" in text
    assert "It takes: 9 days" in text


def test_some_are_scrapped_and_sent_back(office):
    key = kept(office, stock=10)
    page = office.open("part", key)
    office.push(page.stock.scrap)
    office.type("2")
    office.press("Ctrl+Return")
    assert page.stock.place.form.note.error()
    office.type_into(page.stock.place.form.note, "gone hard")
    office.press("Ctrl+Return")
    office.push(page.stock.send_back)
    office.type("9")
    office.press("Ctrl+Return")
    assert "8 are on hand" in page.stock.place.form.quantity.error()
    office.type_into(page.stock.place.form.quantity, "3")
    office.press("Ctrl+Return")
    assert "On hand: 5" in office.sees()
    assert [row[1] for row in lines(page.stock.moves)] == ["sent to the supplier", "scrapped", "bought"]


def test_a_donor_gives_a_part(office, bench):
    with bench.book.change(bench.who, Sentence("kept as donor")) as change:
        unit = change.get(Unit, change.get(Job, bench.job).unit_id)
        unit.is_donor = True
    page = office.open("part", bench.part)
    office.push(page.stock.from_donor)
    form = page.stock.place.form
    assert form.donor.currentText() == "Quellmar Larch 2, 0420 158"
    office.type_into(form.quantity, "1")
    office.press("Ctrl+Return")
    newest = lines(page.stock.moves)[0]
    assert newest[1:6] == ["taken from a donor", "+1", "11", "", "Quellmar Larch 2"]
    page.stock.moves.link_opened.emit(("unit", unit.id))
    office.settle()
    assert (type(office.page).__name__, office.page.key) == ("Blank", unit.id)


def test_without_a_donor_nothing_is_taken_from_one(office, bench):
    page = office.open("part", bench.part)
    office.push(page.stock.from_donor)
    assert "No player stays here as a donor." in office.sees()
    office.type_into(page.stock.place.form.quantity, "1")
    office.press("Ctrl+Return")
    assert "Choose the player" in office.sees()


def test_a_part_tells_when_it_is_ordered_again(office, bench):
    page = office.open("part", bench.part)
    assert "None was used in the last" in office.sees()
    use_part(bench.book, bench.who, bench.job, bench.part, Decimal(6))
    page.reload()
    office.settle()
    # 6 in 30 days, so 2.8 in 14: 6 meet 95 in 100 (scipy.stats.poisson.ppf).
    assert "6.1 a month by the last 30 days. Until an order comes in 14 days, 6 are enough" in office.sees()


def test_an_order_is_written_down_expected_later_and_comes_in_parts(office, bench):
    page = office.open("part", bench.part)
    office.push(page.stock.order)
    form = page.stock.place.form
    office.type("20")
    office.type_into(form.supplier, "Brackwater Belts")
    office.type_into(form.job, "J1001")
    office.press("Ctrl+Return")
    orders = page.stock.orders
    (row,) = lines(orders.table)
    assert row[1:7] == [
        "expected Thu\N{NO-BREAK SPACE}26\N{NO-BREAK SPACE}Mar",
        "20",
        "0",
        "1001",
        "Brackwater Belts",
        "Ine Varloes",
    ]
    assert "On hand: 10, on order: 20, expected 26\N{NO-BREAK SPACE}Mar" in office.sees()
    office.push(orders.later)
    office.type_into(page.stock.place.form.day, "sometime")
    office.press("Ctrl+Return")
    assert page.stock.place.form.day.error()
    office.type_into(page.stock.place.form.day, "2 Apr")
    office.press("Ctrl+Return")
    assert lines(orders.table)[0][1] == "expected Thu\N{NO-BREAK SPACE}2\N{NO-BREAK SPACE}Apr"
    office.push(orders.receive)
    form = page.stock.place.form
    assert form.order.currentText().endswith("20 to come, Brackwater Belts")
    office.type_into(form.quantity, "12")
    office.press("Ctrl+Return")
    assert lines(orders.table)[0][1:4] == [
        "expected Thu\N{NO-BREAK SPACE}2\N{NO-BREAK SPACE}Apr 8 still to come",
        "20",
        "12",
    ]
    assert "On hand: 22, on order: 8" in office.sees()
    assert lines(page.stock.moves)[0][1] == "bought ordered 12\N{NO-BREAK SPACE}Mar"
    orders.table.link_opened.emit(bench.job)
    office.settle()
    assert (type(office.page).__name__, office.page.key) == ("Blank", bench.job)


def test_an_order_that_comes_no_more_says_why(office, bench):
    order_part(bench.book, bench.who, OrderEntry(part_id=bench.part, quantity=Decimal(5)))
    bench.shop.clock.advance(days=20)
    page = office.open("part", bench.part)
    orders = page.stock.orders
    assert lines(orders.table)[0][1].startswith("6 days late expected")
    office.push(orders.give_up)
    office.press("Ctrl+Return")
    assert page.stock.place.form.reason.error()
    office.type_into(page.stock.place.form.reason, "no longer made")
    office.press("Ctrl+Return")
    row = lines(orders.table)[0]
    assert (row[1], row[7]) == ("given up", "no longer made")
    assert not orders.give_up.isVisible()
    assert orders.marked() is None


def test_what_is_received_may_be_of_no_order(office, bench):
    order_part(bench.book, bench.who, OrderEntry(part_id=bench.part, quantity=Decimal(5)))
    page = office.open("part", bench.part)
    office.push(page.stock.receive)
    form = page.stock.place.form
    assert form.order.currentText().endswith("5 to come")
    form.order.set_value(None)
    office.type_into(form.quantity, "3")
    office.press("Ctrl+Return")
    assert "On hand: 13, on order: 5" in office.sees()


def test_a_job_number_that_is_none_is_told_at_its_field(office, bench):
    page = office.open("part", bench.part)
    office.push(page.stock.order)
    form = page.stock.place.form
    office.type("1")
    for none in ("the red one", "9" * 40, "-1"):
        office.type_into(form.job, none)
        office.press("Ctrl+Return")
        assert form.job.error() == "No job has this number."
    office.type_into(form.job, "")
    office.type_into(form.ordered, "31 Dec 9999")
    office.press("Ctrl+Return")
    assert form.ordered.error()
