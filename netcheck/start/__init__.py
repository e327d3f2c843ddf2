"""A small repository to begin with: what was asked, to the texts of its files; touches no disk."""
