"""The wording of a language: its catalogue where there is one, English templates where there is none."""

from __future__ import annotations

from datetime import UTC
from decimal import Decimal

from app.work.language import locale_of, wording_for


def test_english_says_the_templates_as_they_stand():
    wording = wording_for("en", UTC)
    assert wording("Take in a player") == "Take in a player"
    assert wording.locale == "en_GB"


def test_german_writes_numbers_its_own_way_by_code_or_locale():
    assert wording_for("de", UTC).number(Decimal("0.82")) == "0,82"
    assert wording_for("de_DE", UTC).locale == "de"


def test_a_language_that_is_not_known_is_english():
    assert locale_of("xx") == "en_GB"
    assert wording_for("xx", UTC)("Take in a player") == "Take in a player"


def test_nothing_stays_nothing_in_every_language():
    # To gettext the empty key is the head of the catalogue (GNU gettext manual, "The Format of PO Files").
    assert wording_for("de", UTC)("") == ""


def test_german_speaks_german():
    assert wording_for("de", UTC)("Take in a player") == "Gerät annehmen"
