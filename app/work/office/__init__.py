"""The office: money, lists of the shop, settings, and what comes back."""
