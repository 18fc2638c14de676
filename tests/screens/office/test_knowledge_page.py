"""Bench knowledge by keys alone: weights that sum, ratios, grades in words, what ships taken back, former texts."""

from __future__ import annotations

import pytest

from app.screens import language
from app.trade.bench.kinds import KnowledgeKind
from app.trade.wording import plain
from app.work.office.knowledge_list import knowledge_line, knowledge_lines, save_record
from app.work.office.quantity_list import save_quantity
from tests.screens.office.conftest import lines
from tests.work.office.test_quantity_list import HUM

PAGES = {
    KnowledgeKind.LADDER_ROW: "ladder_row",
    KnowledgeKind.SUSPECT: "suspect",
    KnowledgeKind.EVIDENCE: "evidence",
    KnowledgeKind.SYMPTOM: "symptom",
    KnowledgeKind.CHANGE: "bench_change",
    KnowledgeKind.RUNG: "rung",
    KnowledgeKind.WEIGHING: "weighing",
}


def pair(field, key):
    """The row of a field in which this is chosen."""
    return next(one for one in field.pairs if one.what.value() == key)


@pytest.mark.parametrize("kind", list(KnowledgeKind))
def test_what_ships_is_shown_and_comes_back_as_it_was(office, kind, often):
    for line in knowledge_lines(office.book, kind)[:: often(4, 1)]:
        page = office.open(PAGES[kind], line.code)
        assert page.title
        assert dict(page.entry().content) == line.content, line.code
        assert page.facts(page.line) == page.facts(page.entry())


def test_the_list_shows_a_kind_at_a_time_and_opens_its_rows(office):
    page = office.open("knowledge")
    shown = lines(page.table)
    assert shown[0].startswith("swing-arm single-beam")
    assert shown[1][0] == "12 plays outer tracks"
    assert page.add_button.isHidden()
    page.choice.setFocus()
    office.press("Right")
    assert page.of is KnowledgeKind.RUNG
    assert lines(page.table)[10][:2] == ["11 long seek", "It plays, but stalls on a long seek."]
    assert page.add_button.isHidden()
    office.press("Right")
    assert page.of is KnowledgeKind.SUSPECT
    assert ["clamp, puck or its foam", "loading", "as it ships", ""] in lines(page.table)
    assert page.add_button.words() == "Add a suspect"
    for _ in range(3):
        office.press("Right")
        assert len(lines(page.table)) > 10
    page.table.setFocus()
    office.press("Return")
    assert office.page.kind == "bench change"


def test_weights_are_told_as_they_are_typed_and_have_to_sum_to_100(office):
    page = office.open("ladder_row", "11 S")
    assert page.weights.sum.text() == "Together 100 %"
    office.type_into(pair(page.weights, "arm_drag").second, "30")
    assert page.weights.sum.text() == page.off.text() == "Together 106 %, 6 % too many"
    assert not page.off.isHidden()
    office.press("Ctrl+Return")
    assert "106" in page.weights.error()
    office.type_into(pair(page.weights, "radial_magnet").second, "10")
    assert page.weights.sum.text() == "Together 100 %"
    assert page.off.isHidden()
    office.press("Ctrl+Return")
    row = knowledge_line(office.book, KnowledgeKind.LADDER_ROW, "11 S")
    assert (row.content["priors"]["arm_drag"], row.changed) == ("0.30", True)


def test_none_of_these_keeps_its_five_per_cent(office):
    page = office.open("ladder_row", "11 S")
    office.type_into(pair(page.weights, "other").second, "4")
    assert page.weights.sum.text() == "Together 99 %, 1 % to give"
    office.type_into(pair(page.weights, "arm_drag").second, "25")
    office.press("Ctrl+Return")
    assert "5 %" in page.weights.error()


def test_a_row_is_added_and_removed_by_keys(office):
    page = office.open("symptom", "tap")
    count = len(page.said.pairs)
    office.push(page.said.add)
    assert len(page.said.pairs) == count + 1
    page.said.pairs[-1].what.set_value("disc")
    office.press("Return")
    office.type("1.5")
    office.push(pair(page.said, "joints").remove)
    office.press("Ctrl+Return")
    said = knowledge_line(office.book, KnowledgeKind.SYMPTOM, "tap").content["said"]
    assert said["disc"] == "1.5"
    assert "joints" not in said


def test_a_ratio_that_would_settle_the_matter_is_refused_at_its_field(office):
    page = office.open("symptom", "tap")
    office.type_into(pair(page.said, "flex").second, "11")
    office.press("Ctrl+Return")
    assert "from 0.1 to 10" in page.said.error()
    assert "flex cable" in page.said.error()
    office.type_into(pair(page.said, "flex").second, "much")
    office.press("Ctrl+Return")
    assert "Write a number" in page.said.error()


def test_the_same_suspect_twice_is_refused(office):
    page = office.open("symptom", "tap")
    page.said.set_value([("flex", "2"), ("flex", "3")])
    office.push(page.save_button)
    assert page.said.error() == "One stands there twice."


def test_a_change_addresses_in_words_and_what_ships_is_taken_back(office):
    page = office.open("bench_change", "reseat")
    flex = pair(page.addresses, "flex")
    assert flex.second.currentText() == "often helps"
    flex.second.set_value("A")
    office.type_into(page.minutes, "8")
    office.press("Ctrl+Return")
    changed = knowledge_line(office.book, KnowledgeKind.CHANGE, "reseat")
    assert (changed.content["addresses"]["flex"], changed.content["minutes"]) == ("A", 8)
    page = office.open("bench_change", "reseat")
    assert "Takes: 5 minutes" in page.former_texts.words
    assert "Ine Varloes" in page.former_texts.words
    office.push(page.take_back)
    assert not knowledge_line(office.book, KnowledgeKind.CHANGE, "reseat").changed
    page = office.open("bench_change", "reseat")
    assert page.take_back.isHidden()
    assert "Takes: 8 minutes" in page.former_texts.words


def test_a_former_text_is_read_and_brought_back_by_keys(office):
    for minutes in ("8", "12"):
        page = office.open("bench_change", "reseat")
        office.type_into(page.minutes, minutes)
        office.press("Ctrl+Return")
    page = office.open("bench_change", "reseat")
    assert page._ships.text().startswith("Changed by Ine Varloes, 12")
    page.former_texts.head.setFocus()
    office.press("Return")
    assert [button.words() for button in page.former_texts.buttons] == ["Bring this back"] * 2
    office.press("Tab")
    assert office.window.focusWidget() is page.former_texts.buttons[0]
    office.press("Return")
    assert knowledge_line(office.book, KnowledgeKind.CHANGE, "reseat").content["minutes"] == 8
    page = office.open("bench_change", "reseat")
    assert "Takes: 12 minutes" in page.former_texts.words
    office.desk.set_staff(None)
    office.push(page.former_texts.buttons[0])
    assert "who works here" in page.trouble.words


def test_a_rung_is_renamed_by_keys_and_the_office_calls_it_so(office):
    page = office.open("rung", "3")
    assert page.title == "3 arm or sled home"
    office.type_into(page.named["words.S"], "arm at rest")
    office.type_into(page.named["stopped.B"], "")
    office.press("Ctrl+Return")
    assert page.named["stopped.B"].error() == "Write something here."
    office.type_into(page.named["stopped.B"], "It does not come home.")
    office.press("Ctrl+Return")
    assert office.open("ladder_row", "3 S").title.startswith("3 arm at rest")
    assert office.open("transport_type", None).unseen.ticks[2].text() == "3 arm at rest / sled home"
    page = office.open("rung", "3")
    assert "arm home" in page.former_texts.words
    office.push(page.take_back)
    assert not knowledge_line(office.book, KnowledgeKind.RUNG, "3").changed


def test_what_an_outcome_says_is_set_by_keys(office):
    page = office.open("weighing", "weighing")
    assert page.rest["B"].text() == "45 % no difference"
    office.type_into(page.named["B.cured"], "80")
    assert page.rest["B"].text() == ""
    office.press("Ctrl+Return")
    assert page.named["B.cured"].error() == "Cured and better together have to be below 100 %."
    office.type_into(page.named["B.cured"], "65")
    assert page.rest["B"].text() == "10 % no difference"
    office.press("Ctrl+Return")
    assert "“cured” has to be from 0.1 to 10 times as likely" in page.named["B.cured"].error()
    office.type_into(page.named["B.cured"], "40")
    office.type_into(page.worth, "many")
    office.press("Ctrl+Return")
    assert page.worth.error() == "Write a whole number."
    office.type_into(page.worth, "30")
    office.press("Ctrl+Return")
    kept = knowledge_line(office.book, KnowledgeKind.WEIGHING, "weighing").content
    assert (kept["ladder_worth"], kept["grades"]["B"]["no_difference"]) == (30, "0.35")
    page = office.open("weighing", "weighing")
    assert "often helps: 30 % cured, 25 % better, 45 % no difference" in page.former_texts.words


def test_who_comes_in_from_outside_a_rung_is_set_by_keys(office):
    page = office.open("weighing", "weighing")
    fields = [page.named[f"entrants.{name}"].text() for name in ("ratio", "weight", "most")]
    assert (fields, page.named["source"].text()) == (["4", "1", "4"], "common practice, no source")
    office.type_into(page.named["entrants.weight"], "2")
    office.press("Ctrl+Return")
    assert page.named["entrants.weight"].error().startswith("All of them together have to take less than")
    office.type_into(page.named["entrants.most"], "2")
    office.type_into(page.named["entrants.ratio"], "0")
    office.press("Ctrl+Return")
    assert page.named["entrants.ratio"].error() == "Write a number from 1 to 1000."
    office.type_into(page.named["entrants.ratio"], "2.5")
    office.type_into(page.named["source"], "our own jobs since 2019")
    office.press("Ctrl+Return")
    kept = knowledge_line(office.book, KnowledgeKind.WEIGHING, "weighing").content
    assert kept["entrants"] == {"weight": "0.02", "ratio": "2.5", "most": 2}
    page = office.open("weighing", "weighing")
    former = page.former_texts.words
    assert "Who is not on the rung: at a ratio of 4 or more, with 1 % of the weights, at most 4" in former
    assert "Source: common practice, no source" in former


def test_a_suspect_of_the_shops_own_is_written_and_put_away(office):
    office.open("suspect", None)
    office.type("worn drive pulley")
    office.press("Ctrl+Return")
    (own,) = [one for one in knowledge_lines(office.book, KnowledgeKind.SUSPECT) if one.base is None]
    assert (own.code, own.content["group"]) == ("own_worn_drive_pulley", "other")
    page = office.open("suspect", own.code)
    page.retired.setFocus()
    office.press("Space")
    office.press("Ctrl+Return")
    page = office.open("knowledge", KnowledgeKind.SUSPECT.value)
    assert "worn drive pulley" not in [line[0] for line in lines(page.table)]
    office.push(page.turn)
    assert lines(page.table)[-1][:3] == ["worn drive pulley", "other", "no longer used"]
    assert lines(page.table)[-1][3].startswith("Ine Varloes 12")


def test_a_suspect_with_a_weight_cannot_be_put_away(office):
    page = office.open("suspect", "audio_out")
    page.retired.setFocus()
    office.press("Space")
    office.press("Ctrl+Return")
    assert office.page is page
    assert "still named at rung 10" in page.trouble.words


def test_a_quantity_of_the_shop_gets_its_likelihoods(office):
    save_quantity(office.book, office.shop.ine, "own_hum", HUM)
    page = office.open("evidence", None)
    page.quantities.set_value(["own_hum"])
    office.type_into(page.family, "sound")
    office.type_into(page.named["background_high"], "5")
    field = page.named["outside_high"]
    office.push(field.add)
    field.pairs[0].what.set_value("audio_out")
    office.press("Return")
    office.type("6")
    office.type_into(page.why, "hum comes from the output")
    office.press("Ctrl+Return")
    (own,) = [one for one in knowledge_lines(office.book, KnowledgeKind.EVIDENCE) if one.base is None]
    assert own.content["outside_high"] == {"audio_out": "6"}
    page = office.open("evidence", own.code)
    assert page.title == "hum on the output"


def test_only_the_owner_may(office):
    office.works("mirr")
    page = office.open("bench_change", "reseat")
    office.type_into(page.minutes, "8")
    office.press("Ctrl+Return")
    assert "Only the owner" in page.trouble.words
    office.desk.set_staff(None)
    office.push(page.save_button)
    assert "who works here" in page.trouble.words


def test_of_two_who_change_one_record_the_second_sees_both(office):
    page = office.open("bench_change", "reseat")
    office.type_into(page.minutes, "8")
    theirs = dict(page.line.content) | {"minutes": 6}
    save_record(office.book, office.shop.ine, KnowledgeKind.CHANGE, "reseat", theirs, version=0)
    office.press("Ctrl+Return")
    assert not page.stale.isHidden()
    assert knowledge_line(office.book, KnowledgeKind.CHANGE, "reseat").content["minutes"] == 6


def test_words_that_ship_are_translated_and_stay_what_ships(office):
    from app.work.language import wording_for

    language.use(wording_for("de", office.book.zone))
    try:
        page = office.open("bench_change", "reseat")
        assert page.words.text() != "plugs and flex reseated"
        assert dict(page.entry().content) == page.line.base
        page = office.open("evidence", "audio_level")
        assert dict(page.entry().content) == page.line.base
    finally:
        language.use(plain(office.book.zone))
