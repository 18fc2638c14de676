"""The trade of the find room: how words and numbers are folded so that they are found again."""
