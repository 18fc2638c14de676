"""What several papers share, as frozen plain values. Nothing here knows the book or the PDF library.

Texts are of two kinds. ``str`` is what a person typed: data, printed letter for letter. ``Sentence`` is what
the program says: worded in the language of the paper. ``Said`` is either. ``Shown`` is a value in a table.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import TypeAlias

from app.papers.facts_json import Frozen
from app.trade.sentence import Measure, Sentence

Said: TypeAlias = Sentence | str
Shown: TypeAlias = Sentence | Measure | Decimal | str


class PaperSize(StrEnum):
    """Sheet of letters and tickets."""

    A4 = "A4"
    LETTER = "Letter"


class TagSize(StrEnum):
    """Label stock for tags: a roll 62 mm wide cut to length, or a sheet label of 70 x 36 mm."""

    ROLL_62 = "roll 62"
    SHEET_70X36 = "70x36"


class FlagLevel(StrEnum):
    """The three levels of a flag, each with its own sign: open circle, triangle, octagon."""

    NOTE = "note"
    CAUTION = "caution"
    STOP = "stop"


class Sign(StrEnum):
    """Our own drawings of the safety signs."""

    GENERAL = "general"
    LASER = "laser"
    ELECTRIC = "electric"
    STATIC = "static"
    HOT = "hot"
    PLUG = "plug"
    CLASS_II = "class II"


@dataclass(frozen=True)
class Shop(Frozen):
    """The letterhead. ``logo`` is PNG or JPEG bytes as base64; empty draws our neutral disc."""

    name: str
    trade_line: str = ""  # "Repairs to disc players"
    address: tuple[str, ...] = ()  # street line, then post code and place
    phone: str = ""
    email: str = ""
    tax_number: str = ""
    vat_id: str = ""
    register_number: str = ""
    bank_lines: tuple[str, ...] = ()  # printed in the foot, letter for letter
    logo: str = ""


@dataclass(frozen=True)
class SheetFacts(Frozen):
    """What every paper is told about its sheet.

    ``language`` is a CLDR name (``en_GB``, ``de``), ``zone`` an IANA zone: with these a filed paper is worded
    again exactly as on its day.
    """

    shop: Shop
    size: PaperSize = PaperSize.A4
    language: str = "en_GB"
    zone: str = "UTC"
    specimen: bool = False  # names, accounts and numbers are invented: said wherever money could follow
    draft: bool = False  # a preview before issue: "draft" lies behind every page


@dataclass(frozen=True)
class Customer(Frozen):
    """Who it is for. ``address`` without the name, at most five lines."""

    name: str
    number: str = ""  # "C 0418"
    address: tuple[str, ...] = ()
    phone: str = ""
    vat_id: str = ""  # on invoices, where the law wants it (reverse charge)


@dataclass(frozen=True)
class Player(Frozen):
    """The unit as papers name it. An empty serial prints as "serial not readable"."""

    name: str  # maker and model: "Quellmar Larch 2"
    serial: str = ""
    looks: str = ""  # "disc player, black"
    mains: Sentence | None = None  # Sentence("class II mains")
    class_ii: bool = False  # draws the square in a square where the paper has room
    transport: str = ""  # type and serial: "Velk A1 no. 55 871"
    transport_kind: Said = ""  # Sentence("swing arm")
    transport_type: str = ""  # short, for labels: "Velk A1"


@dataclass(frozen=True)
class Flag(Frozen):
    """One flag: its sentence begins with the level's word, which the paper adds."""

    level: FlagLevel
    sentence: Said
    short: Said = ""  # one or two words for a small label: Sentence("Disc inside")


@dataclass(frozen=True)
class Caution(Frozen):
    """One safety note. ``id`` is the trade's name for it (laser, mains); ``title`` in Semibold, then ``text``."""

    id: str
    sign: Sign | None
    title: Said
    text: Said


@dataclass(frozen=True)
class Clause(Frozen):
    """A few words in Semibold and the sentence that follows: terms, paragraphs of a finding.

    ``strong_end`` closes it in Semibold again: "Cause not established."
    """

    lead: Said
    text: Said
    strong_end: Said = ""


@dataclass(frozen=True)
class Tick(Frozen):
    """A box with words; ``ticked`` prints it ticked. ``strong`` sets the words in Semibold."""

    text: Said
    ticked: bool = False
    strong: bool = False


@dataclass(frozen=True)
class Row(Frozen):
    """Label at the left, value at the right."""

    label: Said
    value: Shown
