// The rack: offcuts by material and size, drawn to one scale each; put up, found by label, taken off.

import { all, busy, call, clear, Fault, get, placeProblems, post, show } from "/web/scripts/api.js";
import { fill, h, the } from "/web/scripts/dom.js";
import { daysSince, mm, plural } from "/web/scripts/words.js";

let pieces = [];
let scrapping = null;

const isLength = (piece) => piece.length_mm !== undefined && piece.length_mm !== null;
const size = (piece) => `${isLength(piece) ? mm(piece.length_mm) : `${mm(piece.width_mm)} × ${mm(piece.height_mm)}`} mm`;
const area = (piece) => (isLength(piece) ? piece.length_mm : piece.width_mm * piece.height_mm);

function one(piece, scale) {
  const drawn = h("div", { class: isLength(piece) ? "stick-drawn" : "board-drawn", "aria-hidden": "true",
    style: isLength(piece) ? { width: `${100 * piece.length_mm / scale}%` } : { width: `${piece.width_mm * scale}rem`, height: `${piece.height_mm * scale}rem` } });
  return h("li", { id: `piece-${piece.id}`, class: `piece ${piece.held_by ? "held" : ""}`, tabindex: -1 },
    drawn,
    h("div", {}, h("b", {}, piece.id), " ", h("span", { class: "size" }, size(piece)),
      h("div", { class: "small quiet" }, [piece.place, piece.racked && daysSince(piece.racked)].filter(Boolean).join(", "),
        piece.held_by && [", ", h("a", { href: `/plans/${piece.held_by}` }, "held by a plan")])),
    !piece.held_by && h("button", { type: "button", class: "plain needs-order no-print", onclick: () => askScrap(piece) },
      "Take off", h("span", { class: "unseen" }, ` ${piece.id}`)));
}

function draw() {
  const wanted = the("material").value;
  const shown = pieces.filter((piece) => !wanted || piece.material === wanted);
  const groups = Map.groupBy(shown.sort((a, b) => a.material.localeCompare(b.material) || area(b) - area(a)), (piece) => piece.material);
  fill(the("rack"), shown.length ? [...groups].map(([material, items]) => {
    const lengths = isLength(items[0]);
    const longest = Math.max(...items.map((piece) => (lengths ? piece.length_mm : Math.max(piece.width_mm, piece.height_mm))));
    return h("section", { class: "card" }, h("h2", {}, material, h("span", { class: "quiet small" }, ` ${plural(items.length, "offcut")}`)),
      h("ul", { class: lengths ? "sticks" : "boards" }, items.map((piece) => one(piece, lengths ? longest : 9 / longest))));
  }) : h("div", { class: "card empty" }, h("p", {}, "Nothing here. Confirmed plans rack what is worth keeping; add by hand what lies about.")));
}

function find(label) {
  const piece = pieces.find((item) => item.id.toLowerCase() === label.trim().toLowerCase());
  for (const old of document.querySelectorAll(".piece.found")) old.classList.remove("found");
  if (!piece) {
    the("said").textContent = label.trim() ? `No ${label.trim()} on the rack.` : "";
    return;
  }
  the("material").value = "";
  draw();
  const found = document.getElementById(`piece-${piece.id}`);
  found.classList.add("found");
  found.scrollIntoView({ block: "center" });
  found.focus({ preventScroll: true });
  the("said").textContent = `${piece.id}: ${piece.material}, ${size(piece)}, ${piece.place}.`;
}

function askScrap(piece) {
  scrapping = piece;
  the("scrap-title").textContent = `Take ${piece.id} off the rack`;
  clear(the("scrap-fault"));
  the("scrap-why").value = "";
  the("scrap-dialog").showModal();
}

function refuse(fault, form, inputs, place) {
  if (!(fault instanceof Fault)) throw fault;
  const rest = placeProblems(form, fault.problems, ({ field }) => {
    const name = Object.keys(inputs).find((key) => field.endsWith(key));
    return name ? the(inputs[name]) : null;
  });
  if (rest.length || !fault.problems.length) show(new Fault(fault.status, { title: fault.message, detail: fault.detail, problems: rest }), place);
  else clear(place);
}

async function read() {
  const labels = [];
  let after = "";
  do {
    const page = await get(`/v1/rack?after=${encodeURIComponent(after)}`);
    labels.push(...page.items);
    after = page.next ?? "";
  } while (after);
  pieces = labels;
  const chosen = the("material").value;
  fill(the("material"), h("option", { value: "" }, "all"), [...new Set(pieces.map((piece) => piece.material))].sort().map((name) => h("option", { value: name }, name)));
  the("material").value = chosen;
  draw();
}

async function put(event) {
  event.preventDefault();
  await busy(event.submitter, async () => {
    const number = (name) => {
      const text = the(`new-${name}`).value.trim().replace(",", ".");
      return text === "" ? undefined : /^\d+(\.\d+)?$/.test(text) ? Number(text) : text;
    };
    const piece = { id: the("new-id").value.trim(), material: the("new-material").value.trim(),
      length_mm: number("length"), width_mm: number("width"), height_mm: number("height") };
    try {
      await post(`/v1/rack?place=${encodeURIComponent(the("new-place").value.trim() || "rack")}`, [piece]);
    } catch (fault) {
      refuse(fault, the("add-form"), { id: "new-id", material: "new-material", length_mm: "new-length", width_mm: "new-width", height_mm: "new-height", label: "new-id" }, the("add-fault"));
      return;
    }
    the("add-dialog").close();
    the("add-form").reset();
    await read();
    find(piece.id);
  });
}

async function scrap(event) {
  event.preventDefault();
  await busy(event.submitter, async () => {
    try {
      await call("POST", `/v1/rack/${encodeURIComponent(scrapping.id)}/corrections`, { body: { kind: the("scrap-kind").value, why: the("scrap-why").value.trim() } });
    } catch (fault) {
      refuse(fault, the("scrap-form"), { why: "scrap-why" }, the("scrap-fault"));
      return;
    }
    the("scrap-dialog").close();
    await read();
    the("said").textContent = `${scrapping.id} is off the rack.`;
  });
}

/** Read labels with the camera, where the browser can; the text field does the same everywhere. */
async function scan() {
  const detector = new globalThis.BarcodeDetector({ formats: ["qr_code"] });
  const stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
  let going = true;
  const stop = () => {
    going = false;
    stream.getTracks().forEach((track) => track.stop());
    the("camera").hidden = true;
  };
  the("stop-scan").onclick = stop;
  try {
    the("camera").hidden = false;
    the("video").srcObject = stream;
    await the("video").play();
    while (going) {
      const [code] = await detector.detect(the("video"));
      if (code) {
        // A label's code is its text, or an address that ends with it.
        const label = decodeURIComponent(code.rawValue.split(/[/#?=]/).at(-1));
        the("label").value = label;
        find(label);
        return;
      }
      await new Promise((done) => { setTimeout(done, 150); });
    }
  } finally {
    // Whatever happened, the camera does not stay on.
    stop();
  }
}

the("find").addEventListener("submit", (event) => { event.preventDefault(); find(the("label").value); });
the("material").addEventListener("change", draw);
the("add").addEventListener("click", () => { clear(the("add-fault")); the("add-dialog").showModal(); });
the("add-form").addEventListener("submit", put);
the("scrap-form").addEventListener("submit", scrap);
for (const button of document.querySelectorAll("[data-close]")) button.addEventListener("click", () => button.closest("dialog").close());
if ("BarcodeDetector" in globalThis && navigator.mediaDevices) {
  the("scan").hidden = false;
  the("scan").addEventListener("click", () => busy(the("scan"), scan));
}
try {
  await read();
  const books = await all("/v1/price-books");
  const names = new Set(pieces.map((piece) => piece.material));
  if (books.length) {
    const { prices } = await get(`/v1/price-books/${encodeURIComponent(books[0].name)}`);
    for (const item of [...(prices.lengths ?? []), ...(prices.sheets ?? [])]) names.add(item.material);
  }
  fill(the("materials"), [...names].sort().map((name) => h("option", { value: name })));
} catch (fault) {
  the("rack").replaceChildren();
  show(fault);
}
