"""The fault campaign: correct pairs of states, rewritten freely, with known faults put in, against the comparison.

It writes netlist text and reads reports. It shares no code with what it judges: parts, places and joints are its
own, read from the samples by a small reader of its own.
"""
