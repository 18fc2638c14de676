"""The answers as tables: one file for each question."""
