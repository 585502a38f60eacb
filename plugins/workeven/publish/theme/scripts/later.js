/* The calculator comes once the page stands: no first view waits for it. */

if (document.querySelector("[data-we-mine]")) {
  const later = document.createElement("script");
  later.src = new URL("workeven-mine.js", document.currentScript.src);
  document.head.append(later);
}
