"""All actions with their keys, by menu, and the keys that stand in no menu; searched while typing."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.actions import ACTS, MENUS
from app.screens.desk import Desk
from app.screens.kit.buttons import key_words
from app.screens.kit.cells import Column, Group, Words
from app.screens.kit.cells import Row as TableRow
from app.screens.kit.fields import Field
from app.screens.kit.heading import Heading
from app.screens.kit.rows import RowsModel
from app.screens.kit.table import Table
from app.screens.language import say
from app.screens.page import Page
from app.trade.find.fold import fold
from app.trade.sentence import words

# What fields, forms and lists do by themselves: words, and keys as Qt writes them.
ELSEWHERE: tuple[tuple[str, tuple[tuple[str, tuple[str, ...]], ...]], ...] = (
    (
        words("In a form"),
        (
            (words("Next field"), ("Return", "Tab")),
            (words("Field before"), ("Shift+Tab",)),
            (words("Mark a match, take it"), ("Down", "Return")),
        ),
    ),
    (
        words("In a list"),
        (
            (words("Mark a row"), ("Up", "Down")),
            (words("Open the marked row"), ("Return",)),
            (words("Sort by another column"), ("Ctrl+Left", "Ctrl+Right")),
            (words("Turn the order round"), ("Ctrl+Up", "Ctrl+Down")),
        ),
    ),
    (
        words("On a sheet"),
        ((words("Fold or open a part"), ("Left", "Right")),),
    ),
)


@dataclass(frozen=True)
class KeyLine:
    """One action: the words it stands under, its own words, and its keys as this platform writes them."""

    under: str
    action: str
    keys: str


class KeysPage(Page):
    """Registered as ``keys``, in no place."""

    help_topic = "keys"
    scrolls = False

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.set_title(say("All keys"))
        self.lines = all_keys()
        self.head = Heading(say("All keys"), below=say("{n} actions", n=len(self.lines)))
        self.wanted = Field(say("Look for an action or a key"), hint=say("Action or key"), width=320)
        self.wanted.changed.connect(lambda _: self._show())
        self.wanted.entered.connect(self._to_table)
        self.wanted.edit.stepped.connect(lambda _: self._to_table())
        self.heading.add(self.head, 9, self.wanted, 4)
        self.model = RowsModel((Column("action", say("Action"), width=400), Column("keys", say("Keys"))))
        self.table = Table(say("All keys"), self.model, opens=False)
        self.sheet.set_margins((18, 0, 18, 9))
        self.sheet.add(self.table, stretch=1)
        self._show()

    def arrive(self) -> None:
        self.wanted.setFocus(Qt.FocusReason.OtherFocusReason)

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"leave": self.desk.back}

    def _to_table(self) -> None:
        self.table.setFocus(Qt.FocusReason.TabFocusReason)

    def _show(self) -> None:
        shown = matching(self.lines, self.wanted.text())
        rows: list[TableRow | Group] = []
        under = ""
        for line in shown:
            if line.under != under:
                under = line.under
                rows.append(Group(under))
            rows.append(TableRow(line, (Words(line.action), Words(line.keys, soft=not line.keys))))
        self.model.set_rows(rows)
        self.head.set_below(
            say("{n} actions", n=len(shown)) if shown else say("No action is called so, and no key is.")
        )


def all_keys() -> tuple[KeyLine, ...]:
    """Every action of the menus in their order, then what forms, lists and sheets do by themselves."""
    lines = [
        KeyLine(_plain(say(title)), _plain(say(act.text)), key_words(act.key))
        for menu, title in MENUS
        for act in ACTS
        if act.menu == menu
    ]
    for under, deeds in ELSEWHERE:
        lines += [
            KeyLine(say(under), say(deed), ", ".join(key_words(key) for key in keys)) for deed, keys in deeds
        ]
    return tuple(lines)


def matching(lines: Iterable[KeyLine], wanted: str) -> tuple[KeyLine, ...]:
    """The lines in which every word of ``wanted`` begins a word of the action or its menu, or is a key. What has
    a plus in it is meant as the beginning of a key: ``ctrl+m``."""
    asked = wanted.split()
    found = []
    for line in lines:
        keys = [key.casefold() for key in line.keys.split(", ") if key]
        told = f"{line.under} {line.action} {line.keys}"
        if all(_stands_in(word, told, keys) for word in asked):
            found.append(line)
    return tuple(found)


def _stands_in(word: str, told: str, keys: list[str]) -> bool:
    if "+" in word:
        return any(key.startswith(word.casefold()) for key in keys)
    return any(each.startswith(fold(word)) for each in fold(told).split())


def _plain(text: str) -> str:
    """Words without their mnemonic and without the dots of an action that asks first."""
    return text.replace("&&", "\0").replace("&", "").replace("\0", "&").removesuffix("…")
