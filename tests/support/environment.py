"""
A virtual environment that other users of the machine can enter.

It is laid out from packages that are installed here already, and holds what the named
ones require and nothing else, as a fresh installation from an index would.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from importlib.metadata import Distribution, distribution
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from packaging.requirements import Requirement

if TYPE_CHECKING:
    from collections.abc import Iterable

#: What all users may: to read, and to enter.
_OPEN = 0o005

_MINOR = f"{sys.version_info.major}.{sys.version_info.minor}"


def find_interpreter() -> Path:
    """
    Return an interpreter of this version that every user of the machine can start.

    Without one the test is skipped, in CI it fails.

    Returns
    -------
    Path
        The one that runs here, or else the system's.
    """
    for found in (Path(sys.executable).resolve(), Path("/usr/bin/python3").resolve()):
        if found.is_file() and _is_open(found) and _tell_version(found) == _MINOR:
            return found
    reason = f"no Python {_MINOR} that every user can start, here or as the system's."
    if os.environ.get("CI"):
        pytest.fail(f"In CI a missing tool is a failure: {reason}")
    pytest.skip(reason)


def lay_environment(place: Path, needed: Iterable[str]) -> Path:
    """
    Lay out an environment with all that is needed, and return its interpreter.

    Parameters
    ----------
    place : Path
        The folder to make.
    needed : iterable of str
        Requirements, each of which is met by what is installed here.

    Returns
    -------
    Path
        The interpreter.
    """
    interpreter = find_interpreter()
    subprocess.run([interpreter, "-m", "venv", "--without-pip", place], check=True)
    packages = place / "lib" / f"python{_MINOR}" / "site-packages"
    for each in gather_distributions(needed):
        _lay(each, packages)
    return place / "bin" / "python"


def install_wheel(wheel: Path, python: Path) -> None:
    """
    Install a wheel alone.

    Parameters
    ----------
    wheel : Path
        What is installed.
    python : Path
        The interpreter of the environment.
    """
    command = [sys.executable, "-m", "pip", "--python", str(python), "install"]
    command += ["--quiet", "--no-deps", "--no-index", "--root-user-action=ignore"]
    subprocess.run([*command, str(wheel)], check=True)


def gather_distributions(needed: Iterable[str]) -> list[Distribution]:
    """
    Return the installed packages that the needed ones require, themselves included.

    Parameters
    ----------
    needed : iterable of str
        Requirements.

    Returns
    -------
    list of Distribution
        Each once, by name.
    """
    waiting = [Requirement(text) for text in needed]
    found: dict[str, Distribution] = {}
    seen: set[tuple[str, str]] = set()
    while waiting:
        wanted = waiting.pop()
        for extra in ("", *wanted.extras):
            if (wanted.name, extra) not in seen:
                seen.add((wanted.name, extra))
                package = distribution(wanted.name)
                found[package.name.lower()] = package
                waiting += _list_needs(package, extra)
    return [found[name] for name in sorted(found)]


def _list_needs(package: Distribution, extra: str) -> list[Requirement]:
    needs = (Requirement(text) for text in package.requires or ())
    return [n for n in needs if n.marker is None or n.marker.evaluate({"extra": extra})]


def _lay(package: Distribution, packages: Path) -> None:
    """Link or copy a package's files; its scripts name another interpreter."""
    scripts = packages.parents[2] / "bin"
    for file in package.files or ():
        to = Path(os.path.normpath(packages / file))
        source = Path(str(file.locate()))
        if to.is_relative_to(scripts) or not source.is_file():
            continue
        to.parent.mkdir(parents=True, exist_ok=True)
        try:
            os.link(source, to)
        except FileExistsError:
            continue
        except OSError:
            shutil.copy2(source, to)


def _is_open(path: Path) -> bool:
    return all(each.stat().st_mode & _OPEN == _OPEN for each in (path, *path.parents))


def _tell_version(python: Path) -> str:
    show = "import sys; print('%d.%d' % sys.version_info[:2])"
    return subprocess.check_output([python, "-c", show], text=True).strip()
