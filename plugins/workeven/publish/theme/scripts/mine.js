/* The calculator: balls of her yarn, what her gauge makes of each size. It is given exact fractions
   and works in whole numbers (BigInt), so that it rounds as the build does (pages/mine.py). */

const { find } = we;
const box = find("[data-we-mine]");
const page = JSON.parse(find("script", box).textContent);
const hers = we.root.dataset;
const make = (tag, textContent, more) => we.make(tag, { textContent, ...more });

/* --- fractions, as [over, under] ----------------------------------------------------------- */

const each = text => {
  const [over, under = 1] = text.split("/");
  return over.trim().split(" ").map(one => [BigInt(one), BigInt(under)]);
};
const fraction = text => each(text)[0];
for (const one of [...page.yarns, ...page.measured, ...page.lengths]) one.mm &&= each(one.mm);
const whole = number => [BigInt(number), 1n];
const times = ([a, b], [c, d]) => [a * c, b * d];
const by = (one, [c, d]) => times(one, [d, c]);
const plus = ([a, b], [c, d]) => [a * d + c * b, b * d];
const down = ([a, b]) => a / b - (a % b && a < 0n ? 1n : 0n);
const up = ([a, b]) => -down([-a, b]);
const nearest = ([a, b]) => down([2n * a + b, 2n * b]);
const less = ([a, b], [c, d]) => a * d < c * b;
const apart = (one, [c, d]) => {
  const [a, b] = plus(one, [-c, d]);
  return [a < 0n ? -a : a, b];
};

/* What she has written, to the hundredth; null for what is no such number. */
function written(field) {
  const found = /^\s*(\d{0,5})(?:[.,](\d{0,2}))?\s*$/.exec(field?.value ?? "");
  const hundredths = found && BigInt(found[1] + (found[2] ?? "").padEnd(2, "0"));
  return hundredths ? [hundredths, 100n] : null;
}
const strange = field => field.value.trim() !== "" && !written(field);

/* --- as the page prints ------------------------------------------------------------------- */

const CM = whole(10);
const METRE = whole(1000);
const INCH = [254n, 10n];
const YARD = [9144n, 10n];
function both(metric, imperial) {
  if (hers.units) return hers.units === "cm" ? metric : imperial;
  return page.units === "cm" ? `${metric} / ${imperial}` : `${imperial} / ${metric}`;
}
const long = mm => both(
  we.cm(Number(nearest(by(mm, whole(5))))), we.inches(Number(nearest(times(by(mm, INCH), whole(4))))));
const much = mm => both(`${up(by(mm, METRE))} m`, `${up(by(mm, YARD))} yd`);
const listed = words => new Intl.ListFormat("en-GB").format(words);

/* The places of her size, or of all. */
const shown = () => [...page.sizes.keys()].filter(at => [undefined, String(at)].includes(hers.size));
const named = (of, at) => [of.name, page.sizes.length > 1 && page.sizes[at]].filter(Boolean).join(", ") || "All";

/* The table of a part, in the place of the one before; none where nothing is to be told. */
function table(part, caption, heads, rows) {
  const place = find(".we-scroll", part);
  place.replaceChildren();
  if (!caption) return;
  const made = place.appendChild(make("table", "", { className: "we-table" }));
  made.append(make("caption", caption));
  made.createTHead().insertRow().append(...heads.map(words => make("th", words, { scope: "col" })));
  const body = made.createTBody();
  for (const [words, cells] of rows) body.insertRow().append(make("th", words, { scope: "row" }), ...cells.map(cell));
}

/* Both units stand one below the other, as in the tables of the page. */
function cell(words) {
  const [first, ...others] = words.replaceAll(" ", "\u00a0").split("\u00a0/\u00a0");
  const made = make("td", first);
  made.append(...others.map(one => make("span", one)));
  return made;
}

const NUMBER = "Write a number, such as 125 or 87.5.";
const field = (part, name) => find(`[name=${name}]`, part);

/* --- balls -------------------------------------------------------------------------------- */

const yarn = find("[data-we-balls]", box);

/* How much of her yarn is one ball; null where she has not said it. */
function ball() {
  const put = yarn && written(field(yarn, "length"));
  return put && times(put, field(yarn, "of").value === "m" ? METRE : YARD);
}

function balls() {
  const said = find("[role=status]", yarn);
  const mass = field(yarn, "mass");
  const [own, grams] = [ball(), written(mass)];
  table(yarn);
  said.textContent = strange(field(yarn, "length")) || strange(mass) ? NUMBER : "";
  if (said.textContent || !own) return;
  const lines = page.yarns.flatMap(one => shown().map(at => {
    const number = up(by(one.mm[at], own));
    const weigh = grams ? [`${Number(number * grams[0]) / 100} g`] : [];
    return [named(one, at), [String(number), much(one.mm[at]), ...weigh]];
  }));
  table(yarn, "Balls of my yarn", ["Size", "Balls of mine", "For", ...(grams ? ["They weigh"] : [])], lines);
  if (!grams) return;
  const metres = mm => `${nearest(by(mm, METRE))} m`;
  const ours = new Set(page.yarns.map(one => metres(fraction(one.per))));
  said.textContent = `100 g of yours are ${metres(times(by(own, grams), whole(100)))}, of the pattern’s ${listed([...ours])}. `
    + "The closer they are, the more likely yours is as thick; a swatch tells.";
}

/* --- longer or shorter: by whole steps ---------------------------------------------------- */

const other = find("[data-we-lengths]", box);
const MOST = whole(200);

function offer() {
  const list = field(other, "rows");
  const before = list.value;
  list.replaceChildren(make("option", "as in the pattern", { value: "" }));
  page.lengths.forEach((one, at) => {
    const room = Math.min(...shown().map(size => one.fewer[size]).filter(fewer => fewer >= 0));
    if (room === Infinity) return;
    const group = list.appendChild(make("optgroup", "", { label: one.name }));
    const step = times(fraction(one.row), whole(one.step));
    const most = Number(down(by(MOST, step)));
    for (let steps = -Math.min(room, most); steps <= most; steps++) {
      const more = Math.abs(steps);
      const rows = more * one.step;
      const words = `${rows} ${rows === 1 ? "row" : "rows"} ${steps < 0 ? "fewer" : "more"}`;
      if (steps) group.append(make("option", `${words} (${long(times(step, whole(more)))})`, { value: `${at} ${steps}` }));
    }
  });
  list.value = before;
  if (list.selectedIndex < 0) list.value = "";
}

function lengths() {
  offer();
  table(other);
  const { value } = field(other, "rows");
  if (!value) return;
  const [at, steps] = value.split(" ").map(Number);
  const one = page.lengths[at];
  const grown = times(fraction(one.row), whole(steps * one.step));
  const own = ball();
  const lines = shown().filter(size => one.fewer[size] >= 0).flatMap(size => page.yarns.map((of, nth) => {
    const more = one.more[nth];
    const all = more ? plus(of.mm[size], times(each(more)[size], whole(steps))) : of.mm[size];
    const measures = one.mm ? [long(plus(one.mm[size], grown))] : [];
    return [named(of, size), [...measures, much(all), String(up(by(all, own ?? fraction(of.ball))))]];
  }));
  table(other, one.name, ["Size", ...(one.mm ? ["Measures"] : []), "Yarn", own ? "Balls of mine" : "Balls"], lines);
}

/* --- gauge -------------------------------------------------------------------------------- */

const gauge = find("[data-we-gauge]", box);

/* What a size measures at her gauge; null where she has not given it. */
function measures(one, at) {
  const mine = written(field(gauge, one.by + one.gauge));
  return mine && by(times(one.mm[at], fraction(page.gauges[one.gauge][one.by])), mine);
}

/* The sizes that come nearest to what she wants: two, where both are as near. */
function told(one, wanted) {
  const off = page.sizes.map((_, at) => apart(measures(one, at), wanted));
  const found = [...off.keys()].filter(at => !off.some(other => less(other, off[at])));
  const each = found.map(at => `${page.sizes[at]} (${long(measures(one, at))})`);
  return `Nearest to ${long(wanted)}: ${listed(each)}. Follow the numbers of ${found.length > 1 ? "either size" : `size ${page.sizes[found[0]]}`}.`;
}

function sizes() {
  const said = find("[role=status]", gauge);
  const there = page.measured.filter(one => measures(one, 0));
  const lines = page.sizes.map((name, at) => [name || "All", there.map(one => long(measures(one, at)))]);
  table(gauge, there.length && `${find("legend", gauge).textContent}: what each size measures`, ["Size", ...there.map(one => one.name)], lines);
  said.textContent = we.all("input", gauge).some(strange) ? NUMBER : "";
  const one = page.measured[page.wide];
  if (said.textContent || !one || !measures(one, 0) || page.sizes.length < 2) return;
  const own = written(field(gauge, "wanted"));
  if (own) said.textContent = told(one, times(own, field(gauge, "in").value === "cm" ? CM : INCH));
  else if (hers.size) said.textContent = told(one, one.mm[hers.size]);
}

function reckon() {
  if (yarn) balls();
  if (other) lengths();
  if (gauge) sizes();
}

const units = hers.units ?? page.units;
if (yarn) field(yarn, "of").value = units === "cm" ? "m" : "yd";
if (gauge && field(gauge, "in")) field(gauge, "in").value = units;
box.addEventListener("input", reckon);
document.addEventListener("we:change", reckon);
box.hidden = false;
reckon();
