"""The top floor: load, check, save, show. The only floor that knows Qt."""
