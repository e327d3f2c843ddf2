"""Is silence to be trusted? States made by hands, judged by an engine of the tests' own, and what the program says.

Nothing in here but ``running`` imports the program; the reader, the circuit and the engine are written a second time.
"""
