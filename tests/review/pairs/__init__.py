"""For each rule a house that has the fault and one that nearly has it, a module for each noun of the rules."""

from tests.review.pairs import barrier, detectors, panel, shell, sounders, wires

PAIRS = {**barrier.PAIRS, **detectors.PAIRS, **panel.PAIRS, **shell.PAIRS, **sounders.PAIRS, **wires.PAIRS}
