"""Values that a stranger might write where a plan expects a name, a number, a list or a table. Data only, for all fuzzers."""

SCRIPT = "<script>alert(1)</script>"

# What a key or a value may be replaced by: as text of one YAML value.
ODD_TEXTS: tuple[str, ...] = (
    "", "~", "null", "yes", "no", "true", "-", "--", "a", "A", "a-", "-a", "a--b", "a.b", "a/b", "a/b/c", "/", "//", "../../x", "con", "/etc/passwd",
    SCRIPT, "<b>&amp;'\"", "{{ 7*7 }}", "{% for x in y %}", "=1+1", "+1", "-1", "@x", "\tx", "a\nb", "a\r\nb", "\"];}", "a\\nb", "\u202ea", "a\u200bb",
    "\u00b2", "\u0661", "\x85", "\u2028", "\ufeff", "\U0001f40d", "e\u0301" * 40, "0", "00", "1", "2", "007", "0x1f", "0o17", "1_000", "1:30", "190:20:30",
    "1e3", "1e999", "-1e999", ".inf", "-.inf", ".nan", "nan", "inf", "4094", "4095", "65535", "65536", "4294967296", "9" * 30, "9" * 5000, "1e3 m",
    "0 m", "0.0000000001 m", "999999 km", "-3 m", "41", "41 m", "41 furlong", "3 in", "2U", "0U", "99U", "5 kW", "0 W", "15.4 W", "1 Gb/s", "0 b/s",
    "3 days", "27 \u00b0C", "-300 C", "1/0", "2027-02-30", "2027-04-15", "0000-00-00", "9999-12-31", "12:61", "10.0.0.0/8", "10.0.0.0/33",
    "0.0.0.0/0", "255.255.255.255/32", "::/0", "fe80::1%x", "fd00::/64", "1-8", "8-1", "1..4", "cam-1..4", "cam-{1..999999999}", "{1..3}", "1..",
    "core", "core/1", "core/1-8", "core/1-999999", "core/sfp1", "core/", "/core", "panel/1", "panel/0", "gateway", "internet", "names", "poe", "mains",
    "wall", "none", "own", "unknown", "mill.home.arpa", "a" * 63, "a" * 64, "a" * 300, "x-a", "*a", "&a b", "!x y", "!!int 3", "<<", "? a", "a: b", "# a",
)  # fmt: skip

# What stands in place of a whole value, as a tree of Python's own (texts, lists, tables).
ODD_TREES: tuple[object, ...] = (
    [], {}, [[]], [{}], {"a": {}}, {"": ""}, ["a", ["b"]], {"a": {"b": {"c": "d"}}}, [""] * 40, {"run": ["core", "core"]}, [{"run": []}],
    {"part": "switch-8"}, {"like": "switch-8"}, {"part": {"like": "switch-8"}}, {"typical": "5 W", "most": "1 W"}, {"1-8": "core"},
    {f"a-{number}": {} for number in range(40)}, {"x-y": "z"}, {"was": "core"}, {"include": "plan.yaml"},
)  # fmt: skip

# Strewn into a text, byte by byte.
ODD_BYTES: tuple[bytes, ...] = (
    b"{", b"}", b"[", b"]", b":", b": ", b",", b"- ", b"? ", b"\n", b"\r", b"  ", b"\t", b"'", b'"', b"*a", b"&a ", b"!x ",
    b"!!binary ", b"<<: *a", b"|\n", b">-\n",
    b"---\n", b"...\n", b"%YAML 9.9\n", b"%TAG ! x\n", b"#", b"\x00", b"\x07", b"\x1b[31m", b"\x7f", b"\xff", b"\xc0\xaf", b"\xed\xa0\x80",
    b"\xef\xbb\xbf", b"\xc2\x85",
    b"\xe2\x80\xa8", b"\xe2\x80\xae", b"\xf4\x90\x80\x80", b"\\", b"\\x00", b"@", b"`", b"~", b"999999999999", b"1..4", b"..", b"/", b"-",
)  # fmt: skip
