"""Staff by keys alone: somebody new, marks with their proof, a PIN typed twice, leaving and coming back."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtWidgets import QLineEdit

from app.trade.bench.stages import Mark
from app.trade.refusal import Refusal
from app.work.people.pins import check_pin
from app.work.people.staff import add_staff, rename_staff, staff_card, staff_list
from tests.screens.office.conftest import lines


def card(office, name):
    return next(one for one in staff_list(office.book, former=True) if one.name == name)


def test_the_list_says_who_may_sign_and_who_cannot_yet(office):
    add_staff(office.book, office.shop.ine, "Jun Okeland")
    page = office.open("staff")
    assert lines(page.table) == [
        ["Ine Varloes", "owner", "set"],
        ["Jun Okeland", "", "none yet: cannot sign"],
        ["Mirr Quistan", "", "set"],
        ["Sanna Wickerel", "may test electrical safety until 3\u00a0Mar\u00a02028", "set"],
        ["Tobbe Ruskamp", "", "set"],
    ]


def test_somebody_new_is_added_and_gets_a_pin(office):
    office.open("staff")
    office.push(office.page.add_button)
    office.type("Jun Okeland")
    office.press("Ctrl+Return")
    page = office.page
    assert page.title == "Jun Okeland"
    assert "No PIN yet: this person cannot sign." in office.sees()
    assert "No mark yet" in office.sees()
    assert office.focus is page.pin_button
    office.press("Return")
    form = page.place.form
    assert office.focus is form.present.edit
    assert form.pin.edit.echoMode() == QLineEdit.EchoMode.Password
    office.type(office.shop.pin("ine"))
    office.type_into(form.pin, "1234")
    assert "Everybody tries this one" in form.pin.error()
    office.press("Ctrl+Return")
    assert "Everybody tries this one" in form.pin.error()
    office.type_into(form.pin, "5821")
    office.type_into(form.again, "59")
    assert form.again.error() == "The two are not the same."
    office.press("Ctrl+Return")
    assert office.focus is form.again.edit
    office.type_into(form.again, "5821")
    assert form.again.error() == ""
    office.press("Ctrl+Return")
    assert page.place.form is None
    assert office.desk.drafts.forms() == ()
    check_pin(office.book, page.key, "5821")
    assert page.pin_button.words() == "Set another PIN"
    office.press("Esc")
    assert office.page.title == "Staff"


def test_a_wrong_pin_of_who_sets_it_is_told(office):
    page = office.open("person", office.shop.tobbe)
    office.push(page.pin_button)
    form = page.place.form
    for field, text in ((form.present, "0000"), (form.pin, "5821"), (form.again, "5821")):
        office.type_into(field, text)
    office.press("Ctrl+Return")
    assert form.present.error()
    with pytest.raises(Refusal):
        check_pin(office.book, office.shop.tobbe, "5821")


def test_ones_own_first_pin_needs_no_other(office):
    new = add_staff(office.book, office.shop.ine, "Jun Okeland").value
    office.desk.set_staff(type(office.desk.staff)(new, "Jun Okeland", frozenset()))
    page = office.open("person", new)
    office.push(page.pin_button)
    form = page.place.form
    assert form.present is None
    office.type("5821")
    office.press("Return")
    office.type("5821")
    office.press("Ctrl+Return")
    check_pin(office.book, new, "5821")


def test_a_mark_is_given_with_its_proof_and_ended(office):
    page = office.open("person", office.shop.tobbe)
    office.push(page.give)
    form = page.mark_place.form
    form.proof.setFocus()
    office.press("Ctrl+Return")
    assert form.dated.error() == "Write the day of the proof."
    office.type_into(form.dated, "3 Mar 2026")
    office.press("Ctrl+Return")
    assert form.proof.error()
    office.type_into(form.proof, "course certificate")
    office.type_into(form.proof_from, "Mossgate evening school")
    office.type_into(form.ends, "3 Mar 2029")
    office.press("Ctrl+Return")
    assert lines(page.table) == [
        [
            "may test electrical safety",
            "course certificate",
            "Mossgate evening school",
            "3\u00a0Mar\u00a02026",
            "3\u00a0Mar\u00a02029",
        ]
    ]
    assert card(office, "Tobbe Ruskamp").marks == {Mark.COMPETENT}
    page.table.mark_first()
    office.push(page.end)
    form = page.mark_place.form
    office.type_into(form.ends, "")
    office.press("Ctrl+Return")
    assert form.ends.error() == "Write the last day on which it counts."
    office.type_into(form.ends, "11 Mar 2026")
    office.press("Ctrl+Return")
    assert card(office, "Tobbe Ruskamp").marks == set()
    assert card(office, "Tobbe Ruskamp").proofs[0].ends == date(2026, 3, 11)
    assert "does not count today" in lines(page.table)[0][0]


def test_only_the_owner_gives_marks(office):
    office.works("mirr")
    page = office.open("person", office.shop.tobbe)
    office.push(page.give)
    form = page.mark_place.form
    office.type_into(form.proof, "certificate")
    office.type_into(form.dated, "today")
    office.press("Ctrl+Return")
    assert page.trouble.words.startswith("Only the owner gives and ends marks.")
    office.press("Esc")
    assert page.mark_place.form is None
    assert office.page is page


def test_a_name_is_written_anew(office):
    page = office.open("person", office.shop.tobbe)
    office.push(page.rename)
    assert page.place.form.name.text() == "Tobbe Ruskamp"
    office.type_into(page.place.form.name, "Mirr Quistan")
    office.press("Ctrl+Return")
    assert page.place.form.name.error() == "Mirr Quistan is in the book already."
    office.type_into(page.place.form.name, "Tobbe Ruskamp-Feld")
    office.press("Ctrl+Return")
    assert page.title == "Tobbe Ruskamp-Feld"
    assert office.focus is page.rename


def test_one_leaves_and_comes_back(office):
    page = office.open("person", office.shop.tobbe)
    office.push(page.leave_button)
    assert "Worked here before." in office.sees()
    assert page.leave_button.words() == "Works here again"
    office.open("staff")
    assert "Tobbe Ruskamp" not in str(lines(office.page.table))
    office.push(office.page.turn)
    assert lines(office.page.table)[-2:] == ["Worked here before", ["Tobbe Ruskamp", "", ""]]
    page = office.open("person", office.shop.tobbe)
    office.push(page.leave_button)
    assert card(office, "Tobbe Ruskamp").active


def test_the_only_owner_stays(office):
    page = office.open("person", office.shop.ine)
    office.push(page.leave_button)
    assert page.trouble.isVisible()
    assert card(office, "Ine Varloes").active


def test_a_card_changed_meanwhile_is_read_anew(office):
    page = office.open("person", office.shop.tobbe)
    tobbe = staff_card(office.book, office.shop.tobbe)
    rename_staff(office.book, office.shop.ine, tobbe.id, tobbe.version, "Tobbe R.")
    office.push(page.leave_button)
    assert page.trouble.isVisible()
    assert page.title == "Tobbe R."
    office.push(page.leave_button)
    assert not card(office, "Tobbe R.").active


def test_nobody_at_work_lets_nobody_go(office):
    page = office.open("person", office.shop.tobbe)
    office.desk.set_staff(None)
    office.push(page.leave_button)
    assert "Ctrl+U" in page.trouble.words


def test_nothing_happens_before_the_card_was_read(office):
    page = office.open("person", office.shop.tobbe)
    page.card = None
    for call in (page._rename, page._pin, page._give, page._end, page._leave_or_return):
        call()
    assert page.place.form is None
    assert page.mark_place.form is None


def test_a_name_half_typed_is_kept(office):
    office.open("staff")
    page = office.open("person")
    office.type("Jun Ok")
    office.press("Esc")
    assert office.page.title == "Staff"
    office.window.trail.close_page("person")
    page = office.open("person")
    assert page.place.form.name.text() == "Jun Ok"
