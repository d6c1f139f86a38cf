// Runs before the page is painted, so that a chosen colour scheme does not flash the other one.
(() => {
  try {
    const chosen = localStorage.getItem("theme");
    if (chosen === "light" || chosen === "dark") document.documentElement.dataset.theme = chosen;
  } catch {
    // A browser that keeps nothing shows the device's colours.
  }
})();
