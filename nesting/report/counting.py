"""Counted things in words."""


def counted(count: int, one: str, many: str | None = None) -> str:
    """Return a count with its noun, such as ``1 sheet`` or ``2 sheets``."""
    return f"{count} {one if count == 1 else many or one + 's'}"
