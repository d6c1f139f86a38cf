// Price books: what is kept, and a new one from its file, with the line of whatever is wrong in it.

import { all, busy, call, clear, Fault, problem, show } from "/web/scripts/api.js";
import { fill, h, table, the } from "/web/scripts/dom.js";
import { day, moment, plural } from "/web/scripts/words.js";

let books = [];

async function draw() {
  books = await all("/v1/price-books");
  const names = [...new Set(books.map((book) => book.name))];
  fill(the("names"), names.map((name) => h("option", { value: name })));
  fill(the("books"), books.length
    ? table([["name"], ["version", "n"], ["holds from"], ["added"]], books.map((book) => [book.name, book.version, day(book.valid_from), moment(book.created)]),
      { caption: "Price books", stacks: true })
    : h("p", {}, "None yet."));
}

async function keep() {
  clear();
  the("faults").replaceChildren();
  the("said").textContent = "";
  const text = the("text").value;
  const name = the("name").value.trim();
  if (!text.trim() || !name) throw new Fault(0, { title: "Nothing to keep yet", detail: !text.trim() ? "Choose a file or paste its text." : "Give it a name." });
  const last = Math.max(0, ...books.filter((book) => book.name === name).map((book) => book.version));
  try {
    const { document: kept } = await call("PUT", `/v1/price-books/${encodeURIComponent(name)}/file`, {
      headers: { "If-Match": `"${last}"` },
      body: { text, file: the("file").files[0]?.name ?? `${name}.toml`, ...(the("valid-from").value ? { valid_from: the("valid-from").value } : {}) } });
    the("said").textContent = `Kept as version ${kept.version}: ${plural(kept.lengths + kept.sheets, "material")} and ${plural(kept.packs, "pack item")} from ${kept.merchant}.`;
    await draw();
  } catch (fault) {
    if (!(fault instanceof Fault) || !fault.problems.length) throw fault;
    fill(the("faults"), h("div", { class: "fault" }, h("p", {}, h("strong", {}, `${plural(fault.problems.length, "fault")}: nothing is kept until the file is right`)),
      h("ul", {}, fault.problems.map(problem))));
    the("faults").scrollIntoView({ block: "nearest" });
  }
}

the("file").addEventListener("click", () => { the("file").value = ""; });
the("file").addEventListener("change", async () => {
  const chosen = the("file").files[0];
  if (!chosen) return;
  the("text").value = await chosen.text();
  if (!the("name").value) the("name").value = chosen.name.replace(/\.[^.]+$/, "").slice(0, 200);
});
the("add").addEventListener("submit", (event) => {
  event.preventDefault();
  busy(the("keep"), keep);
});
try {
  await draw();
} catch (fault) {
  show(fault);
}
