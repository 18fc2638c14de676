"""Postal addresses as lines for the window of an envelope."""

from __future__ import annotations

from dataclasses import dataclass

# Where the postcode stands behind the town, or on a line of its own (from memory of the postal guides;
# elsewhere "postcode town" on one line is the common form).
_TOWN_THEN_CODE = frozenset({"US", "CA", "AU", "NZ", "IN"})
_CODE_ON_ITS_OWN = frozenset({"GB", "IE"})


@dataclass(frozen=True)
class Address:
    """``street`` may hold several lines. ``country`` is ISO 3166 alpha-2; empty means the shop's own."""

    name: str
    street: str = ""
    postcode: str = ""
    city: str = ""
    country: str = ""


def _one_line(text: str) -> str:
    return " ".join(text.split())


def town_lines(postcode: str, city: str, country: str) -> tuple[str, ...]:
    """Town and postcode in the order of the country that the letter goes to."""
    code, town = _one_line(postcode), _one_line(city)
    if country in _CODE_ON_ITS_OWN:
        return tuple(line for line in (town, code) if line)
    parts = (town, code) if country in _TOWN_THEN_CODE else (code, town)
    line = " ".join(part for part in parts if part)
    return (line,) if line else ()


def window_lines(address: Address, home: str, abroad: str = "", most: int = 6) -> tuple[str, ...]:
    """Name, street, town and, abroad, the country, in at most ``most`` lines (6 on A4, 4 on Letter).

    ``home`` is the shop's country; ``abroad`` the name of the address's country in the language of the shop,
    which stands last in capitals when the letter leaves the country. Nothing is ever cut: lines that have no
    room are drawn together with commas, streets first.
    """
    country = address.country or home
    street = [line for line in map(_one_line, address.street.splitlines()) if line]
    town = list(town_lines(address.postcode, address.city, country))
    last = [abroad.upper()] if abroad and country != home else []
    name = [line for line in (_one_line(address.name),) if line]
    for block in (street, town):
        while len(block) > 1 and len(name) + len(street) + len(town) + len(last) > most:
            block[-2:] = [f"{block[-2]}, {block[-1]}"]
    return (*name, *street, *town, *last)
