"""The HiGHS solver with nothing written to the console, so that ``--json`` prints JSON alone."""

from __future__ import annotations

import highspy


class QuietSolver(highspy.Highs):
    """HiGHS on one thread, without its banner.

    The usual constructor turns on callbacks, which print; they are left out here, and so are the calls that need them.
    """

    def __init__(self) -> None:
        super(highspy.Highs, self).__init__()
        self.callbacks = []
        self.setOptionValue("output_flag", False)
        self.setOptionValue("threads", 1)
