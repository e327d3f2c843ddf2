"""What a supply does, row by row."""
