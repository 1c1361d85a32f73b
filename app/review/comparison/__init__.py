"""Two plans compared: what was added, moved, changed or removed, and what that does to proof, cable and findings."""
