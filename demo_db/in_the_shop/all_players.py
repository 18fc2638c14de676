"""The fifteen players that are in the shop when the demo is opened: in every stage, some late, one held by a stop."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from demo_db.in_the_shop.due import Due
from demo_db.in_the_shop.later import Later
from demo_db.in_the_shop.not_collected import NotCollected


class InTheShop(Due, Later, NotCollected):
    """All of them."""

    def stories(self) -> list[Iterator[datetime]]:
        """One for each player."""
        return [
            self.dead_after_a_storm(),
            self.no_sound_on_the_left(),
            self.tray_opens_by_itself(),
            self.skips_near_the_end(),
            self.stops_after_forty_minutes(),
            self.loses_its_place(),
            self.display_dark(),
            self.loud_scraping(),
            self.remote_does_nothing(),
            self.jumps_on_the_last_tracks(),
            self.will_not_eject(),
            self.hums(),
            self.skips_again(),
            self.from_an_attic(),
            self.moved_away(),
        ]
