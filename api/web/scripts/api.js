// Calls of the service, and its faults shown where they belong: beside the field, or on top.

import { fill, h, the } from "/web/scripts/dom.js";

/** Why a call did not do what was asked. `problems`: each with field, trouble and remedy. */
export class Fault extends Error {
  constructor(status, document) {
    super(document.title ?? "The service did not answer");
    this.status = status;
    this.detail = document.detail ?? "";
    this.problems = document.problems ?? [];
  }
}

/** Call the service. `body`: an object goes as JSON, bytes and files as they are.
 * Returns { status, headers, document }; raises Fault. A call without a key leads to the log-in. */
export async function call(method, path, { body, headers = {}, signal } = {}) {
  const raw = body instanceof Blob || body instanceof ArrayBuffer;
  const sent = { ...headers };
  if (body !== undefined && !raw) sent["Content-Type"] = "application/json";
  let answer;
  try {
    answer = await fetch(path, {
      method, headers: sent, signal, credentials: "same-origin",
      body: body === undefined || raw ? body : JSON.stringify(body),
    });
  } catch (trouble) {
    if (trouble.name === "AbortError") throw trouble;
    throw new Fault(0, { title: "The service does not answer", detail: "Is it running, and is there a signal? Nothing was changed." });
  }
  if (answer.status === 401 && document.body.dataset.page !== "log-in") {
    location.assign(`/log-in?next=${encodeURIComponent(location.pathname + location.search)}`);
  }
  const text = await answer.text();
  const isJson = (answer.headers.get("content-type") ?? "").includes("json");
  const found = isJson && text ? JSON.parse(text) : text;
  if (!answer.ok) throw new Fault(answer.status, isJson ? found : { title: `The service answered ${answer.status}` });
  return { status: answer.status, headers: answer.headers, document: found };
}

export async function get(path, options) {
  return (await call("GET", path, options)).document;
}

export async function post(path, body, options = {}) {
  return (await call("POST", path, { ...options, body })).document;
}

/** Return every item of a list that is answered in pages. */
export async function all(path) {
  const items = [];
  let after = "";
  do {
    const page = await get(`${path}${path.includes("?") ? "&" : "?"}limit=200${after}`);
    items.push(...page.items);
    after = page.next ? `&after=${encodeURIComponent(page.next)}` : "";
  } while (after);
  return items;
}

/** Show a fault on top of the page, or in an element of its own; a screen reader says it. */
export function show(fault, place = the("fault")) {
  if (fault?.name === "AbortError") return;
  if (!(fault instanceof Fault)) {
    console.error(fault);
    fault = new Fault(0, { title: "The page failed", detail: `${fault?.message ?? fault}. Load it again; if it stays, please report it.` });
  }
  fill(place, h("div", { class: "fault" },
    h("p", {}, h("strong", {}, fault.message), fault.detail && ` ${fault.detail}`),
    fault.problems.length > 0 && h("ul", {}, fault.problems.map(problem))));
  place.scrollIntoView?.({ block: "nearest" });
}

/** Show why a page could not be opened, and nothing else: its empty forms would invite mistakes. */
export function lost(fault) {
  the("main").classList.add("lost");
  show(fault);
}

export function clear(place = the("fault")) {
  place.replaceChildren();
}

/** One problem as a line: which field, what is wrong, what to do. */
export function problem({ field, trouble, remedy }) {
  return h("li", {}, h("b", {}, field.replace(/^body[:.] ?/, "")), ` ${trouble}. `, h("span", { class: "remedy" }, remedy));
}

/** Put each problem next to its field; return those that have no field here.
 * `fieldOf` finds the input of a problem, or null. */
export function placeProblems(form, problems, fieldOf) {
  for (const old of form.querySelectorAll(".at-field")) old.remove();
  for (const marked of form.querySelectorAll("[aria-invalid]")) {
    marked.removeAttribute("aria-invalid");
    marked.removeAttribute("aria-errormessage");
    marked.removeAttribute("aria-describedby");
  }
  return problems.filter((item) => {
    const input = fieldOf(item);
    if (!input) return true;
    const id = `${input.id}-problem`;
    input.setAttribute("aria-invalid", "true");
    input.setAttribute("aria-describedby", id);
    const there = document.getElementById(id);
    const words = `${item.trouble}. ${item.remedy}`;
    if (there) there.append(h("br"), words);
    else (input.closest("label, .field") ?? input).append(h("span", { class: "at-field", id }, words));
    for (let at = input.closest("details"); at; at = at.parentElement.closest("details")) at.open = true;
    return false;
  });
}

/** Do work behind a button: it cannot be pressed twice, and faults are shown. */
export async function busy(button, work, place) {
  button.disabled = true;
  button.setAttribute("aria-busy", "true");
  try {
    return await work();
  } catch (fault) {
    show(fault, place);
    return undefined;
  } finally {
    button.disabled = false;
    button.removeAttribute("aria-busy");
  }
}
