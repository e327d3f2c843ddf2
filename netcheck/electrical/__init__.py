"""What the circuit does: mean polarity proved, steady state, switch-on, discharge, resistance."""
