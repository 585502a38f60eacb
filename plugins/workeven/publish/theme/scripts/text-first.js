/* Larger text in the rows, as she set it. */

const more = we.stored("we:text");
if (Number.isInteger(more) && more > 0 && more <= 100) we.root.style.setProperty("--we-text", 1 + more / 100);
