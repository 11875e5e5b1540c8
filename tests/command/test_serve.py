"""``workbook serve`` before it serves: what it needs, and what it says."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from click.testing import CliRunner

from tests.support.soap import make_course
from workbook.checker import launch, upgrade
from workbook.cli import main
from workbook.command import serve

if TYPE_CHECKING:
    import socket
    from pathlib import Path


@pytest.fixture
def served(monkeypatch: pytest.MonkeyPatch) -> list[Any]:
    """Serve nothing, and tell what would have been served."""
    told: list[Any] = []

    def note(setting: launch.Setting, listener: socket.socket, workers: int) -> None:
        told.extend((setting, listener.getsockname(), workers))

    monkeypatch.setattr(launch, "serve", note)
    monkeypatch.setattr(upgrade, "prepare_database", lambda *_: None)
    return told


def run(*words: str, **environment: str) -> tuple[int, str]:
    done = CliRunner().invoke(main, ["serve", *words], env=environment)
    return done.exit_code, done.output


def test_a_course_is_served_with_a_record_beside_it(
    tmp_path: Path, served: list[Any]
) -> None:
    course = make_course(tmp_path)
    status, said = run(str(course), "--port", "0")
    setting, (host, port), workers = served
    assert status == 0
    assert setting.course == str(course)
    assert setting.database == f"sqlite:///{tmp_path / 'course.record.sqlite'}"
    assert (setting.prefix, host, workers) == ("", "127.0.0.1", 1)
    assert said.startswith(f"Serves 'Salt & soap' at http://127.0.0.1:{port}; ")
    assert "after a restart" in said


def test_what_a_hub_says_of_place_and_prefix_is_taken(
    tmp_path: Path, served: list[Any]
) -> None:
    course = make_course(tmp_path)
    with launch.listen("127.0.0.1", 0) as free:
        port = free.getsockname()[1]
    hub = {
        "JUPYTERHUB_SERVICE_PREFIX": "/services/checker/",
        "JUPYTERHUB_SERVICE_URL": f"http://127.0.0.1:{port}",
        "WORKBOOK_DATABASE": "postgresql://ada:secret@db/lab",
    }
    status, said = run(str(course), **hub)
    assert status == 0
    assert served[0].prefix == "/services/checker"
    assert served[0].database == hub["WORKBOOK_DATABASE"]
    assert served[1] == ("127.0.0.1", port)
    assert "secret" not in said


def test_a_course_without_its_key_is_not_served(
    tmp_path: Path, served: list[Any]
) -> None:
    course = make_course(tmp_path, has_key=False)
    status, said = run(str(course))
    assert (status, served) == (2, [])
    assert "the course key is not there" in said


def test_a_course_with_a_mistake_is_not_served(
    tmp_path: Path, served: list[Any]
) -> None:
    course = make_course(tmp_path)
    (tmp_path / "roster.csv").write_text("student,name\n", encoding="utf-8")
    status, said = run(str(course))
    assert (status, served) == (2, [])
    assert "no student follows" in said


def test_without_its_packages_it_says_what_to_install(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    course = make_course(tmp_path)
    monkeypatch.setattr(serve, "find_spec", lambda name: name != "starlette" or None)
    status, said = run(str(course))
    assert status == 2
    assert (
        "needs more packages (starlette): pip install 'lab-workbook[service]'" in said
    )
