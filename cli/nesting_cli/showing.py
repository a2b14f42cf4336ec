"""Progress on standard error: one line that changes on a terminal, plain lines elsewhere."""

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from rich.console import Console

from nesting.effort import News, Progress


@contextmanager
def shown() -> Iterator[Progress]:
    """Give a listener that shows what the search is doing."""
    console = Console(stderr=True)
    if not console.is_terminal or console.is_dumb_terminal:
        yield _plain(lambda line: print(line, file=sys.stderr, flush=True))
        return
    with console.status("reading", spinner="line") as status:
        yield _plain(status.update)


def _plain(say: Callable[[str], None]) -> Progress:
    started = time.monotonic()

    def tell(news: News) -> None:
        parts = [f"{time.monotonic() - started:.1f} s", news.stage]
        if news.objective is not None:
            parts.append(f"best plan {news.objective:.2f}")
        if news.bound is not None:
            parts.append(f"none below {news.bound:.2f}")
        say(", ".join(parts))

    return tell
