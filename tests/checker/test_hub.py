"""Who asks on a hub, by what the hub says of a token."""

from __future__ import annotations

import socket
from typing import Any

import pytest
from tornado.web import HTTPError

from workbook.checker import hub
from workbook.checker.caller import Caller
from workbook.checker.hub import HubPorter, map_logins, open_hub
from workbook.checker.memory import BURST
from workbook.errors import CheckerRefusedError
from workbook.labfile.roster import Student

ROSTER = (Student("K3F8", "Ada"), Student("hk-02", "Ben", login="Ben.Oak"))


def model(name: str, *scopes: str, kind: str = "user") -> dict[str, Any]:
    """Return what a hub says of a token: its REST API, GET /user."""
    return {"name": name, "kind": kind, "scopes": list(scopes)}


#: The scopes of a server's own token, as a hub gives them to the role "server".
OWN = ("users:activity!user=ben.oak", "access:servers!server=ben.oak/")


def find(said: dict[str, Any] | None) -> Caller:
    """Ask who has a token of which the hub says this."""
    return HubPorter("salt", map_logins(ROSTER), lambda _: said).find("t")


@pytest.mark.parametrize("scopes", [OWN, OWN[:1], OWN[1:]])
def test_the_token_of_a_students_server_says_who_asks(scopes: tuple[str, ...]) -> None:
    assert find(model("ben.oak", *scopes)) == Caller("salt", "hk-02", None)


@pytest.mark.parametrize(
    "said",
    [
        None,
        model("ben.oak"),
        model("ben.oak", "access:servers!server=k3f8/"),
        model("ben.oak", "users:activity!user=k3f8"),
        model("ben.oak", "access:servers!server=ben.oakley/"),
        model("ben.oak", "access:servers", "users:activity"),
        model("ben.oak", *OWN, kind="service"),
    ],
)
def test_no_other_token_does(said: dict[str, Any] | None) -> None:
    with pytest.raises(CheckerRefusedError) as caught:
        find(said)
    assert caught.value.code == "caller"


def test_who_is_not_on_the_roster_is_told_so() -> None:
    with pytest.raises(CheckerRefusedError, match="'eve', but it is not on the roster"):
        find(model("eve", "users:activity!user=eve"))


def test_a_hub_that_is_silent_is_no_refusal_of_the_student() -> None:
    def fail(_: str) -> None:
        raise HTTPError(502)

    with pytest.raises(CheckerRefusedError) as caught:
        HubPorter("salt", {}, fail).find("t")
    assert caught.value.code == "away"


def ask_all(tokens: list[str]) -> tuple[list[str], list[str]]:
    """Return which tokens the hub was asked about, and what came of each."""
    asked: list[str] = []

    def identify(token: str) -> dict[str, Any] | None:
        asked.append(token)
        return model("ben.oak", *OWN) if token == "ben" else None  # noqa: S105

    porter, codes = HubPorter("salt", map_logins(ROSTER), identify), []
    for token in tokens:
        try:
            codes.append(porter.find(token, "10.0.0.1").student)
        except CheckerRefusedError as error:
            codes.append(error.code)
    return asked, codes


def test_the_hub_is_asked_once_about_a_token_whatever_it_says() -> None:
    asked, codes = ask_all(["ben", "eve", "ben", "eve"])
    assert asked == ["ben", "eve"]
    assert codes == ["hk-02", "caller", "hk-02", "caller"]


def test_a_storm_of_tokens_asks_the_hub_no_more_than_a_burst() -> None:
    made_up = [f"t{number}" for number in range(10 * BURST)]
    asked, codes = ask_all(["ben", *made_up, "ben"])
    # A test on a slow machine takes seconds, in each of which some more are asked.
    assert len(asked) < 5 * BURST
    assert set(codes[1:-1]) == {"caller", "away"}
    assert (codes[0], codes[-1]) == ("hk-02", "hk-02")


def test_a_hub_that_is_silent_is_asked_again() -> None:
    faults = [HTTPError(502)]

    def identify(_: str) -> dict[str, Any]:
        if faults:
            raise faults.pop()
        return model("ben.oak", *OWN)

    porter = HubPorter("salt", map_logins(ROSTER), identify)
    with pytest.raises(CheckerRefusedError):
        porter.find("t")
    assert porter.find("t").student == "hk-02"


def test_a_login_stands_for_a_student_and_an_id_where_there_is_none() -> None:
    # JupyterHub writes names in small letters: Authenticator.normalize_username.
    names = {"K3F8": "K3F8", "k3f8": "K3F8", "Ben.Oak": "hk-02", "ben.oak": "hk-02"}
    assert map_logins(ROSTER) == names


def test_a_hub_that_does_not_answer_is_silent(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("JUPYTERHUB_API_TOKEN", "t")
    # Port 1 is not listened to on this machine.
    monkeypatch.setenv("JUPYTERHUB_API_URL", "http://127.0.0.1:1/hub/api")
    with pytest.raises(CheckerRefusedError) as caught:
        open_hub("salt", ROSTER).find("t")
    assert caught.value.code == "away"


def test_a_hub_that_hangs_is_not_waited_for(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(hub, "_PATIENCE_S", 0.2)
    monkeypatch.setenv("JUPYTERHUB_API_TOKEN", "t")
    # It takes connections, and never answers.
    with socket.create_server(("127.0.0.1", 0)) as silent:
        port = silent.getsockname()[1]
        monkeypatch.setenv("JUPYTERHUB_API_URL", f"http://127.0.0.1:{port}/hub/api")
        with pytest.raises(CheckerRefusedError) as caught:
            open_hub("salt", ROSTER).find("t")
    assert caught.value.code == "away"
