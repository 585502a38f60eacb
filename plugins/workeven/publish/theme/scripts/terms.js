/* Stitches on the cards of patterns in the terms that she has chosen on a pattern's page. Each card
   is in the terms of its pattern; what they are in the others is built into it (pages/both_terms.py). */

const words = [...document.querySelectorAll("[data-we-in] [data-we-t]")].map(one => ({
  one, built: one.textContent, of: one.closest("[data-we-in]").dataset.weIn,
}));

function paint() {
  let terms = null;
  try { terms = JSON.parse(localStorage.getItem("we:terms")); } catch { /* as built */ }
  for (const { one, built, of } of words) {
    one.textContent = ["us", "uk"].includes(terms) && terms !== of ? one.dataset.weT : built;
  }
}

/* She comes back to it, or has chosen in another window. */
for (const name of ["storage", "pageshow"]) addEventListener(name, paint);
paint();
