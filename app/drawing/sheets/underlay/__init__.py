"""A picture under a level, printed faded beneath its plan: cut, reduced and faded, then drawn at true scale."""
