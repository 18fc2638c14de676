"""Saving an issued invoice or credit note as an e-invoice: asked for, made away from the window, written where one says."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QFileDialog

from app.screens.bench.failures import tell
from app.screens.language import say
from app.screens.page import Page
from app.trade.settings import Group

if TYPE_CHECKING:  # imported with the first e-invoice that is asked for
    from app.work.office.e_invoices import EInvoiceFile


def save_e_invoice(page: Page, paper_id: int, saved: Callable[[str], object]) -> None:
    """Make the e-invoice of a paper and ask where it goes; ``saved`` hears the path. Trouble is told on the page."""
    from app.work.office.e_invoices import e_invoice_pdf

    page.desk.change(
        page,
        partial(e_invoice_pdf, page.desk.book, paper_id),
        partial(_ask_where, page, saved),
        partial(_told, page),
    )


def _told(page: Page, error: Exception) -> None:
    """What is missing, with the ways to where it is entered."""
    from app.work.office.e_invoices import EInvoiceHeld

    if not isinstance(error, EInvoiceHeld):
        tell(page.trouble, error)
        return
    ways: list[tuple[str, Callable[[], object]]] = []
    if error.shop:
        ways.append((say("Open the settings"), partial(page.desk.open, "settings", Group.SHOP.value)))
    if error.customer is not None:
        ways.append((say("Open the customer's card"), partial(page.desk.open, "customer", error.customer)))
    page.trouble.show_trouble(say(error.sentence), " ".join(say(reason) for reason in error.reasons), ways)


def _ask_where(page: Page, saved: Callable[[str], object], file: EInvoiceFile) -> None:
    page.trouble.clear()
    name, _ = QFileDialog.getSaveFileName(page, say("Save as e-invoice"), file.name, say("PDF file (*.pdf)"))
    if not name:
        return
    try:
        Path(name).write_bytes(file.pdf)
    except OSError as error:
        page.trouble.show_trouble(
            say("The file could not be written."),
            say("Choose another folder, or free some space."),
            [(say("Choose another place"), partial(_ask_where, page, saved, file))],
            details=str(error),
        )
        return
    saved(name)
