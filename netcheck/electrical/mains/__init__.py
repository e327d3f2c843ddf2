"""The line under the chassis: what is on it, and what of it a hand could reach."""
