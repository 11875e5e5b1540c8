// What a card needs of the browser, beyond the widgets it holds.
//
// 1. JupyterLab runs its single-key commands while the focus is on a button, a
//    radio button or a list in an output: "d d" would delete the cell. The
//    attribute below holds them off; it has an effect on the element itself only.
//    Saving and the command palette stay: they do not touch a cell, and without
//    them somebody who works by keyboard could not get out of a card to a command.
// 2. A button that takes its own row away would take the focus with it, and whoever
//    works by keyboard would have to come back from the top of the page.
// 3. Widgets give no role or name to a card, to its verdict, or to a group of
//    options, so a screen reader would not say what belongs together.
// 4. While the kernel is busy a widget holds typed text back, and a tab that is closed
//    meanwhile would take it along. A message is not held back: it waits in the
//    kernel's own queue.

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

// The control that has or had the focus, and those before it in its card.
let back = [];

function rememberPlace(event) {
  const card = event.target.closest?.(".wb-card");
  if (!card) return;
  const controls = [...card.querySelectorAll("input, select, textarea, button")];
  back = controls.slice(0, controls.indexOf(event.target) + 1).reverse();
}

function keepFocus() {
  if (document.activeElement !== document.body || back[0]?.isConnected) return;
  back.find((control) => control.isConnected)?.focus();
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
  document.addEventListener("focusin", rememberPlace);
  window.addEventListener("keydown", letThrough, true);
  return () => {
    document.removeEventListener("focusin", holdShortcuts);
    document.removeEventListener("focusin", rememberPlace);
    window.removeEventListener("keydown", letThrough, true);
  };
}

// How long somebody stops typing before the text is told [ms].
const PAUSE_MS = 150;

function tellTyped(model, card) {
  const heading = card.querySelector(".wb-asks");
  if (!heading) return;
  const boxes = card.querySelectorAll("input[type=text], textarea");
  const typed = Array.from(boxes, (box) => box.value);
  model.send({ step: heading.id.replace(/^wb-/, ""), typed });
}

function render({ model, el }) {
  let waiting;
  let pause;
  const listen = (card) => {
    const tell = () => {
      clearTimeout(pause);
      pause = undefined;
      tellTyped(model, card);
    };
    card.addEventListener("input", () => {
      clearTimeout(pause);
      pause = setTimeout(tell, PAUSE_MS);
    });
    // Ahead of the widget's own message, which is not held back either: a verdict must
    // not be on half of what was typed.
    const tellBefore = (event) => {
      const asks = event.key === "Enter" || event.target.closest("button");
      if (asks && pause !== undefined) tell();
    };
    card.addEventListener("keydown", tellBefore, true);
    card.addEventListener("click", tellBefore, true);
  };
  const observer = new MutationObserver((changes) => {
    nameParts(changes[0].target.closest(".wb-card"));
    keepFocus();
  });
  // A view is made before it is put into its card.
  const find = () => {
    const card = el.closest(".wb-card");
    if (!card) {
      waiting = setTimeout(find, 50);
      return;
    }
    nameParts(card);
    listen(card);
    observer.observe(card, { childList: true, subtree: true });
  };
  find();
  return () => {
    clearTimeout(waiting);
    observer.disconnect();
  };
}

export default { initialize, render };
