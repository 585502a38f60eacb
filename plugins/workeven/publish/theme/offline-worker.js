/* Pages that a maker keeps offline: the network first, the kept copy where there is none. It is
   installed when she keeps her first page, and taken away with her last (scripts/offline.js). */

/* So long (ms) a page that is kept, and each of its parts, may let itself be waited for; that a
   newer page came later is told in the page. */
const PAGE = 4000, PART = 800;

addEventListener("install", () => skipWaiting());
addEventListener("activate", event => event.waitUntil(clients.claim()));
addEventListener("fetch", event => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(registration.scope)) return;
  if (request.headers.has("X-We-Keep")) return; // a copy is being made: of what the network has
  event.respondWith(answer(request));
});

async function answer(request) {
  const page = request.mode === "navigate";
  // a page is asked for anew, so that the browser's own cache does not hide a correction
  const asked = page ? fetch(request, { cache: "no-cache" }) : fetch(request);
  asked.catch(() => {});
  const copy = await kept(request, page);
  if (!copy) return asked;
  const late = new Promise(done => setTimeout(done, page ? PAGE : PART, copy));
  return Promise.race([late, asked.then(got => got.status < 500 ? got : copy, () => copy)]);
}

/* The copy that was made together with the page that asks. */
async function kept(request, page) {
  const asking = plain(page ? request.url : request.referrer);
  for (const name of await caches.keys()) {
    if (!name.startsWith(`we:${new URL(registration.scope).pathname}:`)) continue;
    const cache = await caches.open(name);
    if (await cache.match(asking, { ignoreVary: true })) {
      return cache.match(plain(request.url), { ignoreVary: true });
    }
  }
}

function plain(url) {
  return url.replace(/[?#].*/, "").replace(/index\.html$/, "");
}
