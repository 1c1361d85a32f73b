"""A finding: one thing that a good designer would see to, with what would mend it and who says so."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from app.review.house import House

Severity = Literal["must", "should", "note"]
SEVERITIES: tuple[Severity, ...] = ("must", "should", "note")


@dataclass(frozen=True)
class Finding:
    """One judgement of a rule on some things of the plan, by their ids."""

    rule: str
    severity: Severity
    things: tuple[str, ...]
    message: str
    source: str


@dataclass(frozen=True)
class Said:
    """What a rule's function says of some things; the rule adds its name, severity (unless given) and source."""

    things: tuple[str, ...]
    message: str
    severity: Severity | None = None


@dataclass(frozen=True)
class Rule:
    """A rule of the trade: ``words`` say what is asked, ``mend`` what to do, ``source`` who publishes it."""

    name: str
    severity: Severity
    words: str
    mend: str
    source: str
    judge: Callable[[House], Iterator[Said]]

    def findings(self, house: House) -> list[Finding]:
        """Every finding of this rule in a house."""
        return [self._finding(house, said) for said in self.judge(house)]

    def _finding(self, house: House, said: Said) -> Finding:
        message = said.message[:1].upper() + said.message[1:]
        for accepted in house.acceptances:
            if accepted.covers(self.name, said.things):
                return Finding(self.name, "note", said.things, f"{message} {accepted.words}.", self.source)
        return Finding(self.name, said.severity or self.severity, said.things, message, self.source)


_RULES: dict[str, Rule] = {}


def rule(
    name: str, severity: Severity, *, words: str, mend: str, source: str
) -> Callable[[Callable[[House], Iterator[Said]]], Callable[[House], Iterator[Said]]]:
    """Register a function as the judge of a rule."""

    def register(judge: Callable[[House], Iterator[Said]]) -> Callable[[House], Iterator[Said]]:
        assert name not in _RULES, f"two rules are called {name}"
        _RULES[name] = Rule(name, severity, words, mend, source, judge)
        return judge

    return register


def registered_rules() -> tuple[Rule, ...]:
    """Every rule registered so far, in the order in which the modules of rules were imported."""
    return tuple(_RULES.values())
