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
  if (!copy) return page ? asked.catch(nothing) : asked;
  const late = new Promise(done => setTimeout(done, page ? PAGE : PART, copy));
  return Promise.race([late, asked.then(got => got.status < 500 ? got : copy, () => copy)]);
}

/* The copy that was made together with the page that asks. */
async function kept(request, page) {
  const asking = plain(page ? request.url : request.referrer);
  for (const cache of await ours()) {
    if (await cache.match(asking, { ignoreVary: true })) {
      return cache.match(plain(request.url), { ignoreVary: true });
    }
  }
}

async function ours() {
  const start = `we:${new URL(registration.scope).pathname}:`;
  const names = (await caches.keys()).filter(name => name.startsWith(start));
  return Promise.all(names.map(name => caches.open(name)));
}

/* In the place of a page that is not kept: what is, by the titles that the pages have. */
async function nothing() {
  const links = [];
  for (const cache of await ours()) {
    for (const { url } of await cache.keys()) {
      if (!url.endsWith("/")) continue;
      const html = await (await cache.match(url, { ignoreVary: true })).text();
      const [, title] = /<title>([^<]*)/.exec(html) ?? [, url];
      links.push(`<li><a href="${url}">${title.trim()}</a></li>`);
    }
  }
  const words = `<!doctype html><html lang="en"><meta charset="utf-8">
<meta name="viewport" content="width=device-width"><meta name="color-scheme" content="light dark">
<title>No connection</title><h1>No connection</h1>
<p>This page is not kept in your browser. These are:</p><ul>${links.join("")}</ul>`;
  const headers = { "Content-Type": "text/html", "Content-Security-Policy": "default-src 'none'" };
  return new Response(words, { status: 503, headers });
}

function plain(url) {
  return url.replace(/[?#].*/, "").replace(/index\.html$/, "");
}
