"""
JupyterHub for one class on one machine, the checker beside it as a system user.

README.md in this folder says how the folders below come to be, and who may read what.
Start it as root: ``jupyterhub --config jupyterhub_config.py``.
"""

from __future__ import annotations

import os
import subprocess
from pathlib import Path
from pwd import getpwnam
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from jupyterhub.spawner import Spawner

c = get_config()  # type: ignore[name-defined]  # noqa: F821  JupyterHub brings it

#: Where everything of the class lies, and where browsers find the hub.
BASE = Path(os.environ.get("WORKBOOK_HUB", "/srv/workbook"))
ADDRESS = os.environ.get("WORKBOOK_HUB_ADDRESS", "https://hub.example.edu")

#: The checker's own: nobody else enters these two.
CHECKER_USER = "workbook-checker"
COURSE = BASE / "course" / "course.toml"
RECORD = BASE / "record"

#: What the students get, read by root alone and copied into each home.
ISSUED = BASE / "issued" / "students"

#: The two environments: the whole package, and the student image.
CHECKER = BASE / "checker" / "bin" / "workbook"
STUDENT = BASE / "student" / "bin" / "python"

#: Starts the checker as its own user, with one right of root's: to listen on its port.
AS_CHECKER = [
    "/usr/bin/setpriv",
    f"--reuid={CHECKER_USER}",
    f"--regid={CHECKER_USER}",
    "--clear-groups",
    *(
        f"--{each}=-all,+net_bind_service"
        for each in ("inh-caps", "ambient-caps", "bounding-set")
    ),
    "--no-new-privs",
]


def hand_out(spawner: Spawner) -> None:
    """
    Copy what was issued to a student into their home; what is there stays as it is.

    It is unpacked as the student, so that a link that they laid leads nowhere else.
    """
    student = getpwnam(spawner.user.name)
    issued = ISSUED / student.pw_name
    packed = subprocess.run(  # noqa: S603  no shell, no name from outside
        ["/usr/bin/tar", "--create", "--directory", issued, "."],
        capture_output=True,
        check=True,
    ).stdout
    for command in (
        ("/usr/bin/chmod", "0700", "."),
        ("/usr/bin/tar", "--extract", "--skip-old-files", "--one-top-level=labs"),
    ):
        subprocess.run(  # noqa: S603  as above
            command,
            input=packed,
            cwd=student.pw_dir,
            user=student.pw_uid,
            group=student.pw_gid,
            extra_groups=(),
            umask=0o077,
            check=True,
        )


# Ports below 1024 belong to root. On any other, a student could listen while hub or
# checker start anew, and would be sent everybody's token.
c.JupyterHub.bind_url = "https://:443"
c.JupyterHub.ssl_cert = str(BASE / "hub" / "certificate.pem")
c.JupyterHub.ssl_key = str(BASE / "hub" / "key.pem")
c.JupyterHub.hub_bind_url = "http://127.0.0.1:801"
c.ConfigurableHTTPProxy.api_url = "http://127.0.0.1:802"
c.ConfigurableHTTPProxy.pid_file = str(BASE / "hub" / "proxy.pid")
c.JupyterHub.db_url = f"sqlite:///{BASE / 'hub' / 'hub.sqlite'}"
c.JupyterHub.cookie_secret_file = str(BASE / "hub" / "cookie_secret")

# Whoever was issued a folder has an account of that name, and may log in.
c.JupyterHub.authenticator_class = "pam"
c.Authenticator.allowed_users = {place.name for place in ISSUED.iterdir()}

c.JupyterHub.spawner_class = "jupyterhub.spawner.LocalProcessSpawner"
c.Spawner.cmd = [str(STUDENT), "-m", "jupyterhub.singleuser"]
# A kernel's sockets are files in its student's home. By default they would be ports,
# to which every user of the machine can listen.
c.Spawner.args = ["--KernelManager.transport=ipc"]
c.Spawner.default_url = "/lab/tree/labs"
c.Spawner.environment = {
    "WORKBOOK_SERVICE": f"{ADDRESS}/services/checker",
    # A socket's name holds some hundred characters, and a kernel's is long.
    "JUPYTER_RUNTIME_DIR": lambda spawner: f"{getpwnam(spawner.user.name).pw_dir}/.run",
}
c.Spawner.env_keep = ["PATH", "LANG", "LC_ALL"]
c.Spawner.pre_spawn_hook = hand_out

c.JupyterHub.services = [
    {
        "name": "checker",
        "url": "http://127.0.0.1:803",
        "command": [
            *AS_CHECKER,
            str(CHECKER),
            "serve",
            str(COURSE),
            f"--database=sqlite:///{RECORD / 'record.sqlite'}",
        ],
        "cwd": str(RECORD),
        "display": False,
    },
]
# The checker asks the hub who somebody is with that student's own token. It has no
# role: its own token opens nothing.
