/* "Which size?": her body and the ease she wants against what each size fits and goes around. */

const box = document.querySelector("[data-we-which]");
const meta = document.querySelector("meta[name=we-pattern]");
const finished = document.querySelector("#finished");
if (!box || !meta || !finished) return;
const { sizes } = JSON.parse(meta.content);
const { bodies, fits } = JSON.parse(box.dataset.weWhich);
const field = name => box.querySelector(`[name=${name}]`);
const said = box.querySelector("[role=status]");
const make = (tag, more) => Object.assign(document.createElement(tag), more);
const QUARTERS = ["", "¼", "½", "¾"];
const PARTS = { "¼": 0.25, "½": 0.5, "¾": 0.75, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875 };

/* 92, 92.5, 92,5, 36½, 36 1/2, −2; null for anything else. */
function number(text) {
  const found = /^([-−–]?)\s*(\d{1,3}(?:[.,]\d+)?)?\s*([¼½¾⅛⅜⅝⅞]|[1-7]\/[248])?$/.exec(text.trim());
  if (!found || !(found[2] || found[3])) return null;
  const [over, under] = (found[3] ?? "").split("/");
  const part = under ? over / under : PARTS[over] ?? 0;
  return (found[1] ? -1 : 1) * (Number((found[2] ?? "0").replace(",", ".")) + part);
}

/* As the build prints a length: halves of a centimetre, quarters of an inch, a tie going up. */
function printed(mm, unit) {
  const steps = Math.floor(mm / (unit === "cm" ? 5 : 6.35) + 0.5 + 1e-9);
  if (unit === "cm") return `${steps / 2} cm`;
  return `${(Math.floor(steps / 4) || "") + QUARTERS[steps % 4] || 0} in`;
}

function words(mm, unit) {
  const length = printed(Math.abs(mm), unit);
  if (/^0 /.test(length)) return "no ease";
  return `${length} of ${mm > 0 ? "positive" : "negative"} ease`;
}

/* -1: the size is too small for her, 1: too large, 0: hers. */
function held(body, at, mm, range) {
  const [value, low, high] = range
    ? [body.around[at] - mm, range[0], range[1] ?? Infinity]
    : [0, mm - body.high[at], mm - body.low[at]];
  return value < low - 1e-6 ? -1 : value > high + 1e-6 ? 1 : 0;
}

function answer(body, mm, range) {
  const each = sizes.map((_, at) => held(body, at, mm, range));
  const of = sign => each.flatMap((one, at) => one === sign ? [at] : []);
  if (of(0).length) return ["", of(0)];
  const girth = at => range ? body.around[at] : body.low[at];
  const below = of(-1).reduce((best, at) => best === null || girth(at) > girth(best) ? at : best, null);
  const above = of(1).reduce((best, at) => best === null || girth(at) < girth(best) ? at : best, null);
  if (below === null) return ["The smallest size is larger than that.", [above]];
  if (above === null) return ["The largest size is smaller than that.", [below]];
  return ["You are between two sizes.", [below, above]];
}

function line(body, at, mm, unit) {
  const heads = [...finished.tHead.rows[0].cells].slice(1);
  const cells = [...finished.tBodies[0].rows[at].cells].slice(1);
  const told = cells.map((cell, place) =>
    `${heads[place].textContent} ${[...cell.childNodes].map(node => node.textContent).join(" / ")}`);
  const button = make("button", { type: "button", textContent: `Size ${sizes[at]}` });
  button.addEventListener("click", () =>
    document.dispatchEvent(new CustomEvent("we:size", { detail: at })));
  const item = make("li");
  item.append(button, ` leaves ${words(body.around[at] - mm, unit)}. Finished: ${told.join(", ")}.`);
  return item;
}

function show() {
  const text = field("measure").value;
  const own = field("ease").value === "own";
  const body = bodies[field("body")?.value ?? 0];
  field("own").parentNode.hidden = !own;
  for (const option of field("ease").options) {
    if (/\d/.test(option.value)) option.hidden = option.disabled = !body.fitted;
  }
  if (field("ease").selectedOptions[0].disabled) field("ease").value = "";
  const unit = field("unit").value;
  const scale = unit === "cm" ? 10 : 25.4;
  const measure = number(text);
  const wanted = own ? number(field("own").value) : 0;
  if (!text.trim() || (own && !field("own").value.trim())) return said.replaceChildren();
  if (measure === null || measure <= 0 || wanted === null) {
    return said.replaceChildren("Write a number alone, such as 92 or 36½.");
  }
  const range = own ? [wanted * scale, wanted * scale] : fits[field("ease").value];
  const [first, found] = answer(body, measure * scale, range);
  const list = make("ul");
  list.append(...found.map(at => line(body, at, measure * scale, unit)));
  said.replaceChildren(...(first ? [make("p", { textContent: first })] : []), list);
}

const units = document.documentElement.dataset.units;
if (units) field("unit").value = units;
box.addEventListener("input", show);
document.addEventListener("we:change", show);
show();
box.hidden = false;
