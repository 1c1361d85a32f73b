"""Tests of the cable: routes, pulls, boxes, zones, power."""
