// The page's side of the bridge. `library.ask(what, values, rest)` returns the library's answer as an object. Wrong input
// throws `WrongInput` with the library's own sentences.
class WrongInput extends Error {
  constructor(problems) {
    super(problems.map((p) => p.sentence).join(" "));
    this.problems = problems;
  }
}
const library = { module: null };

library.ask = (what, values = {}, rest = "") => {
  const one_line = (v) => String(v).replace(/[\r\n]+/g, " ");
  const lines = Object.entries(values).map(([key, value]) => key + "=" + one_line(value));
  const bytes = new TextEncoder().encode([what, ...lines, "", rest].join("\n"));
  const at = library.module._page_room(bytes.length);
  library.module.HEAPU8.set(bytes, at);
  const answer = JSON.parse(library.module.UTF8ToString(library.module._page_answer()));
  if (answer.wrong) throw new WrongInput(answer.wrong);
  return answer;
};
library.counts = () => ({
  solves: library.module._page_solves(),
  explanations: library.module._page_explanations(),
  bytes: library.module._page_bytes_in_use(),
  memory: library.module.HEAPU8.length,
});
library.begin = async () => {
  // The page holds the library, compressed.
  const packed = Uint8Array.from(atob($("packed").textContent), (c) => c.charCodeAt(0));
  const unpacked = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  $("packed").remove();
  library.module = await tautline_module({ wasmBinary: await new Response(unpacked).arrayBuffer() });
};
