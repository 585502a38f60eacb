/* The list of materials on a sheet of its own, to take to a shop. */

const button = we.find("[data-we-list]");
if (!button) return;
const { root } = we;
button.hidden = false;
button.addEventListener("click", () => {
  root.dataset.weList = "";
  print();
});
addEventListener("afterprint", () => delete root.dataset.weList);
