"""The settings of a repository: text to values and diagnostics; reads no file."""
