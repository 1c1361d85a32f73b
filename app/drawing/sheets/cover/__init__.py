"""The cover of a set: whose house, which revision, the plan at a glance, key figures in plain words, the contents."""
