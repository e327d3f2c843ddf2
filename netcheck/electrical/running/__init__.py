"""The network over time: running, switched on, unplugged."""
