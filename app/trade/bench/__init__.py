"""What the trade knows at the bench: readings, limits, verdicts, effects, rules."""
