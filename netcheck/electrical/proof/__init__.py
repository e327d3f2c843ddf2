"""What follows without a simulation: polarity, bounds and cold peaks, each with its surety."""
