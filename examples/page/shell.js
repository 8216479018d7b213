// Shared by all parts of the page: elements, links that hold the state, grids for the keyboard, copying, wrong input.
const $ = (id) => document.getElementById(id);
/** Makes an element. Attributes with the value false are left out. */
const element = (name, attributes, ...inside) => {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) if (value !== false) made.setAttribute(key, value);
  made.append(...inside);
  return made;
};
/** Writes a text only if it has changed, so that a screen reader does not read it again. */
const write = (at, text) => {
  if (at.textContent !== text) at.textContent = text;
};
const after_pause = (milliseconds, act) => {
  let waiting;
  return (...given) => {
    clearTimeout(waiting);
    waiting = setTimeout(() => act(...given), milliseconds);
  };
};

/** The page's address: #PART?KEY=VALUE&... */
const link = {
  read() {
    const [part, query = ""] = location.hash.slice(1).split("?");
    return { part, values: Object.fromEntries(new URLSearchParams(query)) };
  },
  /** Waits a little: browsers refuse an address that changes with every frame. */
  write: after_pause(250, (part, values) => {
    const hash = "#" + part + "?" + new URLSearchParams(values);
    if (hash === location.hash || !location.hash.slice(1).startsWith(part) && location.hash !== "") return;
    try {
      history.replaceState(null, "", hash);
    } catch {
      location.replace(hash);
    }
  }),
};

const tell = (text) => {
  $("copied").textContent = text;
  setTimeout(() => ($("copied").textContent = ""), 2500);
};
/** Copies a text; where the browser allows no clipboard, by a field that is selected. */
const copy = async (text, what) => {
  try {
    await navigator.clipboard.writeText(text);
  } catch {
    const field = element("textarea", { "aria-hidden": "true" }, text);
    document.body.append(field);
    field.select();
    const done = document.execCommand("copy");
    field.remove();
    if (!done) return tell("The browser lets nothing be copied.");
  }
  tell(what + " copied.");
};

/** Shows what is wrong, in the library's own sentences, and marks the fields that are meant. */
const tell_wrong = (form, box, problems, meant = {}) => {
  for (const field of form.elements) {
    field.removeAttribute("aria-invalid");
    if (field.getAttribute("aria-describedby") === box.id) field.removeAttribute("aria-describedby");
  }
  for (const p of problems) {
    const name = meant[p.field] ?? p.field.split(".").pop();
    for (const field of form.elements) {
      if (!name || field.name !== name) continue;
      field.setAttribute("aria-invalid", "true");
      field.setAttribute("aria-describedby", box.id);
    }
  }
  const said = problems.map((p) => p.sentence).join("\n");
  if (box.dataset.said !== said) {
    box.dataset.said = said;
    box.replaceChildren(...problems.map((p) => element("p", {}, p.sentence)));
  }
  box.hidden = problems.length === 0;
};
/** Asks the library; wrong input is shown, and nothing is returned. */
const ask_for = (form, box, meant, ...question) => {
  try {
    const answer = library.ask(...question);
    tell_wrong(form, box, []);
    return answer;
  } catch (e) {
    const problems = e instanceof WrongInput ? e.problems : [{ field: "", sentence: "The library has stopped (" + e.message + "). Please load the page again." }];
    tell_wrong(form, box, problems, meant);
    return null;
  }
};

/** A table whose cells the arrow keys reach: one of them is in the order of the Tab key. `choose(cell)` is called for Enter, a
 * space or a click, and with `follow` wherever the keys go. */
const as_grid = (table, choose, follow) => {
  let row = 0, column = 0;
  const rows = () => [...table.tBodies[0].rows].map((r) => [...r.querySelectorAll("td.cell")]);
  const grid = {
    /** Called after the cells were made again or are others. */
    renewed() {
      const all = rows();
      if (all.length === 0) return;
      row = Math.min(row, all.length - 1);
      column = Math.min(column, all[row].length - 1);
      all.forEach((r, i) => r.forEach((cell, k) => (cell.tabIndex = i === row && k === column ? 0 : -1)));
    },
    go(to_row, to_column, focus = true) {
      const all = rows();
      row = Math.max(0, Math.min(to_row, all.length - 1));
      column = Math.max(0, Math.min(to_column, all[row].length - 1));
      grid.renewed();
      if (focus) all[row][column].focus();
      if (follow) grid.choose();
    },
    choose() {
      for (const cell of table.querySelectorAll("td[aria-selected=true]")) cell.removeAttribute("aria-selected");
      const cell = rows()[row]?.[column];
      if (!cell) return;
      cell.setAttribute("aria-selected", "true");
      choose(cell, row, column);
    },
    at: () => ({ row, column }),
  };
  table.addEventListener("keydown", (event) => {
    const moves = { ArrowUp: [-1, 0], ArrowDown: [1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1], Home: [0, -1e3], End: [0, 1e3] };
    if (event.key in moves && !event.ctrlKey && !event.altKey && !event.metaKey) {
      grid.go(row + moves[event.key][0], column + moves[event.key][1]);
    } else if (event.key === "Enter" || event.key === " ") {
      grid.choose();
    } else {
      return;
    }
    event.preventDefault();
  });
  table.addEventListener("click", (event) => {
    const cell = event.target.closest("td.cell");
    if (!cell) return;
    rows().forEach((r, i) => r.forEach((c, k) => c === cell && ([row, column] = [i, k])));
    grid.go(row, column);
    if (!follow) grid.choose();
  });
  return grid;
};
/** A description list of pairs. */
const pairs = (list, kind = "") => element("dl", { class: kind }, ...list.flatMap(([term, text]) => [element("dt", {}, term), element("dd", {}, text)]));
