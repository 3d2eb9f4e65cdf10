"""What `firstfix` says when it is given nothing to do: what it is for, its commands, and how to begin."""

# Each is also the module beside this one that carries the command out.
COMMANDS = {
    "check": "what would go wrong with a plan: where, by how much, on which source, and what cures it",
    "build": "everything to build by: shopping list, checklist, drawings, settings, report",
    "progress": "what is left to buy and to do; records what is ordered, done and measured",
    "diff": "what changes between two plans: what to buy, and what to do",
    "draw": "one drawing of a plan, for a write-up",
    "explain": "what a rule compares, and on which source",
    "parts": "search the parts that a plan can use",
    "new": "a small commented plan to start from",
}


def overview() -> str:
    width = max(map(len, COMMANDS))
    commands = "\n".join(f"  {name:<{width}}  {summary}" for name, summary in COMMANDS.items())
    return f"""\
firstfix checks the plan of a small network before you buy, and compiles it into all you need to build it.
You write one text file: rooms, cabinets, devices, what plugs into what. It works offline. It changes only
the folder you name, and the small files beside your plan that keep what was chosen and what is done.

Commands
{commands}

First steps
  1. firstfix new -o my-network.yaml           writes a small plan with comments; make it yours
  2. firstfix check my-network.yaml            says what is wrong with it; mend it until nothing is
  3. firstfix build my-network.yaml -o out     writes the documents into the folder out

firstfix COMMAND --help shows a command's options with an example; firstfix --version prints the version.
"""
