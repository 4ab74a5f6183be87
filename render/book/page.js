// Keeps the ticks of the steps in the browser's own storage, by the page's name.
"use strict";
(() => {
	const key = "ticks:" + document.title + ":" + location.pathname;
	let ticked = new Set();
	try { ticked = new Set(JSON.parse(localStorage.getItem(key) || "[]")); } catch { return; }
	for (const box of document.querySelectorAll(".steps input")) {
		box.checked = ticked.has(box.id);
		box.addEventListener("change", () => {
			if (box.checked) { ticked.add(box.id); } else { ticked.delete(box.id); }
			try { localStorage.setItem(key, JSON.stringify([...ticked])); } catch { /* a page without storage forgets */ }
		});
	}
})();
