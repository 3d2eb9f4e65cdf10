"""Keeps the pictures as they are drawn now, and writes down why: `python tests/golden/pictures/write.py "One sentence."`"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from golden.pictures.pictures import CHANGES, HERE, apart, decoded, digest, drawn_now, encoded, kept, picture

_HEAD = """# Why the pictures changed

A line for each picture that was written, the latest last: its name, the beginning of its SHA-256, and one sentence.
`write.py` beside this file adds them; a test refuses a picture whose digest isn't here.

"""


def write(sentence: str) -> list[str]:
    """Only what no longer is the same within the tolerance is written. The names of what was."""
    before = kept()
    now = {name: picture(svg) for name, svg in drawn_now().items()}
    written = {
        name: encoded(pixels)
        for name, pixels in now.items()
        if name not in before or not apart(decoded(before[name]), pixels).is_the_same
    }
    lines = [f"- `{name}` `{digest(data)}`: {sentence}\n" for name, data in written.items()]
    for name, data in written.items():
        (HERE / name).write_bytes(data)
    for name in before.keys() - now.keys():
        (HERE / name).unlink()
    text = CHANGES.read_text(encoding="utf-8") if CHANGES.exists() else _HEAD
    CHANGES.write_text(text + "".join(lines), encoding="utf-8", newline="\n")
    return list(written)


if __name__ == "__main__":
    said = " ".join(sys.argv[1:]).strip()
    if len(said.split()) < 4 or not said.endswith("."):
        sys.exit("say in one sentence why the pictures change, with a full stop")
    sys.stdout.write("".join(f"{each}\n" for each in write(said)) or "nothing has changed\n")
