"""Settings of what comes after the invoice: reminders, what the guarantee covers, notices to collect."""

from __future__ import annotations

from app.trade.sentence import Sentence, words
from app.trade.settings.setting import CHOICE, PARAGRAPH, WHOLE, Group, Setting, between, paragraph
from app.trade.settings.terms import DAYS

COVERED, NOT_COVERED = "covered", "not covered"

REMIND_WITHIN = Setting(
    "remind_within",
    WHOLE,
    10,
    Sentence("A reminder asks to pay within"),
    Group.MONEY,
    rule=between(1, 120),
    unit=DAYS,
)
REMINDER_WORDS = Setting(
    "reminder_words",
    PARAGRAPH,
    words(
        "Perhaps it slipped your mind: of invoice {invoice}, issued on {issued}, {open} is still open; it was to "
        "be paid by {pay_by}. Please pay it by {new_day}, at the counter or by transfer. If your payment is on "
        "its way already, thank you, and please take no notice of this letter. If something about the invoice is "
        "not right, or you need more time, tell us: we will find a way."
    ),
    Sentence("What a reminder says"),
    Group.MONEY,
    rule=paragraph(900),
    hint=Sentence("{invoice}, {issued}, {pay_by}, {open} and {new_day} are filled in on the paper."),
)
GUARANTEE_MODIFIED = Setting(
    "guarantee_modified",
    CHOICE,
    COVERED,
    Sentence("By the guarantee, a player that we modified is"),
    Group.COUNTER,
    choices=((COVERED, Sentence("covered")), (NOT_COVERED, Sentence("not covered"))),
    hint=Sentence("A modification outside the maker’s design that stays inside. The invoice says it."),
)
GUARANTEE_MODIFIED_WORDS = Setting(
    "guarantee_modified_words",
    PARAGRAPH,
    "",
    Sentence("The guarantee on it, in the shop’s own words"),
    Group.COUNTER,
    rule=paragraph(400),
    hint=Sentence("Empty: the invoice says it in the program’s words."),
)
NOTICE_DAYS = Setting(
    "notice_days",
    WHOLE,
    30,
    Sentence("A notice to collect gives"),
    Group.COUNTER,
    rule=between(1, 3660),
    unit=DAYS,
)
NOTICE_WORDS = Setting(
    "notice_words",
    PARAGRAPH,
    words(
        "Your player has been ready since {ready} and still waits here for you. Please collect it by {collect_by}, "
        "or tell us if you need longer or want it sent. If we do not hear from you by then, we write to you again "
        "before any charge or step that the law allows. Nothing happens to your player by itself."
    ),
    Sentence("What a notice to collect says"),
    Group.COUNTER,
    rule=paragraph(900),
    hint=Sentence("{ready}, {collect_by} and {storage_days} are filled in on the paper."),
)

OWED_SETTINGS = (REMIND_WITHIN, REMINDER_WORDS)
AFTER_SETTINGS = (GUARANTEE_MODIFIED, GUARANTEE_MODIFIED_WORDS, NOTICE_DAYS, NOTICE_WORDS)
