"""How differences are put into words and small pictures."""
