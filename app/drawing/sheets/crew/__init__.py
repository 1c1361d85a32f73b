"""The crew's set: what a crew places, pulls, drills, connects and tests by."""
