"""What a plan means in space: solids, rooms, panes, sight lines and shadows. Hears nothing of device kinds."""
