"""Rules on glass: every pane within range and line of sight of one glass-break detector."""

from __future__ import annotations

from collections.abc import Iterator

from app.coverage.why import why
from app.plan.practice import COMMON_PRACTICE
from app.review.findings import Said, Severity, rule
from app.review.house import House, Storey

_RANGE_SOURCE = (
    "trade article “How to prewire home security” (updated June 2023): windows in line of sight and within 15 ft; "
    "every part of the pane: common practice, no source"
)


def _panes(house: House, status: str) -> Iterator[tuple[Storey, int, Severity]]:
    for storey in house:
        for verdict in storey.verdicts:
            if verdict.status == status:
                opening = storey.opening_by_id[storey.scene.panes.opening[verdict.pane]]
                # Nobody breaks in through glass between two rooms of the house.
                yield storey, verdict.pane, "must" if storey.scene.is_exterior(opening) else "note"


def _said(storey: Storey, pane: int, severity: Severity, state: str) -> Said:
    verdict = storey.verdicts[pane]
    name = storey.scene.panes.name[pane]
    reasons = f"{why(storey.listening, verdict)} {storey.mender.words(verdict)}"
    return Said((name,), f"{storey.name(name)} is {state}. {reasons}", severity)


@rule(
    "glass.uncovered",
    "must",
    words="Every pane of an exterior opening is within range and line of sight of one glass-break detector.",
    mend="Move or add a glass-break detector so that one detector reaches the whole pane.",
    source=_RANGE_SOURCE,
)
def uncovered(house: House) -> Iterator[Said]:
    """Panes that no detector reaches."""
    for storey, pane, severity in _panes(house, "uncovered"):
        yield _said(storey, pane, severity, "uncovered")


@rule(
    "glass.partial",
    "must",
    words="One glass-break detector reaches the whole of each pane, not a part of it.",
    mend="Move the detector, or what hides the glass, or add a detector.",
    source=_RANGE_SOURCE,
)
def partial(house: House) -> Iterator[Said]:
    """Panes of which the best detector reaches only a part."""
    for storey, pane, severity in _panes(house, "partial"):
        yield _said(storey, pane, severity, "covered only in part")


@rule(
    "glass.edge_on",
    "should",
    words="A glass-break detector does not lie in the plane of the glass that it should watch.",
    mend="Move the detector into the room, off the line of the window's wall.",
    source=COMMON_PRACTICE,
)
def edge_on(house: House) -> Iterator[Said]:
    """Detectors that see some pane edge-on and so cover none of it."""
    for storey in house:
        for proof in storey.glass:
            panes = [storey.scene.panes.name[view.pane] for view in proof.views.values() if view.edge_on]
            if panes:
                yield Said(
                    (proof.device, *panes),
                    f"{storey.name(proof.device)} lies in the plane of {', '.join(map(storey.name, panes))} "
                    "and covers none of that glass; move it into the room.",
                )
