"""Our own check of instance data, for what the published modules leave open; and short ways to its parts."""

from collections.abc import Iterator
from typing import Any


def bridge_of(data: Any) -> Any:
    return data["ieee802-dot1q-bridge:bridges"]["bridge"][0]


def component_of(data: Any) -> Any:
    return bridge_of(data)["component"][0]


def interfaces_of(data: Any) -> dict[str, Any]:
    return {each["name"]: each for each in data["ietf-interfaces:interfaces"]["interface"]}


def bridge_ports_of(data: Any) -> dict[str, Any]:
    key = "ieee802-dot1q-bridge:bridge-port"
    return {name: each[key] for name, each in interfaces_of(data).items() if key in each}


def dangling(data: Any) -> Iterator[str]:
    """References that the modules leave to us: pvid and registrations to a VLAN in the list, port numbers to
    a port.
    """
    if "ieee802-dot1q-bridge:bridges" not in data:
        return
    component, ports = component_of(data), bridge_ports_of(data)
    known = {vlan["vid"] for vlan in component["bridge-vlan"]["vlan"]}
    entries = component["filtering-database"]["vlan-registration-entry"]
    untagged: dict[int, list[int]] = {}
    for entry in entries:
        vid = int(entry["vids"])
        if vid not in known:
            yield f"registration of VLAN {vid}, which is not in the list"
        for member in entry["port-map"]:
            if member["static-vlan-registration-entries"]["vlan-transmitted"] == "untagged":
                untagged.setdefault(member["port-ref"], []).append(vid)
    if any(len(vids) > 1 for vids in untagged.values()):
        yield "a port sends two VLANs untagged"
    if sorted(port["pvid"] for port in ports.values() if "pvid" in port) != sorted(
        vid for [vid] in untagged.values()
    ):
        yield "a port takes untagged frames into another VLAN than it sends untagged"
    if len({member["port-ref"] for entry in entries for member in entry["port-map"]}) > len(ports):
        yield "more port numbers than bridge ports"
    for name, port in ports.items():
        if port["bridge-name"] != bridge_of(data)["name"] or port["component-name"] != component["name"]:
            yield f"{name} belongs to no bridge"
