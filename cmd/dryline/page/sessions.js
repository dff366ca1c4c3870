// The sessions that the browser keeps, in a database of its own: of each what it
// is called and when it was written, and its log in records, in the order they
// were added. The window has its own copy of it all and reads it only once.
"use strict";

window.drylineSessions = (() => {
	const refused = "the browser does not let the page keep anything";
	let base = null;

	// Everything of a session has its id first in its key.
	const all = (id) => IDBKeyRange.bound([id], [id, []]);

	// change does something to the database, and says when it is on the disk or why
	// it will not be. It is handed over whole at once, so that it is done even if the
	// page goes.
	function change(told, does) {
		if (!base) {
			setTimeout(told, 0, refused);
			return;
		}
		try {
			const t = base.transaction(["sessions", "records"], "readwrite", { durability: "strict" });
			t.oncomplete = () => told("");
			t.onabort = () => told(t.error && t.error.name === "QuotaExceededError" ? "the browser has no room left for it" : refused);
			does(t.objectStore("sessions"), t.objectStore("records"));
			t.commit();
		} catch {
			setTimeout(told, 0, refused);
		}
	}

	// put keeps a log whole in place of what is kept of the session, and lets others
	// go.
	function put(id, name, when, log, gone, told) {
		change(told, (sessions, records) => {
			for (const other of gone) {
				sessions.delete(other);
				records.delete(all(other));
			}
			records.delete(all(id));
			sessions.put({ id, name, when });
			records.put(log, [id, 0]);
		});
	}

	// add adds a record: the nth.
	function add(id, name, when, n, record, told) {
		change(told, (sessions, records) => {
			sessions.put({ id, name, when });
			records.put(record, [id, n]);
		});
	}

	// inherit takes over what an earlier page kept in the browser's storage: under
	// when it was begun and its name, a line with when it was written, and the log.
	function inherit() {
		const before = "dryline.session ";
		for (const key of Object.keys(localStorage).filter((k) => k.startsWith(before))) {
			const id = key.slice(before.length), kept = localStorage.getItem(key), cut = kept.indexOf("\n");
			put(id, id.slice(id.indexOf(" ") + 1), kept.slice(0, cut), kept.slice(cut + 1), [], (fault) => {
				if (!fault) localStorage.removeItem(key);
			});
		}
	}

	const answer = (request) => new Promise((done, fail) => {
		request.onsuccess = () => done(request.result);
		request.onerror = () => fail(request.error);
	});

	async function list() {
		const asked = indexedDB.open("dryline", 1);
		asked.onupgradeneeded = () => {
			asked.result.createObjectStore("sessions", { keyPath: "id" });
			asked.result.createObjectStore("records");
		};
		base = await answer(asked);
		inherit();
		const t = base.transaction(["sessions", "records"]);
		const [sessions, keys, records] = await Promise.all([
			answer(t.objectStore("sessions").getAll()), answer(t.objectStore("records").getAllKeys()), answer(t.objectStore("records").getAll()),
		]);
		const found = new Map(sessions.map((s) => [s.id, { ...s, log: "", records: 0 }]));
		keys.forEach(([id, n], i) => {
			const s = found.get(id);
			if (!s) return;
			s.log += records[i];
			s.records = n + 1;
		});
		return [...found.values()];
	}

	// open reads what is kept: got(sessions). Where the browser has no database for
	// the page there are none.
	function open(got) {
		list().then(got, () => got([]));
	}

	return { open, put, add };
})();
