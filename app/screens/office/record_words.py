"""What stands in a record of the bench knowledge, as fields show it and as it is typed: texts, numbers, ratios."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from app.screens.kit.fields import Field
from app.screens.language import number, say
from app.screens.office.pairs_field import PairsField
from app.screens.office.setting_editors import decimal
from app.trade.bench.kinds import KnowledgeKind
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.office.knowledge_list import KnowledgeLists

ARRANGEMENTS = (("B", Sentence("both")), ("S", Sentence("swing arm only")), ("T", Sentence("sled only")))


def shown(key: str, content: Mapping[str, Any], base: Mapping[str, Any]) -> str:
    """Words that still read as they ship stand in the window's language; the shop's own as they were typed."""
    text = str(content.get(key, ""))
    return say(text) if text and text == base.get(key) else text


def said(content: Mapping[str, Any], key: str) -> str:
    """The words of a record in the window's language; one of the shop's own as it was typed."""
    text = str(content.get(key) or "")
    return say(text) if text else ""


def typed(key: str, field: Field, base: Mapping[str, Any]) -> str:
    """The words of a field; those that still read as they ship as they ship."""
    ships = str(base.get(key, ""))
    return ships if ships and field.text() == say(ships) else field.text()


def with_rest(record: dict[str, Any], base: Mapping[str, Any], rest: Mapping[str, Any]) -> dict[str, Any]:
    """The record with what may be missing: an empty value stands only where what ships has one too."""
    return record | {key: value for key, value in rest.items() if value or key in base}


def plain_number(key: str, text: str) -> str:
    """A number as typed, as a record has it. Raises FieldRefusal under ``key``."""
    try:
        return format(decimal(text), "f")
    except Refusal as refusal:
        raise FieldRefusal({key: refusal.sentence}) from refusal


def whole_number(key: str, text: str) -> int:
    """A whole number as typed. Raises FieldRefusal under ``key``."""
    if not text.isascii() or not text.isdigit() or len(text) > 6:
        raise FieldRefusal({key: Sentence("Write a whole number.")})
    return int(text)


def share(key: str, text: str) -> str:
    """Per cent as typed, as the share that a record has. Raises FieldRefusal under ``key``."""
    return format((Decimal(plain_number(key, text)) / 100).normalize() + 0, "f")


def per_cent(plain: Any) -> str:
    """A share as per cent, in the figures of this language; empty for none."""
    return "" if plain in (None, "") else number((Decimal(str(plain)) * 100).normalize() + 0)


def ratio_pairs(spoken: Mapping[str, str]) -> list[tuple[str, str]]:
    """Suspects with their ratio as it is shown."""
    return [(suspect, number(Decimal(ratio))) for suspect, ratio in spoken.items()]


def ratios_told(field: PairsField, spoken: Mapping[str, str]) -> str:
    """Suspects with their ratio in one line."""
    return ", ".join(f"{field.words_of(one)} {ratio}" for one, ratio in ratio_pairs(spoken))


def ratios_of(key: str, field: PairsField) -> dict[str, str]:
    """Suspects with their ratio as a record has it. Raises FieldRefusal under ``key``."""
    return {suspect: plain_number(key, text) for suspect, text in pairs_once(key, field)}


def pairs_once(key: str, field: PairsField) -> list[list[str]]:
    """The pairs, none twice. Raises FieldRefusal under ``key``."""
    value = field.value()
    if len({one for one, _ in value}) != len(value):
        raise FieldRefusal({key: Sentence("One stands there twice.")})
    return value


def suspect_offers(lists: KnowledgeLists, *, other: bool = False) -> list[tuple[str, str]]:
    """The suspects that can be named, by their words; with ``other`` also none of them."""
    found = [
        (code, say(str(record["words"])))
        for code, record in lists.records[KnowledgeKind.SUSPECT].items()
        if other or code != "other"
    ]
    return sorted(found, key=lambda one: one[1].casefold())
