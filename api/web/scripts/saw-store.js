// What a phone keeps of a plan: its cuts, the ticks known, and the ticks still to be sent.

const NAME = "scantling-saw";

function open() {
  return new Promise((done, failed) => {
    const asked = indexedDB.open(NAME, 1);
    asked.onupgradeneeded = () => {
      asked.result.createObjectStore("plans");
      asked.result.createObjectStore("waiting", { keyPath: "tick" });
    };
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => failed(asked.error);
  });
}

async function ask(store, mode, work) {
  const base = await open();
  try {
    return await new Promise((done, failed) => {
      const change = base.transaction(store, mode);
      const asked = work(change.objectStore(store));
      // A tick counts once the change is complete, not when it was asked for.
      change.oncomplete = () => done(asked?.result);
      change.onerror = change.onabort = () => failed(change.error);
    });
  } finally {
    base.close();
  }
}

export const keep = (plan, what) => ask("plans", "readwrite", (store) => store.put(what, plan));
export const kept = (plan) => ask("plans", "readonly", (store) => store.get(plan));
export const wait = (tick) => ask("waiting", "readwrite", (store) => store.put(tick));
export const unwait = (tick) => ask("waiting", "readwrite", (store) => store.delete(tick));

/** Ticks of a plan that the service has not taken yet, in the order in which they were made. */
export async function waiting(plan) {
  const all = await ask("waiting", "readonly", (store) => store.getAll());
  return all.filter((item) => item.plan === plan).sort((a, b) => a.number - b.number);
}

export function phone() {
  let name = localStorage.getItem("scantling-phone");
  if (!name) {
    name = `phone-${crypto.randomUUID ? crypto.randomUUID() : [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("")}`;
    localStorage.setItem("scantling-phone", name);
  }
  return name;
}
