"""What the rewired state says by itself, fitted to what the comparison has told."""
