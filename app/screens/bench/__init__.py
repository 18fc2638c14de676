"""The bench: the list of jobs to work on, the job sheet with its sections, a transport's and a player's life."""
