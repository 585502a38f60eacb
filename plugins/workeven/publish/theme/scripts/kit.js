/* What the scripts of a pattern's page share. It stands in the head, in no scope of its own, so that
   all of them see it, those too that come later. */

const we = {
  root: document.documentElement,
  page: JSON.parse(document.querySelector("meta[name=we-pattern]").content),
  find: (css, within = document) => within.querySelector(css),
  all: (css, within = document) => [...within.querySelectorAll(css)],
  make: (tag, more) => Object.assign(document.createElement(tag), more),

  /* null where nothing is kept, or where the browser lets nobody look. */
  stored(name) {
    try { return JSON.parse(localStorage.getItem(name)); } catch { return null; }
  },

  /* Whether that was possible; null lets go of what is kept. */
  keep(name, value) {
    try {
      if (value === null) localStorage.removeItem(name);
      else localStorage.setItem(name, JSON.stringify(value));
      return true;
    } catch { return false; }
  },

  address(url) {
    try { history.replaceState(history.state, "", url); } catch { /* a file keeps its address */ }
  },

  /* As the build prints lengths, by halves of a centimetre and quarters of an inch. */
  cm: halves => `${halves / 2} cm`,
  inches: quarters => `${Math.floor(quarters / 4) || ""}${["", "¼", "½", "¾"][quarters % 4]}`.replace(/^$/, "0") + " in",
};
