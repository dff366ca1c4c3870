// The page around the trainer window: loads it, keeps the keys with it, and
// carries files in and out.
"use strict";

const says = document.getElementById("says");
const share = document.getElementById("share");

function fail(text) {
	says.textContent = text;
	says.className = "failed";
	share.hidden = true;
	document.getElementById("arrival").className = "";
}

// What the window needs of a screen, points, whichever way it is held.
const leastWide = 1024, leastTall = 600;

// missing says what this browser lacks, or nothing.
function missing() {
	const wide = Math.max(screen.width, screen.height, innerWidth);
	const tall = Math.max(Math.min(screen.width, screen.height), Math.min(innerWidth, innerHeight));
	if (wide < leastWide || tall < leastTall) return "This screen is " + wide + " by " + tall + " points, and the window needs " + leastWide + " by " + leastTall + ": open it on a tablet or a computer.";
	if (typeof WebAssembly !== "object") return "This browser has no WebAssembly, which the window needs.";
	if (!document.createElement("canvas").getContext("webgl2")) return "This browser has no WebGL 2, which the window draws with; graphics acceleration may be switched off.";
	if (typeof Go !== "function") return "wasm_exec.js did not load.";
	return "";
}

// load fetches the bundle, compiles it as it comes, and says how much has come.
async function load(imports) {
	const response = await fetch("dryline.wasm");
	if (!response.ok) throw new Error("the server answered " + response.status);
	const whole = Number(response.headers.get("X-Whole-Length") || response.headers.get("Content-Length"));
	let got = 0;
	const counted = response.body.pipeThrough(new TransformStream({
		transform(chunk, out) {
			got += chunk.length;
			if (whole > 0) share.value = Math.min(got / whole, 1);
			says.textContent = "Loading the window: " + (got / 1e6).toFixed(1) + (whole > 0 ? " of " + (whole / 1e6).toFixed(1) : "") + " MB";
			out.enqueue(chunk);
		},
		flush() {
			share.removeAttribute("value");
			says.textContent = "Making the window ready";
		},
	}));
	const typed = new Response(counted, { headers: { "Content-Type": "application/wasm" } });
	return WebAssembly.instantiateStreaming(typed, imports);
}

// shown waits for the window's first picture.
function shown() {
	const canvas = document.querySelector("canvas");
	if (!canvas || typeof window.drylineInspect !== "function" || !JSON.parse(window.drylineInspect()).screen) {
		requestAnimationFrame(shown);
		return;
	}
	requestAnimationFrame(() => {
		document.getElementById("arrival").className = "gone";
		keepFocus();
	});
}

// keepFocus gives the window the keys: at first, and whenever nothing else has
// them. The window itself then keeps the browser from scrolling by them.
function keepFocus() {
	const canvas = document.querySelector("canvas");
	const idle = () => document.activeElement === document.body || document.activeElement === null;
	canvas.focus();
	window.addEventListener("focus", () => { if (idle()) canvas.focus(); });
	window.addEventListener("keydown", (e) => {
		if ((e.ctrlKey || e.metaKey) && e.key.toLowerCase() === "s") {
			e.preventDefault();
			e.stopPropagation();
			window.drylineLeave();
		} else if (idle()) {
			e.preventDefault();
			canvas.focus();
		}
	}, true);
	// A watch would be left with the page. All of it is written down first.
	window.addEventListener("beforeunload", (e) => {
		window.drylineKeep();
		if (JSON.parse(window.drylineInspect()).screen === "watch") e.preventDefault();
	});
	window.addEventListener("pagehide", () => window.drylineKeep());
}

// drylineDownload hands a file over as a download.
window.drylineDownload = (name, bytes) => {
	const at = URL.createObjectURL(new Blob([bytes], { type: "application/octet-stream" }));
	const link = document.createElement("a");
	link.href = at;
	link.download = name;
	link.click();
	setTimeout(() => URL.revokeObjectURL(at), 60000);
};

// The window's sounds would load a worklet from a blob, which the policy of the
// page does not let run. Without worklets they take the older way.
if (typeof BaseAudioContext === "function") delete BaseAudioContext.prototype.audioWorklet;

// mostUpload bounds a session that is taken up, bytes. Hours of orders come to
// well under a megabyte.
const mostUpload = 64 << 20;

// drylinePick lets a person choose a file: got(name, bytes, fault).
window.drylinePick = (got) => {
	const input = document.createElement("input");
	input.type = "file";
	input.accept = ".jsonl,application/json";
	input.addEventListener("change", async () => {
		const file = input.files[0];
		if (!file) return;
		if (file.size > mostUpload) {
			got(file.name, new Uint8Array(), "it is too large for a session");
			return;
		}
		try {
			got(file.name, new Uint8Array(await file.arrayBuffer()), "");
		} catch {
			got(file.name, new Uint8Array(), "the browser cannot read it");
		}
	});
	input.click();
};

async function begin() {
	const lack = missing();
	if (lack) {
		fail(lack);
		return;
	}
	const go = new Go();
	let made;
	try {
		made = await load(go.importObject);
	} catch (e) {
		fail("The window did not load: " + e.message);
		return;
	}
	requestAnimationFrame(shown);
	try {
		await go.run(made.instance);
	} catch (e) {
		fail("The window did not begin; wasm_exec.js may be of another Go release: " + e.message);
		return;
	}
	fail("The window has ended. Load the page again to open it.");
}

begin();
