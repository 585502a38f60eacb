/* Larger text in the rows, as she set it. */
try {
  const more = JSON.parse(localStorage.getItem("we:text"));
  if (Number.isInteger(more) && more > 0 && more <= 100) {
    document.documentElement.style.setProperty("--we-text", 1 + more / 100);
  }
} catch { /* as it was built */ }
