"""What can be wrong with an outline."""


class OutlineError(ValueError):
    """An outline that can't be used and can't be mended without guessing.

    Attributes
    ----------
    code, reason, remedy : str
        As in a problem of the job; whoever knows the part's name adds the place.
    """

    def __init__(self, code: str, reason: str, remedy: str) -> None:
        self.code, self.reason, self.remedy = code, reason, remedy
        super().__init__(f"{reason}. {remedy}")
