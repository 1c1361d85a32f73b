"""Studbay: a planner for hard-wired home security that computes and proves coverage on the plan."""
