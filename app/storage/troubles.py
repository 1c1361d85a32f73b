"""What can go wrong with kept plans, each said so that a person can act on it.

The web turns them into problem answers, the command line into one line on stderr.
"""

from __future__ import annotations


class StoreTrouble(Exception):
    """Base of everything the store raises; its text is fit for people."""


class PlanMissing(StoreTrouble):
    """There is no such plan, revision or removed plan."""


class EditedMeanwhile(StoreTrouble):
    """Another edit came first: ``revision`` is the one in force."""

    def __init__(self, revision: int) -> None:
        self.revision = revision
        super().__init__(f"another edit came first: revision {revision} is in force; read it and change that")


class RecordedMeanwhile(EditedMeanwhile):
    """Another entry came first, of a plan's history or of what was built: ``revision`` is the edition in force."""

    def __init__(self, edition: int) -> None:
        super().__init__(edition)
        self.args = (f"another entry came first: edition {edition} is in force; read it and enter yours again",)


class HistoryForbids(StoreTrouble):
    """What a plan's history says forbids it: an approved revision is locked, a letter stands for one revision."""


class StoreFull(StoreTrouble):
    """The disk is full (or may not be written): the save is refused and the plan stands as it was."""


class StoreBusy(StoreTrouble):
    """Another program held the store for too long; nothing was changed."""


class StoreDamaged(StoreTrouble):
    """The store, or one revision in it, cannot be read; it is left as it is."""


class StoreRefused(StoreTrouble):
    """The store cannot be used as asked: a wrong place, a wrong file, a newer program's file."""
