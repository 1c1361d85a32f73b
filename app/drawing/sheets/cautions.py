"""The cautions that every set carries: what this plan does not decide, and what is to be verified by others."""

from __future__ import annotations

CAUTIONS: tuple[str, ...] = (
    "Local codes govern. Where this plan and the adopted code, a permit or the equipment's listing differ, they win. "
    "In most states alarm wiring is licensed work.",
    "Smoke and carbon monoxide alarms: number and location are set by local code and by licensed others. They are not "
    "designed on this plan; those shown are recorded as placed by others.",
    "Verify on site before drywall: walls, openings, ceilings, framing and mains as built. Do not scale the drawing; "
    "read the dimensions, which run to outer faces and to the middles of openings.",
    "Coverage is worked out from straight lines on this plan. Furniture, curtains, blinds and doors change it. Test "
    "every detector in place, with its maker's own method.",
    "Drilling a window or door frame can void its warranty and let in water. Drill only with the manufacturer's word, "
    "never near the glass, and never through an egress window's way out.",
    "Sirens are loud enough to harm hearing at close range. Warn people and wear protection when testing.",
    "Mains work, the panel's supply among it, is for a licensed electrician. The battery carries the system for a "
    "limited time; its size is for the schedule, not this plan.",
    "An alarm tells of a break-in; it does not prevent one. Locks, glass and habits come first.",
)
