"""The rules of the trade, a module for each noun; importing this package registers them all."""

from app.review.rules import glass, placing, shell

__all__ = ["glass", "placing", "shell"]
