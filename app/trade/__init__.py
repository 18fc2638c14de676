"""What the trade knows: plain rules, no screen, no database, no disk, no clock."""
