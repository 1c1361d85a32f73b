"""Rules of the trade, judged into findings, and the whole answer of a check."""
