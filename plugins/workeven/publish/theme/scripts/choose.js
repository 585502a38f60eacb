/* The controls for size, units and terms; size.js has set what was chosen before. */

const { root, page: { pattern, sizes } } = we;
const box = we.find("[data-we-choose]");
const fields = we.all("select", box);
const all = we.find("button", box);
const said = we.find("[role=status]", box);
const chosen = name => root.dataset[name] ?? null;
const named = { cm: "in centimetres", in: "in inches", us: "in US terms", uk: "in UK terms" };
let hers = null;

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

/* In the address and in storage it is the size's name: places change. */
function set(name, value, keeps = true) {
  const bySize = name === "size";
  const words = bySize && value !== null ? sizes[value] : value;
  const url = new URL(location);
  if (value === null) {
    delete root.dataset[name];
    url.searchParams.delete(name);
  } else {
    root.dataset[name] = value;
    url.searchParams.set(name, words);
  }
  we.address(url);
  const kept = !keeps || we.keep(bySize ? `we:size:${pattern}` : `we:${name}`, words);
  const size = chosen("size");
  document.dispatchEvent(new CustomEvent("we:change", {
    detail: { size: size && Number(size), units: chosen("units"), terms: chosen("terms") },
  }));
  show();
  said.textContent = told() + (kept ? "" : " This browser will not remember it.");
}

for (const field of fields) field.addEventListener("change", () => set(field.name, field.value || null));
all.addEventListener("click", () => set("size", chosen("size") === null ? hers : null, false));
document.addEventListener("we:size", ({ detail }) => set("size", String(detail)));

if (["size", "units", "terms"].some(chosen)) said.textContent = told();
const unknown = root.dataset.weUnknown;
if (unknown) said.textContent = `The address asks for ${unknown}, which this page does not have: it was left out.`;
delete root.dataset.weUnknown;
show();
box.hidden = false;
