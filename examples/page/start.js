// Which part is shown, and how the page begins.
const parts = { table: tension, moves, sheet };
const show_part = (name, focus) => {
  const shown = name in parts ? name : "table";
  for (const other of Object.keys(parts)) $("part-" + other).hidden = other !== shown;
  for (const a of document.querySelectorAll("nav a")) {
    if (a.getAttribute("href") === "#" + shown) a.setAttribute("aria-current", "page");
    else a.removeAttribute("aria-current");
  }
  if (shown === "table") tension.compute();
  if (shown === "moves") moves.show();
  if (focus) $("head-" + shown).focus();
};
let page_ready; // milliseconds after the page was opened
library.begin().then(
  () => {
    const choices = library.ask("choices");
    const { part, values } = link.read();
    tension.begin(choices, part === "table" ? values : {});
    moves.begin(choices, part === "moves" ? values : {});
    sheet.begin(choices);
    write($("version"), choices.version);
    $("loading").remove();
    for (const button of document.querySelectorAll(".copy-link")) button.addEventListener("click", () => setTimeout(() => copy(location.href, "The link"), 300));
    show_part(part, false);
    addEventListener("hashchange", () => {
      const to = link.read();
      if (Object.keys(to.values).length && to.part === "table") tension.take(to.values);
      if (Object.keys(to.values).length && to.part === "moves") {
        moves.take(to.values);
        moves.build_sliders();
      }
      show_part(to.part, true);
    });
    page_ready = performance.now();
    document.documentElement.dataset.ready = "yes";
  },
  (e) => write($("loading"), "The library cannot run in this browser: " + e.message),
);
