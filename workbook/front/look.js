// What a card needs of the browser, beyond the widgets it holds.
//
// 1. JupyterLab runs its single-key commands while the focus is on a button, a
//    radio button or a list in an output: "d d" would delete the cell. The
//    attribute below holds them off; it has an effect on the element itself only.
//    Saving and the command palette stay: they do not touch a cell, and without
//    them somebody who works by keyboard could not get out of a card to a command.
// 2. Widgets give no role or name to a card, to its verdict, or to a group of
//    options, so a screen reader would not say what belongs together.

const SUPPRESS = "data-lm-suppress-shortcuts";

function holdShortcuts(event) {
  if (event.target.closest?.(".wb-card")) {
    event.target.setAttribute(SUPPRESS, "true");
  }
}

// Ahead of JupyterLab, which listens on the document in the same phase.
function letThrough(event) {
  if (!event.target.closest?.(".wb-card")) return;
  const key = event.key.toLowerCase();
  const isHarmless =
    (event.ctrlKey || event.metaKey) &&
    !event.altKey &&
    (event.shiftKey ? key === "c" : key === "s");
  if (isHarmless) event.target.removeAttribute(SUPPRESS);
  else holdShortcuts(event);
}

function nameParts(card) {
  const heading = card.querySelector(".wb-asks");
  if (!heading) return;
  const groups = [
    [card, "group"],
    ...Array.from(card.querySelectorAll(".wb-ticks"), (ticks) => [
      ticks,
      ticks.querySelector("[type=radio]") ? "radiogroup" : "group",
    ]),
  ];
  for (const [element, role] of groups) {
    element.setAttribute("role", role);
    element.setAttribute("aria-labelledby", heading.id);
  }
  // The role goes to the element that stays while its content changes: a new
  // element with that role would not be announced.
  for (const says of card.querySelectorAll(".wb-says .widget-html-content")) {
    says.setAttribute("role", "status");
  }
}

function initialize() {
  document.addEventListener("focusin", holdShortcuts);
  window.addEventListener("keydown", letThrough, true);
  return () => {
    document.removeEventListener("focusin", holdShortcuts);
    window.removeEventListener("keydown", letThrough, true);
  };
}

function render({ el }) {
  let waiting;
  const observer = new MutationObserver((changes) => nameParts(changes[0].target.closest(".wb-card")));
  // A view is made before it is put into its card.
  const find = () => {
    const card = el.closest(".wb-card");
    if (!card) {
      waiting = setTimeout(find, 50);
      return;
    }
    nameParts(card);
    observer.observe(card, { childList: true, subtree: true });
  };
  find();
  return () => {
    clearTimeout(waiting);
    observer.disconnect();
  };
}

export default { initialize, render };
