"""Where the files that come with firstfix are, in a checkout and in an installed package."""

from pathlib import Path

_PACKAGE = Path(__file__).parent


class MissingResourceError(Exception):
    """A fault of ours or of the installation: the package lacks a folder that it should have brought."""


def templates() -> Path:
    return _folder("templates")


def schemas() -> Path:
    return _folder("schemas")


def _folder(name: str) -> Path:
    """An installed package holds the folder as `_name`; in a checkout it stands beside `compiler/`."""
    for candidate in (_PACKAGE / f"_{name}", _PACKAGE.parent.parent / name):
        if candidate.is_dir():
            return candidate
    raise MissingResourceError(f"the installation of firstfix has no folder of {name}")
