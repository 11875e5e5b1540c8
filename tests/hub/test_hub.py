"""
A class on a real JupyterHub: two students work, and neither reaches what is not theirs.

Hub, proxy and checker run as `binder/hub` tells, the students as users of the system.
"""

from __future__ import annotations

import json
import sqlite3
import urllib.error
import urllib.request
from typing import TYPE_CHECKING
from urllib.parse import urljoin

import pytest
from typing_extensions import override

from tests.support.hub import ADA, BRAM, CHECKER_USER, LAB, list_processes, start_hub
from tests.support.keyboard import Keyboard
from tests.support.lab_server import start_chromium

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser

    from tests.support.hub import Hub

pytestmark = [pytest.mark.browser, pytest.mark.service]

#: What is ticked before the lab, by the beginning of its text.
SAFE = {
    "lye_statements": ("H290", "H314"),
    "splash": ("Rinse at once",),
    "brine_waste": ("It is neutralised first",),
}

#: Does one thing, and says how the system refused it.
TRY = """\
import ctypes, glob, os, signal, socket, sys, urllib.request
what, *given = sys.argv[1:]
def call(place, token, method="GET"):
    headers = {"Authorization": token, "Content-Type": "application/json"}
    body = None if method == "GET" else b"{}"
    request = urllib.request.Request(place, body, headers, method=method)
    return urllib.request.urlopen(request, timeout=10)
def trace(process):
    libc = ctypes.CDLL(None, use_errno=True)
    if libc.ptrace(16, int(process), 0, 0):
        raise OSError(ctypes.get_errno(), "ptrace")
def listen(port):
    socket.socket().bind(("127.0.0.1", int(port)))
def reach(path):
    socket.socket(socket.AF_UNIX).connect(path)
do = {
    "list": os.listdir, "read": lambda path: open(path, "rb").read(1),
    "write": lambda path: open(path, "ab"), "remove": os.remove,
    "link": lambda path: os.link(path, "stolen"), "enter": os.chdir,
    "resolve": os.readlink, "signal": lambda pid: os.kill(int(pid), signal.SIGTERM),
    "trace": trace, "listen": listen, "reach": reach, "call": call,
}
try:
    do[what](*given)
except urllib.error.HTTPError as error:
    print(error.code)
except OSError as error:
    print(type(error).__name__)
else:
    print("done")
"""


@pytest.fixture(scope="module")
def hub() -> Iterator[Hub]:
    """Start the hub."""
    with start_hub() as started:
        yield started


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """Start a Chromium."""
    with start_chromium() as chromium:
        yield chromium


@pytest.fixture(scope="module")
def said(hub: Hub, browser: Browser) -> dict[str, dict[str, str]]:
    """Let both students log in, answer what stands at the gate, and hand in."""
    return {student: work(hub, browser, student) for student in (ADA, BRAM)}


def work(hub: Hub, browser: Browser, student: str) -> dict[str, str]:
    """Work as one student, and return what the cards said."""
    context = browser.new_context(viewport={"width": 1100, "height": 1000})
    page = context.new_page()
    page.set_default_timeout(60_000)
    page.goto(f"{hub.address}/hub/login?next=/hub/spawn")
    page.get_by_label("Username").fill(student)
    page.get_by_label("Password").fill(hub.password)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(f"**/user/{student}/**")
    folder = f"{hub.address}/user/{student}/lab/tree/labs/{LAB}"
    page.goto(f"{folder}/prelab.ipynb?reset")
    keyboard = Keyboard(page)
    keyboard.wait_until_live()
    says = {step: choose(keyboard, step) for step in SAFE}
    hand_in = keyboard.card("hand-in")
    keyboard.tab_to(hand_in.get_by_role("button", name="Write the hand-in"))
    page.keyboard.press("Enter")
    hand_in.get_by_text(f"{student}.handin.json").wait_for()
    return says


def choose(keyboard: Keyboard, step: str) -> str:
    """Tick what is right, and return what the card says."""
    for option in SAFE[step]:
        keyboard.tab_to(keyboard.card(step).get_by_label(option))
        keyboard.page.keyboard.press("Space")
    return keyboard.check(step)


def test_both_students_are_judged_by_the_checker(
    said: dict[str, dict[str, str]],
) -> None:
    for says in said.values():
        assert all(each.startswith("Agrees.") for each in says.values())


@pytest.mark.usefixtures("said")
def test_every_answer_and_both_hand_ins_are_recorded(hub: Hub) -> None:
    with sqlite3.connect(hub.base / "record" / "record.sqlite") as record:
        rows = record.execute("SELECT student, step FROM attempt").fetchall()
        taken = record.execute("SELECT count(*) FROM hand_in").fetchone()
    assert sorted(rows) == sorted((s, step) for s in (ADA, BRAM) for step in SAFE)
    assert taken == (2,)


@pytest.mark.usefixtures("said")
def test_the_hand_in_of_each_is_their_own_and_sealed(hub: Hub) -> None:
    for student in (ADA, BRAM):
        path = hub.home(student) / "labs" / LAB / f"{student}.handin.json"
        hand_in = json.loads(path.read_text("utf-8"))
        assert hand_in["sheet"]["student"] == student
        assert hand_in["seal"]


@pytest.mark.usefixtures("said")
def test_kernels_listen_to_files_and_not_to_ports(hub: Hub) -> None:
    for student in (ADA, BRAM):
        sockets = [p for p in (hub.home(student) / ".run").iterdir() if p.is_socket()]
        assert len(sockets) >= 5


@pytest.mark.usefixtures("said")
def test_the_checker_runs_as_a_user_of_its_own(hub: Hub) -> None:
    (checker,) = list_processes(CHECKER_USER, "serve")
    assert str(hub.base / "checker") in str(list_arguments(checker))


def list_arguments(process: int) -> list[str]:
    """Return the command of a process."""
    with open(f"/proc/{process}/cmdline", "rb") as file:  # noqa: PTH123  no file
        return file.read().decode().split("\0")


def attack(hub: Hub, what: str, *given: object) -> str:
    """Do something as the first student, and return how it ended."""
    return hub.run_as(ADA, TRY, what, *map(str, given))


PLACES = {
    "the course's folder": ("list", "course"),
    "the course file": ("read", "course/course.toml"),
    "the course's key": ("read", "course/course.key"),
    "the lab file": ("read", f"course/{LAB}/lab.toml"),
    "the roster": ("read", "course/roster.csv"),
    "the record's folder": ("list", "record"),
    "the record": ("read", "record/record.sqlite"),
    "the record, to write": ("write", "record/record.sqlite"),
    "the record's log": ("read", "record/record.sqlite-wal"),
    "the record, by a second name": ("link", "record/record.sqlite"),
    "what was issued": ("list", "issued"),
    "the answer book": ("read", "issued/instructor/answers.csv"),
    "what was issued to the other": ("list", f"issued/students/{BRAM}"),
    "the hub's folder": ("list", "hub"),
    "the hub's database": ("read", "hub/hub.sqlite"),
    "the hub's secret": ("read", "hub/cookie_secret"),
    "the other's home": ("list", BRAM),
    "the other's home, to enter": ("enter", BRAM),
    "the other's sheet": ("read", f"{BRAM}/labs/{LAB}/sheet.json"),
    "the other's record": (
        "read",
        f"{BRAM}/labs/{LAB}/{LAB}-prelab.attempts.jsonl",
    ),
    "the other's hand-in": ("read", f"{BRAM}/labs/{LAB}/{BRAM}.handin.json"),
    "the other's hand-in, to remove": (
        "remove",
        f"{BRAM}/labs/{LAB}/{BRAM}.handin.json",
    ),
    "the other's kernels": ("list", f"{BRAM}/.run"),
}


@pytest.mark.usefixtures("said")
@pytest.mark.parametrize("name", PLACES)
def test_no_student_reaches(hub: Hub, name: str) -> None:
    what, place = PLACES[name]
    assert attack(hub, what, hub.base / place) == "PermissionError"


@pytest.mark.usefixtures("said")
@pytest.mark.parametrize("entry", ["mem", "environ", "maps", "fd", "cwd", "root"])
@pytest.mark.parametrize("whose", ["checker", "kernel", "server", "hub"])
def test_no_student_looks_into_a_process(hub: Hub, whose: str, entry: str) -> None:
    user, word = {
        "checker": (CHECKER_USER, "serve"),
        "kernel": (BRAM, "ipykernel"),
        "server": (BRAM, "jupyterhub"),
        "hub": ("root", str(hub.base / "hub")),
    }[whose]
    process = list_processes(user, word)[0]
    what = {"fd": "list", "cwd": "resolve", "root": "resolve"}.get(entry, "read")
    assert attack(hub, what, f"/proc/{process}/{entry}") == "PermissionError"


@pytest.mark.usefixtures("said")
@pytest.mark.parametrize("what", ["trace", "signal"])
@pytest.mark.parametrize("whose", ["checker", "kernel"])
def test_no_student_stops_or_traces_a_process(hub: Hub, whose: str, what: str) -> None:
    user, word = {"checker": (CHECKER_USER, "serve"), "kernel": (BRAM, "ipykernel")}[
        whose
    ]
    process = list_processes(user, word)[0]
    assert attack(hub, what, process) == "PermissionError"
    assert process in list_processes(user, word)


@pytest.mark.usefixtures("said")
def test_no_student_reaches_another_s_kernel(hub: Hub) -> None:
    sockets = [p for p in (hub.home(BRAM) / ".run").iterdir() if p.is_socket()]
    assert {attack(hub, "reach", path) for path in sockets} == {"PermissionError"}


@pytest.mark.usefixtures("said")
def test_no_student_listens_where_hub_and_checker_do(hub: Hub) -> None:
    for port in hub.ports:
        assert attack(hub, "listen", port) == "PermissionError"


@pytest.mark.usefixtures("said")
@pytest.mark.parametrize(
    ("place", "status"),
    [
        (f"hub/api/users/{BRAM}", "404"),
        ("hub/api/users", "403"),
        (f"hub/api/users/{BRAM}/tokens", "403"),
        ("hub/api/services", "403"),
        ("hub/api/proxy", "403"),
        (f"user/{BRAM}/api/contents", "403"),
        (f"user/{BRAM}/api/kernels", "403"),
    ],
)
def test_a_student_s_own_token_opens_nothing_of_others(
    hub: Hub, place: str, status: str
) -> None:
    token = read_token(list_processes(ADA, "ipykernel")[0])
    said = attack(hub, "call", f"{hub.address}/{place}", f"token {token}")
    assert said == status


def read_token(process: int) -> str:
    """Return the token that stands in a kernel's environment, as root can."""
    with open(f"/proc/{process}/environ", "rb") as file:  # noqa: PTH123  no file
        pairs = (each.partition(b"=") for each in file.read().split(b"\0"))
    return next(v.decode() for k, _, v in pairs if k == b"JUPYTERHUB_API_TOKEN")


#: What the hub says no to: not there for whoever asks, or forbidden.
NO = {"403", "404"}


@pytest.mark.parametrize(
    ("method", "place"),
    [
        ("GET", "users"),
        ("GET", f"users/{BRAM}"),
        ("GET", f"users/{BRAM}/tokens"),
        ("POST", f"users/{BRAM}/tokens"),
        ("POST", f"users/{BRAM}/server"),
        ("DELETE", f"users/{BRAM}/server"),
        ("POST", f"users/{BRAM}/activity"),
        ("PATCH", f"users/{BRAM}"),
        ("DELETE", f"users/{BRAM}"),
        ("POST", "users/eve"),
        ("POST", "users"),
        ("GET", "groups"),
        ("GET", "services"),
        ("GET", "proxy"),
        ("POST", "proxy"),
        ("POST", "shutdown"),
        ("GET", f"../../user/{BRAM}/api/contents"),
        ("POST", f"../../user/{BRAM}/api/kernels"),
    ],
)
@pytest.mark.usefixtures("said")
def test_the_checker_s_own_token_opens_nothing(
    hub: Hub, method: str, place: str
) -> None:
    token = read_token(list_processes(CHECKER_USER, "serve")[0])
    address = urljoin(f"{hub.address}/hub/api/", place)
    assert attack(hub, "call", address, f"token {token}", method) in NO


@pytest.mark.usefixtures("said")
def test_the_hub_knows_the_checker_s_token_and_gives_it_no_scope(hub: Hub) -> None:
    token = read_token(list_processes(CHECKER_USER, "serve")[0])
    status, content = ask(hub, "hub/api/user", {"Authorization": f"token {token}"})
    told = json.loads(content)
    assert (status, told["kind"], told["name"]) == (200, "service", "checker")
    # Of itself alone it may know something.
    assert {scope.partition("!")[2] for scope in told["scopes"]} <= {"service=checker"}
    assert {scope.partition(":")[0] for scope in told["scopes"]} <= {"read"}


class Refusing(urllib.request.HTTPRedirectHandler):
    """Follows no redirection: to be sent to a log-in is to be refused."""

    @override
    def redirect_request(self, *_: object) -> None:
        return None


def ask(
    hub: Hub, place: str, headers: dict[str, str], body: bytes | None = None
) -> tuple[int, bytes]:
    """Ask for a page as nobody that the system knows, and return what comes."""
    request = urllib.request.Request(f"{hub.address}/{place}", body, headers)  # noqa: S310  loopback
    try:
        with urllib.request.build_opener(Refusing).open(request, timeout=10) as answer:
            return answer.status, answer.read()
    except urllib.error.HTTPError as error:
        return error.code, error.read()


def list_cookies(browser: Browser, *addresses: str) -> dict[str, str]:
    """Return the cookies that the second student's browser sends to some addresses."""
    context = browser.contexts[1]
    return {each["name"]: each["value"] for each in context.cookies(list(addresses))}


@pytest.mark.usefixtures("said")
def test_a_browser_shows_another_s_server_no_log_in(hub: Hub, browser: Browser) -> None:
    own = list_cookies(browser, f"{hub.address}/user/{BRAM}/", f"{hub.address}/hub/")
    shown = list_cookies(browser, f"{hub.address}/user/{ADA}/")
    assert {f"jupyterhub-user-{BRAM}", "jupyterhub-hub-login"} <= own.keys()
    assert not {f"jupyterhub-user-{BRAM}", "jupyterhub-hub-login"} & shown.keys()
    cookie = "; ".join(f"{name}={value}" for name, value in shown.items())
    for place in ("hub/api/user", f"user/{BRAM}/api/contents", "hub/home"):
        assert ask(hub, place, {"Cookie": cookie})[0] in {302, 403}


@pytest.mark.usefixtures("said")
def test_another_s_cookies_open_neither_one_s_own_server_nor_the_checker(
    hub: Hub, browser: Browser
) -> None:
    own = list_cookies(browser, f"{hub.address}/user/{BRAM}/", f"{hub.address}/hub/")
    own[f"jupyterhub-user-{ADA}"] = own[f"jupyterhub-user-{BRAM}"]
    cookie = {"Cookie": "; ".join(f"{name}={value}" for name, value in own.items())}
    assert ask(hub, f"user/{ADA}/api/contents", cookie)[0] in {302, 403}
    status, content = ask(hub, "services/checker/ask", cookie, b"{}")
    assert (status, json.loads(content)["statement"]["why"]) == (401, "caller")
    for token in own.values():
        header = {"Authorization": f"Bearer {token}"}
        assert ask(hub, "services/checker/ask", header, b"{}")[0] == 401
