"""A record that others name says where, so that it can be taken out there first."""

from __future__ import annotations

from app.trade.bench.kinds import KnowledgeKind
from app.trade.bench.knowledge_uses import row_words, uses_elsewhere, uses_of
from app.trade.sentence import Sentence

RECORDS = {
    KnowledgeKind.LADDER_ROW: {
        "1 B": {"rung": 1, "arrangement": "B", "priors": {"joints": "0.95"}, "changes": ["resolder"]},
        "3 S": {"rung": 3, "arrangement": "S", "priors": {"arm_drag": "0.95"}, "changes": []},
    },
    KnowledgeKind.EVIDENCE: {
        "c1_inner": {"id": "c1_inner"},
        "c1_outer": {"id": "c1_outer", "unless_outside": "c1_inner"},
        "drop": {"id": "drop", "unless_outside": "c1_inner", "words": "dropout passed"},
    },
}
ARM = row_words(RECORDS[KnowledgeKind.LADDER_ROW]["3 S"])


def test_a_suspect_counts_where_it_has_a_weight():
    assert uses_of(KnowledgeKind.SUSPECT, "joints", RECORDS) == (Sentence("rung {rung}", {"rung": 1}),)
    assert uses_of(KnowledgeKind.SUSPECT, "arm_drag", RECORDS) == (ARM,)
    assert uses_of(KnowledgeKind.CHANGE, "resolder", RECORDS) == (Sentence("rung {rung}", {"rung": 1}),)
    assert uses_of(KnowledgeKind.SYMPTOM, "warm", RECORDS) == ()


def test_a_reading_counts_where_it_explains_another():
    found = uses_of(KnowledgeKind.EVIDENCE, "c1_inner", RECORDS)
    assert found == (Sentence("c1_outer"), Sentence("dropout passed"))


def test_a_suspect_that_leaves_an_arrangement_counts_on_its_rows():
    assert uses_elsewhere("arm_drag", "T", RECORDS) == (ARM,)
    assert uses_elsewhere("arm_drag", "S", RECORDS) == ()
    assert uses_elsewhere("arm_drag", "B", RECORDS) == ()
    assert uses_elsewhere("joints", "S", RECORDS) == (Sentence("rung {rung}", {"rung": 1}),)
