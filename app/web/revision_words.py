"""Revisions in words: what a change sheet says of each side, what a title block says, how the working plan stands."""

from __future__ import annotations

from datetime import date

from app.drawing.sheets.changes.sides import Side
from app.storage.history import Entry, PlanHistory, Standing
from app.storage.plans import Head

_LONGEST_PERSON = 32  # letters that a title block has room for
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def day_words(day: date) -> str:
    """Such as 12 Nov 2026, which no reader takes for another day."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def side_of(number: int, head: Head, history: PlanHistory) -> Side:
    """What a change sheet says of a revision."""
    standing = history.standings.get(number)
    if standing is None:
        name = f"the working plan (revision {number})" if number == head.revision else f"stored revision {number}"
        return Side(str(number), name)
    said = [f"{standing.words or 'Named'}, by {standing.person} on {day_words(standing.named.date())}"]
    for entry in history.entries:
        if entry.number == number and entry.what == "approved":
            said.append(f"approved {_by(entry)}")
        elif entry.number == number and entry.what == "withdrawn":
            said.append(f"approval withdrawn by {entry.person} on {day_words(entry.recorded.date())}: {entry.words}")
    return Side(standing.mark, f"revision {standing.mark}", f"{'; '.join(said)}.")


def approved_as(head: Head, history: PlanHistory) -> Standing | None:
    """The approved revision that the working plan is, letter for letter, or None."""
    for standing in history.standings.values():
        approval = standing.approval
        if approval is not None and (standing.number == head.revision or approval.digest == head.digest):
            return standing
    return None


def printed_revision(head: Head, history: PlanHistory) -> str:
    """What a title block says of the plan that is printed: an approved revision, or that it is not approved."""
    approved = approved_as(head, history)
    if approved is not None and approved.approval is not None:
        person = approved.approval.person
        person = person if len(person) <= _LONGEST_PERSON else f"{person[: _LONGEST_PERSON - 1]}…"
        return f"Approved revision {approved.mark} by {person} on {_day_of(approved.approval)}"
    standing = history.standings.get(head.revision)
    return f"{standing.mark if standing else head.revision}. Not approved"


def standing_words(head: Head, history: PlanHistory, changes: int) -> str:
    """How the working plan stands to what was approved: "3 changes since approval by Ann Lee, 12 Nov 2026"."""
    approved = history.approved
    if approved is None or approved.approval is None:
        return "No revision is approved."
    by = f"{approved.approval.person}, {_day_of(approved.approval)}"
    if changes == 0:
        return f"As approved by {by} (revision {approved.mark})"
    return f"{changes} change{'s' if changes > 1 else ''} since approval by {by} (revision {approved.mark})"


def _by(approval: Entry) -> str:
    return f"by {approval.person} on {_day_of(approval)}"


def _day_of(approval: Entry) -> str:
    return day_words(approval.day or approval.recorded.date())
