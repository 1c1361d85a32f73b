"""The crew's set: cover, device and cable plans, then schedules in the order of the work: place, drill, pull, test."""

from __future__ import annotations

from app.drawing.sheets.cover.cover_sheet import cover_sheet
from app.drawing.sheets.crew.acceptance import test_sheet_blocks
from app.drawing.sheets.crew.answers import answer_blocks
from app.drawing.sheets.crew.cable_plans import cable_drawings
from app.drawing.sheets.crew.cable_schedules import pull_blocks
from app.drawing.sheets.crew.device_plans import device_drawings
from app.drawing.sheets.crew.device_schedule import placing_blocks
from app.drawing.sheets.crew.drilling import drilling_blocks
from app.drawing.sheets.crew.electric import power_blocks, zone_blocks
from app.drawing.sheets.crew.key_figures import READING, key_figures
from app.drawing.sheets.crew.labels import label_blocks
from app.drawing.sheets.crew.rough_in import rough_in_blocks
from app.drawing.sheets.crew.tests_by_kind import test_words_blocks
from app.drawing.sheets.order import Order
from app.drawing.sheets.paper.frame import Sheet
from app.drawing.sheets.setting.columns import WIDE, Section, section_sheets

WORDS = "Wiring set for the crew"


def crew_set(order: Order) -> list[Sheet]:
    """The sheets in the order of the work."""
    plans = list(order.plans(device_drawings(order), 131, "Device plan"))
    drawings = cable_drawings(order)
    plans += order.plans(drawings, max(151, 131 + len(plans)), "Cable plan")
    sheets = [*plans, *_schedules(order, max(651, 151 + len(plans)))]
    cover = cover_sheet(order, 2, WORDS, key_figures(order), drawings, sheets, READING)
    return [cover, *sheets]


def _schedules(order: Order, first: int) -> list[Sheet]:
    placing = [
        Section("Devices to place", lambda setter: placing_blocks(order, setter)),
        Section("Drilling", lambda setter: drilling_blocks(order, setter)),
    ]
    pulling = [
        Section("Pulls and boxes", lambda setter: pull_blocks(order, setter)),
        Section("Rough-in", lambda setter: rough_in_blocks(order, setter)),
        Section("Zones", lambda setter: zone_blocks(order, setter)),
        Section("Power", lambda setter: power_blocks(order, setter)),
        Section("How to test", lambda setter: test_words_blocks(order, setter)),
    ]
    testing = [
        Section("Test sheet", lambda setter: test_sheet_blocks(order, setter)),
        Section("What detectors answer to", lambda setter: answer_blocks(order, setter)),
    ]
    sheets = section_sheets(placing, order.paper, first, WIDE)
    sheets += section_sheets(pulling, order.paper, first + len(sheets))
    sheets += section_sheets(testing, order.paper, first + len(sheets), WIDE)
    if order.wiring["pulls"]:
        labels = [Section("Cable labels", lambda setter: label_blocks(order, setter))]
        sheets += section_sheets(labels, order.paper, first + len(sheets))
    return sheets
