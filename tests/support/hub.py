"""
A JupyterHub of its own for a test: system users, proxy, checker, student image.

It runs the configuration that a class runs, `binder/hub/jupyterhub_config.py`, with
ports, passwords and a place of its own.
"""

from __future__ import annotations

import os
import secrets
import shutil
import signal
import socket
import subprocess
import sys
import time
import tomllib
import urllib.request
from contextlib import contextmanager, suppress
from pathlib import Path
from pwd import getpwnam
from tempfile import mkdtemp
from typing import TYPE_CHECKING

import pytest

from tests.support.command import run
from tests.support.environment import install_wheel, lay_environment
from tests.support.lab import OLIVE_OIL
from tests.support.studentside import PROJECT, ROOT, build_wheel

if TYPE_CHECKING:
    from collections.abc import Iterator

LAB = OLIVE_OIL.name

#: Two students: each has an id on the roster, and a system user of the same name.
ADA, BRAM = "wb-ada", "wb-bram"
CHECKER_USER = "workbook-checker"

#: Names the program of the proxy, a package of npm, where it is not on the search path.
VARIABLE = "WORKBOOK_PROXY"
_PROXY = "configurable-http-proxy"

_USERADD, _USERDEL = "/usr/sbin/useradd", "/usr/sbin/userdel"

#: Where the ports begin that anybody may take.
_ROOTS = 1024

#: How long a hub may take to be up, checker and proxy with it [s].
_STARTING_S = 90

_ROSTER = f"student,name\n{ADA},Ada Moss\n{BRAM},Bram Teal\n"

#: What a test changes of a class's configuration: ports, passwords, no certificate.
_SETTINGS = """\
load_subconfig({config!r})
c.JupyterHub.bind_url = {address!r}
c.JupyterHub.ssl_cert = c.JupyterHub.ssl_key = ""
c.JupyterHub.hub_bind_url = "http://127.0.0.1:{hub_port}"
c.ConfigurableHTTPProxy.api_url = "http://127.0.0.1:{proxy_port}"
c.ConfigurableHTTPProxy.command = [{proxy!r}]
c.JupyterHub.authenticator_class = "dummy"
c.DummyAuthenticator.password = {password!r}
c.JupyterHub.services[0]["url"] = "http://127.0.0.1:{checker_port}"
"""


def issue_course(folder: Path) -> Path:
    """
    Issue the demonstration course for two students.

    Parameters
    ----------
    folder : Path
        Where to; ``issued/students`` in it holds what each student gets.

    Returns
    -------
    Path
        The course file.
    """
    hidden = shutil.ignore_patterns("*.key")
    shutil.copytree(OLIVE_OIL, folder / "course" / LAB, ignore=hidden)
    shutil.copy2(OLIVE_OIL.parent / "course.toml", folder / "course")
    (folder / "course" / "roster.csv").write_text(_ROSTER, encoding="utf-8")
    course = folder / "course" / "course.toml"
    issued = run("issue", course, "--to", folder / "issued")
    if issued.exit_code:
        raise RuntimeError(issued.output)
    return course


class Hub:
    """
    A running JupyterHub.

    Parameters
    ----------
    base : Path
        Where all of it lies.
    address : str
        Where browsers find it.
    password : str
        Everybody's.
    """

    def __init__(self, base: Path, address: str, password: str) -> None:
        self.base = base
        self.address = address
        self.password = password
        #: Where hub, proxy and checker listen [-].
        self.ports: list[int] = []
        #: The interpreter of the student image.
        self.python = base / "student" / "bin" / "python"

    def run_as(self, user: str, code: str, *given: str) -> str:
        """
        Run a program as a system user, in their home, with the student image.

        Parameters
        ----------
        user : str
            Who.
        code : str
            The program.
        *given : str
            Its arguments.

        Returns
        -------
        str
            What it printed; of one that failed, the last line of its complaint.
        """
        who = getpwnam(user)
        done = subprocess.run(
            [str(self.python), "-I", "-c", code, *given],
            cwd=who.pw_dir,
            env={"HOME": who.pw_dir},
            user=who.pw_uid,
            group=who.pw_gid,
            extra_groups=(),
            capture_output=True,
            text=True,
            timeout=30,
            check=False,
        )
        return (done.stdout or done.stderr.strip().rpartition("\n")[2]).strip()

    def home(self, user: str) -> Path:
        """
        Return a user's home.

        Parameters
        ----------
        user : str
            Who.

        Returns
        -------
        Path
            A folder.
        """
        return Path(getpwnam(user).pw_dir)


def list_processes(user: str, word: str = "") -> list[int]:
    """
    Return the processes of a system user.

    Parameters
    ----------
    user : str
        Who.
    word : str
        What stands in their command.

    Returns
    -------
    list of int
        Their numbers, ascending [-].
    """
    uid, found = getpwnam(user).pw_uid, []
    for process in Path("/proc").glob("[0-9]*"):
        with suppress(OSError):
            command = (process / "cmdline").read_bytes().decode()
            if process.stat().st_uid == uid and word in command:
                found.append(int(process.name))
    return sorted(found)


@contextmanager
def start_hub() -> Iterator[Hub]:
    """
    Start a hub with two students who may log in.

    Yields
    ------
    Hub
        Stopped afterwards, its users and all that it wrote removed.
    """
    proxy = _find_tools()
    base = Path(mkdtemp(prefix="wb-", dir="/tmp"))
    base.chmod(0o755)
    try:
        _add_users(base)
        _furnish(base)
        with _run_hub(base, proxy) as hub:
            yield hub
    finally:
        _remove_users()
        shutil.rmtree(base, ignore_errors=True)


def _find_tools() -> str:
    """Return where the proxy lies; without what is needed skip, in CI fail."""
    proxy = os.environ.get(VARIABLE) or shutil.which(_PROXY) or ""
    missing = [
        reason
        for reason, is_missing in (
            ("not run as root, who can make system users", os.geteuid() != 0),
            (f"no {_USERADD}", not Path(_USERADD).exists()),
            (f"no {_PROXY}; set {VARIABLE} or install it with npm", not proxy),
        )
        if is_missing
    ]
    if missing and os.environ.get("CI"):
        pytest.fail(f"In CI a missing tool is a failure: {'; '.join(missing)}.")
    if missing:
        pytest.skip("; ".join(missing))
    return proxy


def _add_users(base: Path) -> None:
    for student in (ADA, BRAM):
        home = ("--create-home", "--home-dir", str(base / student))
        subprocess.run([_USERADD, *home, student], check=True)
    nobody = ("--system", "--no-create-home", "--user-group")
    subprocess.run([_USERADD, *nobody, CHECKER_USER], check=True)


def _remove_users() -> None:
    for user in (ADA, BRAM, CHECKER_USER):
        with suppress(KeyError):
            for process in list_processes(user):
                with suppress(ProcessLookupError):
                    os.kill(process, signal.SIGKILL)
            subprocess.run([_USERDEL, user], capture_output=True, check=False)


def _furnish(base: Path) -> None:
    """Lay out everything as `binder/hub/README.md` says."""
    (base / "hub").mkdir(mode=0o700)
    issue_course(base)
    (base / "issued").chmod(0o700)
    (base / "record").mkdir()
    for name in ("course", "record"):
        for place in (base / name, *(base / name).rglob("*")):
            shutil.chown(place, CHECKER_USER, CHECKER_USER)
            place.chmod(0o700 if place.is_dir() else 0o600)
    wheels = base / "wheels"
    needs = [*PROJECT["dependencies"], "jupyterlab", "jupyterhub"]
    install_wheel(build_wheel(wheels), lay_environment(base / "student", needs))
    shutil.rmtree(wheels)
    install_wheel(build_wheel(wheels, ROOT), lay_checker(base / "checker"))
    shutil.rmtree(wheels)


def lay_checker(place: Path) -> Path:
    """Lay out an environment for the whole package as a service on a hub."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    extras = project["optional-dependencies"]
    needs = [*project["dependencies"], *extras["service"], *extras["hub"]]
    return lay_environment(place, needs)


@contextmanager
def _run_hub(base: Path, proxy: str) -> Iterator[Hub]:
    ports = _find_ports(4)
    hub = Hub(base, f"http://127.0.0.1:{ports[0]}", secrets.token_hex(8))
    hub.ports = ports
    settings = base / "hub" / "settings.py"
    config = ROOT / "binder" / "hub" / "jupyterhub_config.py"
    text = _SETTINGS.format(
        config=str(config),
        address=hub.address,
        hub_port=ports[1],
        proxy_port=ports[2],
        checker_port=ports[3],
        proxy=proxy,
        password=hub.password,
    )
    settings.write_text(text, encoding="utf-8")
    command = [sys.executable, "-m", "jupyterhub", f"--config={settings}"]
    surroundings = {
        "PATH": os.environ["PATH"],
        "WORKBOOK_HUB": str(base),
        "WORKBOOK_HUB_ADDRESS": hub.address,
    }
    with (base / "hub" / "log").open("wb") as log:
        process = subprocess.Popen(
            command, cwd=base / "hub", env=surroundings, stdout=log, stderr=log
        )
        try:
            _wait_until_up(hub, process)
            yield hub
        finally:
            process.terminate()
            with suppress(subprocess.TimeoutExpired):
                process.wait(timeout=30)
            process.kill()
            process.wait()


def _find_ports(number: int) -> list[int]:
    """Return ports of root's on which nobody listens."""
    found: list[int] = []
    for port in range(_ROOTS - 1, 0, -1):
        with socket.socket() as listener, suppress(OSError):
            listener.bind(("127.0.0.1", port))
            found.append(port)
        if len(found) == number:
            break
    return found


def _wait_until_up(hub: Hub, process: subprocess.Popen[bytes]) -> None:
    """Wait until the proxy leads to the hub and to the checker."""
    log = hub.base / "hub" / "log"
    deadline = time.monotonic() + _STARTING_S
    while time.monotonic() < deadline:
        if process.poll() is not None:
            break
        try:
            for place in ("hub/health", "services/checker/health"):
                with urllib.request.urlopen(f"{hub.address}/{place}", timeout=5):  # noqa: S310  loopback
                    pass
        except OSError:
            time.sleep(0.2)
        else:
            return
    pytest.fail(f"JupyterHub was not up:\n{log.read_text('utf-8')[-4000:]}")
