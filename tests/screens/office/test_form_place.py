"""Forms of the money pages: what cannot be right is said at its field, and nothing typed is lost."""

from __future__ import annotations

from functools import partial

from app.trade.office.invoice import LineKind
from app.work.office.estimate_view import estimate_view
from app.work.office.estimates import begin_estimate
from app.work.office.invoice_view import invoice_view
from app.work.office.invoices import issue_invoice

NUMBERS = ("-1", "1e9", "1000000000000", "9" * 300, "1.2.3", "\u202e1", "<b>1</b>", "NaN")
WORDS = ("a\x07b", "\u202eabc", "x\x00")
FULL = "<b>&amp;</b> <img src=/etc/passwd> \u05e9\u05dc\u05d5\u05dd e\u0301 " + "x" * 200


def refused(office, place, opens, good, bad):
    """Each bad value of a field brings a sentence there, and stays with the rest that was typed."""
    for name, values in bad.items():
        opens()
        office.settle()
        form = place.form
        for field, value in good.items():
            form.named[field].set_text(value)
        for value in values:
            form.named[name].set_text(value)
            form.save()
            office.settle()
            assert place.form is form, (name, value)
            assert form.named[name].error(), (name, value)
            assert form.wrong.isHidden()
            others = {field: form.named[field].text() for field in good if field != name}
            assert others == {field: value for field, value in good.items() if field != name}
            assert office.desk.drafts.read(form.key)[name] == form.named[name].text()
            assert form.named[name].text() in (value.strip(), "0.00")  # an amount is written in full
        form.throw_away()


def kept(office, place, opens, good):
    """What is only strange is taken as it stands."""
    opens()
    office.settle()
    form = place.form
    for field, value in good.items():
        form.named[field].set_text(value)
    form.save()
    office.settle()
    assert place.form is None
    assert office.page.trouble.words == ""


def test_the_forms_of_a_draft_say_what_cannot_be_right(office, worked):
    page = office.open("invoice", worked.job)
    lines, money = page.lines, page.money
    charge = partial(lines.add, LineKind.FIXED_CHARGE)
    refused(
        office,
        lines.place,
        charge,
        {"words": "Packing", "quantity": "1", "price": "5"},
        {"words": (*WORDS, ""), "quantity": (*NUMBERS, "0", ""), "price": (*NUMBERS, "")},
    )
    refused(office, lines.place, partial(lines.add, LineKind.TEXT), {}, {"words": (*WORDS, "")})
    for opens in (lines.discount, partial(lines.discount, on_top=True), lines.line_discount):
        refused(
            office,
            lines.place,
            opens,
            {"amount": "1", "reason": "goodwill"},
            {"amount": (*NUMBERS, "0", "", "101 %"), "reason": (*WORDS, "")},
        )
    refused(office, lines.place, lines.no_vat, {}, {"reason": (*WORDS, "")})
    refused(
        office,
        money.place,
        partial(money.open, back=False),
        {"amount": "1.00", "note": "cash"},
        {"amount": (*NUMBERS, "0", ""), "note": WORDS},
    )
    kept(office, lines.place, charge, {"words": FULL, "quantity": "0.000001", "price": "0"})
    kept(office, money.place, partial(money.open, back=False), {"amount": "1", "note": FULL})
    view = invoice_view(worked.book, worked.job)
    assert view.draft.draft.lines[-1].words == FULL.strip()
    assert view.payments[-1].note == FULL.strip()


def test_the_forms_of_an_estimate_say_what_cannot_be_right(office, worked):
    begin_estimate(worked.book, worked.who, worked.job)
    page = office.open("estimate", worked.job)
    options = page.options
    charge = partial(options.add_line, LineKind.FIXED_CHARGE)
    refused(
        office,
        options.place,
        charge,
        {"words": "Cleaning", "quantity": "1", "price": "5"},
        {"words": (*WORDS, ""), "quantity": (*NUMBERS, "0"), "price": (*NUMBERS, "")},
    )
    refused(
        office,
        options.place,
        options.write_words,
        {"title": "mended"},
        {"title": (*WORDS, "x" * 300, ""), "design": WORDS, "never_above": (*NUMBERS, "0")},
    )
    kept(office, options.place, charge, {"words": FULL, "quantity": "1", "price": "0"})
    (option,) = estimate_view(worked.book, worked.job).now.options
    assert option.kept.lines[0].line.words == FULL.strip()
    assert page.paper.pdf.startswith(b"%PDF-")


def test_a_quantity_that_cannot_be_given_back_is_refused_at_its_field(office, worked):
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoice", worked.job)
    page.credit.open()
    form = page.credit.place.form
    form.table.mark(0)
    office.type_into(form.reason, "wrong")
    for typed in (*NUMBERS, "2", "0"):
        form.part.edit.setFocus()
        form.part.set_text(typed)
        form.save()
        office.settle()
        assert form.part.error(), typed
        assert (form.part.text(), form.reason.text()) == (typed, "wrong")
        assert page.credit.place.form is form
