"""The homeowner's set: cover, plans with their proof, what is guarded and still open, the sign-off, then the tables."""

from __future__ import annotations

from app.drawing.sheets.cover.cover_sheet import cover_sheet
from app.drawing.sheets.homeowner.arming import arming_blocks
from app.drawing.sheets.homeowner.basis import basis_blocks
from app.drawing.sheets.homeowner.choices import choice_blocks
from app.drawing.sheets.homeowner.devices import device_blocks
from app.drawing.sheets.homeowner.findings import finding_blocks
from app.drawing.sheets.homeowner.glass import glass_blocks
from app.drawing.sheets.homeowner.key_figures import READING, key_figures
from app.drawing.sheets.homeowner.openings import inner_blocks, outer_blocks
from app.drawing.sheets.homeowner.proof_plans import proof_drawings
from app.drawing.sheets.homeowner.sign_off import sign_off_blocks
from app.drawing.sheets.order import Order
from app.drawing.sheets.paper.frame import Sheet
from app.drawing.sheets.setting.columns import WIDE, Section, section_sheets

WORDS = "Security set for the homeowner"


def homeowner_set(order: Order) -> list[Sheet]:
    """The sheets in the order of reading."""
    drawings = proof_drawings(order)
    plans = list(order.plans(drawings, 101, "Security plan"))
    notes = section_sheets(
        [
            Section("Each opening", lambda setter: outer_blocks(order, setter)),
            Section("Openings inside", lambda setter: inner_blocks(order, setter)),
        ],
        order.paper,
        601,
        WIDE,
    )
    notes += section_sheets(
        [
            Section("Stay and away", lambda setter: arming_blocks(order, setter)),
            Section("Findings", lambda setter: finding_blocks(order, setter)),
            Section("Choices", lambda setter: choice_blocks(order, setter)),
            Section("Sign-off", lambda setter: sign_off_blocks(order, setter)),
            Section("Devices", lambda setter: device_blocks(order, setter)),
            Section("Glass", lambda setter: glass_blocks(order, setter)),
            Section("Design values", lambda setter: basis_blocks(order.house, setter)),
        ],
        order.paper,
        601 + len(notes),
    )
    sheets = plans + notes
    cover = cover_sheet(order, 1, WORDS, key_figures(order), drawings, sheets, READING)
    return [cover, *sheets]
