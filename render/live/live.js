// @ts-check
// Keeps the page what the server says the job is: it hears of a change by an event, fetches
// the sections that are others now and puts them in place, with what was open kept open and
// what was in view kept in view.
"use strict";

/**
 * @typedef {{id: string, hash: string}} Piece a section, and what its text hashes to
 * @typedef {{text: string, broken: boolean, old: boolean, pieces: Piece[], file: string}} State the job as the server has it, and its file by a hash
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
	try {
		while (showing.next) {
			const state = showing.next;
			showing.next = null;
			const texts = await Promise.all(state.pieces.map(textOf));
			if (showing.next) { continue; }
			last = state;
			say(state); // with its sections: it may say that they are what the file says
			place(state, texts);
		}
	} finally { showing.busy = false; } // one that can't be shown does not keep the next from it
}

/** @param {Piece} piece @returns {Promise<string | null>} null: the server has it no longer, a newer state is on its way */
async function textOf(piece) {
	const known = fetched.get(piece.hash);
	if (known !== undefined) { return known; }
	try {
		const answer = await fetch("section/" + piece.hash);
		if (answer.status !== 200) { return null; }
		const text = await answer.text();
		fetched.set(piece.hash, text);
		return text;
	} catch { return null; }
}

/** @param {State} state */
function say(state) {
	const words = state.text + (turned.size > 0 ? " What is turned is only tried: it is not in the file." : "");
	if (status_.dataset.words !== words) {
		status_.dataset.words = words;
		status_.replaceChildren(...withWay(words));
	}
	status_.classList.toggle("broken", state.broken);
	page.classList.toggle("old", state.old);
	side.classList.toggle("old", state.old);
}

/** What the status says, with a way to the findings where it names them: on a telephone they are far below. @param {string} words @returns {(string | Node)[]} */
function withWay(words) {
	const at = words.lastIndexOf("see Findings");
	if (at < 0) { return [words]; }
	const a = document.createElement("a");
	a.href = "#findings";
	a.textContent = "Findings";
	return [words.slice(0, at), "see ", a, words.slice(at + "see Findings".length)];
}

/**
 * Puts the sections in place.
 * @param {State} state @param {(string | null)[]} texts
 */
function place(state, texts) {
	const anchor = inView();
	const all = state.pieces.map((piece, i) => ({ piece, text: texts[i] }));
	fill(side, all.filter((p) => p.piece.id.startsWith("side-")));
	side.closest(".desk")?.classList.toggle("alone", side.childElementCount === 0);
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
			if (piece.id === "side-answer") { div.tabIndex = 0; div.setAttribute("role", "group"); div.setAttribute("aria-labelledby", "now"); } // it scrolls on a small screen
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
	const at = document.activeElement && div.contains(document.activeElement) ? document.activeElement : null;
	const focus = at ? at.id : "";
	const typed = at instanceof HTMLInputElement && at.type === "text" && at.value !== at.defaultValue ? at.value : null;
	div.innerHTML = text;
	for (const d of div.querySelectorAll("details[data-keep]")) {
		const was = open.get(d.getAttribute("data-keep") || "");
		if (was !== undefined) { d.toggleAttribute("open", was); }
	}
	[...div.querySelectorAll(".scroll")].forEach((s, i) => { s.scrollLeft = aside[i] || 0; });
	const again = focus ? document.getElementById(focus) : null;
	again?.focus({ preventScroll: true });
	if (typed !== null && again instanceof HTMLInputElement) { again.value = typed; }
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
const asking = { busy: false, again: false, cost: 0, mend: 0 };

/** @param {string} path @param {object} question @returns {Promise<{ok: boolean, html: string, cut: string, text: string, can: boolean, stand: Object<string, string>}>} */
async function ask(path, question) {
	try {
		const answer = await fetch(path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(question) });
		if (!answer.ok) { return { ok: false, html: "", cut: "", text: await answer.text(), can: false, stand: {} }; }
		const got = await answer.json();
		return { ok: true, html: got.html, cut: got.cut || "", text: got.text, can: Boolean(got.can), stand: got.stand || {} };
	} catch { return { ok: false, html: "", cut: "", text: "dryfit doesn't answer", can: false, stand: {} }; }
}

const values = () => Object.fromEntries(turned);

/** Asks what the job comes to now; while one question is under way the newest waits. */
async function askNow() {
	window.clearTimeout(asking.cost);
	window.clearTimeout(asking.mend);
	asking.mend = 0;
	if (last) { say(last); }
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
			if (got.ok && !asking.again) { follow(got.stand); }
			const cut = document.getElementById("cut-now");
			if (cut && got.cut) { cut.innerHTML = got.cut; cut.closest("[data-id]")?.setAttribute("data-hash", "turned"); pulled(); }
			document.body.dataset.asked = String(Number(document.body.dataset.asked || "0") + 1);
		}
	} while (asking.again);
	asking.busy = false;
	asking.cost = window.setTimeout(askCost, 500);
	if (document.querySelector("#cut-now .verdict")) { asking.mend = window.setTimeout(askMend, 300); }
}

/** Asks what would make the place of the cut possible, when it has rested for a moment. */
async function askMend() {
	const question = JSON.stringify(values()), mine = asking.mend;
	const got = await ask("mend", { values: values() });
	if (asking.mend !== mine || question !== JSON.stringify(values())) { return; }
	if (got.ok && got.cut === "") { asking.mend = window.setTimeout(askMend, 700); return; } // another's is being worked out
	const cut = document.getElementById("cut-now");
	if (cut && got.ok) { cut.innerHTML = got.cut; pulled(); }
	asking.mend = 0;
}

/** Asks what a year costs, when nothing has been turned for a moment. */
async function askCost() {
	if (turned.size === 0) { byId("cost").textContent = ""; return; }
	const question = JSON.stringify(values());
	const got = await ask("cost", { values: values() });
	if (got.ok && got.html === "" && !asking.busy) { asking.cost = window.setTimeout(askCost, 1000); return; } // another's is being worked out
	if (question === JSON.stringify(values()) && !asking.busy) { byId("cost").innerHTML = got.ok ? got.html : ""; }
}

/** Shows the answer as it is saved. */
function asSaved() {
	follow({});
	byId("cost").textContent = "";
	side.querySelector("[data-id=side-answer]")?.classList.remove("turned");
	for (const id of ["side-answer", "cut"]) {
		const div = document.querySelector("[data-id=" + id + "]");
		const piece = last?.pieces.find((p) => p.id === id);
		const text = piece && fetched.get(piece.hash);
		if (div instanceof HTMLElement && piece && text && div.dataset.hash !== piece.hash) { swap(div, text); div.dataset.hash = piece.hash; }
	}
}

/** @param {string} id @returns {HTMLElement} */
function byId(id) { return /** @type {HTMLElement} */ (document.getElementById(id)); }

/** Shows on a control what it is turned to. @param {HTMLInputElement | HTMLSelectElement} c */
function mark(c) {
	const box = c.closest(".turn");
	const id = c.dataset.turn || "";
	box?.classList.toggle("moved", turned.has(id));
	const out = box?.querySelector("output");
	if (out) { out.textContent = c.disabled ? "there is none now" : (turned.get(id) ?? stands(c)) + " " + (c.dataset.unit || ""); }
}

/** Where a control stands that is not turned: where the file has it, or what else is turned puts it.
 * @param {HTMLInputElement | HTMLSelectElement} c */
function stands(c) { return c.dataset.stand ?? c.dataset.now ?? ""; }

/** Lets scales stand where what is turned puts them. @param {Object<string, string>} stand by their ids, "" for what is gone */
function follow(stand) {
	for (const c of controls()) {
		const id = c.dataset.turn || "", at = turned.has(id) ? undefined : stand[id];
		if (at === c.dataset.stand) { continue; }
		if (at === undefined) { delete c.dataset.stand; } else { c.dataset.stand = at; }
		c.disabled = at === "";
		if (!turned.has(id) && !c.disabled) { c.value = stands(c); }
		mark(c);
	}
}

/** @returns {NodeListOf<HTMLInputElement | HTMLSelectElement>} */
function controls() { return side.querySelectorAll("[data-turn]"); }

side.addEventListener("input", (e) => {
	const c = /** @type {HTMLInputElement | HTMLSelectElement} */ (e.target);
	const id = c.dataset.turn;
	if (!id) { return; }
	if (c.value === stands(c)) { turned.delete(id); } else { turned.set(id, c.value); }
	mark(c);
	for (const o of controls()) { // what is picked anew stands as it is
		if (o.dataset.of === id && turned.delete(o.dataset.turn || "")) { o.value = stands(o); mark(o); }
	}
	void askNow();
});

byId("reset").addEventListener("click", () => {
	turned.clear();
	for (const c of controls()) { c.value = c.dataset.now || ""; mark(c); }
	page.querySelector("[data-id=cut]")?.setAttribute("data-hash", "turned");
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
	pulled();
	if (cutAgain()) { there.add("cut"); }
	for (const id of [...turned.keys()]) { if (!there.has(id)) { turned.delete(id); } }
	void askNow();
});

// ---- The cut, pulled along the old pipe ----

/** The slider and the list of straights; null where nothing is cut. @returns {{at: HTMLInputElement, leg: HTMLSelectElement} | null} */
function cutControls() {
	const at = document.getElementById("cut-at"), leg = document.getElementById("cut-leg");
	return at instanceof HTMLInputElement && leg instanceof HTMLSelectElement ? { at, leg } : null;
}

/** Takes the slider to a straight. @param {HTMLInputElement} at @param {HTMLOptionElement} option @param {string} value */
function cutOn(at, option, value) {
	at.max = option.dataset.most || "0";
	at.dataset.low = option.dataset.low;
	at.dataset.high = option.dataset.high;
	at.value = value;
}

/** Asks for the cut where the list and the slider have it. @param {number} mm along the leg */
function cutTo(mm) {
	const c = cutControls(), option = c?.leg.selectedOptions[0];
	if (!c || !option) { return; }
	const low = Number(c.at.dataset.low), high = Number(c.at.dataset.high);
	if (low <= high) { // the last millimetre before a socket is where it just fits
		if (mm < low && mm > low - 1) { mm = low; } else if (mm > high && mm < high + 1) { mm = high; }
	}
	const value = option.dataset.leg + " " + String(Math.round(10 * mm) / 10) + " " + option.dataset.run;
	if (value === c.at.dataset.now) { turned.delete("cut"); } else { turned.set("cut", value); }
	void askNow();
}

/** Puts the controls of the cut where it was pulled to, on a page that is new. @returns {boolean} whether they are there */
function cutAgain() {
	const c = cutControls(), value = turned.get("cut");
	if (!c) { return false; }
	if (value === undefined) { return true; }
	const option = [...c.leg.options].find((o) => value.startsWith(o.dataset.leg + " ") && value.endsWith(" " + o.dataset.run));
	if (!option) { return false; }
	option.selected = true;
	cutOn(c.at, option, value.split(" ")[1]);
	if (value === c.at.dataset.now) { turned.delete("cut"); }
	return true;
}

page.addEventListener("input", (e) => {
	const c = cutControls();
	if (c && e.target === c.at) { cutTo(Number(c.at.value)); }
	if (c && e.target === c.leg) {
		const option = c.leg.selectedOptions[0];
		cutOn(c.at, option, option.dataset.at || "0");
		cutTo(Number(option.dataset.at));
	}
});

/** What is being pulled: from where on the window, and from which place. @type {{x: number, mm: number} | null} */
let pull = null;

/** @returns {SVGSVGElement | null} the leg with the work on it */
const strip = () => page.querySelector("#cut-now svg.strip");

/** Millimetres of pipe to a pixel of the window. @param {SVGSVGElement} svg */
const mmToPx = (svg) => svg.viewBox.baseVal.width / svg.getBoundingClientRect().width / Number(svg.dataset.scale);

/** Says the place on the slider, and shows the work where it is pulled to until the answer to that is here. */
function pulled() {
	const svg = strip(), c = cutControls();
	c?.at.setAttribute("aria-valuetext", document.getElementById("cut-said")?.textContent || "");
	if (!svg || !c || !pull) { return; }
	svg.querySelector(".work")?.setAttribute("transform", "translate(" + (Number(c.at.value) - Number(svg.dataset.at)) * Number(svg.dataset.scale) + " 0)");
}

page.addEventListener("pointerdown", (e) => {
	const svg = strip(), c = cutControls();
	if (!svg || !c || !e.isPrimary || e.button !== 0 || !svg.contains(/** @type {Node} */ (e.target))) { return; }
	pull = { x: e.clientX, mm: Number(c.at.value) };
	byId("cut-now").setPointerCapture(e.pointerId);
	c.at.focus({ preventScroll: true });
	e.preventDefault();
});
page.addEventListener("pointermove", (e) => {
	const svg = strip(), c = cutControls();
	if (!pull || !svg || !c || !e.isPrimary) { return; }
	c.at.value = String(pull.mm + (e.clientX - pull.x) * mmToPx(svg));
	pulled();
	cutTo(Number(c.at.value));
});
for (const end of ["pointerup", "pointercancel"]) { page.addEventListener(end, () => { pull = null; }); }

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
	turned.clear(); // the answer to what was turned stays until the page of the new file is here
	for (const c of controls()) { mark(c); }
	byId("reset").toggleAttribute("disabled", true);
	byId("put").toggleAttribute("disabled", true);
});

byId("confirm-no").addEventListener("click", () => { confirm_.close(); });

// ---- Looking at one thing ----

/**
 * @typedef {{id: string, what: string, names: string[]}} Named a part, a run or a piece
 * @typedef {{heads: string, what: string, formula: string, from: string, source: string}} Explanation of numbers under a head
 */

/** By the class of what is drawn, and by the name in a list. @type {{byClass: Map<string, string>, byName: Map<string, string>, all: Map<string, Named>}} */
const known = { byClass: new Map(), byName: new Map(), all: new Map() };

/** As the drawings write an id in a class. @param {string} id */
const classOf = (id) => id.replace(/[^A-Za-z0-9\-_:.>]/gu, "_").replace(/>/g, "-to-");

/** Fetches what can be looked at. */
async function learnNames() {
	try {
		const answer = await fetch("names");
		/** @type {Named[]} */
		const list = await answer.json();
		await explained;
		known.byClass.clear(); known.byName.clear(); known.all.clear();
		const look = /** @type {HTMLSelectElement} */ (byId("look"));
		look.length = 1;
		for (const n of list) {
			known.all.set(n.id, n);
			known.byClass.set(classOf(n.id), n.id);
			for (const name of n.names) { if (!known.byName.has(name)) { known.byName.set(name, n.id); } }
			look.add(new Option(n.what, n.id));
		}
		for (const div of document.querySelectorAll("[data-id]")) { // how what it says is come by
			const name = "section " + div.getAttribute("data-id"), head = div.querySelector("h1, h2")?.textContent;
			if (head && whyNamed(name)) { look.add(new Option("how it is come by: " + head, "why:" + name)); }
		}
		markRows();
		flowAlong();
	} catch { /* the next state tries again */ }
}

/** What a drawn element stands for. @param {Element | null} e @returns {string} its id, or "" */
function drawnAs(e) {
	if (!(e instanceof SVGElement)) { return ""; }
	const name = e.getAttribute("class") || "";
	if (name === "label:piece" || name === "leader:piece" || name === "ring") {
		const n = parseInt((e.textContent || "").trim(), 10);
		return Number.isNaN(n) || !known.all.has("piece:" + n) ? "" : "piece:" + n;
	}
	for (let rest = name, at = rest.indexOf(":"); at >= 0; at = rest.indexOf(":")) {
		rest = rest.slice(at + 1);
		for (const c of [rest, rest.slice(0, rest.lastIndexOf("."))]) {
			const id = known.byClass.get(c);
			if (id !== undefined) { return id; }
		}
	}
	return "";
}

/** How far from a place something drawn still counts as meant, px: a line is thin, a thumb is not. */
const near = 14;

/** What is drawn at a place of the window, or near it, the nearest first. The rings stand closer
 * than the thinnest line is wide: none slips through. @param {number} x @param {number} y */
function drawnAt(x, y) {
	for (let far = 0; far <= near; far += 0.5) {
		for (let k = 0; k < (far ? 8 : 1); k++) {
			for (const e of document.elementsFromPoint(x + far * Math.cos(k * Math.PI / 4), y + far * Math.sin(k * Math.PI / 4))) {
				const id = drawnAs(e);
				if (id) { return id; }
			}
		}
	}
	return "";
}

const about = byId("about");
/** The thing looked at, and where the focus was before. @type {{id: string, from: Element | null}} */
const looking = { id: "", from: null };

/** Shows what is known of a thing, and where else it stands. @param {string} id */
async function lookAt(id) {
	let text = "";
	try {
		const answer = await fetch("about?id=" + encodeURIComponent(id));
		text = answer.ok ? await answer.text() : "";
	} catch { return; }
	if (!text) { closeAbout(); return; }
	if (about.hidden) { looking.from = document.activeElement; }
	looking.id = id;
	byId("about-text").innerHTML = text;
	about.hidden = false;
	light();
	const rows = byId("about-rows");
	rows.textContent = "";
	rowsOf(id).slice(0, 12).forEach((row, i) => {
		const b = document.createElement("button");
		b.type = "button";
		b.textContent = "in " + (row.closest("section")?.querySelector("h2")?.textContent || "a list") + ", row " + (i + 1);
		b.addEventListener("click", () => { row.scrollIntoView({ block: "center" }); });
		rows.append(b);
	});
	byId("about-text").focus({ preventScroll: true });
}

/** Marks what is looked at wherever it is drawn or listed. */
function light() {
	for (const e of page.querySelectorAll("figure svg .lit, tr.lit")) { e.classList.remove("lit"); }
	if (!looking.id) { return; }
	for (const e of page.querySelectorAll("figure svg [class]")) { if (drawnAs(e) === looking.id) { e.classList.add("lit"); } }
	for (const row of rowsOf(looking.id)) { row.classList.add("lit"); }
}

/** The rows of lists that name a thing. @param {string} id @returns {HTMLElement[]} */
function rowsOf(id) { return /** @type {HTMLElement[]} */ ([...page.querySelectorAll("td[data-about]")].filter((td) => td.getAttribute("data-about") === id).map((td) => td.closest("tr"))); }

/** Finds the cells of lists that name a thing. */
function markRows() {
	for (const td of page.querySelectorAll("td")) {
		const text = (td.textContent || "").trim();
		const table = td.closest("table");
		let id = known.byName.get(text);
		if (id === undefined && /^\d+$/.test(text) && table?.rows[0]?.cells[td.cellIndex]?.textContent === "piece") { id = "piece:" + text; }
		if (id !== undefined && known.all.has(id)) { td.setAttribute("data-about", id); } else { td.removeAttribute("data-about"); }
	}
	light();
}

function closeAbout() {
	about.hidden = true;
	looking.id = "";
	light();
	if (looking.from instanceof HTMLElement && looking.from.isConnected) { looking.from.focus({ preventScroll: true }); }
}

byId("about-close").addEventListener("click", closeAbout);
document.addEventListener("keydown", (e) => { if (e.key === "Escape" && !about.hidden) { closeAbout(); } });
byId("look").addEventListener("change", (e) => {
	const look = /** @type {HTMLSelectElement} */ (e.target);
	const why = look.value.startsWith("why:") ? whyNamed(look.value.slice(4)) : undefined;
	if (why) { showSaid(why, ""); } else if (look.value) { void lookAt(look.value); }
	look.value = "";
});

page.addEventListener("click", (e) => {
	const at = /** @type {Element} */ (e.target);
	if (at.closest("figure svg")) {
		const id = drawnAt(e.clientX, e.clientY);
		if (id) { e.preventDefault(); void lookAt(id); } else { clickedWords(at); }
		return;
	}
	const td = at.closest("td, th");
	if (!td) { clickedWords(at); return; }
	const id = td.getAttribute("data-about");
	if (id) { void lookAt(id); } else { showWhy(td); }
});

about.addEventListener("click", (e) => {
	const at = /** @type {Element} */ (e.target);
	const to = at.closest("[data-about]");
	if (to) { void lookAt(to.getAttribute("data-about") || ""); return; }
	const td = at.closest("td, th");
	if (td) { showWhy(td); }
});

// ---- How a number is come by ----

/** @type {(Explanation & {heads_: RegExp})[]} */
let explanations = [];
const explained = fetch("explain").then((r) => r.json()).then((list) => {
	explanations = list.map((/** @type {Explanation} */ x) => ({ ...x, heads_: new RegExp(x.heads) }));
}).catch(() => { /* hovering says nothing then */ });

/** The head over a cell, and what explains it. @param {Element} td @returns {{head: string, why: Explanation} | null} */
function whyOf(td) {
	const cell = /** @type {HTMLTableCellElement} */ (td);
	const head = (cell.closest("table")?.rows[0]?.cells[cell.cellIndex]?.textContent || "").trim();
	const means = cell.closest("[data-means]")?.getAttribute("data-means");
	if (means) { // a value that is settled
		const row = /** @type {HTMLTableRowElement} */ (cell.closest("tr")), words = [...row.cells].map((c) => (c.textContent || "").trim());
		return { head, why: { heads: "", what: words[0], formula: means, from: words[3], source: words[3] } };
	}
	const why = head && (cell.tagName === "TH" || /\d/.test(cell.textContent || "")) ? explanations.find((x) => x.heads_.test(head)) : undefined;
	return why ? { head, why } : null;
}

/** What explains a section of the page, or another place that is named. @param {string} name */
const whyNamed = (name) => explanations.find((x) => x.heads_.test(name));

/** A sentence or a small drawing with numbers in it, and what explains them. @param {Element} at @returns {{words: Element, why: Explanation} | null} */
function whySaid(at) {
	if (at.closest("a, button, input, label, select, summary, pre, td, th")) { return null; }
	const words = at.closest("p, li, dd, dt, figcaption, h3, svg");
	const name = at.closest("[data-why]")?.getAttribute("data-why") || "section " + (at.closest("[data-id]")?.getAttribute("data-id") || "");
	const why = words && /\d/.test(words.textContent || "") ? whyNamed(name) : undefined;
	return words && why ? { words, why } : null;
}

/** @param {Explanation} why */
const inShort = (why) => why.what + ": " + why.formula + "\nfrom: " + why.from + "\nsource: " + why.source;

document.addEventListener("pointerover", (e) => {
	const at = /** @type {Element} */ (e.target), td = at.closest?.("td, th");
	if (td) {
		const got = !td.hasAttribute("title") && whyOf(td);
		if (got) { td.setAttribute("title", inShort(got.why)); }
		return;
	}
	const said = at.closest?.("[data-id], #cost") ? whySaid(at) : null;
	if (said && said.words instanceof HTMLElement && !said.words.title) { said.words.title = inShort(said.why); }
});

/** Shows how the numbers of a sentence or of a whole section are come by. @param {Explanation} why @param {string} words */
function showSaid(why, words) {
	const text = byId("about-text");
	text.textContent = "";
	for (const [tag, line] of [["h2", why.what], ["p", words], ["p", "How: " + why.formula + "."], ["p", "What goes in: " + why.from + "."], ["p", "Source: " + why.source + "."]]) {
		if (!line) { continue; }
		const e = document.createElement(tag);
		e.textContent = line;
		if (tag === "h2") { e.id = "about-head"; }
		text.append(e);
	}
	openWhy(text);
}

/** Answers a click on words with numbers in them; what is being marked to copy is left alone. @param {Element} at */
function clickedWords(at) {
	if (String(window.getSelection() || "") !== "") { return; }
	const said = whySaid(at);
	if (said) { showSaid(said.why, said.words instanceof SVGElement ? said.words.getAttribute("aria-label") || "" : (said.words.textContent || "").trim()); }
}
side.addEventListener("click", (e) => { clickedWords(/** @type {Element} */ (e.target)); });
byId("cost").addEventListener("click", (e) => { clickedWords(/** @type {Element} */ (e.target)); });

/** Opens the panel on words that are about a number and no part. @param {HTMLElement} text */
function openWhy(text) {
	byId("about-rows").textContent = "";
	if (about.hidden) { looking.from = document.activeElement; }
	looking.id = "";
	light();
	about.hidden = false;
	text.focus({ preventScroll: true });
}

/** Shows how the number of a cell is come by, with the figures beside it. @param {Element} td */
function showWhy(td) {
	const got = whyOf(td);
	if (!got) { return; }
	const cell = /** @type {HTMLTableCellElement} */ (td);
	const row = /** @type {HTMLTableRowElement} */ (cell.closest("tr"));
	const heads = cell.closest("table")?.rows[0]?.cells;
	const text = byId("about-text");
	text.textContent = "";
	/** @param {string} tag @param {string} words @param {Element} into */
	const say = (tag, words, into = text) => { const e = document.createElement(tag); e.textContent = words; into.append(e); return e; };
	say("h2", cell.tagName === "TH" ? got.head : got.head + ": " + (cell.textContent || "").trim()).id = "about-head";
	say("p", got.why.what + ": " + got.why.formula + ".");
	say("p", "What goes in: " + got.why.from + ".");
	say("p", "Source: " + got.why.source + ".");
	if (cell.tagName === "TD" && heads) {
		const list = say("ul", "");
		for (const c of row.cells) {
			const value = (c.textContent || "").trim();
			if (c !== cell && value) { say("li", (heads[c.cellIndex]?.textContent || "").trim() + ": " + value, list); }
		}
		const of = row.querySelector("[data-about]")?.getAttribute("data-about");
		if (of) { const b = say("button", "More about " + (known.all.get(of)?.what || of)); b.setAttribute("data-about", of); b.setAttribute("type", "button"); }
	}
	openWhy(text);
}

// Enter goes into a table that has the focus, the arrows from cell to cell; Enter there asks.
document.addEventListener("keydown", (e) => {
	const at = /** @type {HTMLElement} */ (e.target);
	if (at.matches(".scroll") && e.key === "Enter") {
		const first = at.querySelector("th, td");
		if (first) { e.preventDefault(); goTo(first); }
		return;
	}
	if (!at.matches("td, th")) { return; }
	const cell = /** @type {HTMLTableCellElement} */ (at), row = /** @type {HTMLTableRowElement} */ (cell.closest("tr"));
	const rows = [...(cell.closest("table")?.rows || [])], n = rows.indexOf(row), k = cell.cellIndex;
	/** @type {Record<string, Element | null | undefined>} */
	const next = { ArrowLeft: row.cells[k - 1], ArrowRight: row.cells[k + 1], ArrowUp: rows[n - 1]?.cells[k], ArrowDown: rows[n + 1]?.cells[k] };
	if (e.key === "Enter") { e.preventDefault(); cell.click(); }
	if (e.key in next) { e.preventDefault(); const to = next[e.key]; if (to) { goTo(to); } }
});

/** @param {Element} cell */
function goTo(cell) {
	cell.setAttribute("tabindex", "-1");
	/** @type {HTMLElement} */ (cell).focus();
}

// ---- The file, key by key, and how it begins ----

/** The text of the file as the form shows it, by its hash. */
const formOf = () => (last && last.file) || "";

page.addEventListener("change", async (e) => {
	const field = /** @type {HTMLInputElement} */ (e.target);
	if (!field.dataset.path) { return; }
	await change(field, "fill", { path: JSON.parse(field.dataset.path), value: field.value });
});

page.addEventListener("keydown", (e) => {
	const field = /** @type {HTMLElement} */ (e.target);
	if (e.key === "Enter" && field instanceof HTMLInputElement && field.dataset.path) { // on to the next blank
		e.preventDefault();
		const all = [...page.querySelectorAll(".key.blank input")];
		const next = all[all.indexOf(field) + 1];
		if (next instanceof HTMLInputElement) { next.focus(); } else { field.blur(); }
	}
});

page.addEventListener("click", async (e) => {
	const at = /** @type {HTMLElement} */ (e.target);
	const key = at.closest("[data-open]")?.getAttribute("data-open");
	if (key) { await change(at, "open", { path: JSON.parse(key) }); return; }
	const circuit = at.closest("[data-begin]")?.getAttribute("data-begin");
	if (circuit) {
		const name = /** @type {HTMLInputElement} */ (byId("begin-name")).value;
		const got = await ask("begin", { circuit, name });
		byId("begin-said").textContent = got.ok ? "" : got.text;
		if (got.ok) { document.title = name + ": dryfit"; window.scrollTo(0, 0); }
	}
});

/** The last change of the file that was asked for: they go one after another. @type {Promise<void>} */
let lastChange = Promise.resolve();

/** Changes the file, and says beside the field why not. @param {HTMLElement} field @param {string} path @param {object} what */
function change(field, path, what) {
	lastChange = lastChange.then(async () => {
		const got = await ask(path, { ...what, text: formOf() });
		const said = (field.id ? document.getElementById(field.id) : field)?.closest(".key")?.querySelector(".said");
		if (said) { said.textContent = got.ok ? "" : got.text; }
		if (!got.ok) { return; }
		const was = formOf(); // the next change is of the file with this one in it
		for (let i = 0; i < 100 && formOf() === was; i++) { await new Promise((r) => { window.setTimeout(r, 30); }); }
	});
	return lastChange;
}

// What a key is about is marked in the small drawing beside it.
page.addEventListener("focusin", (e) => {
	const owner = /** @type {Element} */ (e.target).closest("[data-owner]")?.getAttribute("data-owner");
	for (const x of page.querySelectorAll(".where .lit")) { x.classList.remove("lit"); }
	if (!owner) { return; }
	/** @param {string} name */
	const mark = (name) => {
		let some = false;
		for (const x of page.querySelectorAll(".where svg [class]")) {
			const drawn = x.getAttribute("class") || "";
			const any = name === "pipe" && /^run:/.test(drawn) && drawn !== "run:retrofit"; // any old pipe tells it
			if (any || /^(symbol|run|label):/.test(drawn) && drawn.split(" ")[0].split(":")[1] === name) { x.classList.add("lit"); some = true; }
		}
		return some;
	};
	if (!mark(classOf(owner))) { mark("retrofit"); } // of the new work
});

// ---- Water along the pipes ----

const moves = window.matchMedia("(prefers-reduced-motion: no-preference)");
moves.addEventListener("change", () => { flowAlong(); });

/**
 * Lets dashes run along the pipes of the schematic and of the isometric the way the water goes,
 * where motion is wanted. The stretches of one pipe are drawn one after the other, in its
 * direction: what the arrow on one of them says holds for all.
 */
function flowAlong() {
	for (const e of page.querySelectorAll(".water")) { e.remove(); }
	if (!moves.matches) { return; }
	for (const svg of page.querySelectorAll('[data-id="drawing-schematic"] svg, [data-id="drawing-isometric"] svg')) {
		/** @type {Map<string, SVGPathElement[]>} */
		const pipes = new Map();
		for (const p of /** @type {NodeListOf<SVGPathElement>} */ (svg.querySelectorAll('path[class^="run:"]'))) {
			const name = (p.getAttribute("class") || "").split(" ")[0].slice(4);
			pipes.set(name, [...(pipes.get(name) || []), p]);
		}
		for (const arrow of /** @type {NodeListOf<SVGGeometryElement>} */ (svg.querySelectorAll('[class^="flow:"]'))) {
			const name = (arrow.getAttribute("class") || "").slice(5).replace(/ .*/, "");
			const all = pipes.get(name) || [];
			const way = all.map((p) => wayOf(arrow, p)).find((w) => w !== 0);
			if (!way) { continue; }
			pipes.delete(name); // one arrow is enough
			for (const pipe of all) {
				const water = /** @type {SVGElement} */ (pipe.cloneNode(false));
				water.setAttribute("class", way > 0 ? "water" : "water back");
				water.setAttribute("stroke", "#fff");
				water.setAttribute("stroke-width", String(0.4 * Number(pipe.getAttribute("stroke-width"))));
				water.setAttribute("stroke-dasharray", "2 4");
				pipe.after(water);
			}
		}
	}
}

/**
 * Which way along a pipe its arrow points: 1 with the path, -1 against it, 0 where that can't be told.
 * @param {SVGGeometryElement} arrow @param {SVGGeometryElement} pipe
 */
function wayOf(arrow, pipe) {
	const long = pipe.getTotalLength(), n = Math.ceil(long / 0.5), half = arrow.getTotalLength();
	if (!(long > 0) || !(half > 0)) { return 0; }
	// the arrow's point is the corner farthest from the middle of the other two
	const corners = [0, 1, 2].map((k) => cornerOf(arrow, k));
	const tip = corners.map((c, k) => { const [a, b] = corners.filter((_, i) => i !== k); return Math.hypot(c.x - (a.x + b.x) / 2, c.y - (a.y + b.y) / 2); });
	const at = tip.indexOf(Math.max(...tip));
	const [a, b] = corners.filter((_, i) => i !== at), p = corners[at];
	const dx = p.x - (a.x + b.x) / 2, dy = p.y - (a.y + b.y) / 2;
	let best = Infinity, where = 0;
	for (let i = 0; i <= n; i++) {
		const q = pipe.getPointAtLength(long * i / n), d = Math.hypot(q.x - (p.x + a.x + b.x) / 3, q.y - (p.y + a.y + b.y) / 3);
		if (d < best) { best = d; where = long * i / n; }
	}
	if (best > 3) { return 0; }
	const u = pipe.getPointAtLength(Math.max(0, where - 0.6)), v = pipe.getPointAtLength(Math.min(long, where + 0.6));
	const along = (v.x - u.x) * dx + (v.y - u.y) * dy;
	return Math.abs(along) < 1e-6 ? 0 : Math.sign(along);
}

/** A corner of a triangle drawn as a path. @param {SVGGeometryElement} arrow @param {number} k */
function cornerOf(arrow, k) {
	const numbers = (arrow.getAttribute("d") || "").match(/-?[\d.]+/g) || [];
	return { x: Number(numbers[2 * k] ?? NaN), y: Number(numbers[2 * k + 1] ?? NaN) };
}

document.addEventListener("placed", () => {
	void learnNames();
	if (!document.body.dataset.writes) { for (const f of /** @type {NodeListOf<HTMLInputElement>} */ (page.querySelectorAll("input[data-path]"))) { f.readOnly = true; } }
});

// ---- The stream ----

const events = new EventSource("events");
events.addEventListener("state", (e) => { show(JSON.parse(e.data)); });
events.addEventListener("error", () => {
	delete status_.dataset.words; // what it said before is said again when it answers
	status_.textContent = "dryfit doesn't answer: it was stopped, or the network is gone. What stands here is the last it said.";
	status_.classList.add("broken");
	page.classList.add("old");
});
