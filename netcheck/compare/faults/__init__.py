"""Which few slips of the hand turn the original into what was found, and the acts that undo each."""
