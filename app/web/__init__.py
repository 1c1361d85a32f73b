"""The server: routes, pages and the doors that keep strangers out."""
