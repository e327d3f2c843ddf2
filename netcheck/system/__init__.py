"""The machine: the only package that touches files, processes and the environment."""
