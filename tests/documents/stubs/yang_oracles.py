"""Two independent judges of instance data: yanglint (a command, of Debian's libyang2-tools) and yangson (pure
Python).

The IEEE modules are not the project's: they are looked for in the folder that FIRSTFIX_YANG_MODULES names,
else in ../shared/yang beside the checkout. The IETF and IANA ones also come with pyang. What is missing is
said in the skip.
"""

import json
import os
import re
import shutil
import subprocess
import sys
from functools import cache
from pathlib import Path
from typing import Any

import pytest

_CHECKOUT = Path(__file__).parents[3]
_ALL_MODULES = (
    "ietf-interfaces", "ietf-ip", "iana-if-type", "ietf-system", "ieee802-dot1q-bridge",
)  # fmt: skip
_IMPORTED = (
    "ietf-yang-types", "ietf-inet-types", "ietf-netconf-acm", "iana-crypt-hash", "ieee802-types",
    "ieee802-dot1q-types",
)  # fmt: skip


def module_folders() -> tuple[Path, ...]:
    named = os.environ.get("FIRSTFIX_YANG_MODULES")
    beside = Path(named) if named else _CHECKOUT.parent / "shared" / "yang"
    from_pyang = Path(sys.prefix) / "share" / "yang" / "modules"
    return tuple(folder for folder in (beside, from_pyang / "ietf", from_pyang / "iana") if folder.is_dir())


def module_file(name: str) -> Path:
    for folder in module_folders():
        if (folder / f"{name}.yang").is_file():
            return folder / f"{name}.yang"
    pytest.skip(
        f"no YANG module {name}: name its folder in FIRSTFIX_YANG_MODULES, or put it in ../shared/yang"
    )


def modules_for(data: Any) -> tuple[str, ...]:
    """Only what the data speaks of beside the IETF's, so that devices without a bridge are checked
    everywhere.
    """
    return _ALL_MODULES if "ieee802-dot1q-bridge:bridges" in data else _ALL_MODULES[:-1]


def yanglint_complaint(data: Any, folder: Path) -> str:
    """What yanglint has against the data; "" where it accepts it."""
    command = shutil.which("yanglint")
    if command is None:
        pytest.skip("no command yanglint: it comes with Debian's libyang2-tools")
    file = folder / "data.json"
    file.write_text(json.dumps(data), encoding="utf-8")
    paths = [word for each in module_folders() for word in ("-p", str(each))]
    modules = [str(module_file(name)) for name in modules_for(data)]
    done = subprocess.run(
        [command, *paths, "-f", "json", "-t", "config", "-o", os.devnull, *modules, str(file)],
        capture_output=True, text=True, check=False, timeout=60,
    )  # fmt: skip
    return "" if done.returncode == 0 else done.stderr or f"yanglint ended with {done.returncode}"


def yangson_complaint(data: Any) -> str:
    """What yangson has against the data; "" where it accepts it."""
    from yangson.enumerations import ContentType
    from yangson.exceptions import YangsonException

    try:
        _data_model(modules_for(data)).from_raw(data).validate(ctype=ContentType.config)
    except YangsonException as fault:
        return f"{type(fault).__name__}: {fault}"
    return ""


@cache
def _data_model(modules: tuple[str, ...]) -> Any:
    from yangson import DataModel

    imported = [
        name for name in _IMPORTED if len(modules) == len(_ALL_MODULES) or not name.startswith("ieee802")
    ]
    entries = [_library_entry(name, "implement") for name in modules]
    entries += [_library_entry(name, "import") for name in imported]
    library = {"ietf-yang-library:modules-state": {"module-set-id": "tests", "module": entries}}
    return DataModel(json.dumps(library), [str(folder) for folder in module_folders()])


def _library_entry(name: str, conformance: str) -> dict[str, str]:
    """RFC 7895: name, revision and namespace of a module, as its file says."""
    text = module_file(name).read_text(encoding="utf-8")
    namespace = re.search(r'\bnamespace\s+"?([^\s";]+)', text)
    revision = re.search(r'\brevision\s+"?(\d{4}-\d\d-\d\d)', text)
    assert namespace is not None
    assert revision is not None
    return {
        "name": name, "revision": revision[1], "namespace": namespace[1], "conformance-type": conformance,
    }  # fmt: skip
