"""From a netlist to the network that the engines take: elements between numbered nodes."""
