/* "Which size?": her body and the ease she wants against what each size fits and goes around. */

const box = we.find("[data-we-which]");
const finished = we.find("#finished");
if (!box || !finished) return;
const { make, page: { sizes } } = we;
const { bodies, fits } = JSON.parse(box.dataset.weWhich);
const { body: girths, measure, unit, ease, own } = Object.fromEntries(
  we.all("[name]", box).map(one => [one.name, one]));
const said = we.find("[role=status]", box);

/* 92, 92.5, 92,5, 36½, 36 1/2, −2; null for anything else. */
function number(text) {
  const told = text.replace(/[¼½¾⅛⅜⅝⅞]/, " $&").normalize("NFKC").trim();
  const found = /^([-−–]?)\s*(\d{1,3}(?:[.,]\d+)?)?\s*(?:([1-7])[/⁄]([248]))?$/.exec(told);
  if (!found || !(found[2] || found[3])) return null;
  const [, sign, whole = "0", over = 0, under = 1] = found;
  return (sign ? -1 : 1) * (Number(whole.replace(",", ".")) + over / under);
}

/* A tie goes up, as in the build. */
function words(mm) {
  const steps = Math.floor(Math.abs(mm) / (unit.value === "cm" ? 5 : 6.35) + 0.5 + 1e-9);
  const length = we[unit.value === "cm" ? "cm" : "inches"](steps);
  return steps ? `${length} of ${mm > 0 ? "positive" : "negative"} ease` : "no ease";
}

/* -1: the size is too small for her, 1: too large, 0: hers. */
function held(body, at, mm, range) {
  const [value, low, high] = range
    ? [body.around[at] - mm, range[0], range[1] ?? Infinity]
    : [0, mm - body.high[at], mm - body.low[at]];
  return value < low - 1e-6 ? -1 : value > high + 1e-6 ? 1 : 0;
}

function answer(body, mm, range) {
  const girth = at => (range ? body.around : body.low)[at];
  const [below, hers, above] = [-1, 0, 1].map(sign => [...sizes.keys()]
    .filter(at => held(body, at, mm, range) === sign).sort((a, b) => girth(a) - girth(b)));
  if (hers.length) return ["", hers.sort((a, b) => a - b)];
  if (!below.length) return ["The smallest size is larger than that.", above.slice(0, 1)];
  if (!above.length) return ["The largest size is smaller than that.", below.slice(-1)];
  return ["You are between two sizes.", [below.at(-1), above[0]]];
}

function line(at, mm) {
  const cells = row => [...row.cells].slice(1);
  const heads = cells(finished.tHead.rows[0]);
  const told = cells(finished.tBodies[0].rows[at]).map((cell, place) =>
    `${heads[place].textContent} ${[...cell.childNodes].map(node => node.textContent).join(" / ")}`);
  const item = make("li");
  item.append(make("button", {
    type: "button",
    textContent: `Size ${sizes[at]}`,
    onclick: () => document.dispatchEvent(new CustomEvent("we:size", { detail: at })),
  }), ` leaves ${words(mm)}. Finished: ${told.join(", ")}.`);
  return item;
}

function show() {
  const body = bodies[girths?.value ?? 0];
  for (const option of ease.options) {
    if (/\d/.test(option.value)) option.hidden = option.disabled = !body.fitted;
  }
  if (ease.selectedOptions[0].disabled) ease.value = "";
  const free = ease.value === "own";
  own.parentNode.hidden = !free;
  const scale = unit.value === "cm" ? 10 : 25.4;
  const mm = number(measure.value) * scale;
  const wanted = free ? number(own.value) : 0;
  said.replaceChildren();
  if (!measure.value.trim() || (free && !own.value.trim())) return;
  if (mm <= 0 || wanted === null) return said.append("Write a number alone, such as 92 or 36½.");
  const [first, found] = answer(body, mm, free ? [wanted * scale, wanted * scale] : fits[ease.value]);
  if (first) said.append(make("p", { textContent: first }));
  said.appendChild(make("ul")).append(...found.map(at => line(at, body.around[at] - mm)));
}

unit.value = we.root.dataset.units ?? unit.value;
box.addEventListener("input", show);
document.addEventListener("we:change", show);
show();
box.hidden = false;
