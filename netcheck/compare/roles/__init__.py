"""Who is who: which parts of the two states play one role, and what the rewired one is held against."""
