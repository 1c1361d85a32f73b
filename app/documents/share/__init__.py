"""The share page: one HTML file of a whole plan, read-only and offline, to be read on a phone on site."""
