"""Reading an e-invoice from a stranger: what is taken from it, and what is never let in."""

from __future__ import annotations

import os
from contextlib import suppress
from decimal import Decimal
from pathlib import Path

import facturx
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from app.papers.e_invoice_xml import e_invoice_xml
from app.trade.office.e_invoice_figures import MOST_BYTES, parsed, read_figures
from app.trade.refusal import Refusal
from tests.papers.e_invoice_story import CASES

GOOD = e_invoice_xml(CASES["discount and charge"])


def refused(xml: bytes) -> str:
    with pytest.raises(Refusal) as told:
        read_figures(xml)
    return told.value.sentence.key


def test_everything_that_sums_are_checked_by_is_read() -> None:
    figures = read_figures(GOOD)
    assert (figures.number, figures.kind, figures.currency) == ("R-0412", "380", "EUR")
    assert [line.net for line in figures.lines] == [Decimal("85.00"), Decimal("0.70")]
    assert [(a.amount, a.charge, a.rate) for a in figures.adjustments] == [
        (Decimal("10.00"), False, Decimal(19)),
        (Decimal("7.50"), True, Decimal(19)),
    ]
    assert [(g.base, g.tax, g.category) for g in figures.groups] == [
        (Decimal("83.20"), Decimal("15.81"), "S")
    ]
    sums = (
        figures.lines_net,
        figures.discount,
        figures.charge,
        figures.net,
        figures.vat,
        figures.gross,
        figures.due,
    )
    assert [str(amount) for amount in sums] == ["85.70", "10.00", "7.50", "83.20", "15.81", "99.01", "99.01"]
    assert (figures.prepaid, figures.rounding) == (None, None)


@pytest.mark.parametrize("name", CASES)
def test_xml_that_another_program_wrote_is_read_alike(name: str) -> None:
    """Library oracle: factur-x reads our XML by its own reader and writes it anew by its own writer."""
    ours = e_invoice_xml(CASES[name])
    theirs = facturx.generate_cii_xml(facturx.parse_ubl_cii_xml(ours), "en16931", check_schematron=False)
    assert theirs != ours
    assert read_figures(theirs) == read_figures(ours)


def test_vat_in_the_currency_of_the_books_does_not_count() -> None:
    """BT-111 stands beside BT-110 under the same name, in another currency."""
    second = b'<ram:TaxTotalAmount currencyID="PLN">67.11</ram:TaxTotalAmount>'
    before = GOOD.replace(b"<ram:TaxTotalAmount", second + b"<ram:TaxTotalAmount")
    assert read_figures(before).vat == Decimal("15.81")
    alone = GOOD.replace(b'<ram:TaxTotalAmount currencyID="EUR">15.81</ram:TaxTotalAmount>', second)
    assert read_figures(alone).vat is None


@pytest.mark.parametrize(
    "declared",
    [
        '<!DOCTYPE x SYSTEM "file:///etc/hostname">',
        '<!DOCTYPE x [<!ENTITY who SYSTEM "file:///etc/hostname">]>',
        '<!DOCTYPE x [<!ENTITY % outside SYSTEM "http://127.0.0.1:9/x.dtd"> %outside;]>',
        '<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;&b;&b;">]>',
    ],
)
def test_no_document_type_is_let_in(declared: str) -> None:
    """Entities are declared in a document type: without one nothing outside is read, and nothing grows inside."""
    head, _, rest = GOOD.decode().partition("\n")
    assert "declares a document type" in refused(f"{head}\n{declared}\n{rest}".encode())


def test_an_entity_that_nobody_declared_is_no_xml() -> None:
    assert "no XML" in refused(GOOD.replace(b"R-0412", b"&who;"))


def test_too_large_too_deep_too_many() -> None:
    assert "larger than {most} MB" in refused(b" " * (MOST_BYTES + 1))
    assert "too deep" in refused(b"<a>" * 41 + b"</a>" * 41)
    assert "too large" in refused(b"<a>" + b"<b/>" * 200_000 + b"</a>")
    assert parsed(b"<a>" * 40 + b"</a>" * 40).tag == "a"


@pytest.mark.parametrize(
    ("xml", "said"),
    [
        (b"", "no XML"),
        (b"hello", "no XML"),
        (b"\x00\xff\xfe", "no XML"),
        (b'<?xml version="1.0" encoding="nonsense"?><a/>', "no XML"),
        (b'<?xml version="1.0" encoding="utf-7"?><a/>', "no XML"),
        (b'<?xml version="1.0" encoding="gb18030"?><a/>', "no XML"),
        (
            b'<Invoice xmlns="urn:oasis:names:specification:ubl:schema:xsd:Invoice-2"/>',
            "no e-invoice in the form CII",
        ),
        (GOOD.replace(b"ApplicableHeaderTradeSettlement", b"Other"), "a part of it is missing"),
        (
            GOOD.replace(b"SpecifiedTradeSettlementHeaderMonetarySummation", b"Other"),
            "a part of it is missing",
        ),
        (GOOD.replace(b"rsm:ExchangedDocument>", b"rsm:Other>"), "a part of it is missing"),
    ],
)
def test_what_is_no_e_invoice_is_told_why(xml: bytes, said: str) -> None:
    assert said in refused(xml)


@pytest.mark.parametrize(
    "amount", ["", "ten", "1,5", "1e5", "NaN", "Infinity", "0x10", "1_000", "--1", "٣", "1.", "9" * 30]
)
def test_an_amount_is_figures_and_a_point(amount: str) -> None:
    """XML Schema's decimal: no exponent, no comma, no other figures."""
    assert "holds no amount" in refused(
        GOOD.replace(b">99.01</ram:DuePayable", f">{amount}</ram:DuePayable".encode())
    )


@pytest.mark.parametrize(
    ("amount", "read"), [("+99.01", "99.01"), ("-3", "-3"), (".5", "0.5"), (" 99.010 ", "99.01")]
)
def test_other_ways_to_write_a_decimal_are_read(amount: str, read: str) -> None:
    xml = GOOD.replace(b">99.01</ram:DuePayable", f">{amount}</ram:DuePayable".encode())
    assert read_figures(xml).due == Decimal(read)


def test_a_strangers_text_cannot_command_the_terminal() -> None:
    xml = GOOD.replace(b"R-0412", "a\u009b31m\u202eb\n\nc".encode() + b"x" * 200)
    number = read_figures(xml).number
    assert number.startswith("a?31m?b c")
    assert len(number) == 60


def test_a_line_without_a_settlement_counts_nothing() -> None:
    xml = GOOD.replace(b"SpecifiedLineTradeSettlement", b"Other", 2)
    assert len(read_figures(xml).lines) == 1


@given(st.binary(max_size=400))
@example(b"<")
def test_bytes_of_any_kind_are_refused_in_words(raw: bytes) -> None:
    with pytest.raises(Refusal):
        read_figures(raw)


@given(st.data())
def test_a_damaged_e_invoice_is_read_or_refused_in_words(data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(GOOD) - 1))
    cut = data.draw(st.integers(0, 40))
    damaged = GOOD[:at] + data.draw(st.binary(max_size=6)) + GOOD[at + cut :]
    with suppress(Refusal):
        read_figures(damaged)


def test_nothing_is_opened_while_reading(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """The proof beside the rule: no file is opened, whatever the XML asks for."""
    opened: list[object] = []
    monkeypatch.setattr("builtins.open", lambda *a, **k: opened.append(a))
    monkeypatch.setattr(os, "open", lambda *a, **k: opened.append(a))
    reference = f'<?xml-stylesheet href="{tmp_path.as_uri()}"?>'.encode()
    read_figures(GOOD.replace(b"<rsm:Cross", reference + b"<rsm:Cross", 1))
    assert opened == []
