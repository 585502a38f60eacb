/* Opened by the link of a row: there first, before controls come up above it, so that the browser
   keeps it in its place while they do. */

if (!scrollY) document.getElementById(location.hash.slice(1))?.scrollIntoView();
