"""Parts in stock by keys alone: written down, received, counted, and every move seen."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from app.trade.office.vat import VatRate
from app.trade.settings import VAT_RATES
from app.work.bench.work_done import use_part
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
    office.type("Fuse T 315 mA")
    office.type_into(page.price, "0,45")
    office.type_into(page.safety, "EN 60127")
    office.press("Ctrl+Return")
    (line,) = parts(office.book)
    assert (line.code, line.price, line.vat_rate, line.safety_type) == ("F-315", 450_000, 1900, "EN 60127")
    assert lines(office.page.table) == [
        ["F-315", "Fuse T 315 mA", "EN 60127", "0", "pieces", "0.45 EUR", "19 %"]
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
    assert not page.moves.isVisible()
    office.push(page.receive)
    office.type("x")
    office.press("Ctrl+Return")
    assert page.place.form.quantity.error()
    office.type_into(page.place.form.quantity, "10")
    office.type_into(page.place.form.note, "delivery note 7")
    office.press("Ctrl+Return")
    assert page.place.form is None
    assert office.focus is page.receive
    assert "On hand: 10" in office.sees()
    office.push(page.count)
    office.type("8")
    office.press("Ctrl+Return")
    assert office.page is page  # it saved the count, not the part
    assert "On hand: 8" in office.sees()
    assert [row[1:4] for row in lines(page.moves)] == [["counted", "\u22122", "8"], ["received", "+10", "10"]]
    assert lines(page.moves)[1][6] == "delivery note 7"
    office.push(page.count)
    office.press("Esc")
    assert page.place.form is None
    assert office.page is page
    office.press("Esc")
    assert office.page is not page


def test_a_move_of_a_job_leads_to_it(office, worked):
    page = office.open("part", worked.part)
    use = next(row for row in lines(page.moves) if row[4])
    assert use[1:5] == ["used", "\u22121", "9", "1001"]
    page.moves.link_opened.emit(worked.job)
    office.settle()
    assert (type(office.page).__name__, office.page.key) == ("Blank", worked.job)


def test_more_used_than_there_was_stands_out(office, bench):
    page = office.open("parts")
    assert "more was used" not in office.sees()
    use_part(bench.book, bench.who, bench.job, bench.part, Decimal(12))
    page.reload()
    office.settle()
    assert "Of 1 part more was used than there was: count it." in office.sees()
    assert lines(page.table)[0][3] == "\u22122"
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
