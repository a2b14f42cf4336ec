"""The starter jobs that are shipped inside the package, each a folder of texts."""

from importlib.resources import files

#: Name of the job file within each starter job; the files that it names lie beside it.
JOB_FILE = "job.toml"

#: Names of the starter jobs: a rowing skiff with scarfed hull panels and timber, a locker of rectangles, and a batch
#: of three skiffs.
STARTERS: tuple[str, ...] = ("skiff", "locker", "fleet")

#: Starter jobs that name tables of offsets of another one: a batch is built to the same lines.
_LINES_OF = {"fleet": "skiff"}


def starter_files(name: str) -> dict[str, str]:
    """Return the files of a starter job: file name to text, the job file first.

    Parameters
    ----------
    name : str
        One of ``STARTERS``.

    Raises
    ------
    ValueError
        If there is no starter job of that name; the message lists those there are.
    """
    if name not in STARTERS:
        raise ValueError(f'there is no starter job "{name}", only: {", ".join(STARTERS)}')
    texts = {**(_tables(_LINES_OF[name]) if name in _LINES_OF else {}), **_texts(name)}
    return {key: texts[key] for key in sorted(texts, key=lambda file: (file != JOB_FILE, file))}


def _texts(folder: str) -> dict[str, str]:
    return {item.name: item.read_text("utf-8") for item in files(__package__).joinpath(folder).iterdir()}


def _tables(folder: str) -> dict[str, str]:
    return {name: text for name, text in _texts(folder).items() if name.endswith(".csv")}
