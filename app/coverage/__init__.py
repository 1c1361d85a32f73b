"""What detectors reach: glass, motion, sound and arming states, computed exactly."""
