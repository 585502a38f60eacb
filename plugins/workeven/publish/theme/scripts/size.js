/* Her size, units and terms, set before the first paint. Figures are picked while the page is read,
   from what the build has written into them (pages/choices.py says how), and again on we:change. */

const { root, page } = we;
const known = { size: page.sizes, units: ["cm", "in"], terms: ["us", "uk"] };
const now = {};
const asked = new URL(location);
const unknown = [];

for (const [name, values] of Object.entries(known)) {
  const said = asked.searchParams.get(name);
  const under = name === "size" ? [page.pattern, ...(page.formerly ?? [])].map(one => `size:${one}`) : [name];
  const kept = under.map(one => we.stored(`we:${one}`));
  const value = [said, ...kept].find(one => values.includes(one)) ?? null;
  now[name] = name === "size" && value !== null ? values.indexOf(value) : value;
  if (value !== null) root.dataset[name] = now[name];
  if (said === null || values.includes(said)) continue;
  unknown.push(`${name} “${said.slice(0, 40)}”`);
  asked.searchParams.delete(name);
}
if (unknown.length) {
  root.dataset.weUnknown = unknown.join(", ");
  we.address(asked);
}

const LIST = /([\d–¼-¾⅐-⅞][^\s(]*|[RW]S)((?: \([^()]*\))+)/g;
const built = new Map();
const chosen = () => Object.values(now).some(one => one !== null);

/* Lists in trade notation, 60 (66, 72), as the one figure of her size. */
function own(text) {
  return now.size === null ? text : text.replace(LIST, (all, first, rest) => {
    const each = [first, ...rest.slice(2, -1).split(/, |\) \(/)];
    return each.length === page.sizes.length ? each[now.size] : all;
  });
}

function pick(one) {
  if (!built.has(one)) built.set(one, [one.title, ...one.childNodes]);
  const [title, ...nodes] = built.get(one);
  const { weN, weO, weU, weT } = one.dataset;
  const other = now.terms && now.terms !== page.terms;
  one.style.visibility = "";
  one.replaceChildren(...nodes);
  if (title) one.title = title;
  const text = one.textContent;
  if (weT !== undefined || one.matches("abbr")) {
    const [word, meaning] = other && (weT ? weT.split("\n") : page.words?.[text]) || [];
    if (word) one.textContent = word;
    if (title && meaning) one.title = meaning;
  } else if (chosen()) {
    const told = weN && (other && weO || `${text}\n${weN}`).split("\n");
    const hers = told ? told[now.size === null ? 0 : now.size + 1] : text;
    const lines = !told && nodes.length > 1;
    const parts = lines ? nodes.map(node => node.textContent) : weU ? hers.split(" / ") : [hers];
    const not = now.units && (now.units === "in" ? "c" : "i");
    const left = parts.filter((_, at) => !not || weU?.[at] !== not).map(part => told ? part : own(part));
    if (lines) one.replaceChildren(left[0], ...left.slice(1).map(textContent => we.make("span", { textContent })));
    else one.textContent = left.join(" / ");
  }
  if (weN) one.parentNode.hidden = !one.parentNode.textContent.trim();
}

/* The last one may still be on its way: it stays unseen until there is more behind it. */
function read(whole) {
  const fresh = we.all("[data-we-n], [data-we-u], [data-we-t], .we-words abbr").filter(one => !built.has(one));
  const last = whole ? null : fresh.pop();
  if (last) last.style.visibility = "hidden";
  fresh.forEach(pick);
}

if (chosen()) {
  const watch = new MutationObserver(() => read());
  watch.observe(root, { childList: true, subtree: true });
  document.addEventListener("DOMContentLoaded", () => { watch.disconnect(); read(true); });
}
document.addEventListener("we:change", ({ detail }) => {
  Object.assign(now, detail);
  read(true);
  for (const one of built.keys()) pick(one);
});
