"""The student side of the package: which parts it has, and its build."""

from __future__ import annotations

import subprocess
import sys
import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[2]

#: Where the student image is built, and the one place that lists its parts.
BUILD = ROOT / "binder" / "student"


_TOLD = tomllib.loads((BUILD / "pyproject.toml").read_text(encoding="utf-8"))

#: What the build says of the student image: its name, version and needs.
PROJECT = _TOLD["project"]


def _read_parts() -> set[str]:
    wheel = _TOLD["tool"]["hatch"]["build"]["targets"]["wheel"]
    return {Path(place).stem for place in wheel["force-include"].values()}


#: The parts that may run in a student's kernel.
STUDENT_SIDE = _read_parts() - {"__init__"}


def build_wheel(to: Path, project: Path = BUILD) -> Path:
    """
    Build the wheel of the student image, as its own file tells, and return it.

    Parameters
    ----------
    to : Path
        An empty folder, or one to be made.
    project : Path
        What is built, where it is not the student image.

    Returns
    -------
    Path
        The wheel.
    """
    command = [sys.executable, *("-m", "pip", "wheel", "--quiet", "--no-deps")]
    # The build's own needs are installed here, so that no network is asked.
    command += ["--no-build-isolation", "--no-index", "--wheel-dir", str(to)]
    subprocess.run([*command, str(project)], check=True)
    (wheel,) = to.glob("*.whl")
    return wheel
