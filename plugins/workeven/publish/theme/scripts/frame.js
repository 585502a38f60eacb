/* The theme opens its menu and its search by labels, which no key reaches: real buttons instead. */

const names = { __drawer: "Menu", __search: "Search" };
for (const [id, name] of Object.entries(names)) {
  const toggle = document.getElementById(id);
  const label = document.querySelector(`label.md-header__button[for=${id}]`);
  if (!toggle || !label) continue;
  const button = document.createElement("button");
  button.type = "button";
  button.className = label.className;
  button.setAttribute("for", id); // by which the theme's style knows it
  button.setAttribute("aria-label", name);
  button.append(...label.childNodes);
  const told = () => button.setAttribute("aria-expanded", toggle.checked);
  toggle.addEventListener("change", told);
  button.addEventListener("click", () => {
    toggle.click();
    if (id === "__search") document.querySelector(".md-search__input")?.focus();
  });
  document.addEventListener("keydown", event => {
    if (event.key !== "Escape" || !toggle.checked) return;
    toggle.click();
    button.focus();
  });
  told();
  label.replaceWith(button);
}
