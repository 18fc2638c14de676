"""Settings of the account that customers transfer to: they stand on the invoice, in its code and in the e-invoice."""

from __future__ import annotations

from functools import partial

from app.trade.office.bank_account import check_bic, check_iban
from app.trade.sentence import Sentence
from app.trade.settings.setting import TEXT, Group, Setting, at_most

_text = partial(Setting, shape=TEXT, default="", group=Group.MONEY)

IBAN = _text(
    "iban",
    label=Sentence("IBAN"),
    rule=check_iban,
    hint=Sentence(
        "Customers transfer to it. In euro, the invoice carries a code that fills the transfer in."
    ),
)
BIC = _text(
    "bic", label=Sentence("BIC"), rule=check_bic, hint=Sentence("Only needed for transfers from far away.")
)
ACCOUNT_HOLDER = _text(
    "account_holder",
    label=Sentence("Holder of the account"),
    rule=at_most(70),
    hint=Sentence("Empty: the name of the shop."),
)

BANK_SETTINGS = (IBAN, BIC, ACCOUNT_HOLDER)
