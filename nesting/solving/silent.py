"""HiGHS without a word on standard output, which belongs to whoever calls the library."""

from collections.abc import Callable

import highspy


class SilentHighs(highspy.Highs):
    """A solver that prints nothing: the greeting of the plain one goes to standard output as it is made."""

    def enableCallbacks(self) -> None:  # noqa: N802  (the name is HiGHS's)
        """Set up what HiGHS calls back, after it was told to be silent."""
        self.setOptionValue("output_flag", False)
        super().enableCallbacks()  # type: ignore[no-untyped-call]


def end_simplex_when(solver: highspy.Highs, stop: Callable[[], bool]) -> None:
    """Let a solver ask at each step of its simplex method whether it has to end."""

    def ask(event: highspy.highs.HighsCallbackEvent) -> None:
        if stop():
            event.interrupt()

    solver.cbSimplexInterrupt.subscribe(ask)
