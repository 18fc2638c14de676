"""The trade of the statistics room: what the shop's own jobs say, each number with its uncertainty."""
