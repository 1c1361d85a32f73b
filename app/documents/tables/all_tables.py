"""Every table of a plan, in the order in which workbook, CSV files and share page give them."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from app.documents.plan_answers import PlanAnswers
from app.documents.tables import basis, cable, coverage, electric, equipment, protected
from app.documents.tables.table import Table

TABLES: Mapping[str, Callable[[PlanAnswers], Table]] = {
    "findings": coverage.findings,
    "panes": coverage.panes,
    "rooms": coverage.rooms,
    "motions": coverage.motions,
    "devices": equipment.devices,
    "openings": equipment.openings,
    "pulls": cable.pulls,
    "boxes": cable.boxes,
    "totals": cable.totals,
    "rough-in": cable.rough_in,
    "holes": cable.holes,
    "cautions": cable.drilling_cautions,
    "zones": electric.zones,
    "feeds": electric.feeds,
    "supplies": electric.supplies,
    "entry-paths": protected.entries,
    "ways-in": protected.ways_in,
    "sound": protected.sound,
    "practice": basis.practice,
}


def all_tables(answers: PlanAnswers) -> list[Table]:
    """Every table."""
    return [table(answers) for table in TABLES.values()]
