"""
Services and databases that are killed under load, and what is lost or doubled.

Run as ``python -m tests.benchmarks.kills [KIND [KILLS [SEED]]]``; the kinds are those
of `tests.support.fortress`, and all of them where none is given. It serves on the
loopback address alone, and ends by itself, with the status 1 where something was lost
or doubled.
"""

from __future__ import annotations

import os
import random
import sys
import time

from tests.support.fortress import KINDS, build
from tests.support.load import make_pupils
from tests.support.siege import besiege, find_losses

#: How often something is killed where it is not said [-].
KILLS = 300

STUDENTS = 200


def kill_often(kind: str, kills: int, seed: int) -> bool:
    """Print what became of the attempts, and tell whether all is well."""
    out = sys.stdout
    began_s = time.monotonic()
    with build(kind, STUDENTS) as fortress:
        pupils = make_pupils(fortress.course, STUDENTS, seed)
        siege = besiege(fortress.addresses, fortress.victims, pupils, kills, seed)
        losses = find_losses(siege, fortress.database)
    took_s, load = time.monotonic() - began_s, os.getloadavg()[0]
    out.write(f"{kind}: {kills} kills, seed {seed}, {took_s:.0f} s, load {load:.1f}\n")
    for what, number in (*sorted(siege.counts.items()), *losses.items()):
        out.write(f"  {what}: {number:,}\n")
    for fault in siege.faults:
        out.write(f"  {fault}\n")
    out.flush()
    wrong = list(losses.values())[2:]
    return not any(wrong) and not siege.faults


def main() -> None:
    """Besiege each kind."""
    kinds = sys.argv[1:2] or list(KINDS)
    kills = int(sys.argv[2]) if len(sys.argv) > 2 else KILLS
    drawn = random.SystemRandom().randrange(10**6)
    seed = int(sys.argv[3]) if len(sys.argv) > 3 else drawn
    held = [kill_often(kind, kills, seed) for kind in kinds]
    sys.exit(not all(held))


if __name__ == "__main__":
    main()
