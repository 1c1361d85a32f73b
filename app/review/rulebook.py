"""The rulebook: every rule of the trade that Studbay judges by, in one list."""

from __future__ import annotations

from app.review import rules
from app.review.findings import Rule, registered_rules

MODULES = rules.__all__  # the import of the package registers what its modules hold


def all_rules() -> tuple[Rule, ...]:
    """Every rule, module by module."""
    return registered_rules()
