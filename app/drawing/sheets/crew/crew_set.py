"""The crew's set: cable plans, then pulls, boxes, rough-in, zones and power, then labels to cut."""

from __future__ import annotations

from app.drawing.sheets.columns import Section, section_sheets
from app.drawing.sheets.crew.cable_plans import cable_drawings
from app.drawing.sheets.crew.cable_schedules import cable_contents
from app.drawing.sheets.crew.labels import label_contents
from app.drawing.sheets.frame import Sheet
from app.drawing.sheets.order import Order


def crew_set(order: Order) -> list[Sheet]:
    """The sheets in the order of the work."""
    wiring, units = order.wiring, order.house.plan.units
    plans = list(order.plans(cable_drawings(order), 151, "Cable plan"))
    title = "Cable, rough-in, zones and power"
    tables = section_sheets([Section(title, lambda setter: cable_contents(wiring, setter, units))], order.paper, 651)
    if wiring["pulls"]:
        labels = Section("Cable labels", lambda setter: label_contents(wiring, setter))
        tables += section_sheets([labels], order.paper, 651 + len(tables))
    return plans + tables
