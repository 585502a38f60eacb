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
for (const one of [...page.yarns, ...page.measured, ...page.lengths]) one.mm &&= each(one.mm);
const times = ([a, b], [c, d]) => [a * c, b * d];
const by = (one, [c, d]) => times(one, [d, c]);
const plus = ([a, b], [c, d]) => [a * d + c * b, b * d];
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

/* --- longer or shorter: by whole steps ---------------------------------------------------- */

const other = box.querySelector("[data-we-lengths]");
const MOST = [200n, 1n];
const signed = (steps, words) => `${words} ${steps < 0 ? "fewer" : "more"}`;

function offer() {
  const list = field(other, "rows");
  const before = list.value;
  list.replaceChildren(make("option", "as in the pattern", { value: "" }));
  page.lengths.forEach((one, at) => {
    const group = list.appendChild(make("optgroup", "", { label: one.name }));
    const row = fraction(one.row);
    const most = Number(down(by(MOST, times(row, [BigInt(one.step), 1n]))));
    const room = Math.min(...shown().map(size => one.fewer[size]).filter(fewer => fewer >= 0));
    if (room === Infinity) return group.remove();
    for (let steps = -Math.min(room, most); steps <= most; steps++) {
      const rows = Math.abs(steps * one.step);
      if (!steps) continue;
      const words = signed(steps, `${rows} ${rows === 1 ? "row" : "rows"}`);
      group.append(make("option", `${words} (${long(times(row, [BigInt(rows), 1n]))})`, { value: `${at} ${steps}` }));
    }
  });
  list.value = before;
  if (list.selectedIndex < 0) list.value = "";
}

function lengths() {
  offer();
  const place = other.querySelector(".we-scroll");
  place.replaceChildren();
  const { value } = field(other, "rows");
  if (!value) return;
  const [at, steps] = value.split(" ").map(Number);
  const one = page.lengths[at];
  const grown = times(fraction(one.row), [BigInt(steps * one.step), 1n]);
  const own = yarn && written(field(yarn, "length"));
  const lines = shown().filter(size => one.fewer[size] >= 0).flatMap(size => page.yarns.map((of, nth) => {
    const more = one.more[nth] ? times(each(one.more[nth])[size], [BigInt(steps), 1n]) : [0n, 1n];
    const all = plus(of.mm[size], more);
    const ball = own ? times(own, field(yarn, "of").value === "m" ? [1000n, 1n] : YARD) : fraction(of.ball);
    const name = [of.name, page.sizes.length > 1 ? page.sizes[size] : ""].filter(Boolean).join(", ");
    return [name || "All", [...(one.mm ? [long(plus(one.mm[size], grown))] : []), much(all), String(up(by(all, ball)))]];
  }));
  place.append(table(one.name, ["Size", ...(one.mm ? ["Measures"] : []), "Yarn", own ? "Balls of mine" : "Balls"], lines));
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
  if (other) lengths();
  if (gauge) sizes();
}

if (yarn) field(yarn, "of").value = units() === "cm" ? "m" : "yd";
if (gauge && field(gauge, "in")) field(gauge, "in").value = units();
box.addEventListener("input", reckon);
document.addEventListener("we:change", reckon);
box.hidden = false;
reckon();
