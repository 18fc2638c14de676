"""How the tables of the book became what they are: one revision each time, run by app/book/upgrade.py."""
