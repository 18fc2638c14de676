"""Customers of the invented shop, drawn from lists of names, streets and towns."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random
from typing import Any

# Ranges that Ofcom keeps for drama (from memory): 01632 960xxx, and as many in other towns.
FICTION = ("01632 960", "0113 4960", "0114 4960", "0115 4960", "0116 4960", "0117 4960", "0118 4960", "0121 4960", "0131 4960", "0141 4960", "0151 4960", "0161 4960", "020 7946 0", "0191 4980", "029 2018 0", "07700 900")  # fmt: skip
KEPT = frozenset({17, 142, 244})  # last figures of the shop's own number and of customers in the stories


@dataclass(frozen=True, slots=True)
class PlannedCustomer:
    """A customer as the counter writes the card."""

    name: str
    phone: str
    email: str
    street: str
    postcode: str
    city: str
    ring_when: str


def draw_customers(
    rng: Random, texts: dict[str, Any], counter: dict[str, Any], count: int
) -> list[PlannedCustomer]:
    """So many customers, no two of one name while there are few, each with a number of its own while there are enough."""
    free = [
        f"{town}{last:03d}"
        for town in FICTION
        for last in range(1000)
        if last not in KEPT or town != FICTION[0]
    ]
    first_town = 1000 - len(KEPT)
    numbers = free[:first_town]
    rng.shuffle(numbers)
    numbers += free[first_town:]
    towns, weights = [town[:2] for town in texts["towns"]], [town[2] for town in texts["towns"]]
    names: dict[str, None] = dict.fromkeys(texts["houses"])
    customers = []
    for at in range(count):
        name = texts["houses"][at] if at < len(texts["houses"]) else _name(rng, texts, names)
        postcode, city = rng.choices(towns, weights)[0]
        mail = name.lower().replace("'", "").replace("ë", "e").replace(" ", ".")
        customers.append(
            PlannedCustomer(
                name=name,
                phone=numbers[at % len(numbers)],
                email=f"{mail}@example.org" if rng.random() < 0.55 else "",
                street=f"{rng.randint(1, 88)} {rng.choice(texts['streets'])}",
                postcode=postcode,
                city=city,
                ring_when=rng.choice(counter["ring_when"]),
            )
        )
    return customers


def _name(rng: Random, texts: dict[str, Any], taken: dict[str, None]) -> str:
    name = ""
    for _ in range(20):
        name = f"{rng.choice(texts['first'])} {rng.choice(texts['last'])}"
        if name not in taken:
            break
    taken[name] = None
    return name
