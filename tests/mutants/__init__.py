"""Mutants: one small change in one room at a time, and whether any test turns red.

What survives is code that no test holds: a constant that might be another, a condition that might go.
"""
