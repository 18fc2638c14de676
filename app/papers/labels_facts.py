"""What stands on labels. No customer's name, address or telephone: a label is read by everybody."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from app.papers.facts import Flag, Player, Said, SheetFacts, TagSize
from app.papers.facts_json import Frozen
from app.trade.money import Money


@dataclass(frozen=True)
class BenchTagFacts(Frozen):
    """The tag that stays with the player on the bench.

    The worst flag prints: its sentence on the roll, its short words on the small label.
    """

    sheet: SheetFacts
    job: int
    player: Player
    fault: str  # shortened by the paper: two lines on the roll, one on the small label
    taken_in: date
    size: TagSize = TagSize.ROLL_62
    flags: tuple[Flag, ...] = ()
    promised: date | None = None
    shelf: str = ""
    limit: Money | None = None


@dataclass(frozen=True)
class ModifiedLabelFacts(Frozen):
    """The label inside the cover of a modified player, 70 x 36 mm: what, the factors, how to undo."""

    sheet: SheetFacts
    job: int
    day: date
    what: Said  # "R314: 5.6 Ω in place of 6.8 Ω"
    factors: Said = ""  # "coil current × 1.214, coil heat × 1.474"
    undo: Said = ""  # "fit 6.8 Ω again; read drive and seek"; the label adds "to undo:"
