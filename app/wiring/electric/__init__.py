"""What the wires carry: zones and their loops, voltage at each device, batteries."""
