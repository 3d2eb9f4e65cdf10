"""Sheets of VLANs: `vlans`, who reaches whom, where there are several; and `vlan-NAME` for each."""

from firstfix.documents.drawing.vlans.sheets import one_vlan, vlan_drawings

__all__ = ["one_vlan", "vlan_drawings"]
