"""Every action of the program with its menu and its key: one registry, so that no two clash."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

MENUS = (
    ("book", "&Book"),
    ("job", "&Job"),
    ("paper", "&Paper"),
    ("look_up", "&Look up"),
    ("view", "&View"),
    ("help", "&Help"),
)


@dataclass(frozen=True)
class Act:
    """``id`` is what a page serves; ``text`` an English template with its mnemonic; ``key`` portable.

    ``group`` parts the menu by rules; acts with ``choice`` show which one of their group is on.
    """

    id: str
    menu: str
    text: str
    key: str = ""
    group: int = 0
    choice: bool = False


def words(key: str) -> str:
    """Marks an English template that `say` words later."""
    return key


ACTS: tuple[Act, ...] = (
    Act("open_book", "book", words("&Open another book…"), "Ctrl+O"),
    Act("back_up", "book", words("&Back up now"), "Ctrl+B", 1),
    Act("restore", "book", words("&Restore a backup…"), "", 1),
    Act("check_book", "book", words("&Check the book"), "", 1),
    Act("export_book", "book", words("&Export everything…"), "", 1),
    Act("bring_in", "book", words("Bring &in an old list…"), "", 1),
    Act("change_staff", "book", words("Somebody else &works now"), "Ctrl+U", 2),
    Act("settings", "book", words("&Settings"), "Ctrl+,", 2),
    Act("quit", "book", words("Close the boo&k"), "Ctrl+Q", 3),
    Act("take_in", "job", words("&Take in a player"), "Ctrl+N"),
    Act("start_up", "job", words("Record a start-&up test"), "Ctrl+T", 1),
    Act("add_reading", "job", words("Add a &reading"), "Ctrl+R", 1),
    Act("add_trial", "job", words("Add a tr&ial"), "Ctrl+Shift+T", 1),
    Act("add_modification", "job", words("Add a &modification"), "Ctrl+M", 1),
    Act("move_transport", "job", words("Mo&ve a transport"), "Ctrl+Shift+M", 1),
    Act("judge_trial", "job", words("&Judge a trial"), "Ctrl+J", 1),
    Act("case", "job", words("Case &opened or closed"), "Ctrl+Shift+O", 1),
    Act("add_part", "job", words("Add a &part"), "Ctrl+Shift+A", 2),
    Act("add_charge", "job", words("Add a char&ge"), "", 2),
    Act("add_labour", "job", words("Add &working time"), "Ctrl+Shift+W", 2),
    Act("add_message", "job", words("Write down a &call or message"), "Ctrl+Shift+C", 2),
    Act("add_agreement", "job", words("Record the customer's &yes or no"), "Ctrl+Shift+Y", 2),
    Act("add_note", "job", words("Add a &note"), "Ctrl+Shift+N", 2),
    Act("add_file", "job", words("Add a photo or &file…"), "Ctrl+Shift+F", 2),
    Act("safety_test", "job", words("Record the &safety test"), "Ctrl+Shift+S", 3),
    Act("unsafe_request", "job", words("Note an unsafe re&quest"), "", 3),
    Act("findings", "job", words("Wh&at it was"), "Ctrl+Shift+D", 3),
    Act("change_stage", "job", words("Stage and waiting…"), "Ctrl+G", 3),
    Act("make_ready", "job", words("Set rea&dy"), "Ctrl+Shift+R", 3),
    Act("hand_back", "job", words("&Hand back"), "Ctrl+H", 3),
    Act("strike", "job", words("Stri&ke out…"), "Ctrl+Del", 4),
    Act("undo", "job", words("Take the strike-out &back"), "Ctrl+Shift+Z", 4),
    Act("save", "job", words("Sav&e"), "Ctrl+Return", 5),
    Act("leave", "job", words("&Leave, keep the draft"), "Esc", 5),
    Act("print", "paper", words("&Print the paper of this page"), "Ctrl+P"),
    Act("save_paper", "paper", words("&Save the paper as a file…"), "Ctrl+Shift+E"),
    Act("ticket", "paper", words("Intake &ticket"), "", 1),
    Act("bench_tag", "paper", words("&Bench tag"), "", 1),
    Act("estimate", "paper", words("&Estimate"), "", 1),
    Act("invoice", "paper", words("&Invoice"), "Ctrl+I", 1),
    Act("receipt", "paper", words("Hand-back &receipt"), "", 1),
    Act("unsafe_paper", "paper", words("Returned &unrepaired and unsafe"), "", 1),
    Act("find", "look_up", words("&Find"), "Ctrl+F"),
    Act("back", "look_up", words("&Back to the page before"), "Alt+Left"),
    Act("customers", "look_up", words("&Customers"), "Ctrl+Shift+1", 1),
    Act("units", "look_up", words("&Players"), "Ctrl+Shift+2", 1),
    Act("transports", "look_up", words("&Transports"), "Ctrl+Shift+3", 1),
    Act("invoices", "look_up", words("&Invoices"), "Ctrl+Shift+4", 1),
    Act("parts", "look_up", words("Parts in &stock"), "Ctrl+Shift+5", 1),
    Act("comebacks", "look_up", words("&Which repairs come back"), "Ctrl+Shift+B", 1),
    Act("history", "look_up", words("&History"), "Ctrl+Shift+H", 1),
    Act("place_counter", "view", words("&Counter"), "Ctrl+1"),
    Act("place_bench", "view", words("&Bench"), "Ctrl+2"),
    Act("place_office", "view", words("&Office"), "Ctrl+3"),
    Act("scheme_system", "view", words("Light or dark as the &system"), "", 1, True),
    Act("scheme_light", "view", words("&Light"), "", 1, True),
    Act("scheme_dark", "view", words("&Dark"), "", 1, True),
    Act("text_100", "view", words("Text at &100 %"), "Ctrl+0", 2, True),
    Act("text_150", "view", words("Text at 15&0 %"), "", 2, True),
    Act("text_200", "view", words("Text at &200 %"), "", 2, True),
    Act("help_page", "help", words("&Help with this page"), "F1"),
    Act("keys", "help", words("All &keys"), "Ctrl+Shift+K"),
    Act("about", "help", words("&About Spindlebook")),
)

_BY_ID = {act.id: act for act in ACTS}


def act(act_id: str) -> Act:
    """The act of an id."""
    return _BY_ID[act_id]


def key_of(act_id: str) -> str:
    """The key of an act, to be shown soft on a button that does the same."""
    return _BY_ID[act_id].key


def mnemonic(text: str) -> str:
    """The letter after the single ampersand, in lower case; empty when there is none."""
    found = re.search(r"&([^&])", text.replace("&&", ""))
    return found.group(1).casefold() if found else ""


def clashes(acts: Iterable[tuple[Act, str]]) -> list[str]:
    """What clashes among acts and their worded texts: keys in the window, mnemonics in a menu, ids."""
    found: list[str] = []
    keys: dict[str, str] = {}
    letters: dict[tuple[str, str], str] = {}
    ids: set[str] = set()
    for item, text in acts:
        if item.id in ids:
            found.append(f"the id {item.id} twice")
        ids.add(item.id)
        if item.key:
            if item.key in keys:
                found.append(f"{item.key} for {keys[item.key]} and {item.id}")
            keys[item.key] = item.id
        letter = mnemonic(text)
        if letter:
            if (item.menu, letter) in letters:
                found.append(f"{letter} in {item.menu} for {letters[item.menu, letter]} and {item.id}")
            letters[item.menu, letter] = item.id
    return found
