"""IBAN and BIC as people type them."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum import iban as oracle

from app.trade.office.bank_account import LENGTH, check_bic, check_iban, compact, grouped

# Published examples (python-stdnum's own tests and the IBAN registry's specimens, from memory).
GOOD = [
    "GB82 WEST 1234 5698 7654 32",
    "DE89370400440532013000",
    "fr14 2004 1010 0505 0001 3m02 606",
    "NL91ABNA0417164300",
]


@pytest.mark.parametrize("typed", GOOD)
def test_an_iban_is_taken_with_spaces_and_small_letters(typed: str) -> None:
    assert check_iban(typed) is None
    assert oracle.is_valid(typed)
    assert grouped(typed).replace(" ", "") == compact(typed)


def test_nothing_typed_is_no_mistake() -> None:
    assert check_iban(" ") is None
    assert check_bic("") is None


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("12345678", "begins with two letters"),
        ("DE89 3704 0044 0532 0130", "has {wanted} letters"),
        ("GB33 WEST 1234 5698 7654 32", "check digits"),  # python-stdnum's example of a wrong one
        ("DE89 3704 0044 0532 0103 00", "check digits"),  # two figures swapped
    ],
)
def test_a_wrong_iban_is_told_why(typed: str, said: str) -> None:
    wrong = check_iban(typed)
    assert wrong is not None
    assert said in wrong.key


def test_an_iban_of_a_country_that_is_not_listed_is_judged_by_its_check_digits_alone() -> None:
    digits = 98 - int("".join(str(int(c, 36)) for c in "ABCDEFGHIJKLMNO" + "QQ00")) % 97
    assert check_iban(f"QQ{digits:02d}ABCDEFGHIJKLMNO") is None


def test_lengths_are_those_of_the_registry() -> None:
    """Library oracle: the table of python-stdnum 2.2, made from the IBAN registry."""
    lines = (files("stdnum") / "iban.dat").read_text(encoding="utf-8").splitlines()
    found = {}
    for line in lines:
        if matched := re.match(r'([A-Z]{2}) .*bban="([^"]+)"', line):
            found[matched[1]] = 4 + sum(int(n) for n in re.findall(r"(\d+)!?[nac]", matched[2]))
    assert found == LENGTH


@given(st.integers(0, 10**18 - 1), st.integers(4, 21), st.integers(1, 9))
def test_one_wrong_figure_is_always_found(account: int, place: int, more: int) -> None:
    """ISO/IEC 7064: MOD 97-10 finds every single substitution."""
    bban = f"{account:018d}"
    iban = f"DE{oracle.calc_check_digits('DE00' + bban)}{bban}"
    assert check_iban(iban) is None
    other = iban[:place] + str((int(iban[place]) + more) % 10) + iban[place + 1 :]
    assert check_iban(other) is not None


@pytest.mark.parametrize(
    ("typed", "good"), [("XMPLDEFF", True), ("xmpl de ff xxx", True), ("XMPLDEF", False), ("XMPL1EFF", False)]
)
def test_a_bic_has_8_or_11_letters(typed: str, good: bool) -> None:
    assert (check_bic(typed) is None) is good
