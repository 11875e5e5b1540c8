// A table with a place to answer in its cells: a real table, so that a screen reader
// says row and column of each place, which widgets laid side by side can't give.

let tables = 0;

function fill(element, tag, text, attributes = {}) {
  const made = document.createElement(tag);
  made.textContent = text;
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  element.append(made);
  return made;
}

function makePick(cell) {
  const pick = document.createElement("select");
  for (const [value, text] of cell.options) fill(pick, "option", text, { value });
  return pick;
}

function makeInput(cell) {
  const input = document.createElement("input");
  input.type = cell.kind === "tick" ? "checkbox" : "text";
  if (cell.kind === "text") {
    input.autocomplete = "off";
    input.spellcheck = false;
  }
  return input;
}

const read = (place) =>
  place.type === "checkbox" ? (place.checked ? "yes" : "") : place.value;

function show(place, value) {
  if (read(place) === value) return;
  if (place.type === "checkbox") place.checked = value === "yes";
  else place.value = value;
}

function render({ model, el }) {
  const spec = model.get("spec");
  const name = `wb-grid-${(tables += 1)}`;
  const places = new Map();

  function tell(key, place) {
    model.set("values", { ...model.get("values"), [key]: read(place) });
    model.save_changes();
  }

  function layPlace(td, cell) {
    const place = cell.kind === "pick" ? makePick(cell) : makeInput(cell);
    place.setAttribute("aria-label", cell.label);
    place.addEventListener("input", () => tell(cell.key, place));
    if (cell.kind === "text") {
      place.addEventListener("keydown", (event) => {
        // With what stands there now: values that are on their way may come later.
        if (event.key !== "Enter") return;
        model.send({ event: "submit", values: model.get("values") });
      });
    }
    td.append(place);
    if (cell.unit) fill(td, "span", ` ${cell.unit}`, { "aria-hidden": "true" });
    places.set(cell.key, place);
  }

  function layRow(body, row) {
    const tr = fill(body, "tr", "");
    fill(tr, "th", row.label, { scope: "row" });
    for (const cell of row.cells) {
      const td = fill(tr, "td", cell.kind === "shown" ? cell.text : "");
      if (cell.kind !== "shown") layPlace(td, cell);
    }
  }

  const frame = fill(el, "div", "", { class: "wb-wide" });
  const table = fill(frame, "table", "", { class: "wb-grid", id: name });
  const head = fill(fill(table, "thead", ""), "tr", "");
  for (const label of spec.head) {
    if (label) fill(head, "th", label, { scope: "col" });
    else fill(head, "td", "");
  }
  const body = fill(table, "tbody", "");
  for (const row of spec.rows) layRow(body, row);

  function refresh() {
    const values = model.get("values");
    for (const [key, place] of places) show(place, values[key] ?? "");
  }
  refresh();
  model.on("change:values", refresh);
  return () => model.off("change:values", refresh);
}

export default { render };
