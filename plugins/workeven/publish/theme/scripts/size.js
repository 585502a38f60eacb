/* Her size, units and terms, set before the first paint. Figures are picked while the page is read,
   from what the build has written into them (pages/choices.py says how), and again on we:change. */

const meta = document.querySelector("meta[name=we-pattern]");
if (!meta) return;
const page = JSON.parse(meta.content);
const root = document.documentElement;
const known = { size: page.sizes, units: ["cm", "in"], terms: ["us", "uk"] };
const now = { size: null, units: null, terms: null };
const asked = new URL(location.href);
const unknown = [];

function stored(name) {
  try { return JSON.parse(localStorage.getItem(name)); } catch { return null; }
}

for (const [name, values] of Object.entries(known)) {
  const said = asked.searchParams.get(name);
  const under = name === "size" ? [page.pattern, ...(page.formerly ?? [])] : [null];
  const kept = under.map(one => stored(one === null ? `we:${name}` : `we:size:${one}`));
  const value = [said, ...kept].find(one => values.includes(one)) ?? null;
  now[name] = name === "size" && value !== null ? values.indexOf(value) : value;
  if (now[name] !== null) root.dataset[name] = now[name];
  if (said === null || values.includes(said)) continue;
  unknown.push(`${name} “${said.slice(0, 40)}”`);
  asked.searchParams.delete(name);
}
if (unknown.length) {
  root.dataset.weUnknown = unknown.join(", ");
  try { history.replaceState(history.state, "", asked); } catch { /* a file keeps its address */ }
}

const MARKED = "[data-we-n], [data-we-u], [data-we-t], .we-words abbr";
const LIST = /([\d–][^\s(]*|[RW]S)((?: \([^()]*\))+)/g;
const built = new Map();

/* Lists in trade notation, 60 (66, 72), as the one figure of her size. */
function own(text) {
  if (now.size === null) return text;
  return text.replace(LIST, (all, first, rest) => {
    const each = [first, ...rest.slice(2, -1).split(/, |\) \(/)];
    return each.length === page.sizes.length ? each[now.size] : all;
  });
}

function pick(one) {
  if (!built.has(one)) built.set(one, { nodes: [...one.childNodes], title: one.title });
  const { nodes, title } = built.get(one);
  const { weN, weO, weU, weT } = one.dataset;
  const text = nodes.map(node => node.textContent).join("");
  const other = now.terms !== null && now.terms !== page.terms;
  one.style.visibility = "";
  if (now.size === null && !now.units && !other) {
    one.replaceChildren(...nodes);
    if (title) one.title = title;
  } else if (weT !== undefined || one.matches("abbr")) {
    const [word, meaning] = (other && (weT ? weT.split("\n") : page.words?.[text])) || [text, title];
    one.textContent = word;
    if (title) one.title = meaning ?? title;
  } else {
    const told = weN ? (other && weO ? weO : `${text}\n${weN}`).split("\n") : null;
    const hers = told ? told[now.size === null ? 0 : now.size + 1] : text;
    const lines = !told && nodes.length > 1;
    const parts = lines ? nodes.map(node => node.textContent) : weU ? hers.split(" / ") : [hers];
    const not = now.units === "in" ? "c" : now.units ? "i" : "";
    const left = parts.filter((_, at) => !not || weU?.[at] !== not).map(part => told ? part : own(part));
    if (lines) one.replaceChildren(left[0], ...left.slice(1).map(line => {
      const span = document.createElement("span");
      span.textContent = line;
      return span;
    }));
    else one.textContent = left.join(" / ");
  }
  if (weN) one.parentNode.hidden = !one.parentNode.textContent.trim();
}

/* The last one may still be on its way: it stays unseen until there is more behind it. */
function read(whole) {
  const fresh = [...document.querySelectorAll(MARKED)].filter(one => !built.has(one));
  const last = whole ? null : fresh.pop();
  if (last) last.style.visibility = "hidden";
  fresh.forEach(pick);
}

const watch = new MutationObserver(() => read(false));
if (Object.values(now).some(one => one !== null)) {
  watch.observe(root, { childList: true, subtree: true });
  document.addEventListener("DOMContentLoaded", () => { watch.disconnect(); read(true); });
}
document.addEventListener("we:change", ({ detail }) => {
  Object.assign(now, detail);
  read(true);
  for (const one of built.keys()) pick(one);
});
