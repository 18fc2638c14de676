"""Pictures of answers on paper: each panel is a block, told from its neighbours without any colour."""
