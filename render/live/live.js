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
const status_ = /** @type {HTMLElement} */ (document.getElementById("status"));

/** The text of each section that has been fetched, by its hash. @type {Map<string, string>} */
const fetched = new Map();

/** The newest state, and whether one is being shown. @type {{next: State | null, busy: boolean}} */
const showing = { next: null, busy: false };

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
	/** @type {Map<string, HTMLElement>} */
	const there = new Map();
	for (const div of page.children) {
		const d = /** @type {HTMLElement} */ (div);
		there.set(d.dataset.id || "", d);
	}
	/** @type {Element | null} */
	let before = page.firstElementChild;
	state.pieces.forEach((piece, i) => {
		const text = texts[i];
		let div = there.get(piece.id);
		there.delete(piece.id);
		if (!div) {
			div = document.createElement("div");
			div.dataset.id = piece.id;
			page.insertBefore(div, before);
		} else if (div === before) {
			before = before.nextElementSibling;
		} else {
			page.insertBefore(div, before);
		}
		if (text !== null && div.dataset.hash !== piece.hash) {
			swap(div, text);
			div.dataset.hash = piece.hash;
		}
	});
	for (const gone of there.values()) { gone.remove(); }
	const used = new Set(state.pieces.map((p) => p.hash));
	for (const hash of [...fetched.keys()]) { if (!used.has(hash)) { fetched.delete(hash); } }
	if (anchor) {
		const now = anchor.div.getBoundingClientRect().top;
		if (anchor.div.isConnected && Math.abs(now - anchor.top) > 1) { window.scrollBy(0, now - anchor.top); }
	}
	document.body.dataset.shown = String(Number(document.body.dataset.shown || "0") + 1);
	document.dispatchEvent(new CustomEvent("placed"));
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

const events = new EventSource("events");
events.addEventListener("state", (e) => { show(JSON.parse(e.data)); });
events.addEventListener("error", () => {
	status_.textContent = "dryfit doesn't answer: it was stopped, or the network is gone. What stands here is the last it said.";
	status_.classList.add("broken");
	page.classList.add("old");
});
