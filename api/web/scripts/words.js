// Figures and dates as people of the trade write them.

const POUNDS = new Intl.NumberFormat("en-GB", { style: "currency", currency: "GBP" });

/** "12.5" or 12.5 → "£12.50"; nothing → "–". */
export function money(amount) {
  return amount === null || amount === undefined || amount === "" ? "–" : POUNDS.format(Number(amount));
}

/** Pence, exactly, of an amount such as "12.50". */
export function pence(amount) {
  return Math.round(Number(amount) * 100);
}

/** 2440 → "2440", 12.5 → "12.5": millimetres as a tape reads. */
export function mm(size) {
  return String(size);
}

export function percent(part, whole) {
  return whole > 0 ? `${((100 * part) / whole).toFixed(1)} %` : "–";
}

const DAY = new Intl.DateTimeFormat("en-GB", { weekday: "short", day: "numeric", month: "short", year: "numeric" });
const CLOCK = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" });

/** "2026-12-07" → "Mon, 7 Dec 2026"; what is no date stays as it is. */
export function day(text) {
  return /^\d{4}-\d{2}-\d{2}$/.test(text ?? "") ? DAY.format(new Date(`${text}T00:00`)) : text || "open";
}

export function moment(text) {
  return text ? CLOCK.format(new Date(text)) : "–";
}

export function daysSince(text) {
  const days = Math.floor((Date.now() - new Date(text).getTime()) / 86_400_000);
  return days < 1 ? "since today" : days === 1 ? "1 day" : `${days} days`;
}

export function plural(count, one, many = `${one}s`) {
  return `${count} ${count === 1 ? one : many}`;
}
