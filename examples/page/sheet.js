// Makes the page of a job file that is dropped, chosen or pasted.
const sheet = { url: "" };

sheet.make = () => {
  const text = $("job-text").value;
  $("sheet-wrong").hidden = true;
  if (text.trim() === "") return write($("sheet-said"), "There is no job yet: drop, choose or paste one.");
  write($("sheet-said"), "The job is being worked out …");
  // The browser shows the words before the work begins.
  setTimeout(() => {
    try {
      sheet.show(library.ask("sheet", { units: $("sheet-units").value }, text));
    } catch (e) {
      sheet.refuse([{ line: 0, sentence: e.message }]);
    }
  }, 30);
};
sheet.refuse = (mistakes) => {
  const box = $("sheet-wrong");
  $("sheet").hidden = $("save-sheet").hidden = true;
  write($("sheet-said"), mistakes.length === 1 ? "One thing is wrong with the job." : mistakes.length + " things are wrong with the job.");
  box.replaceChildren(element("ul", {}, ...mistakes.map((m) => {
    if (!m.line) return element("li", {}, m.sentence);
    const go = element("button", { type: "button" }, "line " + m.line);
    go.addEventListener("click", () => sheet.go_to_line(m.line));
    return element("li", {}, go, ": " + m.sentence);
  })));
  box.hidden = false;
};
sheet.go_to_line = (line) => {
  const field = $("job-text"), lines = field.value.split("\n");
  const start = lines.slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
  field.focus();
  field.setSelectionRange(start, start + (lines[line - 1] ?? "").length);
  field.scrollTop = ((line - 4) / lines.length) * field.scrollHeight;
};
sheet.show = (a) => {
  if (a.mistakes.length) return sheet.refuse(a.mistakes);
  const frame = $("sheet");
  frame.hidden = false;
  frame.title = "The page of the job: " + (a.title || "untitled");
  frame.srcdoc = a.html;
  write($("sheet-said"), "The page of " + (a.title || "the job") + " stands below.");
  if (sheet.url) URL.revokeObjectURL(sheet.url);
  sheet.url = URL.createObjectURL(new Blob([a.html], { type: "text/html" }));
  $("save-sheet").href = sheet.url;
  $("save-sheet").hidden = false;
};
/** Makes the frame as high as its contents, so that only the page scrolls. */
sheet.fit = () => {
  const inside = $("sheet").contentDocument;
  if (!inside?.body) return;
  const fit = () => ($("sheet").style.height = inside.documentElement.getBoundingClientRect().height + 4 + "px");
  inside.addEventListener("toggle", fit, true);
  addEventListener("resize", fit);
  fit();
};
sheet.read = async (file) => {
  if (!file) return;
  $("job-text").value = await file.text();
  sheet.make();
};
sheet.begin = (choices) => {
  for (const i of choices.instruments) $("begin").append(element("option", { value: i.name }, "a file for: " + i.words));
  $("begin").addEventListener("change", () => {
    const wanted = $("begin").value;
    if (wanted === "") return;
    $("job-text").value = wanted === "demo" ? $("demo-job").textContent : library.ask("start", { instrument: wanted }).text.trimStart();
    sheet.make();
  });
  $("make-sheet").addEventListener("click", sheet.make);
  $("sheet-units").addEventListener("change", () => $("sheet").hidden || sheet.make());
  $("job-file").addEventListener("change", (event) => sheet.read(event.target.files[0]));
  $("sheet").addEventListener("load", sheet.fit);
  const drop = $("drop"), over = (is) => (event) => (event.preventDefault(), drop.classList.toggle("over", is));
  drop.addEventListener("dragover", over(true));
  drop.addEventListener("dragleave", over(false));
  drop.addEventListener("drop", (event) => {
    over(false)(event);
    sheet.read(event.dataTransfer.files[0]);
  });
  // A file dropped beside the place must not replace the page.
  for (const kind of ["dragover", "drop"]) addEventListener(kind, (event) => event.preventDefault());
};
