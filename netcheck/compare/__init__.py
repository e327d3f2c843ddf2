"""Two circuits to differences: who is who, what is where, and which hand did it."""
