"""A notebook as JupyterLab holds it, and what can be asked of JupyterLab itself."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from playwright.sync_api import Page

_CELLS = """() => {
  const notebook = window.jupyterapp.shell.currentWidget.content;
  return notebook.widgets.map(({ model }) => [
    model.id, model.type, model.sharedModel.getSource(), model.executionCount ?? null,
  ]);
}"""

#: What a command returns can be a whole panel, and stays in the browser.
_COMMAND = """async ([name, args]) => {
  await window.jupyterapp.commands.execute(name, args);
}"""

_SCROLLED = """() => {
  const { node } = window.jupyterapp.shell.currentWidget.content;
  const all = [node, ...node.querySelectorAll("*")];
  return Math.max(...all.map((element) => element.scrollTop));
}"""

_THEMES = {"light": "JupyterLab Light", "dark": "JupyterLab Dark"}

#: How the colour of text begins in a theme: its style sheet comes after its name.
_INKS = {"light": "rgba(0", "dark": "rgba(255"}
_IS_THEMED = """(ink) => getComputedStyle(document.body)
  .getPropertyValue("--jp-content-font-color2").replaceAll(" ", "").startsWith(ink)"""


#: Nothing is asked: the notebook's cells are as they were.
_CLOSE = """async () => {
  const shown = window.jupyterapp.shell.currentWidget;
  await shown.context.sessionContext.shutdown();
  shown.dispose();
}"""


class Cell(NamedTuple):
    """What must not change while somebody works in a card."""

    id: str
    kind: str
    source: str
    #: The number of the run [-]; None when it has not been run.
    run: int | None


class NotebookView:
    """
    What JupyterLab shows, by its own account.

    Parameters
    ----------
    page : Page
        Shows a notebook in JupyterLab.
    """

    def __init__(self, page: Page) -> None:
        self.page = page

    def cells(self) -> list[Cell]:
        """Return the cells of the notebook that is shown, in order."""
        return [Cell(*cell) for cell in self.page.evaluate(_CELLS)]

    def scrolled_px(self) -> float:
        """Return how far the notebook, or anything in it, is scrolled down."""
        return float(self.page.evaluate(_SCROLLED))

    def command(self, name: str, **arguments: object) -> None:
        """Have JupyterLab carry out one of its commands."""
        self.page.evaluate(_COMMAND, [name, arguments])

    def show(self, path: str) -> None:
        """Open another notebook beside the first."""
        self.command("docmanager:open", path=path)
        self.wait_for(
            "(path) => window.jupyterapp.shell.currentWidget?.context?.path === path",
            path,
        )

    def close(self) -> None:
        """Close the notebook that is shown, unsaved, and end its kernel."""
        self.page.evaluate(_CLOSE)

    def wait_for(self, condition: str, argument: object) -> None:
        """Wait until a function of JavaScript is true, without drawing each frame."""
        self.page.wait_for_function(condition, arg=argument, polling=100)

    def use_theme(self, theme: str) -> None:
        """Change to ``"light"`` or ``"dark"``."""
        self.command("apputils:change-theme", theme=_THEMES[theme])
        self.wait_for(_IS_THEMED, _INKS[theme])
        # JupyterLab lays its splash screen over the page until the colours are there.
        self.page.locator("#jupyterlab-splash").wait_for(state="detached")
