"""What is wrong with a part is said once, in plain words, at its place."""

import pytest

from firstfix.parts.numbering import MOST_JACKS
from firstfix.parts.part import KINDS
from firstfix.parts.read import MOST_JACKS_IN_ALL, PART_KEYS
from parts.reading import read

ALL_KINDS = ", ".join(f"'{kind}'" for kind in KINDS)

# Each body stands in the table of the part 'p', whose line 2 gives its kind; so a body begins in line 3.
FAULTS: list[tuple[str, str, str]] = [
    ("basis", "basis: guess",
     "3:10 value-kind: 'basis' is one of 'data sheet', 'measured', 'typical of its kind', 'the "
     "plan's author', "
     "not 'guess'"),
    ("title", "title: [a, b]", "3:10 value-kind: 'title' is a text, not a list"),
    ("note", "note: {a: b}", "3:9 value-kind: 'note' is a text, not a table of keys and values"),
    ("height", "height: 1.5U",
     "3:11 value-kind: 'height' is a whole number of units such as '2U', not '1.5U'"),
    ("height", "height: 44 mm",
     "3:11 quantity: 'height' is a height in rack units: 'mm' is a unit of length, not of height in "
     "rack units; "
     "write it such as '2U'"),
    ("height", "height: 0U", "3:11 quantity: 'height' of '0U' is less than can be: at least 1 U"),
    ("width", "width: wide", "3:10 value-kind: 'width' is one of 'full', 'half', 'none', not 'wide'"),
    ("depth", "depth: 250",
     "3:10 quantity: 'depth' is a length: '250' has no unit; write '250 m' or '250 mm' or '250 ft'"),
    ("weight", "weight: 3 W",
     "3:11 quantity: 'weight' is a mass: 'W' is a unit of power, not of mass; write it such as "
     "'4.2 kg'"),
    ("draw", "draw: -3 W", "3:9 quantity: 'draw' of '-3 W' is less than nothing; did you mean '3 W'?"),
    ("draw", "draw: {least: 3 W}",
     "3:9 value-kind: 'draw' needs 'typical' or 'most', and its figures rise from 'least' to 'most'"),
    ("draw", "draw: {least: 9 W, most: 3 W}",
     "3:9 value-kind: 'draw' needs 'typical' or 'most', and its figures rise from 'least' to 'most'"),
    ("draw", "draw: {most: 9}", "3:16 quantity: 'most' is a power: '9' has no unit; write '9 W'"),
    ("draw", "draw: [3 W, 9 W]",
     "3:9 value-kind: 'draw' is written as a table of keys and values, not as a list"),
    ("price", "price: 12 EUR", "3:10 value-kind: 'price' is a number of 0 or more, not '12 EUR'; write '12'"),
    ("jacks", "jacks: {8-1: rj45}",
     "3:11 value-kind: '8-1' is no jack and no range of jacks such as '1-8' or 'sfp1-sfp2'"),
    ("jacks", "jacks: {1: rj54}", "3:14 value-kind: 'rj54' is no family of jacks; did you mean 'rj45'?"),
    ("jacks", "jacks: {1: {rate: 1 Gb/s}}", "3:14 key-missing: a jack needs 'family'"),
    ("jacks", "jacks: {1: {family: usb}}",
     "3:23 value-kind: 'family' is one of 'rj45', 'sfp', 'sfp-plus', 'lc', 'sc', not 'usb'"),
    ("jacks", "jacks: {1: {family: rj45, rate: 1 GB/s}}",
     "3:35 quantity: 'rate' is a data rate: 'GB/s' is not a unit; its letters' case matters; write '1 Gb/s'"),
    ("jacks", "jacks: {1-4: rj45, 3: rj45}", "3:10 value-kind: jack '3' of the part 'p' is given twice"),
    ("jacks", "jacks: 8", "3:10 value-kind: 'jacks' is a table with a name before each colon, 'NAME: …', not '8'"),
    ("jacks", "jacks: {1: [rj45]}",
     "3:14 value-kind: a jack is written as a table of keys and values, not as a list"),
    ("openings", "jacks: {1: rj45}\nopenings: {2: keystone}",
     "4:3 value-kind: the part 'p' has 'jacks' or 'openings', not both"),
    ("openings", "openings: {x1-y2: keystone}",
     "3:14 value-kind: 'x1-y2' is no jack and no range of jacks such as '1-8' or 'sfp1-sfp2'"),
    ("openings", "openings: {1-2: keystone, 2: keystone}",
     "3:13 value-kind: jack '2' of the part 'p' is given twice"),
    ("openings", "openings: {1: [keystone]}", "3:17 value-kind: an opening is a text, not a list"),
    ("passes", "jacks: {a: rj45, b: rj45}\npasses: {a: {to: b, power: eats}}",
     "4:30 value-kind: 'power' is one of 'passes', 'blocks', 'injects', not 'eats'"),
    ("passes", "jacks: {a: rj45, b: rj45}\npasses: {a: {to: b}}", "4:15 key-missing: a pass needs 'power'"),
    ("passes", "jacks: {a: rj45, b: rj45}\npasses: {a: b}",
     "4:15 value-kind: a pass is written as a table of keys and values, not as 'b'"),
    ("passes", "jacks: {a: rj45, b: rj45}\npasses: {a: {to: c, power: passes}}",
     "4:11 value-kind: the part 'p' has no jack 'c' that 'passes' names"),
    ("takes-poe", "jacks: {1: rj45}\ntakes-poe: {class: 9}",
     "4:22 value-kind: 'class' is a whole number from 0 to 8, not '9'"),
    ("takes-poe", "jacks: {1: rj45}\ntakes-poe: 3",
     "4:14 value-kind: 'takes-poe' is written as a table of keys and values, not as '3'"),
    ("takes-poe", "jacks: {2: rj45}\ntakes-poe: {class: 3}",
     "4:14 value-kind: the part 'p' has no jack '1' that 'takes-poe' names"),
    ("gives-poe", "jacks: {1-4: rj45}\ngives-poe: {class: 4}", "4:14 key-missing: 'gives-poe' needs 'jacks'"),
    ("gives-poe", "jacks: {1-4: rj45}\ngives-poe: {jacks: 1-8, class: 4}",
     "4:14 value-kind: the part 'p' has no jack '5' that 'gives-poe' names"),
    ("gives-poe", "jacks: {1-4: rj45}\ngives-poe: {jacks: 1-4, budget: 65}",
     "4:35 quantity: 'budget' is a power: '65' has no unit; write '65 W'"),
    ("gives-poe", "jacks: {1-4: rj45}\ngives-poe: {jacks: 1-4, efficiency: 90}",
     "4:39 value-kind: 'efficiency' is a number from 0.1 to 1, not '90'"),
    ("gives-poe", "jacks: {1-4: rj45}\ngives-poe: {jacks: 1-4, counts: watts}",
     "4:35 value-kind: 'counts' is one of 'class', 'draw', not 'watts'"),
    ("gives-poe", "jacks: {1-4: rj45}\ngives-poe: {jacks: 1-4, when-fed: {9: 20 W}}",
     "4:38 value-kind: the class that feeds it is a whole number from 0 to 8, not '9'"),
    ("gives-poe", "jacks: {1-4: rj45}\ngives-poe: {jacks: 1-4, when-fed: {4: 15}}",
     "4:41 quantity: what it gives when fed by class 4 is a power: '15' has no unit; write '15 W'"),
    ("gives-poe", "jacks: {1-4: rj45}\ntakes-poe: {jacks: 1}\ngives-poe: {jacks: 1-4}",
     "5:14 value-kind: jack '1' of the part 'p' takes PoE and gives it"),
    ("mains", "mains: {inlet: socket}",
     "3:18 value-kind: 'inlet' is one of 'none', 'plug', 'coupler', 'adaptor', not 'socket'"),
    ("mains", "mains: {outlets: 1.5}",
     "3:20 value-kind: 'outlets' is a whole number from 0 to 100, not '1.5'"),
    ("mains", "mains: {rating: 10 A}",
     "3:19 quantity: 'rating' is a power: 'A' is a unit of current, not of power; write it such as '15.4 W'"),
    ("mains", "mains: {inlet: plug, shape: C14}",
     "3:31 value-kind: 'shape' is one of 'local', 'A', 'B', 'C', 'D', 'E', 'F', 'G', 'H', 'I', 'J', 'K', 'L', "
     "'M', 'N', 'O', not 'C14'"),
    ("mains", "mains: {inlet: coupler, leakage: 0.8}",
     "3:36 quantity: 'leakage' is a current: '0.8' has no unit; write '0.8 A'"),
    ("mains", "mains: {inlet: adaptor, blocks: 9}",
     "3:35 value-kind: 'blocks' is a whole number from 0 to 4, not '9'"),
    ("gives-poe", "jacks: {1-4: rj45}\ngives-poe: {jacks: 1-4, pairs: 3}",
     "4:34 value-kind: 'pairs' is one of '2', '4', not '3'"),
    ("gives-poe", "jacks: {1-4: rj45}\ngives-poe: {jacks: 1-4, type: 5}",
     "4:33 value-kind: 'type' is a whole number from 1 to 4, not '5'"),
    ("front-depth", "front-depth: 50", "3:16 quantity: 'front-depth' is a length: '50' has no unit; "
     "write '50 m' or '50 mm' or '50 ft'"),
    ("plug-space", "plug-space: much", "3:15 quantity: 'plug-space' is a length: 'much' is not a length; write it such as '41 m'"),
    ("ears", "ears: yes", "3:9 value-kind: 'ears' is one of 'included', 'bought apart', 'none', not 'yes'"),
    ("exposure", "exposure: {place: garden}",
     "3:21 value-kind: 'place' is one of 'indoor', 'outdoor', 'buried', not 'garden'"),
    ("exposure", "exposure: {ingress: 66}",
     "3:23 value-kind: '66' is no code of IEC 60529 such as 'IP20' or 'IP66'"),
    ("exposure", "exposure: {ingress: IP76}",
     "3:23 value-kind: 'IP76' is no code of IEC 60529 such as 'IP20' or 'IP66'"),
    ("exposure", "exposure: {coldest: -300 °C}", "3:23 quantity: 'coldest' of '-300 °C' is less than can be: at least -273.15 °C"),
    ("exposure", "exposure: outdoor",
     "3:13 value-kind: 'exposure' is written as a table of keys and values, not as 'outdoor'"),
    ("cooling", "cooling: {by: water}", "3:17 value-kind: 'by' is one of 'passive', 'fan', not 'water'"),
    ("size", "size: {width: 3U}",
     "3:17 quantity: 'width' is a length: 'U' is a unit of height in rack units, not of length; "
     "write it such as '41 m'"),
    ("cabinet", "cabinet: {front: curtain}",
     "3:20 value-kind: 'front' is one of 'open', 'glass door', 'solid door', 'meshed door', not 'curtain'"),
    ("shelf", "shelf: {load: 12 W}",
     "3:17 quantity: 'load' is a mass: 'W' is a unit of power, not of mass; write it such as '4.2 kg'"),
    ("cover", "cover: {form: foil}",
     "3:17 value-kind: 'form' is one of 'blank', 'brush', 'mesh', 'rings', 'hinged', not 'foil'"),
    ("fastener", "fastener: {head: round}",
     "3:20 value-kind: 'head' is one of 'pan', 'flat', 'countersunk', 'hexagon', 'knob', 'stud', not 'round'"),
    ("optics", "optics: {sends: -9 dB}",
     "3:19 quantity: 'sends' is a level of light: 'dB' is not a unit of level of light; write '-9 dBm'"),
    ("battery", "battery: {lasts: {100: 20 min}}", "3:21 quantity: a load is a power: '100' has no unit; write '100 W'"),
    ("battery", "battery: {lasts: {100 W: 20}}",
     "3:28 quantity: how long it lasts at 100 W is a duration: '20' has no unit; "
     "write '20 min' or '20 h' or '20 days'"),
    ("surge", "surge: {poe-class: 9}", "3:22 value-kind: 'poe-class' is a whole number from 0 to 8, not '9'"),
    ("surge", "jacks: {a: rj45, b: rj45}\nsurge: {line: a, guarded: c}",
     "4:10 value-kind: the part 'p' has no jack 'c' that 'surge' names"),
    ("low-voltage", "low-voltage: {efficiency: 85}",
     "3:29 value-kind: 'efficiency' is a number from 0.1 to 1, not '85'"),
    ("pathway", "pathway: {form: hose}",
     "3:19 value-kind: 'form' is one of 'conduit', 'bend', 'duct', 'trunking', 'clip', 'gland', 'tape', 'tray', "
     "not 'hose'"),
    ("earth", "earth: {area: 6 mm}",
     "3:17 quantity: 'area' is a cross-section: 'mm' is not a unit of cross-section; write '6 mm2'"),
    ("screened", "screened: foil", "3:13 value-kind: 'screened' is true or false, not 'foil'"),
    ("wire", "wire: hard", "3:9 value-kind: 'wire' is one of 'solid', 'stranded', 'either', not 'hard'"),
    ("spacing", "spacing: often", "3:12 quantity: 'spacing' is a length: 'often' is not a length; write it such as '41 m'"),
    ("cable", "cable: {medium: mains, ends: [local, C99]}",
     "3:40 value-kind: 'C99' is no plug's letter, no coupler such as 'C13' and not 'local'"),
    ("cable", "cable: {medium: copper, fire-class: LSZH}",
     "3:39 value-kind: 'fire-class' is one of 'Aca', 'B1ca', 'B2ca', 'Cca', 'Dca', 'Eca', 'Fca', not 'LSZH'"),
    ("bridges", "bridges: yes", "3:12 value-kind: 'bridges' is true or false, not 'yes'; write 'true'"),
    ("spanning-tree", "spanning-tree: rapid",
     "3:18 value-kind: 'spanning-tree' is true or false, not 'rapid'"),
    ("vlan-aware", "vlan-aware: 1", "3:15 value-kind: 'vlan-aware' is true or false, not '1'; write 'true'"),
    ("routes", "routes: [true]", "3:11 value-kind: 'routes' is true or false, not a list"),
    ("cable", "cable: {category: 6}", "3:10 key-missing: 'cable' needs 'medium'"),
    ("cable", "cable: {medium: glass}",
     "3:19 value-kind: 'medium' is one of 'copper', 'twinax', 'fibre', 'mains', not 'glass'"),
    ("cable", "cable: {medium: copper, gauge: 0.5 mm}",
     "3:34 value-kind: 'gauge' is a whole number from 10 to 40, not '0.5 mm'"),
    ("cable", "cable: {medium: copper, lengths: [100, 305 m]}",
     "3:37 quantity: 'lengths' is a length: '100' has no unit; write '100 m' or '100 mm' or '100 ft'"),
    ("cable", "cable: {medium: copper, conductor: tin}",
     "3:38 value-kind: 'conductor' is one of 'copper', 'copper-clad-aluminium', 'glass', not 'tin'"),
    ("cable", "cable: {medium: copper, rating: wet}",
     "3:35 value-kind: 'rating' is one of 'indoor', 'outdoor', 'buried', not 'wet'"),
    ("cable", "cable: {medium: copper, stranded: no}",
     "3:37 value-kind: 'stranded' is true or false, not 'no'; write 'false'"),
    ("fits", "fits: [keystone]", "3:9 value-kind: 'fits' is a text, not a list"),
    ("category", "category: {a: b}", "3:13 value-kind: 'category' is a text, not a table of keys and values"),
    ("usable-depth", "usable-depth: 400",
     "3:17 quantity: 'usable-depth' is a length: '400' has no unit; write '400 m' or '400 mm' or '400 ft'"),
    ("outside", "outside: {width: 60 kg}",
     "3:20 quantity: 'width' is a length: 'kg' is a unit of mass, not of length; "
     "write it such as '41 m'"),
    ("rails", "rails: sqare holes",
     "3:10 value-kind: 'rails' is one of 'square holes', 'round holes', 'threaded', not 'sqare holes'; "
     "did you mean 'square holes'?"),
    ("thread", "thread: [M6]", "3:11 value-kind: 'thread' is a text, not a list"),
    ("fixings", "fixings: four", "3:12 value-kind: 'fixings' is a whole number from 0 to 1,000, not 'four'; write '4'"),
    ("pack", "pack: 0", "3:9 value-kind: 'pack' is a whole number from 1 to 100,000, not '0'"),
    ("in-box", "in-box: {cage-nut-set-m6: some}",
     "3:29 value-kind: how many of 'cage-nut-set-m6' is a whole number from 0 to 100,000, not 'some'"),
    ("in-box", "in-box: [cage-nut-set-m6]",
     "3:11 value-kind: 'in-box' is a table with a name before each colon, 'NAME: …', not a list"),
    ("needs", "needs: {wall-box: -1}",
     "3:21 value-kind: how many of 'wall-box' is a whole number from 0 to 100,000, not '-1'"),
    ("hight", "hight: 1U", "3:3 key-unknown: the part 'p' has no key 'hight'; did you mean 'height'?; the rest is judged as if 'height' stood here"),
]  # fmt: skip

# Faults of the part as a whole, in a text of their own.
WHOLE: list[tuple[str, str, str]] = [
    ("kind", "p:\n  kind: swich\n",
     f"2:9 value-kind: 'kind' is one of {ALL_KINDS}, not 'swich'; did you mean 'switch'?"),
    ("kind", "p:\n  title: A thing\n", "2:3 key-missing: the part 'p' needs 'like: PART', the part that it is like, or 'kind'"),
    ("kind", "p:\n", "1:3 key-missing: the part 'p' needs 'like: PART', the part that it is like, or 'kind'"),
    ("like", "p:\n  like: shelve\nshelf: {kind: shelf}\n",
     "2:9 value-kind: there is no part 'shelve' to be like"),
    ("like", "shelf: {kind: shelf}\np:\n  like: shelv\n",
     "3:9 value-kind: there is no part 'shelv' to be like; did you mean 'shelf'?"),
    ("like", "p:\n  like: [shelf]\n", "2:9 value-kind: 'like' is a text, not a list"),
    ("depth", "p:\n  kind: cabinet\n  depth: 500 mm\n",
     "3:10 value-kind: a cabinet has a 'usable-depth' behind its rails, and a depth 'outside'"),
    ("width", "p:\n  kind: cabinet\n  width: none\n",
     "3:10 value-kind: 'width' is one of 'full', 'half', not 'none'"),
    ("height", "p:\n  kind: cabinet\n  height: 7.5U\n",
     "3:11 value-kind: 'height' is a whole number of units such as '2U', not '7.5U'"),
    ("", "p: switch\n",
     "1:4 value-kind: the part 'p' is written as a table of keys and values, not as 'switch'"),
    ("", "- p\n", "1:1 value-kind: 'parts' is written as a table of keys and values, not as a list"),
    ("", "My Switch: {kind: switch}\n",
     "1:1 name-form: 'My Switch' is no name: small letters, digits and single dashes, at most 63; "
     "'my-switch' would do"),
    ("", "../../p: {kind: switch}\n",
     "1:1 name-form: '../../p' is no name: small letters, digits and single dashes, at most 63; 'p' "
     "would do"),
]  # fmt: skip


@pytest.mark.parametrize(("key", "body", "fault"), FAULTS)
def test_fault_of_a_key(key: str, body: str, fault: str) -> None:
    indented = "\n".join(f"  {line}" for line in body.split("\n"))
    _, faults = read(f"p:\n  kind: switch\n{indented}\n")
    assert faults == [fault]


@pytest.mark.parametrize(("key", "text", "fault"), WHOLE)
def test_fault_of_a_part(key: str, text: str, fault: str) -> None:
    assert read(text)[1] == [fault]


def test_each_key_is_seen_at_fault() -> None:
    assert set(PART_KEYS) - {key for key, _, _ in (*FAULTS, *WHOLE)} == set()


def test_faults_of_two_parts_are_both_told() -> None:
    _, faults = read("p: {kind: switch, draw: 9}\nq: {kind: camera, weight: 1}\n")
    assert [fault.split(" ")[0] for fault in faults] == ["1:25", "2:27"]


def test_a_faulty_piece_is_not_told_again_as_an_inconsistency() -> None:
    _, faults = read("p: {kind: switch, jacks: {1-x: rj45}, gives-poe: {jacks: 1-8}}\n")
    assert faults == ["1:27 value-kind: '1-x' is no jack and no range of jacks such as '1-8' or 'sfp1-sfp2'"]


def test_jacks_of_the_model_are_not_forgotten() -> None:
    """A part with fewer jacks than what it is like may not go on giving power at the ones it lost."""
    model = "p: {kind: switch, jacks: {1-8: rj45}, gives-poe: {jacks: 1-8}}\n"
    _, faults = read(model + "q: {like: p, jacks: {1-4: rj45}}\n")
    assert faults == ["2:1 value-kind: the part 'q' has no jack '5' that 'gives-poe' names"]


def test_too_many_jacks_in_a_part() -> None:
    _, faults = read(f"p: {{kind: panel, jacks: {{a1-a{MOST_JACKS}: rj45, b1: rj45}}}}\n")
    assert faults == ["1:42 value-kind: with this one, the part has more than 1,024 jacks"]


def test_too_many_jacks_in_a_list() -> None:
    _, faults = read(f"p: {{kind: switch, jacks: {{1: rj45}}, gives-poe: {{jacks: [1-{MOST_JACKS}, 1]}}}}\n")
    assert faults == ["1:65 value-kind: with this one, the list has more than 1,024 jacks"]


def test_a_stranger_cannot_fill_the_machine_with_jacks() -> None:
    count = MOST_JACKS_IN_ALL // MOST_JACKS + 5
    text = "".join(
        f"p{number}: {{kind: panel, jacks: {{1-{MOST_JACKS}: rj45}}}}\n" for number in range(count)
    )
    parts, faults = read(text)
    assert faults == [
        "196:1 value-kind: with this one, the parts have more than 200,000 jacks; the rest is not read"
    ]
    assert sum(len(part.jacks) for part in parts.values()) <= MOST_JACKS_IN_ALL + MOST_JACKS
