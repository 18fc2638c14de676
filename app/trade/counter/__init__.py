"""The trade of the counter room: taking a player in and handing it back."""
