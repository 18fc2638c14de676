"""The players that are in the shop when the demo is opened."""

from demo_db.in_the_shop.all_players import InTheShop

__all__ = ["InTheShop"]
