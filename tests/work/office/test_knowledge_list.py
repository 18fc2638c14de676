"""The shop edits the bench knowledge: record by record, refused at its field, put back, its former text kept."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app.book.bench.knowledge_data import knowledge_of, shipped_knowledge
from app.book.tables import KnowledgeKept
from app.trade.bench.changes import Grade
from app.trade.bench.kinds import Arrangement, KnowledgeKind
from app.trade.refusal import FieldRefusal, Refusal, StaleRow
from app.trade.sentence import Sentence
from app.work.office.knowledge_list import (
    bring_back,
    former_records,
    knowledge_line,
    knowledge_lines,
    knowledge_lists,
    put_back,
    save_record,
)
from app.work.office.quantity_list import save_quantity
from tests.work.office.test_quantity_list import HUM

ROW, SUSPECT, EVIDENCE, SYMPTOM, CHANGE, RUNG, WEIGHING = KnowledgeKind
PULLEY = {"words": "worn drive pulley", "group": "loading", "arrangement": "B"}


def content(shop, kind, code, **changes):
    return {**knowledge_line(shop.book, kind, code).content, **changes}


def save(shop, kind, code, *, retired=False, version=None, **changes):
    whole = content(shop, kind, code, **changes)
    return save_record(shop.book, shop.ine, kind, code, whole, version=version, retired=retired)


def known(shop):
    with shop.book.ask() as session:
        return knowledge_of(session)


def refused(shop, kind, code, *, retired=False, **changes):
    """The fields that are refused; nothing may be kept then."""
    with pytest.raises(FieldRefusal) as refusal:
        save(shop, kind, code, retired=retired, **changes)
    assert known(shop) is shipped_knowledge()
    return set(refusal.value.fields)


def test_everything_ships_and_nothing_is_changed(shop):
    counts = {kind: len(knowledge_lines(shop.book, kind)) for kind in KnowledgeKind}
    assert counts[ROW] == 22  # rungs 1 and 2 hold on both arrangements
    assert not any(line.changed for kind in KnowledgeKind for line in knowledge_lines(shop.book, kind))
    assert former_records(shop.book, CHANGE, "reseat") == ()
    with pytest.raises(KeyError):
        knowledge_line(shop.book, CHANGE, "nothing of the kind")


def test_a_changed_weight_counts_and_what_it_was_is_kept_with_who_and_when(shop):
    priors = knowledge_line(shop.book, ROW, "11 S").content["priors"]
    save(shop, ROW, "11 S", priors={**priors, "arm_drag": "0.30", "radial_magnet": "0.10"})
    assert str(known(shop).ladder.row(11, Arrangement.SWING_ARM).weights["arm_drag"]) == "0.30"
    (former,) = former_records(shop.book, ROW, "11 S")
    assert former.before.content["priors"] == priors
    assert former.after.content["priors"]["arm_drag"] == "0.30"
    assert (former.by, former.at) == ("Ine Varloes", shop.book.now())


def test_what_equals_what_ships_is_the_shops_no_more(shop):
    save(shop, CHANGE, "reseat", minutes=8)
    line = knowledge_line(shop.book, CHANGE, "reseat")
    assert (line.changed, line.version) == (True, 1)
    put_back(shop.book, shop.ine, CHANGE, "reseat", version=1)
    line = knowledge_line(shop.book, CHANGE, "reseat")
    assert (line.changed, line.retired, line.version) == (False, False, 2)
    assert known(shop) == shipped_knowledge()
    minutes = [former.before.content["minutes"] for former in former_records(shop.book, CHANGE, "reseat")]
    assert minutes == [8, 5]


def test_saving_what_ships_leaves_no_trace(shop):
    save(shop, CHANGE, "reseat")
    assert former_records(shop.book, CHANGE, "reseat") == ()


def test_to_put_a_shipped_record_away_is_not_to_take_it_back(shop):
    save(shop, SYMPTOM, "random", retired=True)
    assert "random" not in known(shop).knowledge.likelihoods.symptoms
    assert "random" not in [line.code for line in knowledge_lines(shop.book, SYMPTOM)]
    line = knowledge_line(shop.book, SYMPTOM, "random")
    assert (line.retired, line.changed, line.content) == (True, True, line.base)
    put_back(shop.book, shop.ine, SYMPTOM, "random", version=line.version)
    assert "random" in known(shop).knowledge.likelihoods.symptoms
    assert [one.before.retired for one in former_records(shop.book, SYMPTOM, "random")] == [True, False]


def test_one_of_the_shops_own_gets_a_code_once(shop):
    code = save_record(shop.book, shop.ine, SUSPECT, "", PULLEY).value
    assert code == "own_worn_drive_pulley"
    assert save_record(shop.book, shop.ine, SUSPECT, "", PULLEY).value == f"{code}_2"
    assert known(shop).ladder.suspects[code].words == "worn drive pulley"
    assert knowledge_lines(shop.book, SUSPECT)[-1].base is None
    assert former_records(shop.book, SUSPECT, code) == ()
    save(shop, SUSPECT, code, words="worn pulley", version=1)
    assert former_records(shop.book, SUSPECT, code)[0].before.content["words"] == "worn drive pulley"
    save(shop, SUSPECT, code, retired=True)
    assert code not in known(shop).ladder.suspects


def test_an_own_suspect_can_be_weighed_and_addressed(shop):
    code = save_record(shop.book, shop.ine, SUSPECT, "", PULLEY).value
    priors = knowledge_line(shop.book, ROW, "2 B").content["priors"]
    save(shop, ROW, "2 B", priors={**priors, "belt": "0.30", code: "0.08"})
    save(shop, CHANGE, "belt", addresses={"belt": "A", code: "B"})
    assert known(shop).knowledge.changes["belt"].addresses[code] is Grade.OFTEN
    with pytest.raises(FieldRefusal) as refusal:
        save(shop, SUSPECT, code, retired=True)
    assert set(refusal.value.fields) == {"retired"}


def test_a_retired_suspect_is_spoken_of_no_more(shop):
    for code, decoder in (("10 S", "0.20"), ("10 T", "0.19")):
        priors = dict(knowledge_line(shop.book, ROW, code).content["priors"])
        del priors["audio_out"]
        save(shop, ROW, code, priors={**priors, "decoder": decoder})
    save(shop, SUSPECT, "audio_out", retired=True)
    assert known(shop).knowledge.changes["audio_fix"].addresses == {}
    assert knowledge_lists(shop.book).records[EVIDENCE]["audio_level"]["outside_low"] == {"decoder": "3"}


def test_a_quantity_that_the_shop_added_may_have_likelihoods(shop):
    save_quantity(shop.book, shop.ine, "own_hum", HUM)
    level = content(shop, EVIDENCE, "audio_level", quantities=["own_hum"])
    code = save_record(shop.book, shop.ine, EVIDENCE, "", level).value
    assert code == "own_own_hum"
    assert known(shop).knowledge.likelihoods.readings[code].quantities == ("own_hum",)
    assert "own_hum" in knowledge_lists(shop.book).quantities


def test_only_the_owner_changes_it(shop):
    reseat = content(shop, CHANGE, "reseat", minutes=8)
    with pytest.raises(Refusal, match="Only the owner"):
        save_record(shop.book, shop.mirr, CHANGE, "reseat", reseat)
    assert known(shop) is shipped_knowledge()


def test_the_second_saver_is_told(shop):
    save(shop, CHANGE, "reseat", minutes=8, version=0)
    with pytest.raises(StaleRow):
        save(shop, CHANGE, "reseat", minutes=9, version=0)


CHANCES = {"cured": "0.2", "better": "0.2", "no_difference": "0.6"}
GRADES = dict.fromkeys("ABC", CHANCES)
NEVER_BETTER = {"cured": "0.2", "better": "0.005", "no_difference": "0.795"}
PRIORS = {"mains_side": "0.95", "other": "0.05"}


@pytest.mark.parametrize(
    ("kind", "code", "changes", "field"),
    [
        (ROW, "1 B", {"priors": {**PRIORS, "logic": "0.01"}}, "priors"),
        (ROW, "1 B", {"priors": {"mains_side": "0.96", "other": "0.04"}}, "priors"),
        (ROW, "1 B", {"priors": {**PRIORS, "nobody": "0.10", "mains_side": "0.85"}}, "priors"),
        (ROW, "1 B", {"priors": {"mains_side": "1.0", "other": "0"}}, "priors"),
        (ROW, "1 B", {"shows": " "}, "shows"),
        (ROW, "1 B", {"caution": "x" * 401}, "caution"),
        (ROW, "1 B", {"readings": [{"quantity": "nothing"}]}, "readings"),
        (ROW, "1 B", {"changes": ["nothing"]}, "changes"),
        (ROW, "1 B", {"rung": 2}, "content"),
        (SUSPECT, "belt", {"words": ""}, "words"),
        (SUSPECT, "belt", {"words": "x" * 81}, "words"),
        (SUSPECT, "belt", {"group": "none"}, "group"),
        (SUSPECT, "joints", {"arrangement": "S"}, "arrangement"),
        (EVIDENCE, "hf_eye", {"quantities": []}, "quantities"),
        (EVIDENCE, "hf_eye", {"quantities": ["nothing"]}, "quantities"),
        (EVIDENCE, "hf_eye", {"quantities": ["hf_eye", "hf_eye"]}, "quantities"),
        (EVIDENCE, "hf_eye", {"minutes": 0}, "minutes"),
        (EVIDENCE, "hf_eye", {"background_high": "1"}, "background_high"),
        (EVIDENCE, "hf_eye", {"background_low": "0"}, "background_low"),
        (EVIDENCE, "hf_eye", {"background_low": "some"}, "background_low"),
        (EVIDENCE, "hf_eye", {"background_low": "0.96"}, "background_high"),
        (EVIDENCE, "hf_eye", {"outside_low": {"disc": "11"}}, "outside_low"),
        (EVIDENCE, "hf_eye", {"outside_high": {"disc": "0.05"}}, "outside_high"),
        (EVIDENCE, "hf_eye", {"outside_low": {"other": "2"}}, "outside_low"),
        (EVIDENCE, "hf_eye", {"outside_low": {"disc": "9"}}, "outside_high"),  # within would be below 0
        (SYMPTOM, "tap", {"background": "0"}, "background"),
        (SYMPTOM, "tap", {"said": {"flex": "11"}}, "said"),
        (SYMPTOM, "tap", {"background": "0.2", "said": {"flex": "8"}}, "said"),  # denied would be below 0
        (CHANGE, "reseat", {"addresses": {"nobody": "A"}}, "addresses"),
        (CHANGE, "reseat", {"addresses": {"flex": "D"}}, "content"),
        (CHANGE, "reseat", {"leaves": "much"}, "leaves"),
        (CHANGE, "reseat", {"leaves": "modification"}, "addresses"),
        (RUNG, "11", {"words": {"B": " "}}, "words.B"),
        (RUNG, "11", {"words": {"B": "x" * 81}}, "words.B"),
        (RUNG, "11", {"stopped": {"B": "It stops.", "S": "x" * 401}}, "stopped.S"),
        (RUNG, "11", {"rung": 13}, "content"),
        (WEIGHING, "weighing", {"ladder_worth": 0}, "ladder_worth"),
        (
            WEIGHING,
            "weighing",
            {"entrants": {"weight": "0.02", "ratio": "4", "most": 3}},
            "entrants.weight",
        ),
        (WEIGHING, "weighing", {"entrants": {"weight": "0.01", "ratio": "0", "most": 4}}, "entrants.ratio"),
        (WEIGHING, "weighing", {"entrants": {"weight": "0.01", "ratio": "4", "most": 99}}, "entrants.most"),
        (WEIGHING, "weighing", {"unaddressed": {**CHANCES, "cured": "0"}}, "unaddressed.cured"),
        (WEIGHING, "weighing", {"grades": {**GRADES, "A": {**CHANCES, "cured": "much"}}}, "A.cured"),
        # Ten times as likely to cure as 6 in 100 is the most.
        (
            WEIGHING,
            "weighing",
            {"grades": {**GRADES, "B": {**CHANCES, "cured": "0.7", "no_difference": "0.1"}}},
            "B.cured",
        ),
        (WEIGHING, "weighing", {"grades": {**GRADES, "C": NEVER_BETTER}}, "C.better"),
    ],
)
def test_what_cannot_be_right_is_refused_at_its_field(shop, kind, code, changes, field):
    assert refused(shop, kind, code, **changes) == {field}


def test_the_refusal_names_a_suspect_in_words(shop):
    with pytest.raises(FieldRefusal) as refusal:
        save(shop, SYMPTOM, "tap", said={"flex": "11"})
    said = refusal.value.fields["said"]
    assert said.values["name"].key == "flex cable or plug, bad contact"


@pytest.mark.parametrize(
    ("kind", "code"),
    [
        (ROW, "1 B"),
        (RUNG, "1"),
        (WEIGHING, "weighing"),
        (SUSPECT, "other"),
        (SUSPECT, "belt"),
        (CHANGE, "clean_lens"),
        (EVIDENCE, "c1_inner"),
    ],
)
def test_what_others_still_name_cannot_be_put_away(shop, kind, code):
    assert refused(shop, kind, code, retired=True) == {"retired"}


def test_a_former_text_is_brought_back_and_the_one_between_is_kept(shop):
    save(shop, CHANGE, "reseat", minutes=8)
    save(shop, CHANGE, "reseat", minutes=12)
    former = former_records(shop.book, CHANGE, "reseat")
    assert [one.before.content["minutes"] for one in former] == [8, 5]
    bring_back(shop.book, shop.ine, former[0].before, version=2)
    assert knowledge_line(shop.book, CHANGE, "reseat").content["minutes"] == 8
    bring_back(shop.book, shop.ine, former[1].before)
    assert not knowledge_line(shop.book, CHANGE, "reseat").changed
    minutes = [one.before.content["minutes"] for one in former_records(shop.book, CHANGE, "reseat")]
    assert minutes == [8, 12, 8, 5]
    with pytest.raises(StaleRow):
        bring_back(shop.book, shop.ine, former[0].before, version=2)


def test_a_record_tells_who_changed_it_last_and_when(shop):
    assert (
        knowledge_line(shop.book, CHANGE, "reseat").by,
        knowledge_line(shop.book, CHANGE, "reseat").at,
    ) == (
        "",
        None,
    )
    save(shop, CHANGE, "reseat", minutes=8)
    code = save_record(shop.book, shop.ine, SUSPECT, "", PULLEY).value
    for kind, key in ((CHANGE, "reseat"), (SUSPECT, code)):
        line = knowledge_line(shop.book, kind, key)
        assert (line.by, line.at) == ("Ine Varloes", shop.book.now())


def test_the_shop_calls_a_rung_as_it_likes(shop):
    save(shop, RUNG, "11", words={"B": "far jump", "S": "far swing"}, stopped={"B": "It hangs on a jump."})
    rung = known(shop).ladder.rung(11)
    assert rung.name(Arrangement.SWING_ARM).key == "far swing"
    assert rung.name(Arrangement.SLED).key == "far jump"
    assert rung.stop(Arrangement.SWING_ARM).key == "It hangs on a jump."
    (former,) = former_records(shop.book, RUNG, "11")
    assert former.before.content["words"] == {"B": "long seek"}


def test_what_an_outcome_says_and_what_the_ladder_is_worth_are_the_shops_to_set(shop):
    grades = knowledge_line(shop.book, WEIGHING, "weighing").content["grades"]
    aims = {"cured": "0.5", "better": "0.25", "no_difference": "0.25"}
    save(shop, WEIGHING, "weighing", ladder_worth=40, grades={**grades, "A": aims})
    likelihoods = known(shop).knowledge.likelihoods
    assert likelihoods.ladder_worth == 40
    assert likelihoods.grades[Grade.AIMS].cured == Fraction(1, 2)
    assert likelihoods.grades[Grade.OFTEN].cured == Fraction(3, 10)
    (former,) = former_records(shop.book, WEIGHING, "weighing")
    assert former.before.content["ladder_worth"] == 20


def test_who_comes_in_from_outside_a_rung_is_the_shops_to_set(shop):
    save(shop, WEIGHING, "weighing", entrants={"weight": "0.02", "ratio": "2.5", "most": 2})
    entrants = known(shop).knowledge.likelihoods.entrants
    assert (entrants.weight, entrants.ratio, entrants.most) == (Fraction(1, 50), Fraction(5, 2), 2)


def test_what_was_kept_before_all_weighing_was_data_has_the_rest_as_it_ships(shop):
    base = knowledge_line(shop.book, WEIGHING, "weighing").content
    early = {key: base[key] for key in ("unaddressed", "grades")} | {"ladder_worth": 30}
    with shop.book.change(shop.ine, Sentence("changed the bench knowledge")) as change:
        change.add(KnowledgeKept(kind=WEIGHING, code="weighing", content=early, retired=False))
    assert known(shop).knowledge.likelihoods.ladder_worth == 30
    assert known(shop).knowledge.likelihoods.entrants.most == 4
    assert knowledge_line(shop.book, WEIGHING, "weighing").content == {**base, "ladder_worth": 30}
    (former,) = former_records(shop.book, WEIGHING, "weighing")
    assert former.after.content["entrants"] == base["entrants"]
