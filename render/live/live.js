// @ts-check
// Keeps the page what the server says the job is: it hears of a change by an event, fetches
// the sections that are others now and puts them in place, with what was open kept open and
// what was in view kept in view.
"use strict";

/**
 * @typedef {{id: string, hash: string}} Piece a section, and what its text hashes to
 * @typedef {{text: string, broken: boolean, old: boolean, pieces: Piece[]}} State the job as the server has it
 */

const page = /** @type {HTMLElement} */ (document.getElementById("page"));
const side = /** @type {HTMLElement} */ (document.getElementById("side-pieces"));
const status_ = /** @type {HTMLElement} */ (document.getElementById("status"));

/** The text of each section that has been fetched, by its hash. @type {Map<string, string>} */
const fetched = new Map();

/** The newest state, and whether one is being shown. @type {{next: State | null, busy: boolean}} */
const showing = { next: null, busy: false };

/** The state that is shown. @type {State | null} */
let last = null;

/** @param {State} state */
function show(state) {
	showing.next = state;
	if (!showing.busy) { void catchUp(); }
}

/** Shows states one after another, the newest next. */
async function catchUp() {
	showing.busy = true;
	while (showing.next) {
		const state = showing.next;
		showing.next = null;
		say(state);
		const texts = await Promise.all(state.pieces.map(textOf));
		if (showing.next) { continue; }
		last = state;
		place(state, texts);
	}
	showing.busy = false;
}

/** @param {Piece} piece @returns {Promise<string | null>} null: the server has it no longer, a newer state is on its way */
async function textOf(piece) {
	const known = fetched.get(piece.hash);
	if (known !== undefined) { return known; }
	try {
		const answer = await fetch("section/" + piece.hash);
		if (!answer.ok) { return null; }
		const text = await answer.text();
		fetched.set(piece.hash, text);
		return text;
	} catch { return null; }
}

/** @param {State} state */
function say(state) {
	if (status_.textContent !== state.text) { status_.textContent = state.text; }
	status_.classList.toggle("broken", state.broken);
	page.classList.toggle("old", state.old);
}

/**
 * Puts the sections in place.
 * @param {State} state @param {(string | null)[]} texts
 */
function place(state, texts) {
	const anchor = inView();
	const all = state.pieces.map((piece, i) => ({ piece, text: texts[i] }));
	fill(side, all.filter((p) => p.piece.id.startsWith("side-")));
	fill(page, all.filter((p) => !p.piece.id.startsWith("side-")));
	const used = new Set(state.pieces.map((p) => p.hash));
	for (const hash of [...fetched.keys()]) { if (!used.has(hash)) { fetched.delete(hash); } }
	if (anchor) {
		const now = anchor.div.getBoundingClientRect().top;
		if (anchor.div.isConnected && Math.abs(now - anchor.top) > 1) { window.scrollBy(0, now - anchor.top); }
	}
	document.body.dataset.shown = String(Number(document.body.dataset.shown || "0") + 1);
	document.dispatchEvent(new CustomEvent("placed"));
}

/**
 * Makes the sections of one part of the page those given, in their order.
 * @param {HTMLElement} into @param {{piece: Piece, text: string | null | undefined}[]} all
 */
function fill(into, all) {
	/** @type {Map<string, HTMLElement>} */
	const there = new Map();
	for (const div of into.children) {
		const d = /** @type {HTMLElement} */ (div);
		there.set(d.dataset.id || "", d);
	}
	/** @type {Element | null} */
	let before = into.firstElementChild;
	for (const { piece, text } of all) {
		let div = there.get(piece.id);
		there.delete(piece.id);
		if (!div) {
			div = document.createElement("div");
			div.dataset.id = piece.id;
			into.insertBefore(div, before);
		} else if (div === before) {
			before = before.nextElementSibling;
		} else {
			into.insertBefore(div, before);
		}
		if (typeof text === "string" && div.dataset.hash !== piece.hash) {
			swap(div, text);
			div.dataset.hash = piece.hash;
		}
	}
	for (const gone of there.values()) { gone.remove(); }
}

/** @returns {{div: HTMLElement, top: number} | null} the section the eye is on */
function inView() {
	if (window.scrollY < 1) { return null; }
	for (const div of page.children) {
		const box = div.getBoundingClientRect();
		if (box.bottom > 60) { return { div: /** @type {HTMLElement} */ (div), top: box.top }; }
	}
	return null;
}

/**
 * Replaces the text of a section; what was open, scrolled or had the focus has it again.
 * @param {HTMLElement} div @param {string} text
 */
function swap(div, text) {
	/** @type {Map<string, boolean>} */
	const open = new Map();
	for (const d of div.querySelectorAll("details[data-keep]")) { open.set(d.getAttribute("data-keep") || "", d.hasAttribute("open")); }
	const aside = [...div.querySelectorAll(".scroll")].map((s) => s.scrollLeft);
	const focus = document.activeElement && div.contains(document.activeElement) ? document.activeElement.id : "";
	div.innerHTML = text;
	for (const d of div.querySelectorAll("details[data-keep]")) {
		const was = open.get(d.getAttribute("data-keep") || "");
		if (was !== undefined) { d.toggleAttribute("open", was); }
	}
	[...div.querySelectorAll(".scroll")].forEach((s, i) => { s.scrollLeft = aside[i] || 0; });
	if (focus) { document.getElementById(focus)?.focus(); }
	ticks(div);
}

/** The steps ticked, kept in the browser's own storage. @returns {Set<string>} */
function ticked() {
	try { return new Set(JSON.parse(localStorage.getItem("ticks:" + location.pathname) || "[]")); } catch { return new Set(); }
}

/** @param {HTMLElement} div */
function ticks(div) {
	const set = ticked();
	for (const box of /** @type {NodeListOf<HTMLInputElement>} */ (div.querySelectorAll(".steps input"))) { box.checked = set.has(box.id); }
}

page.addEventListener("change", (e) => {
	const box = /** @type {HTMLInputElement} */ (e.target);
	if (!box.closest(".steps")) { return; }
	const set = ticked();
	if (box.checked) { set.add(box.id); } else { set.delete(box.id); }
	try { localStorage.setItem("ticks:" + location.pathname, JSON.stringify([...set])); } catch { /* a page without storage forgets */ }
});

// ---- What if ----

/** What is turned, by the ids of the controls. @type {Map<string, string>} */
const turned = new Map();

/** The question under way, if there is one, and whether there is a newer one. */
const asking = { busy: false, again: false, cost: 0 };

/** @param {string} path @param {object} question @returns {Promise<{ok: boolean, html: string, text: string, can: boolean}>} */
async function ask(path, question) {
	try {
		const answer = await fetch(path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(question) });
		if (!answer.ok) { return { ok: false, html: "", text: await answer.text(), can: false }; }
		const got = await answer.json();
		return { ok: true, html: got.html, text: got.text, can: Boolean(got.can) };
	} catch { return { ok: false, html: "", text: "dryfit doesn't answer", can: false }; }
}

const values = () => Object.fromEntries(turned);

/** Asks what the job comes to now; while one question is under way the newest waits. */
async function askNow() {
	window.clearTimeout(asking.cost);
	byId("reset").toggleAttribute("disabled", turned.size === 0);
	document.getElementById("put")?.toggleAttribute("disabled", turned.size === 0);
	if (asking.busy) { asking.again = true; return; }
	asking.busy = true;
	do {
		asking.again = false;
		if (turned.size === 0) { asSaved(); continue; }
		const got = await ask("ask", { values: values() });
		const div = side.querySelector("[data-id=side-answer]");
		if (div instanceof HTMLElement && turned.size > 0) {
			if (got.ok) { div.innerHTML = got.html; } else { byId("cost").textContent = got.text; }
			div.dataset.hash = "turned";
			div.classList.add("turned");
			document.body.dataset.asked = String(Number(document.body.dataset.asked || "0") + 1);
		}
	} while (asking.again);
	asking.busy = false;
	asking.cost = window.setTimeout(askCost, 500);
}

/** Asks what a year costs, when nothing has been turned for a moment. */
async function askCost() {
	if (turned.size === 0) { byId("cost").textContent = ""; return; }
	const question = JSON.stringify(values());
	const got = await ask("cost", { values: values() });
	if (question === JSON.stringify(values()) && !asking.busy) { byId("cost").innerHTML = got.ok ? got.html : ""; }
}

/** Shows the answer as it is saved. */
function asSaved() {
	const div = side.querySelector("[data-id=side-answer]");
	byId("cost").textContent = "";
	if (!(div instanceof HTMLElement) || !last) { return; }
	div.classList.remove("turned");
	const piece = last.pieces.find((p) => p.id === "side-answer");
	const text = piece && fetched.get(piece.hash);
	if (piece && text) { swap(div, text); div.dataset.hash = piece.hash; }
}

/** @param {string} id @returns {HTMLElement} */
function byId(id) { return /** @type {HTMLElement} */ (document.getElementById(id)); }

/** Shows on a control what it is turned to. @param {HTMLInputElement | HTMLSelectElement} c */
function mark(c) {
	const box = c.closest(".turn");
	const id = c.dataset.turn || "";
	box?.classList.toggle("moved", turned.has(id));
	const out = box?.querySelector("output");
	if (out) { out.textContent = (turned.get(id) ?? c.dataset.now) + " " + (c.dataset.unit || ""); }
}

/** @returns {NodeListOf<HTMLInputElement | HTMLSelectElement>} */
function controls() { return side.querySelectorAll("[data-turn]"); }

side.addEventListener("input", (e) => {
	const c = /** @type {HTMLInputElement | HTMLSelectElement} */ (e.target);
	const id = c.dataset.turn;
	if (!id) { return; }
	if (c.value === c.dataset.now) { turned.delete(id); } else { turned.set(id, c.value); }
	mark(c);
	void askNow();
});

byId("reset").addEventListener("click", () => {
	turned.clear();
	for (const c of controls()) { c.value = c.dataset.now || ""; mark(c); }
	void askNow();
});

// A new page of controls keeps what is turned, where it is there still.
document.addEventListener("placed", () => {
	const there = new Set();
	for (const c of controls()) {
		const id = c.dataset.turn || "";
		there.add(id);
		const value = turned.get(id);
		if (value !== undefined) {
			if (value === c.dataset.now) { turned.delete(id); } else { c.value = value; }
		}
		mark(c);
	}
	for (const id of [...turned.keys()]) { if (!there.has(id)) { turned.delete(id); } }
	void askNow();
});

const confirm_ = /** @type {HTMLDialogElement} */ (byId("confirm"));
/** The text the difference that is shown is of. */
let seen = "";

document.getElementById("put")?.addEventListener("click", async () => {
	const got = await ask("difference", { values: values() });
	byId("confirm-said").textContent = got.ok ? "" : got.text;
	byId("confirm-text").innerHTML = got.html;
	byId("confirm-yes").toggleAttribute("disabled", !got.can);
	seen = got.text;
	confirm_.showModal();
});

byId("confirm-yes").addEventListener("click", async () => {
	const got = await ask("put", { values: values(), text: seen });
	if (!got.ok) { byId("confirm-said").textContent = got.text; return; }
	confirm_.close();
	turned.clear();
	for (const c of controls()) { mark(c); }
	void askNow();
});

byId("confirm-no").addEventListener("click", () => { confirm_.close(); });

// ---- The stream ----

const events = new EventSource("events");
events.addEventListener("state", (e) => { show(JSON.parse(e.data)); });
events.addEventListener("error", () => {
	status_.textContent = "dryfit doesn't answer: it was stopped, or the network is gone. What stands here is the last it said.";
	status_.classList.add("broken");
	page.classList.add("old");
});
