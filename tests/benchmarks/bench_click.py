"""
From a click to its verdict in a browser, and what a student's kernel costs.

Run as ``python -m tests.benchmarks.bench_click``; pytest does not collect it. Each
figure stands beside the least that the platform allows: a button that only counts its
clicks, in the same notebook, and a kernel that shows nothing but one button.
"""

from __future__ import annotations

import json
import os
import statistics
import sys
import tempfile
from contextlib import contextmanager
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING, NamedTuple

from jupyter_client.manager import start_new_kernel

from tests.support.issued import LAB, issue_course, open_gates, students_of
from tests.support.keyboard import Keyboard
from tests.support.lab_server import start_chromium, start_lab

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from jupyter_client.blocking.client import BlockingKernelClient
    from playwright.sync_api import Page

STUDENT = "y6s3"
STEP = "lye_needed_volume"

#: Clicks that are timed, after a few that are not [-].
CLICKS, FIRST = 60, 5

#: Kernels that are started for each of the two [-].
KERNELS = 5

_LIMIT_S = 60

BUTTON = """\
import ipywidgets
count = ipywidgets.HTML("0")
button = ipywidgets.Button(description="Echo")
button.on_click(lambda _: setattr(count, "value", str(int(count.value) + 1)))
ipywidgets.VBox([button, count]).add_class("echo")
"""

#: Waits for the sign that a click was answered; a card first says that it is checking.
_TIME_CLICK = """async (box) => {
  const isCard = box.classList.contains("wb-card");
  const button = box.querySelector(isCard ? ".wb-check" : "button");
  const shown = box.querySelector(isCard ? ".wb-says" : ".widget-html");
  return await new Promise((resolve) => {
    const start = performance.now();
    const observer = new MutationObserver(() => {
      if (isCard && !shown.querySelector(".wb-word")) return;
      observer.disconnect();
      resolve(performance.now() - start);
    });
    observer.observe(shown, { childList: true, subtree: true, characterData: true });
    button.click();
  });
}"""

_RUN_LAST = """async () => {
  const { content } = window.jupyterapp.shell.currentWidget;
  content.activeCellIndex = content.widgets.length - 1;
  await window.jupyterapp.commands.execute("notebook:run-cell");
}"""

#: The kernel's own memory, and that of the checker which it started [KiB].
_MEMORY = """\
import json, os, pathlib
def rss(pid):
    status = pathlib.Path(f"/proc/{pid}/status").read_text()
    return int(status.partition("VmRSS:")[2].split()[0])
children = pathlib.Path(f"/proc/self/task/{os.getpid()}/children").read_text().split()
print(json.dumps([rss(os.getpid()), sum(map(rss, children))]))
"""


class Cost(NamedTuple):
    """What a kernel costs until its first card is shown."""

    first_s: float
    kernel_mb: float
    children_mb: float


def main() -> None:
    """Print the figures and their ratios."""
    with tempfile.TemporaryDirectory() as place:
        course = issue_course(Path(place))
        open_gates(course, but="")
        folder = students_of(course) / STUDENT / LAB
        print_kernels(folder, course)
        add_button(folder / "prelab.ipynb")
        print_clicks(folder, Path(place), course)


def print_clicks(folder: Path, place: Path, course: Path) -> None:
    """Time clicks on a card and on a bare button, by turns, in one notebook."""
    home = place / "home"
    home.mkdir()
    env = {"WORKBOOK_COURSE": str(course)}
    with start_chromium() as browser, start_lab(folder, home, env=env) as server:
        page = server.open(browser, "prelab.ipynb")
        Keyboard(page).wait_until_live()
        page.evaluate(_RUN_LAST)
        page.locator(".echo button").wait_for()
        echo, card = time_clicks(page)
    write(f"{CLICKS} clicks in the browser, p50 and p95")
    write(f"  a bare button's echo  {show_spread(echo)}")
    write(f"  a card's verdict      {show_spread(card)}")
    ratio = statistics.median(card) / statistics.median(echo)
    write(f"  a verdict takes {ratio:.1f} times as long as an echo")


def time_clicks(page: Page) -> tuple[list[float], list[float]]:
    """Return how long an echo and a verdict take [ms], each click a new answer."""
    card = Keyboard(page).card(STEP)
    box = card.locator("input[type=text]")
    echo: list[float] = []
    verdict: list[float] = []
    for number in range(FIRST + CLICKS):
        echo.append(page.locator(".echo").evaluate(_TIME_CLICK))
        box.fill(f"{number + 1}.0 mL")
        # The typed text is kept by the kernel before the click, as a person is slow.
        page.wait_for_timeout(500)
        verdict.append(card.evaluate(_TIME_CLICK))
    return echo[FIRST:], verdict[FIRST:]


def print_kernels(folder: Path, course: Path) -> None:
    """Compare a kernel with all cards of a notebook with one that shows a button."""
    cells = read_code(folder / "postlab.ipynb")
    bare = [measure_kernel(folder, course, [BUTTON]) for _ in range(KERNELS)]
    ours = [measure_kernel(folder, course, cells) for _ in range(KERNELS)]
    write(f"{KERNELS} kernels each, the median; the post-lab has {len(cells)} cards")
    write(f"  a button alone   {show_cost(bare)}")
    write(f"  all cards        {show_cost(ours)}")
    for what, name in (("time to the first card", "first_s"), ("memory", "kernel_mb")):
        ratio = middle(ours, name) / middle(bare, name)
        write(f"  {what}: {ratio:.2f} times that of a button alone")


def measure_kernel(folder: Path, course: Path, cells: Sequence[str]) -> Cost:
    """Start a kernel, run cells, and return what it costs."""
    start = perf_counter()
    with open_kernel(folder, course) as client:
        run(client, cells[0])
        first_s = perf_counter() - start
        for cell in cells[1:]:
            run(client, cell)
        kernel_kib, children_kib = json.loads(run(client, _MEMORY))
    return Cost(first_s, kernel_kib / 1024, children_kib / 1024)


@contextmanager
def open_kernel(folder: Path, course: Path) -> Iterator[BlockingKernelClient]:
    """Start a kernel in a folder, as JupyterLab does, and stop it afterwards."""
    env = {**os.environ, "WORKBOOK_COURSE": str(course)}
    manager, client = start_new_kernel(cwd=str(folder), env=env)
    try:
        yield client
    finally:
        client.stop_channels()
        manager.shutdown_kernel(now=True)


def run(client: BlockingKernelClient, code: str) -> str:
    """Run code in a kernel, and return what it printed."""
    printed: list[str] = []

    def listen(message: dict[str, dict[str, str]]) -> None:
        if message["header"]["msg_type"] == "stream":
            printed.append(message["content"]["text"])

    reply = client.execute_interactive(
        code, timeout=_LIMIT_S, output_hook=listen, stop_on_error=True
    )
    if reply["content"]["status"] != "ok":
        raise RuntimeError(reply["content"])
    return "".join(printed)


def read_code(path: Path) -> list[str]:
    """Return the code cells of a notebook."""
    notebook = json.loads(path.read_text(encoding="utf-8"))
    cells = (cell for cell in notebook["cells"] if cell["cell_type"] == "code")
    return ["".join(cell["source"]) for cell in cells]


def add_button(path: Path) -> None:
    """Add a cell with the bare button to the end of a notebook."""
    notebook = json.loads(path.read_text(encoding="utf-8"))
    cell = {"cell_type": "code", "id": "echo", "metadata": {}, "source": BUTTON}
    notebook["cells"].append({**cell, "outputs": [], "execution_count": None})
    path.write_text(json.dumps(notebook), encoding="utf-8")


def middle(costs: Sequence[Cost], name: str) -> float:
    """Return the median of one of the costs."""
    return float(statistics.median(getattr(cost, name) for cost in costs))


def show_cost(costs: Sequence[Cost]) -> str:
    """Return the medians in words."""
    return (
        f"{middle(costs, 'first_s'):.2f} s to the first card, "
        f"kernel {middle(costs, 'kernel_mb'):.1f} MB, "
        f"its checker {middle(costs, 'children_mb'):.1f} MB"
    )


def show_spread(times_ms: Sequence[float]) -> str:
    """Return the median and the 95th percentile in words."""
    p95 = statistics.quantiles(times_ms, n=20)[-1]
    return f"{statistics.median(times_ms):6.1f} ms {p95:6.1f} ms"


def write(line: str) -> None:
    """Print a line."""
    sys.stdout.write(f"{line}\n")


if __name__ == "__main__":
    main()
