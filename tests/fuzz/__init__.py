"""Arbitrary input: netlists drawn from the grammar and slips in good ones, run as a user would and judged."""
