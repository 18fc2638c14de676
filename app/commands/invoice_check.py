"""``invoice-check``: works the sums of an e-invoice out anew."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path

from app.commands.command import DONE, FAILED, Surroundings
from app.trade.sentence import words
from app.trade.wording import Wording

HELP = words("work the sums of an e-invoice out anew")
ABOUT = words(
    "Reads an e-invoice, as XML (EN 16931 in the form CII) or as a PDF with that XML inside, and works out every sum "
    "anew, to the cent: lines, discounts, charges, VAT of each rate, total, amount to pay (rules BR-CO-10 to BR-CO-18, "
    "BR-S-08 with its kin, BR-05 and BR-DEC). Names each rule that is broken, and then fails. It needs no book. Whether "
    "all other rules of the standard are kept, this does not say."
)


def arguments(parser: ArgumentParser, wording: Wording) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "file", type=Path, metavar=wording("FILE"), help=wording("the XML or PDF to look through")
    )


def run(around: Surroundings) -> int:
    """Say of each rule whether it is kept, then what is wrong."""
    from app.work.office.e_invoice_check import check_e_invoice  # not for those who only want the window

    wording = around.wording
    checked = check_e_invoice(around.asked.file)
    said = {"number": checked.number, "currency": checked.currency}
    around.tell(
        wording("Credit note {number}, {currency}", **said)
        if checked.credit_note
        else wording("Invoice {number}, {currency}", **said)
    )
    for ruled in checked.rules:
        mark = wording("good") if ruled.broken is None else wording("wrong")
        around.tell(f"{mark:<6} {ruled.rule:<9} {wording(ruled.what)}")
    for sentence in checked.broken:
        around.tell(wording(sentence))
    if checked.broken:
        return FAILED
    around.tell(wording("The sums are right."))
    return DONE
