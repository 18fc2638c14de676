"""The settings by keys alone: every group opens, is checked while it is typed, is saved, and nothing is overwritten."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.book.changes import Changes
from app.trade.money import MICRO
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings import (
    ADDRESS_LINES,
    CITY,
    CLOSED_DAYS,
    COUNTRY,
    FLAG_COIL_UP,
    GUARANTEE_WORDS,
    HOURLY_RATE,
    LANGUAGE,
    NO_ANSWER_DAYS,
    OPEN_DAYS,
    PRICES_WITH_VAT,
    SAFETY_STANDARD,
    SETTINGS,
    SHOP_NAME,
    SPECIMEN,
    TERMS,
    TIME_ZONE,
    VAT_RATES,
    Group,
)
from app.work.office.settings import change_settings, shop_settings


def field(page, setting):
    """What is typed into."""
    editor = page.editors[setting]
    return getattr(editor, "field", None) or getattr(editor, "area", None) or editor


def save(office, page):
    page.form.first()
    office.press("Ctrl+Return")


@pytest.mark.parametrize("group", list(Group))
def test_every_group_shows_what_the_book_has_and_saves_nothing_untouched(office, group):
    page = office.open("settings", group.value)
    assert next(iter(page.editors.values())).isAncestorOf(office.focus)  # typing begins in the first of them
    now = shop_settings(office.book)
    assert {s.key for s in page.editors} == {s.key for s in SETTINGS.values() if s.group is group}
    assert {s.key: e.value() for s, e in page.editors.items()} == {s.key: now[s] for s in page.editors}
    office.press("Ctrl+Return")
    assert "Nothing was changed." in office.sees()
    assert shop_settings(office.book) == now
    assert office.desk.drafts.forms() == ()
    page.fill(page.values())
    assert page.wanted() == {}


def test_each_kind_of_value_is_kept_as_typed(office):
    page = office.open("settings")
    office.type_into(field(page, SHOP_NAME), "Lanternfield Workshop")
    field(page, ADDRESS_LINES).setFocus()
    office.type("Amber Lane 4")
    office.press("Return")
    office.type("Yard")
    office.press("Ctrl+Return")
    now = shop_settings(office.book)
    assert now[SHOP_NAME] == "Lanternfield Workshop"
    assert now[ADDRESS_LINES] == ("Amber Lane 4", "Yard")
    assert "Saved." in office.sees()
    assert office.desk.drafts.forms() == ()


def test_prices_yes_and_no_and_numbers(office):
    page = office.open("settings", "money")
    office.type_into(field(page, HOURLY_RATE), "64,50")
    page.editors[PRICES_WITH_VAT].tick.setFocus()
    office.press("Space")
    office.press("Ctrl+Return")
    now = shop_settings(office.book)
    assert (now[HOURLY_RATE], now[PRICES_WITH_VAT]) == (64_500_000, True)
    page = office.open("settings", "bench")
    office.type_into(field(page, FLAG_COIL_UP), "1,08")
    office.press("Ctrl+Return")
    assert shop_settings(office.book)[FLAG_COIL_UP] == Decimal("1.08")
    page = office.open("settings", "papers")
    page.editors[LANGUAGE].setFocus()
    office.press("Right")
    page.editors[SPECIMEN].tick.setChecked(True)
    office.press("Ctrl+Return")
    assert (shop_settings(office.book)[LANGUAGE], shop_settings(office.book)[SPECIMEN]) == ("de", True)


def test_what_cannot_be_right_is_said_while_it_is_typed(office):
    page = office.open("settings", "calendar")
    zone = field(page, TIME_ZONE)
    office.type_into(zone, "Nowhere/Atall")
    assert page.editors[TIME_ZONE].error()
    office.press("Ctrl+Return")
    assert shop_settings(office.book)[TIME_ZONE] == "Europe/Berlin"
    assert office.focus is zone.edit
    office.type_into(zone, "Asia/Tokyo")
    assert not page.editors[TIME_ZONE].error()
    office.press("Ctrl+Return")
    assert shop_settings(office.book)[TIME_ZONE] == "Asia/Tokyo"
    page = office.open("settings", "money")
    for typed, said in (
        ("many", "write the number alone"),
        ("-3", "without a minus"),
        ("9999999", "too high"),
    ):
        office.type_into(field(page, HOURLY_RATE), typed)
        assert said in page.editors[HOURLY_RATE].error()
    office.press("Ctrl+Return")
    assert shop_settings(office.book)[HOURLY_RATE] == 0
    page = office.open("settings", "counter")
    office.type_into(field(page, NO_ANSWER_DAYS), "2.5")
    assert page.editors[NO_ANSWER_DAYS].error() == "Write a whole number."


def test_shipped_words_stay_shipped_unless_they_are_changed(office):
    page = office.open("settings", "counter")
    area = field(page, GUARANTEE_WORDS)
    assert page.editors[GUARANTEE_WORDS].value() == GUARANTEE_WORDS.default
    area.setFocus()
    office.type("Ask us. ")
    assert page.editors[GUARANTEE_WORDS].value() != GUARANTEE_WORDS.default
    office.press("Ctrl+Return")
    assert shop_settings(office.book)[GUARANTEE_WORDS].startswith("Ask us. ")


def test_weekdays_are_boxes(office):
    page = office.open("settings", "calendar")
    ticks = page.editors[OPEN_DAYS].ticks
    assert [tick.text() for tick in ticks][:2] == ["Monday", "Tuesday"]
    assert ticks[0].accessibleName().endswith(": Monday")
    ticks[5].setFocus()
    before = ticks[5].isChecked()
    office.press("Space")
    office.press("Ctrl+Return")
    assert (6 in shop_settings(office.book)[OPEN_DAYS]) is not before


def test_only_the_owner_changes_what_is_the_owners(office):
    office.works("mirr")
    page = office.open("settings", "money")
    assert "Only the owner changes these settings. Ask the owner to take over with Ctrl+U." in office.sees()
    assert not page.save_button.isVisible()
    assert field(page, HOURLY_RATE).edit.isReadOnly()
    page.save()
    page = office.open("settings", "counter")
    assert "What stands in a dashed frame only the owner changes." in office.sees()
    office.type_into(field(page, NO_ANSWER_DAYS), "9")
    office.press("Ctrl+Return")
    assert shop_settings(office.book)[NO_ANSWER_DAYS] == 9
    office.works("ine", "owner")
    office.settle()
    assert not field(page, GUARANTEE_WORDS).isReadOnly()
    assert "dashed frame" not in office.sees()


def test_nobody_at_work_saves_nothing(office):
    page = office.open("settings", "calendar")
    office.desk.set_staff(None)
    office.type_into(page.editors[OPEN_DAYS].ticks[0], "")
    page.editors[OPEN_DAYS].ticks[0].setChecked(False)
    page.save()
    assert "Ctrl+U" in page.trouble.words


def test_what_was_half_typed_stands_there_again(office):
    office.open("settings", "money")
    page = office.open("settings")
    office.type_into(field(page, SHOP_NAME), "Lantern")
    office.press("Esc")
    assert office.page is not page
    office.window.trail.close_page("settings", None)
    page = office.open("settings")
    assert field(page, SHOP_NAME).text() == "Lantern"
    assert "Taken from the draft that was kept." in office.sees()
    office.press("Ctrl+Return")
    assert shop_settings(office.book)[SHOP_NAME] == "Lantern"


def both(office, page):
    """Somebody else saves another name while ours is typed."""
    office.type_into(field(page, SHOP_NAME), "Lanternfield")
    office.type_into(field(page, CITY), "Mossgate")
    office.desk.announce(
        change_settings(office.book, office.shop.ine, {SHOP_NAME: "Lantern & Field", COUNTRY: "DE"}).changes
    )
    office.settle()
    assert field(page, SHOP_NAME).text() == "Lanternfield"  # what is being typed stays
    office.press("Ctrl+Return")
    assert page.stale.isVisible()


def test_two_values_stand_side_by_side_and_ours_can_be_saved(office):
    page = office.open("settings")
    both(office, page)
    (row,) = page.stale.rows
    assert (row.what, row.mine, row.theirs) == ("Name of the shop", "Lanternfield", "Lantern & Field")
    assert shop_settings(office.book)[CITY] == ""  # nothing was saved yet
    assert office.focus is page.stale.keep
    office.press("Return")
    now = shop_settings(office.book)
    assert (now[SHOP_NAME], now[CITY], now[COUNTRY]) == ("Lanternfield", "Mossgate", "DE")
    assert not page.stale.isVisible()


def test_or_theirs_is_taken_and_the_rest_stays_typed(office):
    page = office.open("settings")
    both(office, page)
    office.push(page.stale.take)
    assert field(page, SHOP_NAME).text() == "Lantern & Field"
    assert field(page, CITY).text() == "Mossgate"
    office.press("Ctrl+Return")
    now = shop_settings(office.book)
    assert (now[SHOP_NAME], now[CITY], now[COUNTRY]) == ("Lantern & Field", "Mossgate", "DE")


def test_what_cannot_be_read_stays_typed_while_theirs_is_taken(office):
    page = office.open("settings", "counter")
    area = field(page, GUARANTEE_WORDS)
    area.setFocus()
    office.type("Ask us. ")
    change_settings(office.book, office.shop.ine, {GUARANTEE_WORDS: "Ask them.", NO_ANSWER_DAYS: 3})
    page.save()
    office.settle()
    office.type_into(field(page, NO_ANSWER_DAYS), "x")
    office.push(page.stale.take)
    assert area.text() == "Ask them."
    assert field(page, NO_ANSWER_DAYS).text() == "x"
    office.press("Ctrl+Return")
    assert page.editors[NO_ANSWER_DAYS].error() == "Write a whole number."


def test_what_the_book_refuses_is_told(office):
    page = office.open("settings")
    office.type_into(field(page, SHOP_NAME), "Lantern")
    page._not_saved(FieldRefusal({"city": Sentence("No such town.")}))
    assert page.editors[CITY].error() == "No such town."
    page._not_saved(Refusal(Sentence("Only the owner changes this.")))
    assert page.trouble.words.startswith("Only the owner changes this.")
    office.desk.announce(Changes(kinds=frozenset({"jobs"})))
    assert field(page, SHOP_NAME).text() == "Lantern"


def test_settings_changed_elsewhere_are_shown_where_nothing_is_typed(office):
    page = office.open("settings")
    office.desk.announce(change_settings(office.book, office.shop.ine, {SHOP_NAME: "Lantern"}).changes)
    office.settle()
    assert field(page, SHOP_NAME).text() == "Lantern"


def test_the_groups_are_a_step_apart(office):
    page = office.open("settings")
    page.groups.setFocus()
    office.press("Right")
    assert office.page.title == "Settings: Counter"
    assert page.groups.value() is Group.SHOP


# lists


def test_vat_rates_are_added_checked_and_removed(office):
    page = office.open("settings", "money")
    rates = page.editors[VAT_RATES]
    office.push(rates.add)
    assert office.focus is rates.lines[2].rate.edit
    assert rates.error()
    office.type("0")
    assert "needs its reason" in rates.error()
    rates.lines[2].kind.set_value("exempt")
    assert rates.lines[2].reason.isVisible()
    office.type_into(rates.lines[2].reason, "small business")
    assert rates.error() == ""
    office.push(rates.lines[1].remove)
    assert office.focus is rates.add
    office.press("Ctrl+Return")
    kept = shop_settings(office.book)[VAT_RATES]
    assert [(rate.rate, rate.category.value, rate.reason) for rate in kept] == [
        (1900, "standard", ""),
        (0, "exempt", "small business"),
    ]
    draft = rates.draft()
    rates.put_draft(draft)
    assert rates.draft() == draft
    assert rates.lines[1].reason.text() == "small business"


def test_closed_days_are_one_day_or_weeks(office):
    page = office.open("settings", "calendar")
    days = page.editors[CLOSED_DAYS]
    office.push(days.add)
    assert days.error()
    office.type("24 Dec")
    office.press("Return")
    office.press("Return")
    office.type("Holiday")
    office.push(days.add)
    office.type_into(days.lines[1].first, "3 Aug")
    office.type_into(days.lines[1].last, "no day")
    assert "No day can be read" in days.error()
    draft = days.draft()
    office.type_into(days.lines[1].last, "21 Aug")
    office.press("Ctrl+Return")
    kept = shop_settings(office.book)[CLOSED_DAYS]
    assert [(c.first.isoformat(), c.last.isoformat(), c.words) for c in kept] == [
        ("2026-12-24", "2026-12-24", "Holiday"),
        ("2026-08-03", "2026-08-21", ""),
    ]
    days.put_draft(draft)
    assert days.lines[1].last.text() == "no day"


def test_terms_keep_reading_as_they_shipped(office):
    page = office.open("settings", "counter")
    terms = page.editors[TERMS]
    assert terms.value() == TERMS.default
    office.push(terms.lines[0].remove)
    office.push(terms.add)
    office.type("Storage")
    terms.lines[-1].text.setFocus()
    office.type("Two weeks are free.")
    office.press("Ctrl+Return")
    kept = shop_settings(office.book)[TERMS]
    assert kept[:-1] == TERMS.default[1:]
    assert (kept[-1].lead, kept[-1].text) == ("Storage", "Two weeks are free.")


def test_lists_that_are_only_read_have_no_links(office):
    office.works("mirr")
    page = office.open("settings", "money")
    rates = page.editors[VAT_RATES]
    assert not rates.add.isVisible()
    assert not rates.lines[0].remove.isVisible()


# the safety standard


def test_the_figures_proposed_are_taken_and_can_be_put_right(office):
    page = office.open("settings", "safety")
    safety = page.editors[SAFETY_STANDARD]
    assert not safety.value().named
    office.type_into(safety.fields["standard"], "EN 50678")
    office.type_into(safety.fields["edition"], "2020")
    office.push(safety.propose)
    assert safety.fields["base_ohm"].text()
    office.type_into(safety.fields["touch_current"], "0,25")
    office.press("Ctrl+Return")
    kept = shop_settings(office.book)[SAFETY_STANDARD]
    assert (kept.standard, kept.edition) == ("EN 50678", "2020")
    assert kept.touch_current == Decimal("0.00025")
    assert kept.protective_conductor is not None
    draft = safety.draft()
    safety.put_draft({**draft, "unknown": "1"})
    assert safety.draft() == draft


def test_the_protective_conductor_has_all_its_figures_or_none(office):
    page = office.open("settings", "safety")
    safety = page.editors[SAFETY_STANDARD]
    office.push(safety.propose)
    assert "Enter the standard and its edition" in safety.error()
    office.type_into(safety.fields["standard"], "EN 50678")
    office.type_into(safety.fields["edition"], "2020")
    for name in ("base_metres", "more_ohm", "more_metres", "most_ohm"):
        office.type_into(safety.fields[name], "")
    assert "all five figures" in safety.error()
    office.push(safety.propose)
    assert safety.error() == ""
    office.type_into(safety.fields["base_ohm"], "x")
    assert "Write a number" in safety.error()
    office.type_into(safety.fields["base_ohm"], "0.3")
    office.type_into(safety.fields["more_metres"], "0")
    assert safety.error() == "These figures cannot be a limit."


def test_the_standard_is_only_read_by_the_others(office):
    office.works("mirr")
    page = office.open("settings", "safety")
    safety = page.editors[SAFETY_STANDARD]
    assert safety.fields["standard"].edit.isReadOnly()
    assert not safety.propose.isVisible()


def test_an_hour_costs_what_was_typed(office):
    change_settings(office.book, office.shop.ine, {HOURLY_RATE: 64 * MICRO})
    page = office.open("settings", "money")
    assert field(page, HOURLY_RATE).text() == "64.00"
