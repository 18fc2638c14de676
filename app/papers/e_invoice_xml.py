"""The XML of an e-invoice: EN 16931-1 in the syntax of UN/CEFACT Cross Industry Invoice, as factur-x 1.0 has it."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Iterable
from datetime import date
from decimal import Decimal

from app.papers.e_invoice_facts import EAdjustment, EGroup, EInvoiceFacts, ELine, Party
from app.trade.money import Money

NAMESPACES = {
    "rsm": "urn:un:unece:uncefact:data:standard:CrossIndustryInvoice:100",
    "ram": "urn:un:unece:uncefact:data:standard:ReusableAggregateBusinessInformationEntity:100",
    "udt": "urn:un:unece:uncefact:data:standard:UnqualifiedDataType:100",
    "qdt": "urn:un:unece:uncefact:data:standard:QualifiedDataType:100",
}
GUIDELINE = "urn:cen.eu:en16931:2017"
INVOICE, CREDIT_NOTE = "380", "381"  # UNTDID 1001
SPECIMEN = "SPECIMEN"  # the first note of a shop that is for trying out: nobody shall book or pay it
CREDIT_TRANSFER, SEPA_TRANSFER = "30", "58"  # UNTDID 4461
# Codes for why there is no VAT (the VATEX list of EN 16931), where the category alone says which.
_WHY_CODE = {"AE": "VATEX-EU-AE", "O": "VATEX-EU-O"}
_NOT_IN_XML = frozenset("\ufffe\uffff")  # XML 1.0, Char; surrogates never reach a book
_WITHOUT_REASON = frozenset({"S", "Z"})  # BR-S-10, BR-Z-10


def e_invoice_xml(facts: EInvoiceFacts) -> bytes:
    """The XML in UTF-8. Equal facts give equal bytes."""
    root = ET.Element("rsm:CrossIndustryInvoice", {f"xmlns:{name}": urn for name, urn in NAMESPACES.items()})
    context = _under(root, "rsm:ExchangedDocumentContext")
    _text(_under(context, "ram:GuidelineSpecifiedDocumentContextParameter"), "ram:ID", GUIDELINE)
    document = _under(root, "rsm:ExchangedDocument")
    _text(document, "ram:ID", facts.number)
    _text(document, "ram:TypeCode", CREDIT_NOTE if facts.corrects else INVOICE)
    _day(_under(document, "ram:IssueDateTime"), facts.issued)
    for note in (*((SPECIMEN,) if facts.specimen else ()), *facts.notes):
        _text(_under(document, "ram:IncludedNote"), "ram:Content", note)
    trade = _under(root, "rsm:SupplyChainTradeTransaction")
    for number, line in enumerate(facts.lines, 1):
        _line(_under(trade, "ram:IncludedSupplyChainTradeLineItem"), number, line)
    agreement = _under(trade, "ram:ApplicableHeaderTradeAgreement")
    vat_ids = "O" not in facts.categories  # BR-O-02: outside VAT no VAT number is named
    _party(_under(agreement, "ram:SellerTradeParty"), facts.seller, vat_ids=vat_ids)
    _party(_under(agreement, "ram:BuyerTradeParty"), facts.buyer, vat_ids=vat_ids)
    delivery = _under(trade, "ram:ApplicableHeaderTradeDelivery")
    if facts.delivered:
        event = _under(delivery, "ram:ActualDeliverySupplyChainEvent")
        _day(_under(event, "ram:OccurrenceDateTime"), facts.delivered)
    _settlement(_under(trade, "ram:ApplicableHeaderTradeSettlement"), facts)
    ET.indent(root)
    text = ET.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{text}\n'.encode()


def _under(parent: ET.Element, name: str) -> ET.Element:
    return ET.SubElement(parent, name)


def _text(parent: ET.Element, name: str, text: str, **attributes: str) -> None:
    """An element with its text; nothing where there is none, as no element may be empty (PEPPOL-EN16931-R008)."""
    said = "".join(
        char for char in text if char in "\n\t" or (char >= " " and char not in _NOT_IN_XML)
    ).strip()
    if said:
        ET.SubElement(parent, name, attributes).text = said


def _day(parent: ET.Element, day: date, space: str = "udt") -> None:
    _text(parent, f"{space}:DateTimeString", f"{day:%Y%m%d}", format="102")


def _number(value: Decimal) -> str:
    """Without an exponent, without zeros that say nothing."""
    return format(value.normalize() + 0, "f")


def _amount(parent: ET.Element, name: str, amount: Money, **attributes: str) -> None:
    _text(parent, name, format(amount.amount, "f"), **attributes)


def _tax(parent: ET.Element, category: str, rate: Decimal) -> None:
    _text(parent, "ram:TypeCode", "VAT")
    _text(parent, "ram:CategoryCode", category)
    if category != "O":  # BR-O-05
        _text(parent, "ram:RateApplicablePercent", _number(rate))


def _line(item: ET.Element, number: int, line: ELine) -> None:
    about = _under(item, "ram:AssociatedDocumentLineDocument")
    _text(about, "ram:LineID", str(number))
    if line.note.strip():
        _text(_under(about, "ram:IncludedNote"), "ram:Content", line.note)
    first, _, rest = line.words.partition("\n")
    product = _under(item, "ram:SpecifiedTradeProduct")
    _text(product, "ram:Name", first)
    _text(product, "ram:Description", rest)
    price = _under(_under(item, "ram:SpecifiedLineTradeAgreement"), "ram:NetPriceProductTradePrice")
    _text(price, "ram:ChargeAmount", _number(line.price))
    delivery = _under(item, "ram:SpecifiedLineTradeDelivery")
    _text(delivery, "ram:BilledQuantity", _number(line.quantity), unitCode=line.unit)
    settlement = _under(item, "ram:SpecifiedLineTradeSettlement")
    _tax(_under(settlement, "ram:ApplicableTradeTax"), line.category, line.rate)
    if line.discount and line.discount.minor:
        discount = _under(settlement, "ram:SpecifiedTradeAllowanceCharge")
        _text(_under(discount, "ram:ChargeIndicator"), "udt:Indicator", "false")
        _amount(discount, "ram:ActualAmount", line.discount)
        _text(discount, "ram:Reason", line.discount_reason)
    sums = _under(settlement, "ram:SpecifiedTradeSettlementLineMonetarySummation")
    _amount(sums, "ram:LineTotalAmount", line.net)


def _party(place: ET.Element, party: Party, *, vat_ids: bool) -> None:
    _text(place, "ram:Name", party.name)
    if party.register_number:
        _text(_under(place, "ram:SpecifiedLegalOrganization"), "ram:ID", party.register_number)
    if party.phone or party.email:
        contact = _under(place, "ram:DefinedTradeContact")
        if party.phone:
            _text(_under(contact, "ram:TelephoneUniversalCommunication"), "ram:CompleteNumber", party.phone)
        if party.email:
            _text(_under(contact, "ram:EmailURIUniversalCommunication"), "ram:URIID", party.email)
    address = _under(place, "ram:PostalTradeAddress")
    _text(address, "ram:PostcodeCode", party.postcode)
    for name, street in zip(("LineOne", "LineTwo", "LineThree"), _three(party.street), strict=False):
        _text(address, f"ram:{name}", street)
    _text(address, "ram:CityName", party.city)
    _text(address, "ram:CountryID", party.country)
    if party.email:
        _text(_under(place, "ram:URIUniversalCommunication"), "ram:URIID", party.email, schemeID="EM")
    for number, scheme in ((party.tax_number, "FC"), (party.vat_id if vat_ids else "", "VA")):
        if number:
            _text(_under(place, "ram:SpecifiedTaxRegistration"), "ram:ID", number, schemeID=scheme)


def _three(street: tuple[str, ...]) -> Iterable[str]:
    """At most three lines; what is more stands in the third."""
    return (*street[:2], ", ".join(street[2:]))


def _settlement(place: ET.Element, facts: EInvoiceFacts) -> None:
    _text(place, "ram:PaymentReference", facts.reference)
    _text(place, "ram:InvoiceCurrencyCode", facts.currency)
    if facts.iban:
        means = _under(place, "ram:SpecifiedTradeSettlementPaymentMeans")
        _text(means, "ram:TypeCode", SEPA_TRANSFER if facts.currency == "EUR" else CREDIT_TRANSFER)
        account = _under(means, "ram:PayeePartyCreditorFinancialAccount")
        _text(account, "ram:IBANID", facts.iban)
        _text(account, "ram:AccountName", facts.holder)
        if facts.bic:
            bank = _under(means, "ram:PayeeSpecifiedCreditorFinancialInstitution")
            _text(bank, "ram:BICID", facts.bic)
    for group in facts.groups:
        _group(_under(place, "ram:ApplicableTradeTax"), group)
    for adjustment in facts.adjustments:
        _adjustment(_under(place, "ram:SpecifiedTradeAllowanceCharge"), adjustment)
    if facts.pay_by or facts.terms:
        terms = _under(place, "ram:SpecifiedTradePaymentTerms")
        _text(terms, "ram:Description", facts.terms)
        if facts.pay_by:
            _day(_under(terms, "ram:DueDateDateTime"), facts.pay_by)
    _sums(_under(place, "ram:SpecifiedTradeSettlementHeaderMonetarySummation"), facts)
    if facts.corrects:
        former = _under(place, "ram:InvoiceReferencedDocument")
        _text(former, "ram:IssuerAssignedID", facts.corrects.number)
        _day(_under(former, "ram:FormattedIssueDateTime"), facts.corrects.issued, "qdt")


def _group(tax: ET.Element, group: EGroup) -> None:
    _amount(tax, "ram:CalculatedAmount", group.tax)
    _text(tax, "ram:TypeCode", "VAT")
    if group.category not in _WITHOUT_REASON:
        _text(tax, "ram:ExemptionReason", group.reason)
    _amount(tax, "ram:BasisAmount", group.base)
    _text(tax, "ram:CategoryCode", group.category)
    _text(tax, "ram:ExemptionReasonCode", _WHY_CODE.get(group.category, ""))
    if group.category != "O":
        _text(tax, "ram:RateApplicablePercent", _number(group.rate))


def _adjustment(place: ET.Element, adjustment: EAdjustment) -> None:
    _text(_under(place, "ram:ChargeIndicator"), "udt:Indicator", "true" if adjustment.charge else "false")
    _amount(place, "ram:ActualAmount", adjustment.amount)
    _text(place, "ram:Reason", adjustment.reason)
    _tax(_under(place, "ram:CategoryTradeTax"), adjustment.category, adjustment.rate)


def _sums(place: ET.Element, facts: EInvoiceFacts) -> None:
    discounts = [a.amount.minor for a in facts.adjustments if not a.charge]
    charges = [a.amount.minor for a in facts.adjustments if a.charge]
    _amount(place, "ram:LineTotalAmount", facts.lines_net)
    if charges:
        _amount(place, "ram:ChargeTotalAmount", Money(sum(charges), facts.currency))
    if discounts:
        _amount(place, "ram:AllowanceTotalAmount", Money(sum(discounts), facts.currency))
    _amount(place, "ram:TaxBasisTotalAmount", facts.net)
    _amount(place, "ram:TaxTotalAmount", facts.vat, currencyID=facts.currency)
    if facts.rounding.minor:
        _amount(place, "ram:RoundingAmount", facts.rounding)
    _amount(place, "ram:GrandTotalAmount", facts.gross)
    if facts.prepaid.minor:
        _amount(place, "ram:TotalPrepaidAmount", facts.prepaid)
    _amount(place, "ram:DuePayableAmount", facts.due)
