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


class UnderlayMoved(EditedMeanwhile):
    """Another change of what lies under a level came first: ``revision`` is the edition in force, 0 where none is."""

    def __init__(self, edition: int) -> None:
        super().__init__(edition)
        words = f"edition {edition} lies there now" if edition else "nothing lies there now"
        self.args = (f"the underlay was changed elsewhere: {words}; read it and change that",)


class TemplateChanged(EditedMeanwhile):
    """Another change of a template came first: ``revision`` is the edition in force."""

    def __init__(self, edition: int) -> None:
        super().__init__(edition)
        self.args = (f"the template was changed elsewhere: edition {edition} is in force; read it and change that",)


class LetterheadChanged(EditedMeanwhile):
    """Another change of a plan's letterhead came first: ``revision`` is the edition in force."""

    def __init__(self, edition: int) -> None:
        super().__init__(edition)
        self.args = (f"the letterhead was changed elsewhere: edition {edition} is in force; read it and change that",)


class StoreForbids(StoreTrouble):
    """What is kept already forbids it: a name that is given, too many of a kind."""


class PackRefused(StoreTrouble):
    """A pack cannot be brought in: it is no pack, is damaged or too large; nothing was changed."""


class StoreFull(StoreTrouble):
    """The disk is full (or may not be written): the save is refused and the plan stands as it was."""


class StoreBusy(StoreTrouble):
    """Another program held the store for too long; nothing was changed."""


class StoreDamaged(StoreTrouble):
    """The store, or one revision in it, cannot be read; it is left as it is."""


class StoreRefused(StoreTrouble):
    """The store cannot be used as asked: a wrong place, a wrong file, a newer program's file."""
