"""The bench: what is measured, tried, changed and made safe, and the job sheet that shows it."""
