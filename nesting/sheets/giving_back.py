"""Memory that was used for a while and is not any more."""

import ctypes


def give_memory_back() -> None:
    """Hand unused memory back to the machine where the C library has to be asked for that, as GNU's has."""
    try:
        trim = ctypes.CDLL(None).malloc_trim
    except (AttributeError, OSError, TypeError):  # another C library
        return
    trim(0)
