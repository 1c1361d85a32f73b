"""Routes, pages and the security of both."""
