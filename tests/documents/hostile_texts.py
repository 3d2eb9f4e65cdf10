"""Texts that a stranger's plan could hold, and what each tries."""

HOSTILE = (
    "a | b | c",  # another cell
    "x\n\n# Heading\n\n- [ ] step",  # other blocks
    "x\r\n| y | z |",  # another row
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "[click](https://example.invalid)",
    "![pixel](https://example.invalid/p.png)",
    "https://example.invalid www.example.invalid me@example.invalid",
    "*a* _b_ **c** `d` ~~e~~",
    "&lt;b&gt; &#x3c;",
    "{{ 7 * 7 }} {% raw %} {# gone #}",
    '=HYPERLINK("https://example.invalid")',
    "+1+1",
    "-1-1",
    "@SUM(A1)",
    "\t=1+1",
    "\r=1+1",
    "  =1+1",
    "＝1+1",
    "a;=1+1",
    'say "no"',
    "back\\slash\\|",
    "1. one",
    "# one",
    "> one",
    "---",
    "===",
    "\u2028next\x0bline\x85here",
)
