"""The filing cabinet: tables, the one transaction door, history, search index, backup, restore, check."""
