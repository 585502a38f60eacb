/* With a hook in the hand: larger text, and a screen that stays on. */

const larger = we.find(".we-larger");
const root = we.root.style;
const now = () => Math.round(100 * (root.getPropertyValue("--we-text") || 1)) - 100;
const show = () => { we.find("output", larger).textContent = `${100 + now()} %`; };
for (const button of we.all("button", larger)) button.addEventListener("click", () => {
  const more = Math.min(100, Math.max(0, now() + Number(button.value)));
  root.setProperty("--we-text", 1 + more / 100);
  we.keep("we:text", more);
  show();
});
show();

/* A browser lets go of the screen when it shows another page: taken up again when this one is back. */
const awake = we.find("[data-we-awake]");
if (!navigator.wakeLock) return;
let lock = null;
let wants = false;

async function hold() {
  try {
    if (wants && !document.hidden) lock = await navigator.wakeLock.request("screen");
  } catch { wants = false; /* a browser that saves its battery refuses */ }
  if (!wants) lock = await lock?.release();
  awake.setAttribute("aria-pressed", wants);
}

awake.addEventListener("click", () => { wants = !wants; hold(); });
document.addEventListener("visibilitychange", () => { if (wants) hold(); });
awake.hidden = false;
