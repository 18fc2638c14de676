"""What the readers of the bench data refuse stands under the field in which it was typed."""

from __future__ import annotations

from app.trade.bench.knowledge_refused import field_refused
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence


def wrong(where, what):
    return Refusal(Sentence("The bench data are wrong at {where}: {what}.", {"where": where, "what": what}))


def test_what_no_field_is_to_blame_for_is_told_as_it_stands():
    for refusal in (
        Refusal(Sentence("Something else.")),
        wrong("rows 3", Sentence("nobody knows {keys}", {"keys": ("x",)})),
    ):
        assert field_refused(refusal, {}).fields == {"content": refusal.sentence}


def test_a_suspect_is_named_in_words_and_numbers_stay():
    what = Sentence("{suspect} is no suspect here", {"suspect": "arm_drag"})
    refused = field_refused(wrong("rows 3, priors", what), {"arm_drag": Sentence("arm bearing")})
    assert refused.fields == {
        "priors": Sentence("“{suspect}” is no suspect here.", {"suspect": Sentence("arm bearing")})
    }
    what = Sentence(
        "{field} is no whole number from {low} to {high}", {"field": "minutes", "low": 1, "high": 600}
    )
    (said,) = field_refused(wrong("changes belt", what), {}).fields.values()
    assert dict(said.values) == {"low": 1, "high": 600}
