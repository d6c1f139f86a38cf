// Several jobs in one plan: asked for, watched while it improves, stopped, and compared.

import { all, busy, call, clear, Fault, get, post, show } from "/web/scripts/api.js";
import { fill, h, table, the } from "/web/scripts/dom.js";
import { day, money, pence, plural } from "/web/scripts/words.js";
import { chart } from "/web/scripts/chart.js";

const given = new URLSearchParams(location.search);
const watched = new Map(); // run id → what is known of it
const ENDED = ["done", "cancelled", "failed"];
let jobs = [];
let rack = [];

function chooseJobs() {
  const wanted = new Set(given.getAll("job"));
  const open = jobs.filter((job) => job.state !== "no parts");
  const bought = ["ordered", "part received", "received"];
  const chosen = (job) => (wanted.size ? wanted.has(job.id) : !bought.includes(job.state));
  fill(the("jobs"), open.length ? open.map((job) => h("label", { class: "check", for: `job-${job.id}` },
    h("input", { type: "checkbox", id: `job-${job.id}`, name: "job", value: job.id, checked: chosen(job) }),
    h("span", {}, h("b", {}, job.job.name), ` ${job.client}`, h("span", { class: "small quiet" }, ` ${day(job.needed)}${bought.includes(job.state) ? `, ${job.state}` : ""}`))))
    : h("p", {}, "No jobs with parts yet: ", h("a", { href: "/walls/new" }, "begin with a wall"), "."));
}

function chooseBooks(books) {
  const names = [...new Set(books.map((book) => book.name))];
  fill(the("books"), names.length ? names.map((name, at) => h("label", { class: "check", for: `book-${at}` },
    h("input", { type: "checkbox", id: `book-${at}`, name: "book", value: name, checked: at === names.length - 1 }), name))
    : h("p", {}, "No price book yet: ", h("a", { href: "/price-books" }, "add one"), "."));
  const several = () => {
    the("together-row").hidden = picked("book").length < 2;
    the("split-row").hidden = picked("book").length < 2 || !the("together").checked;
  };
  the("books").addEventListener("change", several);
  the("together").addEventListener("change", several);
}

function sayRack() {
  const held = rack.filter((piece) => piece.held_by).length;
  fill(the("rack-said"), `${plural(rack.length, "offcut")} on the rack`,
    held ? [`, ${held} held by `, h("a", { href: "/plans" }, "drafts"), ": drop a draft to free its offcuts"] : "", ".");
}

const picked = (name) => [...document.querySelectorAll(`input[name="${name}"]:checked`)].map((box) => box.value);

function asked(books, several) {
  const number = (id) => Number(the(id).value.replace(",", ".")) || the(id).value;
  const prices = books.length > 1 ? { price_books: books, split_saves: the("split-saves").value.trim().replace(",", ".") } : { price_book: books[0] };
  const body = {
    job_ids: picked("job"), ...prices, ...(the("by-history").checked ? { keep_by_history: true } : {}), seconds: Number(the("seconds").value), compare: true,
    keep: { length_mm: number("keep-length"), width_mm: number("keep-width"), height_mm: number("keep-height"), credit: the("keep-credit").value.replace(",", ".") },
  };
  // Compared merchants each see the whole rack, and hold nothing of it: only one of them is ordered.
  if (several && the("use-rack").checked) {
    body.rack = rack.filter((piece) => !piece.held_by)
      .map(({ id, material, length_mm, width_mm, height_mm }) => ({ id, material, length_mm, width_mm, height_mm }));
  }
  return body;
}

async function plan(books) {
  clear();
  if (!picked("job").length || !books.length) {
    throw new Fault(0, { title: "Nothing to plan", detail: "Choose at least one job and one merchant." });
  }
  // Several merchants are one plan that chooses among them, or a plan for each to compare.
  const groups = the("together").checked && books.length > 1 ? [books] : books.map((book) => [book]);
  const several = groups.length > 1;
  // A browser keeps few connections to one host: those of runs that are not shown any more go.
  for (const known of watched.values()) known.events.close();
  watched.clear();
  fill(the("runs"));
  the("compared").replaceChildren();
  const query = !several && the("use-rack").checked ? "?use_rack=true" : "";
  for (const group of groups) {
    const { status, document: found } = await call("POST", `/v1/batches${query}`, { body: asked(group, several) });
    watch(status === 202 ? found.id : found.run, group.join(" or "), several);
  }
  const runs = new URLSearchParams([...watched.keys()].map((id) => ["run", id]));
  history.replaceState(null, "", `/batch?${runs}`);
}

/** Watch a run by its server-sent events until it has ended. */
function watch(id, book, several) {
  const known = { id, book, several, seen: [], run: null, card: h("section", { class: "card run", "aria-label": `Plan for ${book || "the batch"}` }) };
  watched.set(id, known);
  the("runs").append(known.card);
  const events = new EventSource(`/v1/runs/${id}/events`);
  known.events = events;
  events.addEventListener("run", (event) => {
    known.run = JSON.parse(event.data);
    if (known.run.net_cost !== null) {
      known.seen.push([known.run.seconds ?? 0, Number(known.run.net_cost), Number(known.run.lower_bound ?? 0)]);
    }
    drawRun(known);
    if (ENDED.includes(known.run.state)) {
      events.close();
      ended(known).catch(show);
    }
  });
  events.addEventListener("error", () => {
    // The browser tries again by itself; a run goes on without anyone looking.
    if (events.readyState === EventSource.CLOSED) the("said").textContent = "The service does not answer; load the page again to go on watching.";
  });
  drawRun(known);
}

const STATES = { queued: "waiting for its turn", running: "thinking", done: "finished", cancelled: "stopped", failed: "failed" };

function drawRun(known) {
  const { run, card } = known;
  const state = run?.state ?? "queued";
  // The time asked for is the plan's; planning the other ways of the comparison takes as long again, each.
  const isComparing = state === "running" && run.net_cost !== null && run.seconds >= run.seconds_asked;
  const gap = run?.net_cost ? (pence(run.net_cost) - pence(run.lower_bound ?? 0)) / 100 : null;
  const stop = ["queued", "running"].includes(state) && h("button", { type: "button", class: "needs-plan", disabled: Boolean(run?.cancel_asked),
    onclick: (event) => busy(event.target, () => post(`/v1/runs/${known.id}/cancel`)) }, isComparing ? "Enough: leave the comparison" : state === "running" ? "Good enough: stop" : "Take it back");
  const hadFocus = card.contains(document.activeElement) && document.activeElement.tagName === "BUTTON";
  fill(card,
    h("div", { class: "row apart" }, h("h2", {}, known.book || "Plan"), h("span", { class: `tag ${state === "done" ? "good" : ""}` }, isComparing ? "planned; comparing other ways" : STATES[state])),
    run?.net_cost ? h("dl", { class: "figures" },
      h("div", {}, h("dt", {}, "net cost"), h("dd", {}, money(run.net_cost))),
      h("div", {}, h("dt", {}, "no plan costs less than"), h("dd", {}, money(run.lower_bound))),
      h("div", {}, h("dt", {}, "at most could still be saved"), h("dd", {}, gap > 0 ? money(gap) : "nothing: proven"))) : h("p", { class: "quiet" }, "No plan yet."),
    known.seen.length > 1 && h("div", { class: "chart" }, chart(known.seen)),
    state === "running" && !isComparing && h("progress", { max: run.seconds_asked, value: Math.min(run.seconds ?? 0, run.seconds_asked), "aria-label": "Time used" }),
    run?.problems?.length > 0 && h("div", { class: "fault" }, h("ul", {}, run.problems.map((item) => h("li", {}, `${item.field}: ${item.trouble}. ${item.remedy}`)))),
    h("div", { class: "row" }, stop,
      run?.plan && h("a", { class: "button main", href: `/plans/${run.plan}` }, "See the plan"),
      run?.plan && known.several && known.book && h("button", { type: "button", class: "needs-plan", onclick: (event) => busy(event.target, () => plan([known.book])) }, "Plan with this merchant only"),
      run?.plan && h("a", { class: "button", href: `/plans/${run.plan}/order` }, "See the order")));
  if (hadFocus) card.querySelector("button, a")?.focus();
  const thinking = [...watched.values()].filter((item) => !ENDED.includes(item.run?.state)).length;
  the("said").textContent = thinking ? `${plural(thinking, "plan")} under way.` : "Finished.";
}

async function ended(known) {
  if (!known.run.plan) return;
  known.plan = await get(`/v1/plans/${known.run.plan}`);
  known.book ||= known.plan.order?.merchant ?? "";
  drawRun(known);
  const done = [...watched.values()].filter((item) => item.plan);
  fill(the("compared"), h("div", { class: "card" }, compared(done)));
}

function compared(done) {
  const heads = [["planned"], ["lengths", "n"], ["sheets", "n"], ["purchase", "n"], ["net cost", "n"], ["saved", "n"]];
  const ways = [["one job at a time", "one_by_one"], ["together", "together"], ["together, with the rack", "with_rack"]];
  const tables = done.filter((item) => item.plan.comparison).map((item) => [
    h("h2", {}, done.length > 1 ? `Saved by planning together: ${item.book}` : "Saved by planning together"),
    table(heads, ways.map(([words, name]) => {
      const outlay = item.plan.comparison[name];
      const saved = pence(item.plan.comparison.one_by_one.net_cost) - pence(outlay.net_cost);
      return [words, outlay.lengths, outlay.sheets, money(outlay.purchase), money(outlay.net_cost), saved ? money(saved / 100) : ""];
    }), { caption: `Ways of planning, ${item.book}`, stacks: true })]);
  if (done.length < 2) return tables;
  const sorted = [...done].sort((a, b) => Number(a.plan.order.total) - Number(b.plan.order.total));
  return [h("h2", {}, "Merchants"), table([["merchant"], ["order, net", "n"], ["VAT", "n"], ["order, total", "n"], ["net cost of the cutting plan", "n"]],
    sorted.map((item) => [item.book, money(item.plan.order.net), money(item.plan.order.vat), h("b", {}, money(item.plan.order.total)), money(item.plan.plan.net_cost)]),
    { caption: "Merchants, cheapest first", stacks: true }),
  h("p", { class: "quiet small" }, "Compared plans hold no offcuts. Plan once more with the chosen merchant to hold them."), tables];
}

try {
  const [found, books, pieces] = await Promise.all([all("/v1/jobs"), all("/v1/price-books"), get("/v1/rack")]);
  jobs = found.sort((a, b) => (a.needed || "9999").localeCompare(b.needed || "9999"));
  rack = pieces.items;
  chooseJobs();
  chooseBooks(books);
  sayRack();
  the("ask").addEventListener("submit", (event) => {
    event.preventDefault();
    busy(the("plan"), () => plan(picked("book")));
  });
  const runs = given.getAll("run");
  if (runs.length) fill(the("runs"));
  for (const id of runs) watch(id, "", runs.length > 1);
} catch (fault) {
  show(fault);
}
