"""The work of the statistics room: eight questions that the shop's own jobs answer."""
