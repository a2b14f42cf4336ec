"""Everything that can be wrong, in the builder's words, with the exit status that the command gives it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path


@dataclass(frozen=True, kw_only=True)
class Problem:
    """One thing that is wrong.

    Attributes
    ----------
    code : str
        Short fixed name of the kind of problem, such as ``"unknown-key"``.
    where : str
        The place in words, such as ``'panel "bilge", outline'``.
    reason, remedy : str
        What is wrong, and what would put it right.
    path : tuple
        Keys and indices that lead to the place within the job, used to find its line.
    file : Path or None
        The file in which it stands.
    line : int or None
        The line within the file, counted from 1.
    """

    code: str
    where: str
    reason: str
    remedy: str
    path: tuple[str | int, ...] = ()
    file: Path | None = None
    line: int | None = None

    def __str__(self) -> str:
        """Give the whole problem on one line: file, line, place, reason, remedy."""
        spot = "" if self.file is None else f"{self.file}:{self.line}: " if self.line else f"{self.file}: "
        where = f"{self.where}: " if self.where else ""
        return f"{spot}{where}{self.reason}. {self.remedy} [{self.code}]"

    def at(self, file: Path, line: int | None) -> "Problem":
        """Return the same problem with its file and line."""
        return replace(self, file=self.file or file, line=self.line or line)


class NestingError(Exception):
    """Base of all errors that this library raises on purpose."""

    exit_status = 1


class JobError(NestingError):
    """The input can't be used; ``problems`` says all that is wrong with it."""

    exit_status = 2

    def __init__(self, problems: Sequence[Problem] | Problem) -> None:
        self.problems = (problems,) if isinstance(problems, Problem) else tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


class NoPlanError(NestingError):
    """The job is well formed, but no plan exists, or none was found; ``problems`` says which parts and why."""

    exit_status = 3

    def __init__(self, problems: Sequence[Problem] | Problem) -> None:
        self.problems = (problems,) if isinstance(problems, Problem) else tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


class AuditError(NestingError):
    """A plan of our own making failed its audit: a fault of the library, and nothing was written."""

    exit_status = 1
