"""Who brings players in, who works in the shop, and who may sign for what."""
