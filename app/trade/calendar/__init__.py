"""The trade of the calendar room: days the shop is open and what was promised for them."""
