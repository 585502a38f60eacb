/* The controls for size, units and terms; size.js has set what was chosen before. */

const box = document.querySelector("[data-we-choose]");
const meta = document.querySelector("meta[name=we-pattern]");
if (!box || !meta) return;
const { pattern, sizes } = JSON.parse(meta.content);
const root = document.documentElement;
const fields = [...box.querySelectorAll("select")];
const all = box.querySelector("button");
const said = box.querySelector("[role=status]");
const chosen = name => root.dataset[name] ?? null;
const named = { cm: "in centimetres", in: "in inches", us: "in US terms", uk: "in UK terms" };
let hers = chosen("size");

function show() {
  for (const field of fields) field.value = chosen(field.name) ?? field.dataset.weBuilt ?? "";
  const size = chosen("size");
  hers = size ?? hers;
  all.hidden = hers === null;
  all.textContent = size === null ? `Back to ${sizes[hers] ?? ""}` : "All sizes";
}

function told() {
  const size = chosen("size");
  const first = size === null ? "Numbers are given for all sizes" : `All numbers are those of size ${sizes[size]}`;
  return [first, named[chosen("units")], named[chosen("terms")]].filter(Boolean).join(", ") + ".";
}

/* In the address by the size's name; a file may keep its address as it was. */
function address(name, value) {
  const url = new URL(location.href);
  if (value === null) url.searchParams.delete(name);
  else url.searchParams.set(name, value);
  try { history.replaceState(history.state, "", url); } catch { /* nothing to share, then */ }
}

function remember(name, value) {
  const key = name === "size" ? `we:size:${pattern}` : `we:${name}`;
  try {
    if (value === null) localStorage.removeItem(key);
    else localStorage.setItem(key, JSON.stringify(value));
    return "";
  } catch { return " This browser will not remember it."; }
}

function set(name, value, keeps = true) {
  if (value === null) delete root.dataset[name];
  else root.dataset[name] = value;
  const words = name === "size" && value !== null ? sizes[value] : value;
  address(name, words);
  const beside = keeps ? remember(name, words) : "";
  const size = chosen("size");
  document.dispatchEvent(new CustomEvent("we:change", {
    detail: { size: size === null ? null : Number(size), units: chosen("units"), terms: chosen("terms") },
  }));
  show();
  said.textContent = told() + beside;
}

for (const field of fields) field.addEventListener("change", () => set(field.name, field.value || null));
all.addEventListener("click", () => set("size", chosen("size") === null ? hers : null, false));
document.addEventListener("we:size", ({ detail }) => set("size", String(detail)));

const unknown = root.dataset.weUnknown;
if (unknown) said.textContent = `The address asks for ${unknown}, which this page does not have: it was left out.`;
delete root.dataset.weUnknown;
show();
box.hidden = false;
