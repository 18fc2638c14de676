"""The registry of actions: no key twice, mnemonics unique in a menu, no bare function key but F1."""

from __future__ import annotations

import re
from datetime import UTC

import pytest
from PySide6.QtGui import QKeySequence

from app.screens.actions import ACTS, MENUS, Act, act, clashes, key_of, mnemonic
from app.work.language import LOCALES, wording_for


@pytest.mark.parametrize("code", LOCALES)
def test_nothing_clashes_in_any_language(code: str) -> None:
    wording = wording_for(code, UTC)
    assert clashes((a, wording(a.text)) for a in ACTS) == []
    letters = [mnemonic(wording(title)) for _, title in MENUS]
    assert all(letters)
    assert len(set(letters)) == len(letters)
    assert all(mnemonic(wording(a.text)) for a in ACTS)


def test_a_clash_is_found() -> None:
    twice = [
        (Act("a", "job", "&Save", "Ctrl+S"), "&Save"),
        (Act("b", "job", "&Stop", "Ctrl+S"), "&Stop"),
        (Act("a", "view", "&Other"), "&Other"),
    ]
    assert clashes(twice) == ["Ctrl+S for a and b", "s in job for a and b", "the id a twice"]


def test_every_action_stands_in_a_menu_that_exists_and_has_a_mnemonic() -> None:
    menus = {menu for menu, _ in MENUS}
    for a in ACTS:
        assert a.menu in menus
        assert mnemonic(a.text), a.id


@pytest.mark.parametrize("a", [a for a in ACTS if a.key], ids=lambda a: a.id)
def test_every_key_is_one_that_qt_reads_and_none_is_bare(a: Act) -> None:
    sequence = QKeySequence(a.key)
    assert not sequence.isEmpty()
    assert sequence.toString(QKeySequence.SequenceFormat.PortableText) == a.key
    if re.fullmatch(r"F\d+", a.key):
        assert a.id == "help_page"
    elif "+" not in a.key:
        assert a.key == "Esc"


def test_the_keys_that_everybody_has_to_know() -> None:
    assert key_of("take_in") == "Ctrl+N"
    assert key_of("print") == "Ctrl+P"
    assert key_of("find") == "Ctrl+F"
    assert key_of("save") == "Ctrl+Return"
    assert key_of("help_page") == "F1"
    assert [key_of(f"place_{p}") for p in ("counter", "bench", "office")] == ["Ctrl+1", "Ctrl+2", "Ctrl+3"]
    assert act("back").menu == "look_up"


def test_a_doubled_ampersand_is_a_letter_and_no_mnemonic() -> None:
    assert mnemonic("Bench && counter") == ""
    assert mnemonic("Save && &print") == "p"
