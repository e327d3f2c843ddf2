"""Two bare structures, without names or trade: are they the same, and if not, what lies where on the other?"""
