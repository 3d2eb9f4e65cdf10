"""The stub files of a build: for each device with ports to set up, a settings sheet and, where there is
something to set, its instance data.
"""

import json
from collections.abc import Mapping
from dataclasses import fields

from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.documents.stubs.instance import instance_data
from firstfix.documents.stubs.lookup import Lookup, lookup
from firstfix.documents.stubs.manageable import Manageable, has_ports
from firstfix.documents.stubs.sheet import SettingsSheet, settings_sheet
from firstfix.documents.stubs.text import folder_name, printed
from firstfix.documents.stubs.tree import TreeAdvice, tree_advice
from firstfix.documents.templates import render

TEMPLATE = "stubs/settings.md.jinja"


def stub_files(build: Build) -> Mapping[str, bytes]:
    """Path below the output folder to bytes, in sorted order: stubs/<device>/settings.md and
    stubs/<device>/config.json.
    """
    look = lookup(build)
    advice = tree_advice(look)
    found: dict[str, bytes] = {}
    for device in build.devices.values():
        if has_ports(device):
            found.update(_files_of(look, device, advice.get(device.id)))
    return dict(sorted(found.items()))


def _files_of(look: Lookup, device: Device, advice: TreeAdvice | None) -> dict[str, bytes]:
    folder = f"stubs/{folder_name(device.name)}"
    sheet = settings_sheet(look, device, advice)
    files = {f"{folder}/settings.md": sheet_text(sheet).encode()}
    if sheet.state != Manageable.NO:
        files[f"{folder}/config.json"] = instance_text(look, device).encode()
    return files


def sheet_text(sheet: SettingsSheet) -> str:
    """The sheet as Markdown (CommonMark, with tables)."""
    return render(TEMPLATE, **{each.name: printed(getattr(sheet, each.name)) for each in fields(sheet)})


def instance_text(look: Lookup, device: Device) -> str:
    return json.dumps(instance_data(look, device), indent=2, ensure_ascii=False, allow_nan=False) + "\n"
