"""The homeowner's set: what is guarded, by what, what is still open, in words that anybody understands."""
