// Which jobs to buy and bring together, and when: asked for, watched, stopped, and read.

import { all, busy, call, clear, Fault, get, placeProblems, post, show } from "/web/scripts/api.js";
import { fill, h, table, the } from "/web/scripts/dom.js";
import { day, money, pence, plural } from "/web/scripts/words.js";

const ENDED = ["done", "cancelled", "failed"];
const WEEK = [["mon", "Mon"], ["tue", "Tue"], ["wed", "Wed"], ["thu", "Thu"], ["fri", "Fri"], ["sat", "Sat"], ["sun", "Sun"]];
const STATES = { queued: "waiting for its turn", running: "thinking", done: "finished", cancelled: "stopped", failed: "failed" };
// Where a problem of the service belongs on this form.
const FIELDS = { charge: "charge", free_over: "free-over", vehicle_mass_kg: "van-mass", vehicle_length_mm: "van-length", storage_days: "storage", weekdays: "weekday-mon", prices: "book", seconds: "seconds" };
const BOUGHT = ["ordered", "part received", "received"];
let jobs = [];
let leave = () => {}; // stops watching the run that is watched

function drawJobs() {
  const open = jobs.filter((job) => job.state !== "no parts");
  fill(the("jobs"), open.length ? open.map((job) => h("div", { class: "needed" },
    h("label", { class: "check", for: `job-${job.id}` },
      h("input", { type: "checkbox", id: `job-${job.id}`, name: "job", value: job.id, checked: !BOUGHT.includes(job.state) }),
      h("span", {}, h("b", {}, job.job.name), BOUGHT.includes(job.state) && h("span", { class: "small quiet" }, ` ${job.state}`))),
    h("label", { class: "field", for: `needed-${job.id}` }, h("span", { class: "unseen" }, `Job ${job.job.name} needed on`),
      h("input", { type: "date", id: `needed-${job.id}`, value: job.needed ?? "" }))))
    : h("p", {}, "No jobs with parts yet: ", h("a", { href: "/walls/new" }, "begin with a wall"), "."));
}

function addLong(over = "", charge = "") {
  const at = the("long").children.length;
  the("long").append(h("div", { class: "fields" },
    h("label", { for: `over-${at}` }, "Longer than, mm", h("input", { id: `over-${at}`, inputmode: "decimal", value: over })),
    h("label", { for: `more-${at}` }, "costs more", h("input", { id: `more-${at}`, inputmode: "decimal", value: charge }))));
}

const said = (id) => the(id).value.trim().replace(",", ".");
/** What was typed, as a number where it is one; the service says what is wrong with anything else. */
const number = (id) => (said(id) === "" || Number.isNaN(Number(said(id))) ? said(id) : Number(said(id)));
const optional = (name, id, read) => (said(id) === "" ? {} : { [name]: read(id) });

function asked() {
  const chosen = jobs.filter((job) => document.getElementById(`job-${job.id}`)?.checked);
  if (!chosen.length || !the("book").value) {
    throw new Fault(0, { title: "Nothing to plan", detail: "Choose at least one job and a merchant." });
  }
  const long = [...the("long").children].map((_, at) => ({ over_mm: number(`over-${at}`), charge: said(`more-${at}`) }))
    .filter((row) => row.over_mm !== "" || row.charge !== "");
  return {
    job_ids: chosen.map((job) => job.id), price_book: the("book").value, seconds: Number(the("seconds").value),
    terms: {
      charge: said("charge"), ...optional("free_over", "free-over", said), by_length: long,
      ...optional("vehicle_mass_kg", "van-mass", number), ...optional("vehicle_length_mm", "van-length", number),
      storage_days: number("storage"), weekdays: WEEK.map(([name]) => name).filter((name) => the(`weekday-${name}`).checked),
      needed: Object.fromEntries(chosen.map((job) => [job.job.name, the(`needed-${job.id}`).value]).filter(([, date]) => date)),
    },
  };
}

function fieldOf({ field }) {
  const job = jobs.find((one) => field.includes(`'${one.job.name}'`) || field.endsWith(`needed.${one.job.name}`));
  if (job) return document.getElementById(`needed-${job.id}`);
  const long = /by_length[^0-9]*(\d+).*?(over_mm|charge)/.exec(field);
  if (long) return document.getElementById(`${long[2] === "charge" ? "more" : "over"}-${long[1]}`);
  const name = /(\w+)(\[\d+\])?$/.exec(field)?.[1];
  return FIELDS[name] ? document.getElementById(FIELDS[name]) : null;
}

async function deal() {
  clear();
  placeProblems(the("ask"), [], fieldOf);
  fill(the("found"));
  fill(the("run"));
  leave();
  try {
    const { status, document: found } = await call("POST", "/v1/deliveries", { body: asked() });
    history.replaceState(null, "", `/batch/deliveries?run=${found.id}`);
    if (status === 202) watch(found.id);
    else draw(found);
    // The button stands below a long form: what it brings is to be seen.
    document.querySelector(".runs").scrollIntoView({ block: "start" });
  } catch (fault) {
    if (!fault.problems?.length) throw fault;
    fault.problems = placeProblems(the("ask"), fault.problems, fieldOf);
    the("said").textContent = "Nothing was planned: see the fields.";
    if (fault.problems.length) throw fault;
    the("ask").querySelector("[aria-invalid]")?.focus();
  }
}

/** Watch a run by its server-sent events until it has ended, then fetch what it found. */
function watch(id) {
  const events = new EventSource(`/v1/runs/${id}/events`);
  let run = null;
  const clock = setInterval(() => {
    const bar = document.querySelector("#run progress");
    if (bar) bar.value = used(run);
  }, 500);
  leave = () => {
    events.close();
    clearInterval(clock);
  };
  events.addEventListener("run", (event) => {
    run = JSON.parse(event.data);
    drawRun(run);
    if (!ENDED.includes(run.state)) return;
    leave();
    if (run.result) get(run.result).then(draw).catch(show);
  });
  events.addEventListener("error", () => {
    if (events.readyState !== EventSource.CLOSED) return;
    leave();
    the("said").textContent = "The service does not answer; load the page again to go on watching.";
  });
}

/** Seconds of a run's time that are used up, by this browser's clock. */
function used(run) {
  const seconds = run.started ? (Date.now() - new Date(run.started).getTime()) / 1000 : 0;
  return Math.min(Math.max(seconds, 0), run.seconds_asked);
}

function drawRun(run) {
  const goes = !ENDED.includes(run.state);
  const stop = goes && h("button", { type: "button", class: "needs-plan", disabled: run.cancel_asked,
    onclick: (event) => busy(event.target, () => post(`/v1/runs/${run.id}/cancel`)) }, run.state === "running" ? "Stop and take the best so far" : "Take it back");
  const hadFocus = the("run").contains(document.activeElement);
  fill(the("run"), h("section", { class: "card run", "aria-label": "Progress" },
    h("div", { class: "row apart" }, h("h2", {}, "Dealing jobs to deliveries"), h("span", { class: `tag ${run.state === "done" ? "good" : ""}` }, STATES[run.state])),
    run.state === "running" && h("progress", { max: run.seconds_asked, value: used(run), "aria-label": "Time used" }),
    run.problems.length > 0 && h("div", { class: "fault" }, h("ul", {}, run.problems.map((item) => h("li", {}, `${item.field}: ${item.trouble}. ${item.remedy}`)))),
    goes ? h("div", { class: "row" }, stop) : !run.result && run.problems.length === 0 && h("p", { class: "quiet" }, "Stopped before there was an answer.")));
  if (hadFocus) the("run").querySelector("button")?.focus();
  the("said").textContent = goes ? "Deliveries are being planned." : "Finished.";
}

function proof(found) {
  const more = (pence(found.cost) - pence(found.bound)) / 100;
  if (found.proven_by_bound) return "Proven: nothing costs less, however the jobs are planned.";
  return found.proven
    ? `No other way to deal the jobs costs less with the plans made here; better plans could save ${money(more)} at most.`
    : `Not every way to deal the jobs was ruled out in the time: ${money(more)} could be saved at most.`;
}

function draw(found) {
  const heads = [["day"], ["jobs"], ["goods", "n"], ["charge", "n"], ["mass", "n"], ["longest", "n"], [""]];
  const ids = (names) => jobs.filter((job) => names.includes(job.job.name)).map((job) => ["job", job.id]);
  const goods = found.deliveries.reduce((sum, one) => sum + pence(one.goods), 0) / 100;
  const charges = found.deliveries.reduce((sum, one) => sum + pence(one.charge), 0) / 100;
  const rows = found.deliveries.map((one) => [h("b", {}, day(one.day)), one.jobs.join(", "), money(one.goods), money(one.charge),
    `${Math.round(one.mass_kg)} kg`, `${one.longest_mm} mm`,
    h("a", { href: `/batch?${new URLSearchParams(ids(one.jobs))}` }, "Plan these", h("span", { class: "unseen" }, ` jobs: ${one.jobs.join(", ")}`))]);
  const saved = pence(found.one_each) - pence(found.cost);
  fill(the("found"), h("div", { class: "card" },
    h("h2", {}, plural(found.deliveries.length, "delivery", "deliveries")),
    h("dl", { class: "figures" },
      h("div", {}, h("dt", {}, "goods and charges"), h("dd", {}, money(found.cost))),
      h("div", {}, h("dt", {}, "no way costs less than"), h("dd", {}, money(found.bound))),
      h("div", {}, h("dt", {}, "one delivery for each job"), h("dd", {}, money(found.one_each))),
      h("div", {}, h("dt", {}, "one for all"), h("dd", {}, found.together === null ? "cannot be" : money(found.together)))),
    table(heads, rows, { caption: "Deliveries by day", stacks: true, feet: [["in all", "", money(goods), money(charges), "", "", ""]] }),
    h("p", {}, saved > 0 && h("b", {}, `${money(saved / 100)} less than one delivery for each job. `), proof(found)),
    h("p", { class: "quiet small" }, "Money without VAT; rack and credit for offcuts are not counted here. Each delivery was planned and checked; planning its jobs as a batch holds the rack and makes the order.")));
  the("said").textContent = "Finished.";
}

try {
  const [found, books] = await Promise.all([all("/v1/jobs"), all("/v1/price-books")]);
  jobs = found.sort((a, b) => (a.needed || "9999").localeCompare(b.needed || "9999"));
  drawJobs();
  const names = [...new Set(books.map((book) => book.name))];
  fill(the("book"), names.map((name, at) => h("option", { value: name, selected: at === names.length - 1 }, name)));
  fill(the("weekdays"), WEEK.map(([name, words], at) => h("label", { class: "check", for: `weekday-${name}` },
    h("input", { type: "checkbox", id: `weekday-${name}`, checked: at < 5 }), words)));
  addLong();
  the("more-long").addEventListener("click", () => addLong());
  the("ask").addEventListener("submit", (event) => {
    event.preventDefault();
    busy(the("deal"), deal);
  });
  const run = new URLSearchParams(location.search).get("run");
  if (run) watch(run);
} catch (fault) {
  show(fault);
}
