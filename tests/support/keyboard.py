"""A student at the keyboard: cards are found and answered without a mouse."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

#: More presses of Tab than any card needs.
_FAR = 80

#: Which key leads from the focus to an element; none when it is there.
_WAY = """element => {
  const at = document.activeElement;
  if (element === at) return "";
  const where = at.compareDocumentPosition(element);
  return where & Node.DOCUMENT_POSITION_PRECEDING ? "Shift+Tab" : "Tab";
}"""


class Keyboard:
    """
    A notebook's cards, worked by keys alone.

    Parameters
    ----------
    page : Page
        Shows a notebook in JupyterLab.
    """

    def __init__(self, page: Page) -> None:
        self.page = page

    def wait_until_live(self) -> None:
        """Wait for the last card, which comes without any key."""
        self.card("report").wait_for(state="attached")

    def choose(self, command: str) -> None:
        """
        Choose a command in the command palette.

        Parameters
        ----------
        command : str
            Its name there.
        """
        self.page.keyboard.press("Control+Shift+C")
        self.page.keyboard.type(command)
        entry = self.page.locator(".lm-CommandPalette-item.lm-mod-active")
        entry.filter(has_text=command).wait_for()
        self.page.keyboard.press("Enter")

    def restart(self) -> None:
        """Restart the kernel and run every cell, by the command palette."""
        self.card("hand-in").evaluate("card => card.classList.add('from-before')")
        self.choose("Restart Kernel and Run All Cells")
        self.page.locator(".jp-Dialog").wait_for()
        self.page.keyboard.press("Enter")
        self.page.locator(".jp-Dialog").wait_for(state="detached")
        self.page.locator(".from-before").wait_for(state="detached")
        self.card("hand-in").wait_for(state="attached")
        self._go_to_top()

    def _go_to_top(self) -> None:
        """Leave whatever has the focus, and select the first cell."""
        self.page.keyboard.press("Escape")
        for _ in range(_FAR):
            self.page.keyboard.press("k")

    def card(self, step: str) -> Locator:
        """
        Return the card of a step.

        Parameters
        ----------
        step : str
            The step's id.

        Returns
        -------
        Locator
            The card's outermost element.
        """
        heading = self.page.locator(f'[id="wb-{step}"]')
        return self.page.locator(".wb-card").filter(has=heading)

    def tab_to(self, control: Locator) -> None:
        """
        Press Tab, forward or back, until a control has the focus.

        Parameters
        ----------
        control : Locator
            Anywhere in the notebook.
        """
        control.wait_for(state="attached")
        for _ in range(_FAR):
            way = control.evaluate(_WAY)
            if not way:
                return
            self.page.keyboard.press(way)
        msg = f"{_FAR} presses of Tab did not reach {control}."
        raise AssertionError(msg)

    def fill(self, control: Locator, text: str) -> None:
        """
        Go to a box, and type in the place of what stands there.

        Parameters
        ----------
        control : Locator
            A box for text.
        text : str
            What is typed.
        """
        self.tab_to(control)
        self.page.keyboard.press("Control+A")
        self.page.keyboard.type(text)

    def place(self, step: str, label: str, *, turned: bool) -> None:
        """
        Place one factor in a chain.

        Parameters
        ----------
        step : str
            The step's id.
        label : str
            How the factor's line in the list begins.
        turned : bool
            Whether it is turned over.
        """
        card = self.card(step)
        self.tab_to(card.get_by_label("Factor", exact=True))
        self.page.keyboard.type(label)
        self.tab_to(card.get_by_role("button", name="Place it in the chain"))
        self.page.keyboard.press("Enter")
        if turned:
            self.tab_to(card.get_by_role("button", name="Turn factor 1 over"))
            self.page.keyboard.press("Enter")

    def check(self, step: str, button: str = "Check") -> str:
        """
        Press the button of a card, and wait for its sentence.

        Parameters
        ----------
        step : str
            The step's id.
        button : str
            What stands on it.

        Returns
        -------
        str
            What the card says.
        """
        self.tab_to(self.card(step).get_by_role("button", name=button, exact=True))
        self.page.keyboard.press("Enter")
        return self.says(step)

    def says(self, step: str) -> str:
        """
        Return what a card says, once it has judged.

        Parameters
        ----------
        step : str
            The step's id.

        Returns
        -------
        str
            The sentence with its word.
        """
        word = self.card(step).locator(".wb-word")
        word.wait_for(state="attached")
        return word.locator("xpath=ancestor::p").text_content() or ""
