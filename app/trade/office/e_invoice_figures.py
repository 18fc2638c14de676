"""The figures of an e-invoice out of its XML (UN/CEFACT CII), read as data from a stranger.

No document type and so no entity, inside or outside, is let in; size, depth and count of elements are limited.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from xml.parsers import expat

from app.trade.refusal import Refusal
from app.trade.sentence import Sentence

MOST_BYTES = 5 * 1024 * 1024
MOST_ELEMENTS = 200_000  # 500 lines of ours have 13,000
MOST_DEPTH = 40
_CII = "urn:un:unece:uncefact:data:standard:"
_NAMES = {
    "rsm": f"{_CII}CrossIndustryInvoice:100",
    "ram": f"{_CII}ReusableAggregateBusinessInformationEntity:100",
    "udt": f"{_CII}UnqualifiedDataType:100",
}
ROOT = f"{{{_NAMES['rsm']}}}CrossIndustryInvoice"
_AMOUNT = re.compile(r"[+-]?[0-9]{1,20}(?:\.[0-9]{1,12})?|[+-]?\.[0-9]{1,12}")
_SETTLEMENT = "rsm:SupplyChainTradeTransaction/ram:ApplicableHeaderTradeSettlement"
_SUMS = "ram:SpecifiedTradeSettlementHeaderMonetarySummation"


@dataclass(frozen=True)
class LineFigures:
    """A line: its net amount (BT-131), VAT category and rate."""

    net: Decimal
    category: str
    rate: Decimal


@dataclass(frozen=True)
class AdjustmentFigures:
    """A discount or, with ``charge``, a charge on the whole document."""

    amount: Decimal
    charge: bool
    category: str
    rate: Decimal


@dataclass(frozen=True)
class GroupFigures:
    """One VAT breakdown: BT-116, BT-117, BT-118, BT-119."""

    base: Decimal
    tax: Decimal
    category: str
    rate: Decimal


@dataclass(frozen=True)
class Figures:
    """Everything that the sums are checked by; None is a sum that is not there."""

    number: str
    kind: str  # UNTDID 1001: 380 invoice, 381 credit note
    currency: str
    lines: tuple[LineFigures, ...]
    adjustments: tuple[AdjustmentFigures, ...]
    groups: tuple[GroupFigures, ...]
    lines_net: Decimal | None  # BT-106
    discount: Decimal | None  # BT-107
    charge: Decimal | None  # BT-108
    net: Decimal | None  # BT-109
    vat: Decimal | None  # BT-110
    gross: Decimal | None  # BT-112
    prepaid: Decimal | None  # BT-113
    rounding: Decimal | None  # BT-114
    due: Decimal | None  # BT-115


def read_figures(xml: bytes) -> Figures:
    """The figures of an e-invoice. Raises Refusal for what is no such XML, says why."""
    root = parsed(xml)
    if root.tag != ROOT:
        raise Refusal(
            Sentence(
                "This XML is no e-invoice in the form CII: it begins with {name}.", {"name": _local(root.tag)}
            ),
            Sentence("UBL and the older ZUGFeRD 1 cannot be checked here."),
        )
    document = root.find("rsm:ExchangedDocument", _NAMES)
    settlement = root.find(_SETTLEMENT, _NAMES)
    sums = None if settlement is None else settlement.find(_SUMS, _NAMES)
    if document is None or settlement is None or sums is None:
        raise Refusal(Sentence("This e-invoice has no sums to check: a part of it is missing."))
    currency = _text(settlement, "ram:InvoiceCurrencyCode")
    return Figures(
        number=_text(document, "ram:ID"),
        kind=_text(document, "ram:TypeCode"),
        currency=currency,
        lines=tuple(_lines(root)),
        adjustments=tuple(_adjustments(settlement)),
        groups=tuple(_groups(settlement)),
        lines_net=_amount(sums, "ram:LineTotalAmount"),
        discount=_amount(sums, "ram:AllowanceTotalAmount"),
        charge=_amount(sums, "ram:ChargeTotalAmount"),
        net=_amount(sums, "ram:TaxBasisTotalAmount"),
        vat=_vat(sums, currency),
        gross=_amount(sums, "ram:GrandTotalAmount"),
        prepaid=_amount(sums, "ram:TotalPrepaidAmount"),
        rounding=_amount(sums, "ram:RoundingAmount"),
        due=_amount(sums, "ram:DuePayableAmount"),
    )


def parsed(xml: bytes) -> ET.Element:
    """The elements of an XML, without ever looking outside of it. Raises Refusal."""
    if len(xml) > MOST_BYTES:
        raise Refusal(Sentence("This XML is larger than {most} MB.", {"most": MOST_BYTES // 1024 // 1024}))
    builder = ET.TreeBuilder()
    count = depth = 0

    def start(name: str, attributes: dict[str, str]) -> None:
        nonlocal count, depth
        count, depth = count + 1, depth + 1
        if count > MOST_ELEMENTS or depth > MOST_DEPTH:
            raise Refusal(Sentence("This XML is too large or too deep to be an invoice."))
        builder.start(_tag(name), attributes)

    def end(name: str) -> None:
        nonlocal depth
        depth -= 1
        builder.end(_tag(name))

    def refuse(*_: object) -> None:
        raise Refusal(
            Sentence("This XML declares a document type. An e-invoice has none, so it is not read.")
        )

    reader = expat.ParserCreate(namespace_separator=" ")
    reader.StartElementHandler, reader.EndElementHandler = start, end
    reader.CharacterDataHandler = builder.data
    reader.StartDoctypeDeclHandler = refuse
    try:
        reader.Parse(xml, True)
    except (expat.ExpatError, LookupError, ValueError) as error:  # the latter for an encoding that is none
        raise Refusal(
            Sentence(
                "This is no XML: it cannot be read from line {line} on.", {"line": reader.CurrentLineNumber}
            )
        ) from error
    return builder.close()


def _tag(name: str) -> str:
    space, _, local = name.rpartition(" ")
    return f"{{{space}}}{local}" if space else local


def _local(tag: str) -> str:
    return _shown(tag.rpartition("}")[2])


def _text(place: ET.Element, path: str) -> str:
    return _shown(place.findtext(path, "", _NAMES))


def _shown(text: str) -> str:
    """A stranger's text as one short line; what a terminal could take for a command is a question mark."""
    line = " ".join(text.split())[:60]
    return "".join(letter if letter.isprintable() else "?" for letter in line)


def _decimal(element: ET.Element) -> Decimal:
    text = (element.text or "").strip()
    if not _AMOUNT.fullmatch(text):
        raise Refusal(
            Sentence("{name} holds no amount: “{text}”.", {"name": _local(element.tag), "text": _shown(text)})
        )
    return Decimal(text)


def _amount(place: ET.Element, path: str) -> Decimal | None:
    element = place.find(path, _NAMES)
    return None if element is None else _decimal(element)


def _of(place: ET.Element, path: str) -> Decimal:
    return _amount(place, path) or Decimal(0)


def _vat(sums: ET.Element, currency: str) -> Decimal | None:
    """BT-110; a second one in another currency (BT-111) does not count. Where none is named, the first is meant."""
    totals = sums.findall("ram:TaxTotalAmount", _NAMES)
    ours = [t for t in totals if not currency or t.get("currencyID", currency) == currency]
    return _decimal(ours[0]) if ours else None


def _lines(root: ET.Element) -> Iterator[LineFigures]:
    for item in root.iterfind("rsm:SupplyChainTradeTransaction/ram:IncludedSupplyChainTradeLineItem", _NAMES):
        settlement = item.find("ram:SpecifiedLineTradeSettlement", _NAMES)
        if settlement is not None:
            yield LineFigures(
                _of(settlement, "ram:SpecifiedTradeSettlementLineMonetarySummation/ram:LineTotalAmount"),
                _text(settlement, "ram:ApplicableTradeTax/ram:CategoryCode"),
                _of(settlement, "ram:ApplicableTradeTax/ram:RateApplicablePercent"),
            )


def _adjustments(settlement: ET.Element) -> Iterator[AdjustmentFigures]:
    for place in settlement.iterfind("ram:SpecifiedTradeAllowanceCharge", _NAMES):
        yield AdjustmentFigures(
            _of(place, "ram:ActualAmount"),
            _text(place, "ram:ChargeIndicator/udt:Indicator") in ("true", "1"),
            _text(place, "ram:CategoryTradeTax/ram:CategoryCode"),
            _of(place, "ram:CategoryTradeTax/ram:RateApplicablePercent"),
        )


def _groups(settlement: ET.Element) -> Iterator[GroupFigures]:
    for place in settlement.iterfind("ram:ApplicableTradeTax", _NAMES):
        yield GroupFigures(
            _of(place, "ram:BasisAmount"),
            _of(place, "ram:CalculatedAmount"),
            _text(place, "ram:CategoryCode"),
            _of(place, "ram:RateApplicablePercent"),
        )
