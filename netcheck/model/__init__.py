"""Meaning: syntax trees to a circuit, and questions about it."""
