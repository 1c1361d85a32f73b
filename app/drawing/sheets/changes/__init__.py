"""The change sheet: the new plan with clouds about what changed, and tables of the changes and of what they do."""
