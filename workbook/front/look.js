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
// 4. While the kernel is busy a widget holds back what is typed or chosen, and a tab that
//    is closed meanwhile would take it along. A message is not held back: it waits in the
//    kernel's own queue. What a kernel is restarted away from is told to the next one.

const SUPPRESS = "data-lm-suppress-shortcuts";

// Beside cards, the key that an author sees has controls as well.
const HELD = ".wb-card, .wb-key";

function holdShortcuts(event) {
  if (event.target.closest?.(HELD)) {
    event.target.setAttribute(SUPPRESS, "true");
  }
}

// Ahead of JupyterLab, which listens on the document in the same phase.
function letThrough(event) {
  if (!event.target.closest?.(HELD)) return;
  const key = event.key.toLowerCase();
  const isHarmless =
    (event.ctrlKey || event.metaKey) &&
    !event.altKey &&
    (event.shiftKey ? key === "c" : key === "s");
  if (!isHarmless) {
    holdShortcuts(event);
    return;
  }
  event.target.removeAttribute(SUPPRESS);
  if (event.target.matches("input[type=text], textarea")) passOn(event);
}

// A box for text keeps every key to itself, so these are pressed again on its card.
function passOn(event) {
  event.preventDefault();
  event.stopImmediatePropagation();
  event.target.closest(".wb-card").dispatchEvent(new KeyboardEvent("keydown", event));
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

// How long somebody stops typing before the text is told, and how long somebody who
// does not stop goes on before it is told all the same [ms].
const PAUSE_MS = 150;
const LATEST_MS = 1000;

// Boxes for text, lists, ticks, and every cell of a table.
const PLACES =
  "input[type=text], input[type=checkbox], input[type=radio], select, textarea";

const isTick = (place) => place.type === "checkbox" || place.type === "radio";

const read = (place) =>
  isTick(place) ? (place.checked ? "yes" : "") : place.value;

const stepOf = (heading) => heading.id.replace(/^wb-/, "");

function readTyped(card) {
  const heading = card.querySelector(".wb-asks");
  const typed = Array.from(card.querySelectorAll(PLACES), read);
  if (!heading || !typed.length) return undefined;
  return { step: stepOf(heading), typed };
}

// What no kernel has heard yet, so that it outlives one that is restarted meanwhile; it
// is gone with the tab, as the boxes are.
const nameUnheard = (step) => `workbook ${location.pathname} ${step}`;

function keepUnheard(told) {
  try {
    sessionStorage.setItem(nameUnheard(told.step), JSON.stringify(told));
  } catch {
    // No room, or not allowed: the message is on its way all the same.
  }
}

function findUnheard(step) {
  try {
    return JSON.parse(sessionStorage.getItem(nameUnheard(step)));
  } catch {
    return null;
  }
}

function forget({ heard, step }) {
  if (heard && findUnheard(step)?.number === heard) {
    sessionStorage.removeItem(nameUnheard(step));
  }
}

function tellTyped(model, card) {
  const told = readTyped(card);
  if (!told) return;
  told.number = `${Date.now()} ${Math.random()}`;
  keepUnheard(told);
  model.send(told);
}

// A new card: another kernel may have missed what was typed in the one before it.
// Returns false as long as the card does not say which step it is.
function tellUnheard(model, card) {
  const heading = card.querySelector(".wb-asks");
  if (!heading) return false;
  const told = findUnheard(stepOf(heading));
  if (told) model.send({ ...told, isMissed: true });
  return true;
}

function listen(model, card) {
  let pause;
  let since;
  const tell = () => {
    if (pause === undefined) return;
    clearTimeout(pause);
    pause = since = undefined;
    tellTyped(model, card);
  };
  const wait = () => {
    since ??= Date.now();
    clearTimeout(pause);
    pause = setTimeout(tell, Math.min(PAUSE_MS, since + LATEST_MS - Date.now()));
  };
  // Ahead of the widget's own message, which is not held back either: a verdict must
  // not be on half of what was typed.
  const tellBefore = (event) => {
    if (event.key === "Enter" || event.target.closest("button")) tell();
  };
  card.addEventListener("input", wait);
  card.addEventListener("focusout", tell);
  card.addEventListener("keydown", tellBefore, true);
  card.addEventListener("click", tellBefore, true);
  window.addEventListener("pagehide", tell);
  return () => window.removeEventListener("pagehide", tell);
}

function render({ model, el }) {
  let waiting;
  let isAsked = false;
  let deafen = () => {};
  const observer = new MutationObserver((changes) => {
    const card = changes[0].target.closest(".wb-card");
    nameParts(card);
    isAsked ||= tellUnheard(model, card);
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
    deafen = listen(model, card);
    isAsked = tellUnheard(model, card);
    observer.observe(card, { childList: true, subtree: true });
  };
  find();
  model.on("msg:custom", forget);
  return () => {
    clearTimeout(waiting);
    deafen();
    model.off("msg:custom", forget);
    observer.disconnect();
  };
}

export default { initialize, render };
