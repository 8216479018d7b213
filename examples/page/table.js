// The tension table. Each typed letter asks for it again.
const tension = { form: $("table-form"), box: $("table-wrong"), answer: null, shape: "" };

/** The field of the form for each name that the library uses. */
tension.meant = { diameter: "gauges", gauge: "gauges" };
tension.values = () => Object.fromEntries(new FormData(tension.form));

tension.build = (a) => {
  const head = element("tr", {}, element("th", { scope: "col" }, "gauge"), element("th", { scope: "col" }, "g/m"));
  for (const note of a.notes) head.append(element("th", { scope: "col" }, note));
  $("tensions").tHead.replaceChildren(head);
  $("tensions").tBodies[0].replaceChildren(...a.rows.map((row) => element("tr", {}, element("th", { scope: "row" }, element("span", {}), element("small", {})), element("td", {}),
    ...row.cells.map(() => element("td", { class: "cell" }, element("b", {}), element("small", {}))))));
};
tension.fill = (a) => {
  a.rows.forEach((row, i) => {
    const line = $("tensions").tBodies[0].rows[i];
    write(line.cells[0].children[0], row.thou + " thou ");
    write(line.cells[0].children[1], row.mm + " mm");
    write(line.cells[1], row.mass);
    row.cells.forEach((cell, k) => {
      const at = line.cells[k + 2];
      at.dataset.mark = cell.mark;
      write(at.children[0], cell.pull);
      write(at.children[1], cell.share + (cell.mark ? " " + cell.mark : ""));
    });
  });
  write($("table-about"), a.construction + ", scale " + a.scale + "; pull in " + tension.values().unit);
  $("table-sources").replaceChildren(...a.about.map((s) => element("li", {}, s)));
};
tension.compute = () => {
  for (const label of tension.form.querySelectorAll(".wound")) label.hidden = tension.values().wrap === "";
  const a = ask_for(tension.form, tension.box, tension.meant, "table", tension.values());
  if (!a) return;
  tension.answer = a;
  const shape = a.rows.length + " x " + a.notes.join(" ");
  if (shape !== tension.shape) tension.build(a);
  tension.shape = shape;
  tension.fill(a);
  tension.grid.renewed();
  tension.tell_cell();
  link.write("table", tension.values());
};
tension.tell_cell = () => {
  const { row, column } = tension.grid.at();
  const a = ask_for(tension.form, tension.box, tension.meant, "cell", { ...tension.values(), row, column });
  if (!a) return;
  const said = JSON.stringify(a);
  if ($("cell").dataset.said === said) return;
  $("cell").dataset.said = said;
  $("cell").replaceChildren(element("h3", {}, a.heading), pairs(a.lines.map((l) => [l.formula, l.numbers])), element("p", { class: "aside" }, a.source));
};
tension.grid = as_grid($("tensions"), tension.tell_cell, true);
tension.begin = (choices, values) => {
  for (const name of choices.materials) {
    tension.form.elements.material.append(element("option", {}, name));
    tension.form.elements.wrap.append(element("option", {}, name));
  }
  tension.take(values);
  tension.form.addEventListener("input", tension.compute);
  tension.form.addEventListener("submit", (event) => event.preventDefault());
  $("copy-csv").addEventListener("click", () => tension.answer && copy(tension.answer.csv, "The table"));
};
tension.take = (values) => {
  for (const [key, value] of Object.entries(values)) {
    const field = tension.form.elements.namedItem(key);
    if (field) field.value = value;
  }
};
