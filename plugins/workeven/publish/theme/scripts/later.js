/* The calculator comes once the page stands: no first view waits for it. */

const { src } = document.currentScript;
if (we.find("[data-we-mine]")) document.head.append(we.make("script", { src: new URL("workeven-mine.js", src) }));
