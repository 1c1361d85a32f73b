"""Cable: routes, pulls, boxes, zones and power."""
