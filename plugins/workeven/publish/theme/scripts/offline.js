/* "Keep offline": a copy of this page and of what it is made of, for a worker that shows it where
   there is no network. Each visit makes the copy anew, and tells where this page is behind. */

if (!/^http/.test(location.protocol) || !navigator.serviceWorker || !window.caches) return;

const { find, all, page: { pattern, formerly = [] } } = we;
const box = find("[data-we-offline]");
const root = new URL("..", document.currentScript.src);
const ours = `we:${root.pathname}:`;
const mark = "we:offline:";
const button = find("button", box);
const said = find("[role=status]", box);
const here = location.origin + location.pathname.replace(/index\.html$/, "");
const stamp = within => find("meta[name=we-stamp]", within)?.content;
const tell = words => { said.textContent = words; };
const press = on => button.setAttribute("aria-pressed", on);

function parts() {
  const loaded = all("link[rel~=stylesheet], link[rel~=icon], script[src], img[src]");
  const found = loaded.map(one => (one.href || one.currentSrc || one.src).replace(/[?#].*/, ""));
  if (find("[data-md-component=search]")) {
    // what search asks for once it is used: it answers offline too, and says where it leads
    const { base, search } = JSON.parse(find("#__config").textContent);
    for (const url of [search, `${base}/search/search_index.json`]) found.push(new URL(url, location).href);
  }
  return [...new Set(found)].filter(url => url.startsWith(root.href));
}

async function asked(url) {
  const answer = await fetch(url, { cache: "no-cache", headers: { "X-We-Keep": "1" } });
  if (!answer.ok) throw Error(`${answer.status}: ${url}`);
  return answer;
}

/* The copy, the page last, so that all that it asks for is there before it; pictures far below come
   first, in the width that this window shows. */
async function keep() {
  await Promise.all(all(".we-pattern img").map(one => {
    one.loading = "eager";
    return one.decode().catch(() => {});
  }));
  const urls = [...parts(), here];
  const answers = await Promise.all(urls.map(asked));
  const text = await answers.at(-1).clone().text();
  const cache = await caches.open(ours + pattern);
  for (const [at, answer] of answers.entries()) await cache.put(urls[at], answer);
  for (const { url } of await cache.keys()) if (!urls.includes(url)) await cache.delete(url);
  await navigator.serviceWorker.register(new URL("offline-worker.js", root));
  const fresh = new DOMParser().parseFromString(text, "text/html");
  const version = find("[data-we-offline]", fresh)?.dataset.weVersion;
  we.keep(mark + pattern, version ?? "");
  press(true);
  if (stamp(fresh) === stamp(document)) return tell(`Version ${version} is kept in this browser.`);
  tell(`This page was corrected; what you see is not the newest (version ${version}). `);
  said.append(we.make("a", { href: "", textContent: "Load it" }));
}

async function letGo() {
  await caches.delete(ours + pattern);
  we.keep(mark + pattern, null);
  press(false);
  tell("");
  if ((await caches.keys()).some(name => name.startsWith(ours))) return;
  await (await navigator.serviceWorker.getRegistration(root))?.unregister();
}

button.addEventListener("click", () => {
  const on = button.getAttribute("aria-pressed") !== "true";
  if (on) tell("Being kept …");
  (on ? keep() : letGo()).catch(() => tell("That did not work: there is no connection, or no room."));
});

/* A copy under a former name of the folder: whoever kept that keeps this. */
async function former() {
  let kept = false;
  for (const name of formerly) {
    kept = await caches.delete(ours + name) || kept;
    we.keep(mark + name, null);
  }
  return kept;
}

caches.has(ours + pattern).then(async has => {
  box.hidden = false;
  if (!await former() && !has && we.stored(mark + pattern) === null) return;
  press(true);
  return keep().catch(() => has && tell(
    `No connection. This is the copy that you keep, version ${box.dataset.weVersion}.`));
}).catch(() => {});
