"""Two stages with their cathodes on the chassis, for tests of what is put in there."""

__all__ = ["CATHODES"]

CATHODES = """
tube V1 6J5
tube V2 6J5
resistor R1 1k
resistor R2 1k
resistor R3 470k
resistor R4 22k
net ground: chassis, V1.cathode, V2.cathode, V1.1, V2.1, V1.2, V2.2, R1.2, R2.2
net heaters: V1.7, V2.7
net grid-1: V1.grid, R1.1
net grid-2: V2.grid, R2.1
net plate-1: V1.plate, R3.1
net plate-2: V2.plate, R4.1
net B+: R3.2, R4.2
"""
