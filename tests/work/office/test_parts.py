"""Parts in stock: what is on hand is the sum of moves, and a count is a move of its own."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.book.tables import Part, PartMove
from app.trade.refusal import FieldRefusal, StaleRow
from app.trade.sentence import Sentence
from app.trade.settings import VAT_RATES
from app.work.bench.work_done import put_part_back, use_part
from app.work.office.former_lines import former_parts
from app.work.office.parts import PartEntry, parts, save_part, suppliers
from app.work.office.settings import change_settings
from app.work.office.stock import count_part, part_moves, receive_part

BELT = PartEntry(code=" B-30 ", words=" Loading belt 30 mm ", price=4_200_000)


def on_hand(bench, code="B-22"):
    return next(line.on_hand for line in parts(bench.book) if line.code == code)


def test_a_part_is_added_with_the_first_rate_of_the_shop(bench):
    key = save_part(bench.book, bench.who, BELT).value
    line = next(line for line in parts(bench.book) if line.id == key)
    assert (line.code, line.words, line.vat_rate, line.on_hand) == ("B-30", "Loading belt 30 mm", 1900, 0)


def test_received_used_and_put_back_add_up(bench):
    use_part(bench.book, bench.who, bench.job, bench.part, Decimal(2))
    move = part_moves(bench.book, bench.part)[0]
    assert (move.kind, move.quantity, move.after, move.job) == ("used", -2, 8, 1001)
    put_part_back(bench.book, bench.who, move.id)
    assert on_hand(bench) == 10
    assert [m.note for m in part_moves(bench.book, bench.part)] == ["", "", ""]


def test_a_count_writes_the_difference_and_may_find_none(bench):
    count_part(bench.book, bench.who, bench.part, Decimal(7), note="yearly count")
    count_part(bench.book, bench.who, bench.part, Decimal(7))
    newest, before, *_ = part_moves(bench.book, bench.part)
    assert (before.quantity, before.after, before.note, before.by) == (-3, 7, "yearly count", "Ine Varloes")
    assert (newest.quantity, newest.after) == (0, 7)


def test_a_count_reads_the_stock_in_its_own_action(bench, monkeypatch):
    """A part used between looking and counting would be counted away if the stock were asked for before."""
    from app.book.door import Book

    with monkeypatch.context() as patch:
        patch.setattr(Book, "ask", None)
        count_part(bench.book, bench.who, bench.part, Decimal(3))
    with bench.book.ask() as session:
        assert sum(row.quantity for row in session.query(PartMove)) == 3_000_000


def test_a_part_nobody_ever_moved_can_be_counted(bench):
    key = save_part(bench.book, bench.who, BELT).value
    count_part(bench.book, bench.who, key, Decimal("2.5"))
    assert on_hand(bench, "B-30") == Decimal("2.5")


@pytest.mark.parametrize("deed", [receive_part, count_part])
@pytest.mark.parametrize(("quantity", "note", "field"), [("-1", "", "quantity"), ("3", "x" * 201, "note")])
def test_what_cannot_be_right_moves_nothing(bench, deed, quantity, note, field):
    with pytest.raises(FieldRefusal) as refusal:
        deed(bench.book, bench.who, bench.part, Decimal(quantity), note=note)
    assert set(refusal.value.fields) == {field}
    assert on_hand(bench) == 10


def test_receiving_none_is_refused_and_counting_none_is_not(bench):
    with pytest.raises(FieldRefusal):
        receive_part(bench.book, bench.who, bench.part, Decimal(0))
    count_part(bench.book, bench.who, bench.part, Decimal(0))
    assert on_hand(bench) == 0


@pytest.mark.parametrize(
    ("entry", "field"),
    [
        (PartEntry(code="", words="Belt", price=0), "code"),
        (PartEntry(code="B-22", words="Belt", price=0), "code"),
        (PartEntry(code="x" * 41, words="Belt", price=0), "code"),
        (PartEntry(code="B-30", words=" ", price=0), "words"),
        (PartEntry(code="B-30", words="Belt", price=-1), "price"),
        (PartEntry(code="B-30", words="Belt", price=0, unit="XXX"), "unit"),
        (PartEntry(code="B-30", words="Belt", price=0, vat_rate=1234), "vat_rate"),
        (PartEntry(code="B-30", words="Belt", price=0, safety_type="\x00"), "safety_type"),
        (PartEntry(code="B-30", words="Belt", price=10**13), "price"),
        (PartEntry(code="B-30", words="Belt", price=0, cost=-1), "cost"),
        (PartEntry(code="B-30", words="Belt", price=0, supplier="x" * 81), "supplier"),
        (PartEntry(code="B-30", words="Belt", price=0, order_code="\u202e1"), "order_code"),
        (PartEntry(code="B-30", words="Belt", price=0, bin="x" * 41), "bin"),
        (PartEntry(code="B-30", words="Belt", price=0, rating="x" * 81), "rating"),
        (PartEntry(code="F-1", words="Fuse", price=0, safety_critical=True), "rating"),
        (PartEntry(code="B-30", words="Belt", price=0, lead_days=0), "lead_days"),
        (PartEntry(code="B-30", words="Belt", price=0, service=9501), "service"),
    ],
)
def test_a_part_that_cannot_be_right_is_refused_by_its_field(bench, entry, field):
    with pytest.raises(FieldRefusal) as refusal:
        save_part(bench.book, bench.who, entry)
    assert set(refusal.value.fields) == {field}


def test_a_part_keeps_its_old_rate_when_the_shop_has_others(bench):
    from app.trade.office.vat import VatRate

    change_settings(bench.book, bench.who, {VAT_RATES: (VatRate(2000),)})
    line = parts(bench.book)[0]
    entry = PartEntry(code=line.code, words="Belt", price=1, vat_rate=line.vat_rate)
    save_part(bench.book, bench.who, entry, part_id=line.id, version=line.version)
    assert parts(bench.book)[0].vat_rate == 1900


def test_a_part_no_longer_kept_leaves_the_list_but_not_the_book(bench):
    line = parts(bench.book)[0]
    gone = PartEntry(code=line.code, words=line.words, price=line.price, retired=True)
    save_part(bench.book, bench.who, gone, part_id=line.id, version=line.version)
    assert parts(bench.book) == ()
    (kept,) = parts(bench.book, retired=True)
    assert (kept.retired, kept.on_hand) == (True, 10)


def test_the_second_saver_is_told_and_overwrites_nothing(bench):
    line = parts(bench.book)[0]
    first = PartEntry(code=line.code, words="Belt, first saver", price=1)
    save_part(bench.book, bench.who, first, part_id=line.id, version=line.version)
    with pytest.raises(StaleRow) as stale:
        save_part(
            bench.book,
            bench.who,
            PartEntry(code=line.code, words="Belt, second saver", price=2),
            part_id=line.id,
            version=line.version,
        )
    assert stale.value.theirs["words"] == "Belt, first saver"
    assert parts(bench.book)[0].words == "Belt, first saver"


FUSE = PartEntry(
    code="F-315",
    words="Fuse, glass",
    price=450_000,
    safety_type="EN 60127",
    supplier=" Harlow Components ",
    order_code=" 55-0315 ",
    cost=110_000,
    bin=" C4 ",
    rating=" T 315 mA 250 V ",
    safety_critical=True,
    lead_days=21,
    service=9900,
)


def test_a_part_knows_where_it_comes_from_and_where_it_lies(bench):
    key = save_part(bench.book, bench.who, FUSE).value
    line = next(line for line in parts(bench.book) if line.id == key)
    assert (line.supplier, line.order_code, line.cost) == ("Harlow Components", "55-0315", 110_000)
    assert (line.bin, line.rating, line.safety_critical) == ("C4", "T 315 mA 250 V", True)
    assert (line.lead_days, line.service) == (21, 9900)
    assert suppliers(bench.book) == ("Harlow Components",)


def test_a_part_from_an_older_book_has_nothing_of_it(bench):
    with bench.book.change(bench.who, Sentence("as an older program wrote it")) as change:
        row = change.get(Part, bench.part)
        row.supplier = row.order_code = row.bin = row.rating = row.safety_critical = None
    (line,) = parts(bench.book)
    assert (line.supplier, line.bin, line.rating, line.safety_critical, line.cost) == (
        "",
        "",
        "",
        False,
        None,
    )


def test_what_a_part_cost_before_is_kept(bench):
    line = parts(bench.book)[0]
    entry = PartEntry(code=line.code, words=line.words, price=4_100_000, supplier="Harlow Components")
    save_part(bench.book, bench.who, entry, part_id=line.id, version=line.version)
    (former,) = former_parts(bench.book, line.id)
    assert (former.before.price, former.after.price) == (3_800_000, 4_100_000)
    assert (former.before.supplier, former.after.supplier) == ("", "Harlow Components")
