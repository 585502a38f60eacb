/* The manifest, where there is a server: a browser complains about one beside a file. */

if (!/^http/.test(location.protocol)) return;
const link = document.createElement("link");
link.rel = "manifest";
link.href = new URL("../manifest.webmanifest", document.currentScript.src);
document.head.append(link);
