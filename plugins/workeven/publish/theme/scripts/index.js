/* The page of all patterns: the list narrows to what she looks for, and the address keeps it. */

const box = document.querySelector("[data-we-filter]");
if (!box) return;
const form = box.querySelector("form");
const said = document.querySelector("[data-we-found]");
const fields = Object.fromEntries([...form.elements].filter(one => one.name).map(one => [one.name, one]));
const choices = ["kind", "for", "weight", "hook", "level"].filter(name => fields[name]);
const units = ["m", "yd", "g", "balls"];
const cards = [...document.querySelectorAll("[data-we-facts]")].map(element => ({
  element,
  page: element.querySelector("h2 a").href,
  facts: JSON.parse(element.dataset.weFacts),
  fits: element.querySelector("[data-we-fits]"),
  link: element.querySelector("h2 a"),
}));

const number = name => Math.max(0, Number(fields[name]?.value) || 0);

/* The places of the sizes that fit her and that her yarn is enough for. */
function sizes(facts, tenths, amount) {
  const column = units.indexOf(fields.of?.value);
  return [...facts.sizes.keys()].filter(at => {
    const range = facts.body[fields.body?.value]?.[at];
    return (!tenths || (range && range[0] <= tenths && tenths <= range[1]))
      && (!amount || facts.yarn[at]?.[column] <= amount);
  });
}

function tell(card, found, tenths, amount) {
  const names = card.facts.sizes.length > 1 ? `: ${found.map(at => card.facts.sizes[at]).join(", ")}` : "";
  const words = [tenths && "your size", amount && "enough yarn"].filter(Boolean).join(" and ");
  card.fits.hidden = !words;
  card.fits.textContent = words && `${words[0].toUpperCase()}${words.slice(1)}${names}`;
  const one = tenths && names && found.length === 1;
  card.link.href = card.page + (one ? `?size=${encodeURIComponent(card.facts.sizes[found[0]])}` : "");
}

function keep(tenths, amount) {
  const url = new URL(location);
  const put = (name, there) => {
    url.searchParams.delete(name);
    if (there && fields[name]?.value) url.searchParams.set(name, fields[name].value);
  };
  choices.forEach(name => put(name, true));
  ["body", "measure", "in"].forEach(name => put(name, tenths));
  ["yarn", "of"].forEach(name => put(name, amount));
  try { history.replaceState(history.state, "", url); } catch { /* a browser that keeps none */ }
}

function narrow(before = "") {
  const tenths = number("measure") * (fields.in?.value === "in" ? 254 : 100);
  const amount = number("yarn");
  let shown = 0;
  for (const card of cards) {
    const found = sizes(card.facts, tenths, amount);
    const chosen = choices.every(name => !fields[name].value || card.facts[name].includes(fields[name].value));
    card.element.hidden = !chosen || !found.length;
    shown += !card.element.hidden;
    if (!card.element.hidden) tell(card, found, tenths, amount);
  }
  keep(tenths, amount);
  said.textContent = `${before}${shown} of ${cards.length} patterns${shown ? "" : ". Choose less, or show all"}.`;
}

/* What the address asks for; what is none of this page's is told and left out. */
function asked() {
  const query = new URLSearchParams(location.search);
  const strange = Object.keys(fields).filter(name => {
    const wanted = query.get(name);
    if (wanted === null) return false;
    const first = fields[name].value;
    fields[name].value = wanted;
    if (fields[name].value === wanted) return false;
    fields[name].value = first;
    return true;
  });
  box.open = choices.some(name => fields[name].value) || number("measure") > 0 || number("yarn") > 0;
  return strange.length ? `Left out, because this page does not know it: ${strange.join(", ")}. ` : "";
}

form.addEventListener("input", () => narrow());
form.addEventListener("reset", () => setTimeout(narrow));
form.addEventListener("submit", event => event.preventDefault());
box.hidden = said.hidden = false;
narrow(asked());
delete document.documentElement.dataset.weAsked;
