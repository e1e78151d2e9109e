import { setDiagnostics } from "./vendor.js";
import { Refused, json, listen, openWindow, ownWindow, windowsOpen } from "./api.js";
import { makeState, makeView, markPut } from "./editor.js";
import { Keeping, forget, keptHere } from "./keeping.js";
import { Engraving, Panel } from "./panel.js";
import { contents } from "./contents.js";
import { exporting, hush, listen as sound } from "./exporting.js";
import { difference, edited, offset, place } from "./places.js";
import { $, button, make, prose } from "./dom.js";

const WHOLE_MS = 150, PICTURE_MS = 120, REST_MS = 900, HELP_MS = 120;
const page = { files: [], file: null, view: null, said: null, saidText: null, shownLine: 0, typedAt: -Infinity, times: {} };
globalThis.gesturesmithPage = page; // for tests, which measure how long things take

const timers = {};
const later = (what, ms, run) => { clearTimeout(timers[what]); timers[what] = setTimeout(run, ms); };
const text = () => page.view.state.doc.toString();
const cursor = () => page.view.state.doc.lineAt(page.view.state.selection.main.head).number;
const current = () => page.file?.keeping;

// --- start -----------------------------------------------------------------------------------------------------

async function start() {
  theme(localStorage.getItem("gesturesmith theme"));
  await openWindow();
  const opened = await json("open");
  Object.assign(page, { tables: opened.tables, nonce: opened.nonce, starter: opened.starter, missing: opened.lilypond });
  page.panel = new Panel({ take, go });
  page.engraving = new Engraving(page.panel);
  page.exporting = exporting(opened.formats, () => ({ file: page.file.id, text: text() }), () => page.name, opened.lilypond);
  for (const file of opened.files) {
    file.button = button(file.name, () => show(file), { title: file.path });
    file.mark = make("span", { className: "mark", "aria-hidden": "true" });
    file.button.append(file.mark);
    page.files.push(file);
    $("files").append(file.button);
  }
  keysShown();
  await show(page.files[0]);
  if (opened.journal) says(page.file, `What you type is kept only in this browser until it is saved: ${opened.journal}.`, "held");
  listen(told, connected);
}

async function show(file) {
  if (page.file === file) return page.view.focus();
  if (page.file) {
    page.file.state = page.view.state;
    page.file.keeping.save();
  }
  page.file = file;
  for (const one of page.files) one.button.setAttribute("aria-current", String(one === file));
  document.title = `${file.name} · Gesturesmith`;
  page.said = page.saidText = null;
  page.name = page.drawn = null;
  page.engraving.none();
  page.panel.engraved(null);
  if (!file.state) file.state = makeState(file.text ?? "", { tables: page.tables, nonce: page.nonce, changed, moved, keys });
  if (page.view) page.view.setState(file.state);
  else {
    page.view = makeView($("editor"), file.state);
    // The help below may grow: the line that is being written stays in sight.
    new ResizeObserver(() => page.view.hasFocus && page.view.dispatch({ scrollIntoView: true })).observe($("editor"));
  }
  file.state = null;
  if (!file.keeping) {
    file.keeping = new Keeping(file, {
      text: () => (page.file === file ? text() : file.state.doc.toString()),
      put: (whole) => put(file, whole),
      line: () => (page.file === file ? cursor() : 1),
      says: (words, state) => says(file, words, state),
      asks: (what) => asks(file, what),
      shows: (said, sent, number) => page.file === file && shows(said, sent, number),
    });
    await foundAgain(file);
  }
  asks(file, file.keeping.asked);
  says(file, file.said?.words ?? "", file.said?.state ?? "saved");
  page.view.focus();
  emptyPage();
  help();
  return file.keeping.send();
}

// What was typed and never came into the file, in the program's journal or in this browser. What is its own of a
// window that was loaded again, or was typed upon what the file still holds, is simply there again.
async function foundAgain(file) {
  const open = await windowsOpen();
  open.delete(ownWindow);
  const entries = [...file.left, ...keptHere(file)].filter((one) => !open.has(one.window));
  const seen = new Set([file.text]);
  file.found = [];
  for (const entry of entries) {
    if (seen.has(entry.text) || typeof entry.text !== "string") drop(file, entry);
    else {
      seen.add(entry.text);
      file.found.push(entry);
    }
  }
  const own = file.found.findIndex((one) => one.window === ownWindow);
  const at = own >= 0 ? own : file.found.length === 1 && file.found[0].base === file.text ? 0 : -1;
  if (at >= 0) {
    const [entry] = file.found.splice(at, 1);
    await takeUp(file, entry);
    says(file, "what was typed before is here again", "joined");
  }
  askFound(file);
}
async function takeUp(file, entry) {
  file.keeping.takeUp(entry);
  await file.keeping.send(); // it is in the journal of this window before the other entry goes
  if (entry.window !== ownWindow && file.keeping.answered) drop(file, entry);
}
function drop(file, entry) {
  forget(file, entry.window);
  json("discard", { file: file.id, left: entry.window }).catch(() => {});
}
function askFound(file) {
  if (!file.found.length) return asks(file, file.keeping.asked);
  const entry = file.found[0];
  const next = () => { file.found.shift(); askFound(file); page.view.focus(); };
  question(`In ${file.name} something was typed that is not in the file.`, [
    ["Take it up again", async () => { await takeUp(file, entry); next(); }],
    ["Throw it away", () => { drop(file, entry); next(); }],
  ]);
}

function told(event) {
  if (event.ended) return says(page.file, "The program was ended. What you type is kept in this browser until it is there again.", "gone");
  const file = page.files.find((one) => one.id === event.changed);
  if (file?.keeping && file === page.file) file.keeping.send();
}
function connected(is, lost) {
  const away = page.away;
  page.away = !is;
  if (!is) current()?.failed(lost ? new Refused(401, "") : new Error("gone"));
  else if (away) current()?.changed();
}

// --- the text --------------------------------------------------------------------------------------------------

function put(file, whole) {
  const now = page.file === file ? text() : file.state.doc.toString();
  const change = difference(now, whole);
  if (!change) return;
  if (page.file === file) page.view.dispatch({ changes: change, userEvent: "taken" });
  else file.state = file.state.update({ changes: change }).state;
}
function changed(update) {
  page.typedAt = performance.now();
  if (update.transactions.some((one) => one.isUserEvent("input") || one.isUserEvent("delete"))) $("announced").textContent = "";
  page.file.keeping.changed();
  emptyPage();
}
function moved(update) {
  later("help", HELP_MS, help);
  const line = cursor();
  if (line === page.shownLine) return;
  page.shownLine = line;
  if (!update.docChanged) later("moved", 30, () => page.file.keeping.send());
}
function go(line, column = 1) {
  const at = offset(page.view.state.doc, line, column);
  page.view.dispatch({ selection: { anchor: at }, scrollIntoView: true });
  page.view.focus();
}
// To the next or the last block.
function turn(by) {
  const heads = [...(page.said?.report.gestures ?? []), ...(page.said?.report.passages ?? [])].map((one) => one.line);
  const lines = [...new Set(heads)].sort((a, b) => a - b), line = cursor();
  const to = by > 0 ? lines.find((one) => one > line) : lines.findLast((one) => one < (page.said.here?.line ?? line));
  if (to) go(to);
  return true;
}

// --- what the program says ---------------------------------------------------------------------------------------

function shows(said, sent) {
  page.said = said;
  page.saidText = sent;
  page.times.verdict = performance.now() - page.typedAt;
  present();
  later("whole", WHOLE_MS, whole);
  later("picture", PICTURE_MS, draw);
}
async function whole() {
  const sent = text(), file = page.file;
  if (sent !== page.saidText) return;
  try {
    const said = await json("whole", { file: file.id, text: sent, line: cursor() });
    if (!said || file !== page.file || text() !== sent || said.here?.line !== page.said.here?.line) return;
    page.said = said;
    page.times.whole = performance.now() - page.typedAt;
    present();
    if (page.waiting) firstWay();
  } catch { /* the next text says it */ }
}

// What is being written is not yet wrong: neither its line nor its block.
function errorsNow() {
  const line = cursor(), wait = REST_MS - (performance.now() - page.typedAt), { here, report } = page.said;
  const writing = (one) => one.line === line || (here && one.line >= here.line && one.line <= here.last_line);
  if (wait <= 0 || !report.errors.some(writing)) return report.errors;
  later("rest", wait + 20, present);
  return report.errors.filter((one) => !writing(one));
}
function present() {
  if (!page.said || page.saidText !== text()) return;
  const line = cursor(), errors = errorsNow();
  const here = page.panel.show(page.said, errors.filter((one) => inHere(one, page.said)), line);
  page.name = here?.name ?? null;
  $("listen").disabled = !here;
  contents(page.said, go);
  page.exporting.shown();
  squiggles(errors);
  emptyPage();
  later("announce", REST_MS, () => announce(here, errors));
  page.times.painted = requestAnimationFrame(() => { page.times.paint = performance.now() - page.typedAt; });
}
// Mistakes of other blocks are marked in the text; those of the settings concern every gesture.
function inHere(error, { here, report }) {
  if (!here) return true;
  const heads = [...report.gestures, ...report.passages, ...report.exercises].map((one) => one.line);
  return (error.line >= here.line && error.line <= here.last_line + 1) || !heads.some((line) => line <= error.line) || !heads.includes(here.line);
}
function announce(here, errors) {
  const words = errors.length ? `${errors.length === 1 ? "one mistake" : `${errors.length} mistakes`}: line ${errors[0].line}, ${errors[0].message}` : here ? `${here.title ?? here.name}: ${here.words}${here.findings.length ? `, ${here.findings.length} ${here.findings.length === 1 ? "finding" : "findings"}` : ""}` : "";
  if ($("announced").textContent !== words) $("announced").textContent = words;
}

function squiggles(errors) {
  const doc = page.view.state.doc, { report } = page.said;
  const severity = { refused: "error", caution: "warning", advice: "info" };
  const marks = [
    ...errors.map((one) => mark(doc, one, "error", [])),
    ...[...report.gestures, ...report.passages].flatMap((said) => said.findings).map((one) => mark(doc, one, severity[one.severity], one.suggestions)),
  ].sort((a, b) => a.from - b.from);
  page.view.dispatch(setDiagnostics(page.view.state, marks));
}
function mark(doc, one, severity, ways) {
  const from = offset(doc, one.line, one.column);
  const to = Math.max(from, offset(doc, one.line, one.end_column));
  const actions = ways.slice(0, 3).map((way) => ({ name: way.words, apply: () => take(one, way) }));
  return { from, to, severity, message: `${one.where ? `${one.where}: ` : ""}${one.message}`, actions };
}

// --- ways out ----------------------------------------------------------------------------------------------------

function take(finding, way) {
  if (page.saidText !== text()) return;
  const doc = page.view.state.doc;
  let change;
  if (way.replaces) change = { from: offset(doc, way.replaces.line, way.replaces.column), to: offset(doc, way.replaces.line, way.replaces.end_column), insert: way.word };
  else change = difference(text(), edited(text(), way.edits));
  if (!change) return;
  const marked = way.edits ? whatDiffers(text(), way.edits) : [{ from: change.from, to: change.from + change.insert.length }];
  page.view.dispatch({ changes: change, userEvent: "taken", selection: { anchor: change.from + change.insert.length }, scrollIntoView: true });
  page.view.dispatch({ effects: markPut.of(marked.filter(({ from, to }) => to > from && to <= page.view.state.doc.length)) });
  $("announced").textContent = `put in: ${way.words}. Ctrl-Z takes it back.`;
  page.view.focus();
}
// Where the new text differs from the old one, by line.
function whatDiffers(now, edits) {
  const found = [], rows = now.split("\n");
  let at = 0;
  rows.forEach((row, i) => {
    const mine = edits.filter((edit) => edit.line === i + 1);
    let then = row;
    for (const edit of mine) if (edit.old) then = then.replace(edit.old, () => edit.new);
    const change = difference(row, then);
    if (change) found.push({ from: at + change.from, to: at + change.from + change.insert.length });
    at += then.length + 1;
    for (const edit of mine) if (!edit.old) {
      found.push({ from: at, to: at + edit.new.length });
      at += edit.new.length + 1;
    }
  });
  return found;
}
function firstWay() {
  page.waiting = false;
  const first = page.said && page.saidText === text() ? page.panel.firstWay(cursor()) : null;
  if (first) take(first.finding, first.way);
  else if (!page.said?.whole || page.saidText !== text()) page.waiting = true; // suggestions are on their way
  else $("announced").textContent = "there is no way out to put in here";
  return true;
}

// --- the engraving, the help, the files ------------------------------------------------------------------------------

function draw() {
  if (!page.name || page.saidText !== text()) {
    if (!page.said?.here) page.engraving.none();
    return;
  }
  const sent = text(), key = `${page.file.id} ${page.name} ${sent}`;
  if (page.drawn === key) return;
  page.drawn = key;
  const typedAt = page.typedAt;
  page.engraving.draw({ file: page.file.id, text: sent, line: cursor(), name: page.name }, page.name).then(() => {
    if (typedAt === page.typedAt) page.times.picture = performance.now() - typedAt;
  });
}

async function help() {
  const sent = text();
  try {
    const said = await json("help", { text: sent, ...place(page.view.state.doc, page.view.state.selection.main.head) });
    if (sent !== text()) return;
    if (!said) return $("help").replaceChildren(make("p", { className: "nothing" }, "Put the cursor on a word to read what it means."));
    const more = said.more ? button("More", async () => {
      const { text: long } = await json("explain", { name: said.more });
      $("help").append(make("pre", {}, long.trim()));
      more.remove();
    }, { className: "why" }) : null;
    $("help").replaceChildren(make("h2", {}, said.title), ...prose(said.text), ...(more ? [more] : []));
    $("help").scrollTop = 0;
  } catch { /* the program is gone, which is said elsewhere */ }
}

// An empty page says how to begin.
function emptyPage() {
  const empty = !text().trim();
  if (empty === Boolean($("beginning"))) return;
  $("beginning")?.remove();
  if (!empty) return;
  const begin = (whole, at) => () => {
    page.view.dispatch({ changes: { from: 0, to: page.view.state.doc.length, insert: whole }, selection: { anchor: at ?? whole.length }, userEvent: "input" });
    page.view.focus();
  };
  const short = "instrument: horn\npitches: written\n\ngesture first \"First\"\n  technique: half-valve\n  contour: xG4 ~~ xD5@2\n  lasts: 3 beats\n";
  for (const id of ["verdict", "sketch", "findings", "contents"]) $(id).replaceChildren();
  page.panel.engraved(null);
  $("seeing").prepend(make("div", { id: "beginning" },
    make("h2", {}, "An empty page"),
    make("p", {}, "A file names its instrument and whether its pitches are written or sounding. Then come gestures: each a contour of points, with a technique. Type, and the words that may follow are offered; here you see what comes of them."),
    button("Begin with one gesture", begin(short), { className: "way" }),
    button("Begin with the commented example", begin(page.starter.replace('"Starter"', `"${page.file.name.replace(/\.gesture$/, "").replace(/["\\]/g, "")}"`), 0), { className: "way" }),
  ));
}

function says(file, words, state) {
  file.said = { words, state };
  file.mark.textContent = state === "saved" || state === "joined" ? "" : "•";
  if (file !== page.file) return;
  $("kept").className = state;
  if ($("kept").textContent !== words) $("kept").textContent = words;
}

// The focus stays in the text: whoever is typing must not answer by accident.
function asks(file, what) {
  if (file !== page.file) return;
  if (!what) {
    if (file.found?.length) return askFound(file);
    $("question").hidden = true;
    return;
  }
  const keep = (here) => () => { file.keeping.decide(here); page.view.focus(); };
  if (what.standing === "clash") {
    question(`${file.name} was changed by another program in the same lines as here. Nothing is saved until you decide.`, [
      ["Keep what is here", keep(true)],
      ["Take what is in the file", keep(false)],
    ], "Undo brings back what is here.");
  } else if (what.standing === "gone") {
    question(`${file.name} is no longer in its folder. What you see is kept aside.`, [["Write it again", keep(true)]]);
  } else {
    question(`${file.name} cannot be read any more: ${what.because}. What you see is kept aside.`, [["Write what is here in its place", keep(true)]]);
  }
}
function question(words, ways, more = "") {
  $("question-said").textContent = words;
  $("question-ways").replaceChildren(...ways.map(([label, run]) => button(label, () => { $("question").hidden = true; run(); })), more ? ` ${more}` : "");
  $("question").hidden = false;
}

// --- keys, light and dark --------------------------------------------------------------------------------------------

const keys = [
  { key: "Ctrl-Enter", mac: "Cmd-Enter", run: firstWay },
  { key: "Alt-PageDown", run: () => turn(1) },
  { key: "Alt-PageUp", run: () => turn(-1) },
];
const KEYS = [
  ["Ctrl+Space", "words that may follow"], ["Tab", "takes the word offered"], ["Ctrl+Enter", "puts in the first way out"],
  ["F8, Shift+F8", "to the next, the last finding"], ["Alt+Page Down, Page Up", "to the next, the last gesture"],
  ["F6, Shift+F6", "to the next, the last part of the page"], ["F9", "plays the gesture"], ["Ctrl+S", "saves now"], ["Ctrl+Z", "takes back"],
  ["Ctrl+F", "searches"], ["Esc, then Tab", "leaves the text"],
];
function keysShown() {
  $("keys").replaceChildren(make("dl", {}, ...KEYS.flatMap(([key, what]) => [make("dt", {}, make("kbd", {}, key)), make("dd", {}, what)])));
}
function opens(id) {
  $(`${id}-opens`).addEventListener("click", () => {
    const open = $(id).hidden;
    $(id).hidden = !open;
    $(`${id}-opens`).setAttribute("aria-expanded", String(open));
    if (open) $(id).querySelector("button:enabled, input:enabled")?.focus();
  });
  $(id).addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    $(id).hidden = true;
    $(`${id}-opens`).setAttribute("aria-expanded", "false");
    $(`${id}-opens`).focus();
  });
}
function theme(wanted) {
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const set = () => { document.documentElement.dataset.theme = wanted ?? (dark.matches ? "dark" : "light"); };
  dark.addEventListener("change", set);
  set();
  $("theme").addEventListener("click", () => {
    wanted = document.documentElement.dataset.theme === "dark" ? "light" : "dark";
    localStorage.setItem("gesturesmith theme", wanted);
    set();
  });
}
async function listenHere() {
  if (!page.name) return;
  $("listen").textContent = "…";
  try {
    await sound({ file: page.file.id, text: text(), only: page.name });
    $("announced").textContent = `${page.name} sounds`;
  } catch (error) {
    $("announced").textContent = `No sound: ${error.message}`;
  }
  $("listen").textContent = "Listen";
}
// From one part of the page to the next, by F6 as in other programs.
function around(by) {
  const stops = [page.view.contentDOM, $("seeing"), $("contents").querySelector("[aria-current=true]") ?? $("contents").querySelector("button"), $("help"), $("top").querySelector("button")].filter(Boolean);
  const at = stops.findIndex((one) => one === document.activeElement || one.contains(document.activeElement));
  stops[(at + by + stops.length) % stops.length].focus();
}

opens("export");
opens("keys");
$("listen").addEventListener("click", listenHere);
addEventListener("visibilitychange", () => { if (document.hidden) for (const file of page.files) file.keeping?.save(); });
addEventListener("keydown", (event) => {
  const run = { s: (event.ctrlKey || event.metaKey) && (() => current()?.save()), F6: () => around(event.shiftKey ? -1 : 1), F9: listenHere, Escape: null }[event.key];
  if (run) {
    event.preventDefault();
    run();
  }
  if (event.key === "Escape") hush();
});
start().catch((error) => {
  $("kept").className = "gone";
  $("kept").textContent = error.status === 401 ? "Open this page by its address from the program: it carries the key of the session." : `The page cannot start: ${error.message}`;
});
