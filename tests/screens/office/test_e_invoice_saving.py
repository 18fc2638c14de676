"""Save as e-invoice on the page of an issued invoice, by keys."""

from __future__ import annotations

import facturx
import pytest

from app.screens.kit.buttons import Button
from app.screens.office import e_invoice_saving
from app.trade.money import MICRO
from app.trade.office.vat import VatCategory
from app.trade.settings import COUNTRY, REGISTER_NUMBER, SHOP_NAME, TAX_NUMBER, VAT_ID
from app.work.office.charges import leave_vat_out
from app.work.office.credit_notes import issue_credit_note
from app.work.office.invoices import issue_invoice
from app.work.office.settings import change_settings


@pytest.fixture
def where(monkeypatch, tmp_path):
    """What the dialog is told; the list keeps the names that it proposed."""
    proposed = []
    answers = [str(tmp_path / "no folder" / "x.pdf"), str(tmp_path / "saved.pdf")]

    def ask(parent, title, name, kinds):
        proposed.append(name)
        return answers.pop(0), kinds

    monkeypatch.setattr(e_invoice_saving.QFileDialog, "getSaveFileName", ask)
    return proposed, tmp_path / "saved.pdf", answers


def test_what_is_missing_leads_to_the_settings_of_the_shop(office, worked, where):
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoice", worked.job)
    office.push(page.e_button)
    assert "This e-invoice cannot be saved yet." in office.sees()
    assert "The shop has no name yet" in office.sees()
    assert where[0] == []
    office.press("Return")
    assert office.page is not page


def test_each_missing_field_is_named_until_it_is_typed(office, worked, where):
    """The sentences stand where the official rules would be broken: tests/papers/test_e_invoice_needs.py."""
    book, who = worked.book, worked.who
    issue_invoice(book, who, worked.job)
    page = office.open("invoice", worked.job)
    steps = (
        ({}, "The shop has no name yet: enter it in the settings under Shop.", 2),
        ({SHOP_NAME: "Lanternfield"}, "The shop has no country yet: enter it in the settings under Shop.", 2),
        ({COUNTRY: "DE"}, "The shop has neither VAT number nor tax number yet: enter one under Shop.", 1),
        (
            {TAX_NUMBER: "12/345/67890"},
            "An e-invoice names the shop by VAT number or number in a register: enter one under Shop.",
            1,
        ),
    )
    for settings, sentence, ways in steps:
        change_settings(book, who, settings)
        office.push(page.e_button)
        assert sentence in office.sees()
        assert ("The customer has no country yet" in office.sees()) is (ways == 2)
        offered = [button.text() for button in page.trouble.findChildren(Button) if button.isVisible()]
        assert offered == [*["Open the settings", "Open the customer's card"][:ways], "Hide this"]
    assert where[0] == []
    where[2][:] = where[2][1:]
    change_settings(book, who, {REGISTER_NUMBER: "HRB 1234"})
    office.push(page.e_button)
    assert where[1].exists()


def test_what_the_customer_lacks_leads_to_the_card(office, worked, where):
    shop = {SHOP_NAME: "Lanternfield", VAT_ID: "DE123456789"}
    change_settings(worked.book, worked.who, shop)
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoice", worked.job)
    office.push(page.e_button)
    office.push(next(b for b in page.trouble.findChildren(Button) if "customer's card" in b.text()))
    assert (type(office.page).__name__, office.page.key) == ("Blank", 1)


def test_it_is_written_where_one_says_and_a_folder_that_is_not_there_is_told(office, worked, where):
    proposed, path, _ = where
    change_settings(
        worked.book, worked.who, {SHOP_NAME: "Lanternfield", COUNTRY: "DE", VAT_ID: "DE123456789"}
    )
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoice", worked.job)
    office.press("Ctrl+Shift+V")
    assert proposed == ["Invoice 0001 e-invoice.pdf"]
    assert "The file could not be written." in office.sees()
    office.press("Return")  # choose another place
    assert f"Saved as {path}" in office.sees()
    name, _ = facturx.get_xml_from_pdf(path.read_bytes(), check_xsd=True)
    assert name == "factur-x.xml"
    assert not page.trouble.isVisible()


def test_a_dialog_that_is_left_writes_nothing(office, worked, where):
    change_settings(
        worked.book, worked.who, {SHOP_NAME: "Lanternfield", COUNTRY: "DE", VAT_ID: "DE123456789"}
    )
    issue_invoice(worked.book, worked.who, worked.job)
    where[2][:] = [""]
    page = office.open("invoice", worked.job)
    office.push(page.e_button)
    assert not where[1].exists()
    assert "Saved" not in office.sees()


@pytest.mark.logs_errors("what is no refusal is told and logged")
def test_what_is_no_refusal_is_told_as_ours(office, worked, where, monkeypatch):
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoice", worked.job)

    def broken(*_):
        raise KeyError("x")

    monkeypatch.setattr("app.work.office.e_invoices.e_invoice_pdf", broken)
    office.push(page.e_button)
    assert "not your doing" in office.sees()


def test_a_credit_note_is_saved_from_the_list_of_them(office, worked, where):
    change_settings(
        worked.book, worked.who, {SHOP_NAME: "Lanternfield", COUNTRY: "DE", VAT_ID: "DE123456789"}
    )
    invoice = issue_invoice(worked.book, worked.who, worked.job).value
    issue_credit_note(worked.book, worked.who, invoice.id, {0: MICRO}, "an hour too much")
    del where[2][0]
    page = office.open("invoice", worked.job)
    office.push(page.credit.save)
    assert where[0] == ["Credit note C-0001 e-invoice.pdf"]
    assert b"factur-x.xml" in where[1].read_bytes()


def test_without_a_credit_note_there_is_none_to_save(office, worked):
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoice", worked.job)
    assert not page.credit.save.isVisible()
    page.credit._save_marked()  # a late key: nothing happens


def test_vat_that_the_customer_owes_asks_for_their_number_before_issue(office, worked):
    leave_vat_out(worked.book, worked.who, worked.job, VatCategory.REVERSE_CHARGE, "The customer owes it.")
    page = office.open("invoice", worked.job)
    assert "enter their VAT number on the card first" in office.sees()
    assert page.issue.words() != "Issue the invoice"


def test_before_it_is_issued_the_key_says_what_comes_first(office, worked, where):
    office.open("invoice", worked.job)
    office.press("Ctrl+Shift+V")
    assert "Issue it first." in office.sees()
    assert where[0] == []
