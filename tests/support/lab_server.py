"""A JupyterLab of its own for a test, and a page of it in a real Chromium."""

from __future__ import annotations

import json
import os
import secrets
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from contextlib import contextmanager
from typing import TYPE_CHECKING
from urllib.parse import quote

import pytest
from playwright.sync_api import sync_playwright

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from playwright.sync_api import Browser, Page

#: Names under which a Chromium is found on a search path.
_CHROMIUMS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")

#: Without these Chromium asks the network for what no test needs.
_ARGUMENTS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)

#: Opening JupyterLab cold takes seconds; a busy machine takes many.
OPENING_S = 60


def find_chromium() -> str:
    """
    Return where a Chromium lies; without one the test is skipped, in CI it fails.

    Returns
    -------
    str
        A path.
    """
    for name in _CHROMIUMS:
        found = shutil.which(name)
        if found:
            return found
    reason = f"no Chromium on the search path; install one of {_CHROMIUMS}."
    if os.environ.get("CI"):
        pytest.fail(f"In CI a missing tool is a failure: {reason}")
    pytest.skip(reason)


@contextmanager
def start_chromium() -> Iterator[Browser]:
    """
    Start a Chromium without a window.

    Yields
    ------
    Browser
        Closed afterwards.
    """
    path = find_chromium()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=path, args=list(_ARGUMENTS)
        )
        try:
            yield browser
        finally:
            browser.close()


class LabServer:
    """
    A running JupyterLab.

    Parameters
    ----------
    port : int
        Where it listens, on the loopback address.
    token : str
        What it asks for.
    """

    def __init__(self, port: int, token: str) -> None:
        self.address = f"http://127.0.0.1:{port}"
        self.token = token

    def open(self, browser: Browser, notebook: str) -> Page:
        """
        Return a page that shows a notebook, its kernel started.

        Parameters
        ----------
        browser : Browser
            Where the page is opened; pages share what they have loaded.
        notebook : str
            As seen from the server's folder.

        Returns
        -------
        Page
            Ready to be worked in.
        """
        context = browser.contexts[0] if browser.contexts else browser.new_context()
        page = context.new_page()
        page.set_viewport_size({"width": 1100, "height": 1000})
        page.set_default_timeout(OPENING_S * 1000)
        path = quote(notebook)
        page.goto(f"{self.address}/lab/tree/{path}?token={self.token}&reset")
        page.locator(".jp-Notebook").wait_for()
        # The status bar alone says whether the kernel answers; the round sign beside
        # the notebook's name is idle before a kernel is there.
        page.get_by_text("(ipykernel) | Idle").wait_for()
        return page


@contextmanager
def start_lab(
    folder: Path,
    home: Path,
    *,
    theme: str = "light",
    env: Mapping[str, str] | None = None,
) -> Iterator[LabServer]:
    """
    Start a JupyterLab that serves a folder.

    Parameters
    ----------
    folder : Path
        What it serves.
    home : Path
        A folder for its own settings and records.
    theme : str
        ``"light"`` or ``"dark"``.
    env : mapping of str to str or None
        Environment variables that are added.

    Yields
    ------
    LabServer
        Stopped afterwards, with its kernels.
    """
    port, token = _free_port(), secrets.token_hex(16)
    settings = home / "settings"
    _write_settings(settings, theme)
    surroundings = {
        **os.environ,
        "HOME": str(home),
        "JUPYTER_CONFIG_DIR": str(home / "config"),
        "JUPYTER_DATA_DIR": str(home / "data"),
        "JUPYTER_RUNTIME_DIR": str(home / "runtime"),
        "JUPYTERLAB_SETTINGS_DIR": str(settings),
        "JUPYTERLAB_WORKSPACES_DIR": str(home / "workspaces"),
        **(env or {}),
    }
    command = [
        sys.executable,
        *("-m", "jupyter", "lab", "--no-browser", "--allow-root", "--ip=127.0.0.1"),
        f"--port={port}",
        "--ServerApp.port_retries=0",
        # A test looks at the notebook as JupyterLab holds it.
        "--LabApp.expose_app_in_browser=True",
        f"--IdentityProvider.token={token}",
        f"--ServerApp.root_dir={folder}",
    ]
    log = (home / "lab.log").open("wb")
    process = subprocess.Popen(command, env=surroundings, stdout=log, stderr=log)
    try:
        server = LabServer(port, token)
        _wait_until_up(server, process)
        yield server
    finally:
        process.terminate()
        process.wait(timeout=30)
        log.close()


def _write_settings(settings: Path, theme: str) -> None:
    extension = settings / "@jupyterlab" / "apputils-extension"
    extension.mkdir(parents=True)
    name = {"light": "JupyterLab Light", "dark": "JupyterLab Dark"}[theme]
    files = {
        "themes.jupyterlab-settings": {"theme": name},
        "notification.jupyterlab-settings": {
            "fetchNews": "false",
            "checkForUpdates": False,
        },
    }
    for file, content in files.items():
        (extension / file).write_text(json.dumps(content), encoding="utf-8")


def _free_port() -> int:
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        return int(listener.getsockname()[1])


def _wait_until_up(server: LabServer, process: subprocess.Popen[bytes]) -> None:
    deadline = time.monotonic() + OPENING_S
    while time.monotonic() < deadline:
        if process.poll() is not None:
            pytest.fail(f"JupyterLab ended with code {process.returncode}.")
        try:
            with urllib.request.urlopen(f"{server.address}/api", timeout=5):  # noqa: S310  loopback
                return
        except OSError:
            time.sleep(0.2)
    pytest.fail(f"JupyterLab was not up after {OPENING_S} s.")
