"""A comeback within the guarantee on the invoice page: proposed with its reason, decided by keys alone."""

from __future__ import annotations

import pytest

from app.work.office.guarantees import guarantee_view
from tests.screens.office.conftest import sums
from tests.work.office.test_guarantees import back  # noqa: F401  # fixture


@pytest.fixture
def page(office, back):  # noqa: F811
    return office.open("invoice", back.job)


def test_a_first_visit_shows_no_guarantee(office, worked):
    page = office.open("invoice", worked.job)
    assert page.guarantee.isHidden()


def test_the_proposal_stands_with_its_reason_and_changes_nothing(office, page):
    said = office.sees(page.guarantee)
    assert "within the guarantee of job 1001, to 8\u00a0Sept\u00a02026" in said
    assert "Proposed: no-charge invoice." in said
    assert "Nothing is decided yet" in said
    assert sums(page)["Still to pay" if "Still to pay" in sums(page) else "To pay"] == 3808


def test_as_proposed_it_costs_the_customer_nothing(office, page, back):  # noqa: F811
    office.push(page.guarantee.decide)
    office.press("Ctrl+Return")
    assert page.guarantee.place.form is None
    assert "Decided: no-charge invoice" in office.sees(page.guarantee)
    assert page.guarantee.decide.words() == "Decide anew"
    assert page.view.draft.totals.due.minor == 0


def test_another_decision_asks_for_its_reason_and_keeps_what_was_typed(office, page, back):  # noqa: F811
    office.push(page.guarantee.decide)
    form = page.guarantee.place.form
    form.answer.set_value("charged as usual")
    office.press("Ctrl+Return")
    assert "otherwise than proposed" in form.reason.error()
    office.type_into(form.reason, "A coin was inside.")
    office.press("Esc")
    assert page.guarantee.place.form is None
    office.push(page.guarantee.decide)
    form = page.guarantee.place.form
    assert (form.answer.value(), form.reason.text()) == ("charged as usual", "A coin was inside.")
    form.focus_first()
    office.press("Ctrl+Return")
    view = guarantee_view(back.book, back.job)
    assert view is not None
    assert view.answered is not None
    assert view.answered.reason == "A coin was inside."
    assert "Reason: A coin was inside." in office.sees(page.guarantee)


def test_a_decision_half_typed_stands_open_when_the_page_comes_again(office, back):  # noqa: F811
    office.desk.drafts.keep(f"guarantee {back.job}", {"reason": "A coin"})
    page = office.open("invoice", back.job)
    assert page.guarantee.place.form.reason.text() == "A coin"
