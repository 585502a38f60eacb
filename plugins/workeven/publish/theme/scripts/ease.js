/* With a hook in the hand: larger text, and a screen that stays on. */

const larger = document.querySelector(".we-larger");
if (!larger) return;

const root = document.documentElement.style;
const steps = [...larger.querySelectorAll("button")];
const now = () => Math.round(100 * (root.getPropertyValue("--we-text") || 1)) - 100;
const show = () => { larger.querySelector("output").textContent = `${100 + now()} %`; };
for (const button of steps) button.addEventListener("click", () => {
  const more = Math.min(100, Math.max(0, now() + Number(button.value)));
  root.setProperty("--we-text", 1 + more / 100);
  try { localStorage.setItem("we:text", JSON.stringify(more)); } catch { /* for this visit */ }
  show();
});
show();

/* A browser lets go of the screen when it shows another page: taken up again when this one is back. */
const awake = document.querySelector("[data-we-awake]");
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
