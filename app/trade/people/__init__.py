"""The trade of the people room: customers and their ways to be reached."""
