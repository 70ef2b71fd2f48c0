"""The two commands of the README, on a clean machine, in a checkout as it is fetched."""

from __future__ import annotations

import subprocess
from pathlib import Path

from trying.checks import check, say
from trying.machines import BREWER, Machine, proxies

TOP = Path(__file__).parents[2]
SHEET = "harbour_lamp_porter.pdf"


def try_checkout(machine: Machine) -> None:
    """Let the scripts set up what is missing, as a brewer who may become root by sudo."""
    assert machine.root is not None
    done = machine.install("sudo", "ca-certificates")
    check("the machine has sudo", done.returncode == 0, done.stdout + done.stderr)
    right = machine.root / "etc/sudoers.d/brewer"
    right.write_text("brewer ALL=(ALL) NOPASSWD: ALL\n", "utf-8")
    right.chmod(0o440)
    checkout = machine.home / "checkout"
    subprocess.run(["git", "clone", "-q", "--no-hardlinks", str(TOP), str(checkout)], check=True)
    subprocess.run(["chown", "-R", f"{BREWER}:{BREWER}", str(checkout)], check=True)
    for words, told in (
        (["packaging/run.sh"], "gravity"),
        (["packaging/test.sh", "tests/wort", "tests/units", "tests/paper", "-q"], " passed"),
    ):
        inside = f"cd '{machine.inside(checkout)}' && exec sh {' '.join(words)}"
        done = machine.run("sh", "-c", inside, as_root=False, **proxies())
        said = done.stdout + done.stderr
        check(f"sh {' '.join(words)}", done.returncode == 0 and told in done.stdout, said)
        for line in said.splitlines():
            if line.startswith("hobwort: ") or (told in line and words[0].endswith("test.sh")):
                say(f"         {line}")
    sheet = checkout / SHEET
    check("and the sheet is there", sheet.is_file() and sheet.read_bytes()[:5] == b"%PDF-", sheet)
