"""The trade of the upkeep room: care of the book: which copies stay, what an export may hold."""
