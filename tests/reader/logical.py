"""What is true of VLANs, addresses and the predicted tree, told by the build and its graphs."""

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.documents.stubs.lookup import lookup
from firstfix.documents.stubs.rates import expected_rate
from firstfix.documents.stubs.tree import tree_advice
from firstfix.graphs.tree_view import TreeView, tree_view
from reader.cabling import only


def vlan_number_of(build: Build, device: str) -> str:
    """Of the VLAN that a device is in untagged."""
    return str(build.vlans[build.memberships[ids.device(device)][0]].vid)


def vlan_of_wireless(build: Build, ssid: str) -> str:
    vlan = build.vlans[only([each.vlan for each in build.wireless if each.ssid == ssid])]
    return f"{vlan.vid} {vlan.name}"


def may_reach(build: Build, vlan: str) -> str:
    """The VLANs that may open connections to a VLAN, by number."""
    from_ = sorted((each.vid, each.name) for each in build.vlans.values() if vlan in each.reaches)
    return ", ".join(name for _, name in from_)


def lent(build: Build, vlan: str) -> str:
    return " to ".join(build.vlans[ids.vlan(vlan)].leases)


def address_of(build: Build, device: str) -> str:
    return only([each.address for each in build.addresses if each.device == ids.device(device)])


def holder_of(build: Build, address: str) -> str:
    return build.devices[only([each.device for each in build.addresses if each.address == address])].name


def root(build: Build) -> str:
    """The one root of the predicted tree, with its priority."""
    bridge = only([each for each in _tree(build).bridges if each.root == each.device])
    return f"{build.devices[bridge.device].name}, {bridge.priority}"


def cost_to_root(build: Build, device: str) -> str:
    """The one root, and what the way there costs from a bridge, in groups of three figures."""
    bridge = only([each for each in _tree(build).bridges if each.device == ids.device(device)])
    assert bridge.cost is not None
    cost = f"{bridge.cost:,}".replace(",", " ")
    return f"{build.devices[bridge.root].name}, {cost}"


def standing_by(build: Build) -> str:
    """Both ends of the one link that stands by."""
    edge = only([each for each in _tree(build).edges if each.stands_by])
    return ", ".join(sorted(only(set(end.jacks)).removeprefix("jack:") for end in edge.ends))


def _tree(build: Build) -> TreeView:
    """With the priorities and rates of the sheets of settings, which the bridges are set to."""
    look = lookup(build)
    priorities = {device: advice.priority for device, advice in tree_advice(look).items()}
    rates = {each.id: expected_rate(look, each) for each in build.channels.values()}
    return tree_view(build, priorities, rates)
