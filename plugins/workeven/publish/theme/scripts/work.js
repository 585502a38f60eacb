/* The rows as they are worked: ticked and counted, kept for this text of the row, found again next
   week; and a way to ask about each. */

const { find, make, page: { pattern, sizes, formerly = [] } } = we;
const box = find("[data-we-work]");
const prefix = "we:rows:";
const rows = we.all("[data-we-texts]").flatMap(list => {
  const texts = list.dataset.weTexts.split(" ");
  return [...list.children].map((row, at) => Object.assign(row, { weText: texts[at] }));
});
const byId = new Map(rows.map(row => [row.id, row]));
const here = find(".we-here", box);
const called = row => find(".we-no", row).innerText;
const pieceOf = row => row.closest(".we-piece");
const title = row => find("h2", pieceOf(row)).innerText;
const again = we.all("[data-we-again]");
const taken = new Map();
let kept = {};
let forgets = false;

function write() {
  forgets = !we.keep(prefix + pattern, kept);
}

/* What lies under a former name of the pattern goes over to its own, where there is nothing. */
function load() {
  if (forgets) return;
  const found = [pattern, ...formerly].map(name => we.stored(prefix + name));
  kept = settled(found.find(one => one?.constructor === Object) ?? {});
}

/* A tick follows its row to another place in the piece; the row that stands in the old place has
   one of no text, so that it says that it was corrected. Their order stays: it is that of her work. */
function settled(found) {
  const all = Object.entries(found).filter(([, one]) => typeof one?.text === "string");
  const to = all.map(([id, one]) => byId.get(id)?.weText === one.text && id);
  const within = id => id.split(".")[0];
  const now = {};
  all.forEach(([id, one], n) => {
    const same = rows.filter(row => row.weText === one.text && within(row.id) === within(id));
    if (same.length === 1 && !to.includes(same[0].id)) to[n] ||= same[0].id;
  });
  all.forEach(([id, one], n) => {
    if (byId.has(id) && !to.includes(id)) now[id] = { ...one, text: "" };
    if (to[n]) now[to[n]] = one;
  });
  return now;
}

/* A tick counts for the text that was ticked. */
function state(row) {
  const { text, done, count } = kept[row.id] ?? {};
  const number = Number.isInteger(count) && count > 0 ? count : 0;
  const begun = done === true || number > 0;
  return text === row.weText
    ? { done: done === true, count: number, begun, changed: false }
    : { done: false, count: 0, begun: false, changed: begun };
}

function set(row, more) {
  load();
  taken.delete(pieceOf(row));
  const { done, count } = { ...state(row), ...more };
  // what she did last stands last, so that she is found where she was and not further down
  delete kept[row.id];
  if (done || count) kept[row.id] = { text: row.weText, done, count };
  write();
  paint();
}

/* Where she was: in the part of what she did last, the row begun last there, or the first that is
   open behind it. A corrected row keeps her place though it lost its tick. Where a part is done to its
   end she goes on with what is open behind it, or else before. */
function next(states, shown) {
  const place = Object.keys(kept).map(id => shown.indexOf(byId.get(id))).findLast(at => at >= 0);
  if (place === undefined) return;
  const part = shown[place].parentNode;
  const last = shown.findLastIndex(row => row.parentNode === part && states.get(row).begun);
  const first = last < 0 ? shown.findIndex(row => row.parentNode === part) : last;
  return [...shown.slice(first), ...shown].find(row => !states.get(row).done);
}

function link(row, before = "") {
  return make("a", { href: `#${row.id}`, textContent: `${before}${title(row)}, ${called(row)}` });
}

/* How many rows a line stands for in her size; "" where she has chosen none, or says it herself. */
function wanted({ dataset: { weTimes: times } }) {
  const all = times.match(/\d+|–/g) ?? [""];
  return all.length > 1 ? all[we.root.dataset.size] ?? "" : all[0];
}

function counter(row) {
  const part = make("div", { className: "we-counter" });
  const press = (by, textContent, ariaLabel) => make("button", {
    type: "button",
    textContent,
    ariaLabel,
    onclick: () => {
      // the last of her rows ticks the line, and taking it back unticks it
      const { count, done } = state(row);
      const now = Math.max(0, count + by);
      const all = Math.max(now, count) === Number(wanted(row) || -1);
      set(row, { count: now, done: all ? by > 0 : done });
    },
  });
  part.append(press(-1, "−", "One less"), make("output"), press(1, "+ 1", "+ 1: one more worked"));
  part.role = "group";
  part.setAttribute("aria-labelledby", `${row.id}.no`);
  row.append(part);
}

function paintCounter(row, count) {
  const part = find(".we-counter", row);
  if (!part) return;
  const [of, output] = [wanted(row), find("output", part)];
  const said = `${count}${of && ` of ${of}`} worked`;
  if (output.textContent !== said) output.textContent = said;
  part.hidden = of === "–" || of === "0";
}

/* The studio's address, filled with what she has before her. */
function ask(row) {
  const part = find("h3", row.closest("section"));
  const known = {
    piece: title(row),
    row: [/\d/.test(called(row)) ? null : part?.innerText, called(row)].filter(Boolean).join(", "),
    size: sizes[we.root.dataset.size] ?? "",
  };
  const to = find(".we-ask", row);
  to.href = box.dataset.weAsk.replace(/\{(\w+)\}/g, (_, name) => encodeURIComponent(known[name]));
  to.ariaLabel = `Ask about ${called(row)}`;
}

function fill() {
  if (box.dataset.weAsk) rows.forEach(ask);
  paint();
}

const go = make("p", { className: "we-go", hidden: true });
find(".we-byline").before(go);

function paint() {
  const states = new Map(rows.map(row => [row, state(row)]));
  const shown = rows.filter(row => row.getClientRects().length);
  const at = next(states, shown);
  for (const [row, { done, count, changed }] of states) {
    paintCounter(row, count);
    find(".we-tick", row).checked = done;
    row.classList.toggle("we-done", done);
    row.ariaCurrent = row === at ? "step" : null;
    find(".we-changed", row)?.remove();
    if (changed) row.append(make("p", {
      className: "we-changed",
      textContent: "New or corrected since you ticked it: read it again. The tick was taken off.",
    }));
  }
  const worked = shown.filter(row => states.get(row).done).length;
  const changed = shown.filter(row => states.get(row).changed);
  const said = [`${worked} of ${shown.length} lines ticked. `];
  if (at) said.push("Go on at ", link(at), ". ");
  changed.forEach((row, n) => said.push(n ? ", " : "New or corrected since you ticked it: ", link(row)));
  if (changed.length) said.push(". ");
  if (forgets) said.push("This browser keeps nothing for this page: ticks go when you leave it.");
  here.replaceChildren(...said);
  for (const one of again) {
    const piece = pieceOf(one);
    one.textContent = taken.has(piece) ? "Put the ticks back" : one.weWords;
    one.disabled = !taken.has(piece) && !rows.some(row => pieceOf(row) === piece && states.get(row).begun);
  }
  go.hidden = !at;
  go.replaceChildren(...(at ? [link(at, "Go on: ")] : []));
}

for (const row of rows) {
  const no = find(".we-no", row);
  no.id = `${row.id}.no`;
  const tick = make("input", {
    type: "checkbox",
    className: "we-tick",
    onchange: () => set(row, { done: tick.checked }),
  });
  tick.setAttribute("aria-labelledby", `we-ticked ${no.id}`);
  row.prepend(tick);
  if (row.dataset.weTimes) counter(row);
  if (box.dataset.weAsk) tick.after(make("a", { className: "we-ask", rel: "noopener", textContent: "Ask" }));
  row.addEventListener("click", event => {
    if (event.target.closest("a, abbr, button, input, .we-counter") || !getSelection().isCollapsed) return;
    set(row, { done: !state(row).done });
  });
}

/* A piece that is made twice; until its next tick a second press puts the ticks back. */
for (const button of again) {
  button.weWords = button.textContent;
  button.addEventListener("click", () => {
    load();
    const piece = pieceOf(button);
    const before = taken.get(piece);
    if (before) taken.delete(piece);
    else taken.set(piece, { ...kept });
    for (const row of rows) if (pieceOf(row) === piece) {
      if (before?.[row.id]) kept[row.id] = before[row.id];
      else delete kept[row.id];
    }
    write();
    paint();
  });
  button.hidden = false;
}

/* Another window has ticked, or this page is shown again as it was left. */
for (const name of ["storage", "pageshow"]) addEventListener(name, () => { load(); paint(); });
/* Behind all that listens: by then the numbers of the rows are those of her size. */
document.addEventListener("we:change", () => setTimeout(fill));
box.hidden = false;
load();
fill();
