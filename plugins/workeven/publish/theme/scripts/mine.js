/* The calculator: balls of her yarn, what her gauge makes of each size. It is given exact fractions
   and works in whole numbers (BigInt), so that it rounds as the build does (pages/mine.py). */

const box = document.querySelector("[data-we-mine]");
if (!box) return;
const page = JSON.parse(box.querySelector("script").textContent);
const html = document.documentElement;
const units = () => html.dataset.units ?? page.units;
const make = (tag, text = "", more = {}) => Object.assign(document.createElement(tag), { textContent: text, ...more });

/* --- fractions, as [over, under] ----------------------------------------------------------- */

const fraction = text => {
  const [over, under = "1"] = text.split("/");
  return [BigInt(over), BigInt(under)];
};
const each = text => {
  const [over, under] = text.split("/");
  return over.trim().split(" ").map(one => [BigInt(one), BigInt(under)]);
};
for (const one of [...page.yarns, ...page.measured]) one.mm = each(one.mm);
const times = ([a, b], [c, d]) => [a * c, b * d];
const by = (one, [c, d]) => times(one, [d, c]);
const minus = ([a, b], [c, d]) => [a * d - c * b, b * d];
const down = ([a, b]) => a / b - (a % b && a < 0n ? 1n : 0n);
const up = ([a, b]) => -down([-a, b]);
const nearest = ([a, b]) => down([2n * a + b, 2n * b]);
const size = ([a, b]) => [a < 0n ? -a : a, b];
const less = ([a, b], [c, d]) => a * d < c * b;

/* What she has written, to the hundredth; null for what is no such number. */
function written(field) {
  const found = /^\s*(\d{0,5})(?:[.,](\d{0,2}))?\s*$/.exec(field?.value ?? "");
  const hundredths = found && BigInt(found[1] + (found[2] ?? "").padEnd(2, "0"));
  return hundredths ? [hundredths, 100n] : null;
}
const strange = field => field.value.trim() !== "" && !written(field);

/* --- as the page prints ------------------------------------------------------------------- */

const YARD = [9144n, 10n];
const INCH = [254n, 10n];
const cm = mm => {
  const halves = nearest(by(mm, [5n, 1n]));
  return `${halves / 2n}${halves % 2n ? ".5" : ""} cm`;
};
const inches = mm => {
  const quarters = nearest(times(by(mm, INCH), [4n, 1n]));
  return `${quarters / 4n || ""}${["", "¼", "½", "¾"][quarters % 4n]}`.replace(/^$/, "0") + " in";
};
function both(metric, imperial) {
  const { units: hers } = html.dataset;
  if (hers) return hers === "cm" ? metric : imperial;
  return page.units === "cm" ? `${metric} / ${imperial}` : `${imperial} / ${metric}`;
}
const long = mm => both(cm(mm), inches(mm));
const much = mm => both(`${up(by(mm, [1000n, 1n]))} m`, `${up(by(mm, YARD))} yd`);
const decimal = ([hundredths]) => String(Number(hundredths) / 100);
const listed = words => words.length > 1 ? `${words.slice(0, -1).join(", ")} and ${words.at(-1)}` : words[0];

/* The places of her size, or of all. */
const shown = () => page.sizes.map((_, at) => at).filter(at => [undefined, String(at)].includes(html.dataset.size));

function table(caption, heads, rows) {
  const made = make("table", "", { className: "we-table" });
  made.append(make("caption", caption));
  made.createTHead().insertRow().append(...heads.map(words => make("th", words, { scope: "col" })));
  const body = made.createTBody();
  for (const [words, cells] of rows) body.insertRow().append(make("th", words, { scope: "row" }), ...cells.map(cell));
  return made;
}

/* Both units stand one below the other, as in the tables of the page. */
function cell(words) {
  const [first, ...others] = words.replaceAll(" ", "\u00a0").split("\u00a0/\u00a0");
  const made = make("td", first);
  made.append(...others.map(one => make("span", one)));
  return made;
}

const NUMBER = "Write a number, such as 125 or 87.5.";

/* --- balls -------------------------------------------------------------------------------- */

const yarn = box.querySelector("[data-we-balls]");
const field = (part, name) => part.querySelector(`[name=${name}]`);

function balls() {
  const [said, place] = [yarn.querySelector("[role=status]"), yarn.querySelector(".we-scroll")];
  const [length, mass] = [field(yarn, "length"), field(yarn, "mass")];
  const [put, grams] = [written(length), written(mass)];
  place.replaceChildren();
  said.textContent = strange(length) || strange(mass) ? NUMBER : "";
  if (said.textContent || !put) return;
  const ball = times(put, field(yarn, "of").value === "m" ? [1000n, 1n] : YARD);
  const lines = page.yarns.flatMap(one => shown().map(at => {
    const number = up(by(one.mm[at], ball));
    const weigh = grams ? [`${decimal(times([number, 1n], grams))} g`] : [];
    const name = [one.name, page.sizes.length > 1 ? page.sizes[at] : ""].filter(Boolean).join(", ");
    return [name || "All", [String(number), much(one.mm[at]), ...weigh]];
  }));
  const heads = ["Size", "Balls of mine", "For", ...(grams ? ["They weigh"] : [])];
  place.append(table("Balls of my yarn", heads, lines));
  if (!grams) return;
  const metres = mm => `${nearest(by(mm, [1000n, 1n]))} m`;
  const ours = new Set(page.yarns.map(one => metres(fraction(one.per))));
  said.textContent = `100 g of yours are ${metres(times(by(ball, grams), [100n, 1n]))}, of the pattern’s ${listed([...ours])}. `
    + "The closer they are, the more likely yours is as thick; a swatch tells.";
}

/* --- gauge -------------------------------------------------------------------------------- */

const gauge = box.querySelector("[data-we-gauge]");

/* What a size measures at her gauge; null where she has not given it. */
function measures(one, at) {
  const mine = written(field(gauge, one.by + one.gauge));
  return mine && by(times(one.mm[at], fraction(page.gauges[one.gauge][one.by])), mine);
}

/* The sizes that come nearest to what she wants: two, where both are as near. */
function follow(one, wanted) {
  const off = page.sizes.map((_, at) => size(minus(measures(one, at), wanted)));
  return off.map((_, at) => at).filter(at => !off.some(other => less(other, off[at])));
}

function told(one, wanted) {
  const found = follow(one, wanted);
  const each = found.map(at => `${page.sizes[at]} (${long(measures(one, at))})`);
  return `Nearest to ${long(wanted)}: ${listed(each)}. Follow the numbers of ${found.length > 1 ? "either size" : `size ${page.sizes[found[0]]}`}.`;
}

function sizes() {
  const [said, place] = [gauge.querySelector("[role=status]"), gauge.querySelector(".we-scroll")];
  const inputs = [...gauge.querySelectorAll("input")];
  const there = page.measured.filter(one => measures(one, 0));
  const lines = page.sizes.map((name, at) => [name || "All", there.map(one => long(measures(one, at)))]);
  place.replaceChildren(...(there.length ? [table("What each size measures at my gauge", ["Size", ...there.map(one => one.name)], lines)] : []));
  said.textContent = "";
  if (inputs.some(strange)) said.textContent = NUMBER;
  const one = page.measured[page.wide];
  if (said.textContent || !one || !measures(one, 0) || page.sizes.length < 2) return;
  const own = written(field(gauge, "wanted"));
  const hers = html.dataset.size;
  if (own) said.textContent = told(one, times(own, field(gauge, "in").value === "cm" ? [10n, 1n] : INCH));
  else if (hers !== undefined) said.textContent = told(one, one.mm[hers]);
}

function reckon() {
  if (yarn) balls();
  if (gauge) sizes();
}

if (yarn) field(yarn, "of").value = units() === "cm" ? "m" : "yd";
if (gauge && field(gauge, "in")) field(gauge, "in").value = units();
box.addEventListener("input", reckon);
document.addEventListener("we:change", reckon);
box.hidden = false;
reckon();
