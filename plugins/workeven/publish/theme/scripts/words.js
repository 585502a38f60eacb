/* What an abbreviation in a row means, on a tap and on focus. The first of each in a part is reached
   by the keyboard: all of them would be hundreds. Where nothing can pop up, a tap leads to the list. */

const note = we.make("div", {
  id: "we-meaning",
  className: "we-meaning",
  popover: "auto",
  onclick: () => note.hidePopover(),
});
we.find(".we-pattern").append(note);

function show(word) {
  if (!note.showPopover) return we.find("#abbreviations")?.scrollIntoView();
  note.textContent = `${word.textContent}: ${word.title}`;
  note.showPopover();
  const { left, bottom } = word.getBoundingClientRect();
  const room = we.root.clientWidth - note.offsetWidth - 8;
  note.style.left = `${scrollX + Math.max(8, Math.min(left, room))}px`;
  note.style.top = `${scrollY + bottom + 6}px`;
}

const met = new Set();
for (const word of we.all(".we-piece abbr[title]")) {
  word.addEventListener("click", () => show(word));
  const name = `${word.closest("section[aria-labelledby]").getAttribute("aria-labelledby")} ${word.textContent}`;
  if (met.has(name)) continue;
  met.add(name);
  word.tabIndex = 0;
  word.role = "button";
  word.setAttribute("aria-describedby", note.id);
  word.addEventListener("focus", () => { if (word.matches(":focus-visible")) show(word); });
  word.addEventListener("blur", () => note.hidePopover?.());
  word.addEventListener("keydown", event => {
    if (event.key !== "Enter" && event.key !== " ") return;
    event.preventDefault();
    show(word);
  });
}
