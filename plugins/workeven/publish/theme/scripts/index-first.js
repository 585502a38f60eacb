/* A list that the address will narrow is not shown whole first (styles/index.css shows it in time). */

if (/[?&](kind|for|weight|hook|level|measure|yarn)=./.test(location.search)) {
  document.documentElement.dataset.weAsked = "";
}
