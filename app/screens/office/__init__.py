"""The Office place: money, which repairs come back, settings, lists of the shop, care of the book."""
