// A ready-made instrument in two states. Each change asks for a frame, and each frame asks the library once.
const moves = { form: $("moves-form"), box: $("moves-wrong"), now: {}, kept: {}, sliders: [], chosen: "", pending: false, frames: 0, shape: "" };

/** The slider for each path that the library names. */
moves.meant = { "frets.wire.crown_height": "crown", "board.surface.radius": "radius", "neck.rod_pull": "rod", "saddle.height_bass": "saddle",
  "saddle.height_treble": "saddle", "moisture gained, in per cent": "humidity" };

moves.question = () => {
  const asked = { instrument: moves.form.elements.instrument.value, units: moves.form.elements.units.value };
  for (const state of ["kept", "now"]) for (const [key, value] of Object.entries(moves[state])) asked[state + "." + key] = value;
  return asked;
};
moves.in_unit = (s, number) => Number(number).toFixed(s.decimals) + (s.unit ? " " + s.unit : "");

moves.build_sliders = () => {
  const a = ask_for(moves.form, moves.box, moves.meant, "sliders", { instrument: moves.form.elements.instrument.value });
  if (!a) return;
  moves.sliders = a.sliders;
  moves.form.elements.string.replaceChildren(...a.strings.map((name, i) => element("option", { value: i }, name)));
  $("sliders").replaceChildren(...a.sliders.map((s) => {
    const range = element("input", { type: "range", id: "slide-" + s.key, min: s.least, max: s.most, step: s.step });
    const typed = element("input", { name: s.key, "aria-label": s.words + ", typed" });
    range.addEventListener("input", () => {
      moves.now[s.key] = typed.value = moves.in_unit(s, range.value);
      range.setAttribute("aria-valuetext", typed.value);
      moves.request();
    });
    typed.addEventListener("input", () => {
      moves.now[s.key] = typed.value;
      if (/^[-+]?[\d.]+\s*(mm|N)?$/.test(typed.value.trim())) range.value = parseFloat(typed.value);
      moves.request();
    });
    for (const field of [range, typed]) field.addEventListener("change", moves.tell_why);
    return element("div", { class: "slider" }, element("label", { for: range.id }, s.words), range, typed, element("span", { class: "effect", id: "effect-" + s.key }));
  }));
  moves.place_sliders();
};
/** Sets sliders and fields to the present state. */
moves.place_sliders = () => {
  const last = moves.form.elements.string.options.length - 1;
  moves.form.elements.string.value = moves.now.string ?? last;
  for (const s of moves.sliders) {
    const text = moves.now[s.key] ?? moves.in_unit(s, s.made), range = $("slide-" + s.key);
    moves.form.elements.namedItem(s.key).value = text;
    range.value = parseFloat(text);
    range.setAttribute("aria-valuetext", text);
  }
};

moves.request = () => {
  if (moves.pending) return;
  moves.pending = true;
  requestAnimationFrame(moves.frame);
};
moves.frame = () => {
  moves.pending = false;
  ++moves.frames;
  const a = ask_for(moves.form, moves.box, moves.meant, "states", moves.question());
  if (!a) return;
  moves.draw(a.panels);
  const shape = moves.form.elements.instrument.value + JSON.stringify([a.whole.map((r) => r.words), a.strings.map((s) => s.cells.map((c) => c.head))]);
  if (shape !== moves.shape) moves.build_tables(a);
  moves.shape = shape;
  a.whole.forEach((r, i) => {
    const cells = $("whole").tBodies[0].rows[i].cells;
    write(cells[0], r.words);
    write(cells[1], r.number.kept);
    write(cells[2].firstChild, r.number.now);
    write(cells[3], r.number.change || "–");
    cells[2].dataset.path = r.number.path;
  });
  a.strings.forEach((s, i) => {
    const cells = $("strings").tBodies[0].rows[i].cells;
    write(cells[0], s.name);
    s.cells.forEach((c, k) => {
      const at = cells[k + 1];
      at.dataset.path = c.number.path;
      write(at.children[0], c.number.now);
      write(at.children[1], c.number.now === c.number.kept ? "" : "kept " + c.number.kept);
    });
  });
  const said = a.findings.map((f) => f.severity + ": " + f.sentence);
  if ($("findings").dataset.said !== said.join("\n")) {
    $("findings").dataset.said = said.join("\n");
    $("findings").replaceChildren(...(said.length ? said : ["Nothing is out of range."]).map((s) => element("li", {}, s)));
  }
  link.write("moves", moves.question());
};
moves.draw = (panels) => {
  const all = $("panels");
  while (all.children.length > panels.length) all.lastChild.remove();
  panels.forEach((p, i) => {
    if (!all.children[i]) all.append(element("figure", {}, element("figcaption", {}), element("div", {})));
    write(all.children[i].firstChild, p.heading);
    all.children[i].lastChild.innerHTML = p.svg; // the library drew it and escaped its letters
  });
};
moves.build_tables = (a) => {
  $("whole").tBodies[0].replaceChildren(...a.whole.map(() => element("tr", {}, element("th", { scope: "row" }), element("td", {}), element("td", { class: "cell" }, element("b", {})), element("td", {}))));
  const heads = a.strings.reduce((longest, s) => (s.cells.length > longest.length ? s.cells : longest), []).map((c) => c.head);
  $("strings").tHead.replaceChildren(element("tr", {}, element("th", { scope: "col" }, "string"), ...heads.map((h) => element("th", { scope: "col" }, h))));
  $("strings").tBodies[0].replaceChildren(...a.strings.map((s) => element("tr", {}, element("th", { scope: "row" }), ...s.cells.map(() => element("td", { class: "cell" }, element("b", {}), element("small", {}))))));
  moves.whole.renewed();
  moves.strings.renewed();
};

/** Shows the formula of the chosen number and the effect of one step of each slider. It runs when a number is chosen and when
 * a slider rests. */
moves.tell_why = () => {
  if (!moves.chosen) return;
  let a;
  try {
    a = library.ask("why", { ...moves.question(), path: moves.chosen });
  } catch {
    return; // the frame has shown the mistake already
  }
  const parts = [element("h3", {}, a.words + ": " + a.value), pairs([["made as", a.formula], ["after", a.source]].filter((p) => p[1]), "formula")];
  if (a.more) parts.push(element("p", {}, "More of it: " + a.more + ". Less: " + a.less + "."));
  const list = (heading, rows) => rows.length && parts.push(element("h3", {}, heading), pairs(rows));
  list("One step of each slider", a.steps.map((s) => [s.words + " " + s.step, s.gives]));
  list("What moves it most: one hundredth more of", a.inputs.map((i) => [i.words + ", " + i.value, i.gives]));
  $("why").replaceChildren(...parts);
  for (const s of moves.sliders) {
    const step = a.steps.find((one) => one.key === s.key);
    write($("effect-" + s.key), step ? step.step + " gives " + step.gives : "does not move it");
  }
};
moves.choose = (table) => (cell) => {
  for (const other of document.querySelectorAll("#part-moves td[aria-selected=true]")) if (!table.contains(other)) other.removeAttribute("aria-selected");
  moves.chosen = cell.dataset.path;
  moves.tell_why();
};
moves.whole = as_grid($("whole"), moves.choose($("whole")));
moves.strings = as_grid($("strings"), moves.choose($("strings")));

moves.take = (values) => {
  const { instrument, units } = values;
  if (instrument) moves.form.elements.instrument.value = instrument;
  if (units) moves.form.elements.units.value = units;
  if (!instrument) return;
  [moves.now, moves.kept] = [{}, {}];
  for (const [key, value] of Object.entries(values)) {
    const [state, name] = key.split(".");
    if (name && (state === "now" || state === "kept")) moves[state][name] = value;
  }
};
moves.show = () => {
  if (moves.sliders.length === 0) moves.build_sliders();
  moves.request();
};
moves.begin = (choices, values) => {
  for (const i of choices.instruments) moves.form.elements.instrument.append(element("option", { value: i.name }, i.words));
  moves.take(values);
  const elements = moves.form.elements;
  elements.instrument.addEventListener("input", () => {
    [moves.now, moves.kept, moves.chosen] = [{}, {}, ""];
    moves.build_sliders();
    moves.request();
  });
  elements.units.addEventListener("input", () => (moves.request(), moves.tell_why()));
  elements.string.addEventListener("input", () => {
    moves.now.string = elements.string.value;
    moves.request();
    moves.tell_why();
  });
  const set = (id, act) => $(id).addEventListener("click", () => (act(), moves.place_sliders(), moves.request(), moves.tell_why()));
  set("keep", () => (moves.kept = { ...moves.now }));
  set("back", () => (moves.now = { ...moves.kept }));
  set("as-made", () => ([moves.now, moves.kept] = [{}, {}]));
  moves.form.addEventListener("submit", (event) => event.preventDefault());
};
