"""Every action of the program with its menu and its key: one registry, so that no two clash."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from app.trade.sentence import words

MENUS = (
    ("book", words("&Book")),
    ("job", words("&Job")),
    ("record", words("&Record")),
    ("money", words("&Money")),
    ("paper", words("&Paper")),
    ("look_up", words("&Look up")),
    ("view", words("&View")),
    ("help", words("&Help")),
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


ACTS: tuple[Act, ...] = (
    Act("open_book", "book", words("&Open another book…"), "Ctrl+O"),
    Act("back_up", "book", words("&Back up now"), "Ctrl+B", 1),
    Act("restore", "book", words("&Restore a backup…"), "", 1),
    Act("check_book", "book", words("&Check the book"), "", 1),
    Act("export_book", "book", words("&Export everything…"), "", 1),
    Act("change_staff", "book", words("Somebody else &works now"), "Ctrl+U", 2),
    Act("settings", "book", words("&Settings"), "Ctrl+,", 2),
    Act("quit", "book", words("Close the boo&k"), "Ctrl+Q", 3),
    Act("take_in", "job", words("&Take in a player"), "Ctrl+N"),
    Act("promise_such", "job", words("&Promise the day such jobs need"), "Ctrl+D"),
    Act("add_message", "job", words("Write down a &call or message"), "Ctrl+Shift+C", 1),
    Act("add_agreement", "job", words("Record the customer's &yes or no"), "Ctrl+Shift+Y", 1),
    Act("change_stage", "job", words("Sta&ge and waiting…"), "Ctrl+G", 2),
    Act("make_ready", "job", words("Set rea&dy"), "Ctrl+Shift+R", 2),
    Act("hand_back", "job", words("&Hand back"), "Ctrl+H", 2),
    Act("strike", "job", words("Stri&ke out…"), "Ctrl+Del", 3),
    Act("undo", "job", words("Take the strike-out &back"), "Ctrl+Shift+Z", 3),
    Act("save", "job", words("Sav&e"), "Ctrl+Return", 4),
    Act("leave", "job", words("&Leave, keep the draft"), "Esc", 4),
    Act("start_up", "record", words("Start-&up test"), "Ctrl+T"),
    Act("ask_symptoms", "record", words("Ask a&bout the fault"), "Ctrl+Shift+Q"),
    Act("add_reading", "record", words("&Reading"), "Ctrl+R"),
    Act("add_trial", "record", words("&Trial"), "Ctrl+Shift+T"),
    Act("judge_trial", "record", words("What a trial &did"), "Ctrl+J"),
    Act("add_modification", "record", words("&Modification"), "Ctrl+M"),
    Act("move_transport", "record", words("Mo&ve a transport"), "Ctrl+Shift+M", 1),
    Act("findings", "record", words("Wh&at it was"), "Ctrl+Shift+D", 1),
    Act("case", "record", words("Case &opened or closed"), "Ctrl+Shift+O", 2),
    Act("safety_test", "record", words("&Safety test"), "Ctrl+Shift+S", 2),
    Act("unsafe_request", "record", words("Unsafe re&quest"), "", 2),
    Act("add_part", "record", words("&Part used"), "Ctrl+Shift+A", 3),
    Act("order_part", "record", words("Ord&er a part"), "", 3),
    Act("add_labour", "record", words("&Working time"), "Ctrl+Shift+W", 3),
    Act("add_charge", "record", words("Char&ge or discount"), "", 3),
    Act("add_note", "record", words("&Note"), "Ctrl+Shift+N", 4),
    Act("add_file", "record", words("Photo or &file…"), "Ctrl+Shift+F", 4),
    Act("issue", "money", words("&Issue the estimate or invoice"), "Ctrl+Shift+I"),
    Act("take_payment", "money", words("&Take a payment"), "Ctrl+K", 1),
    Act("give_back", "money", words("Give money &back"), "", 1),
    Act("payment_receipt", "money", words("&Receipt for the marked payment"), "", 1),
    Act("credit_note", "money", words("Correct it by a &credit note"), "", 1),
    Act("add_fee", "money", words("Add a &fee"), "", 2),
    Act("add_text", "money", words("Add a te&xt line"), "", 2),
    Act("discount", "money", words("Give a &discount"), "", 2),
    Act("line_discount", "money", words("Discount on the &marked line"), "", 2),
    Act("surcharge", "money", words("Charge on the &whole"), "", 2),
    Act("no_vat", "money", words("Leave &VAT out"), "", 2),
    Act("guarantee", "money", words("Decide about the &guarantee"), "", 2),
    Act("begin_estimate", "money", words("Begin a new &estimate"), "", 3),
    Act("add_option", "money", words("Add an &option"), "", 3),
    Act("give_up", "money", words("Give the estimate &up"), "", 3),
    Act("remind", "money", words("&Print a reminder"), "", 4),
    Act("notice", "money", words("Print a &notice to collect"), "", 4),
    Act("print", "paper", words("&Print the paper of this page"), "Ctrl+P"),
    Act("save_paper", "paper", words("&Save the paper as a file…"), "Ctrl+Shift+E"),
    Act("save_e_invoice", "paper", words("Save as &e-invoice…"), "Ctrl+Shift+V"),
    Act("print_list", "paper", words("Print this &list"), "Ctrl+Shift+P"),
    Act("copy_answer", "paper", words("&Copy tables and picture"), "Ctrl+C"),
    Act("ticket", "paper", words("Intake &ticket"), "", 1),
    Act("bench_tag", "paper", words("&Bench tag"), "", 1),
    Act("estimate", "paper", words("Esti&mate"), "Ctrl+E", 1),
    Act("invoice", "paper", words("&Invoice"), "Ctrl+I", 1),
    Act("receipt", "paper", words("Hand-back &receipt"), "", 1),
    Act("service_report", "paper", words("Ser&vice report"), "", 1),
    Act("unsafe_paper", "paper", words("Returned &unrepaired and unsafe"), "", 1),
    Act("find", "look_up", words("&Find"), "Ctrl+F"),
    Act("back", "look_up", words("&Back to the page before"), "Alt+Left"),
    Act("customers", "look_up", words("&Customers"), "Ctrl+Shift+1", 1),
    Act("units", "look_up", words("&Players"), "Ctrl+Shift+2", 1),
    Act("transports", "look_up", words("&Transports"), "Ctrl+Shift+3", 1),
    Act("invoices", "look_up", words("&Invoices"), "Ctrl+Shift+4", 1),
    Act("open_items", "look_up", words("&Open items"), "", 1),
    Act("takings", "look_up", words("Ta&kings of a day"), "", 1),
    Act("uncollected", "look_up", words("&Not collected"), "", 1),
    Act("parts", "look_up", words("Parts in &stock"), "Ctrl+Shift+5", 1),
    Act("history", "look_up", words("&History"), "Ctrl+Shift+H", 1),
    Act("comeback-rate", "look_up", words("&Which repairs come back"), "Ctrl+Shift+B", 2),
    Act("how-long", "look_up", words("How &long repairs last"), "", 2),
    Act("keep-coming", "look_up", words("Which play&ers keep coming"), "", 2),
    Act("over-time", "look_up", words("Bette&r or worse over time"), "", 2),
    Act("what-fails", "look_up", words("What f&ails on what"), "", 2),
    Act("after-modification", "look_up", words("After a mo&dification"), "", 2),
    Act("cost", "look_up", words("What co&mebacks cost"), "", 2),
    Act("shop", "look_up", words("How the shop &goes"), "", 2),
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
