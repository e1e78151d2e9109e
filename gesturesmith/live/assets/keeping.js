// What is typed never gets lost. The file on the disk is the truth: each request says upon which text of it was
// typed (`base`), and the program answers whether that is still so, joins both, or asks. Meanwhile the words are in
// the program's journal and, for the time it does not answer, in the browser.
import { json, ownWindow, Refused } from "./api.js";

const SAVE_MS = 900, AGAIN_MS = 4000, MOST_SAVES = 20;
const GONE = "The program does not answer. What you type is kept in this browser until it is there again.";

async function fingerprint(text) {
  const sum = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return Array.from(new Uint8Array(sum), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

const stored = (file) => `gesturesmith ${file.path}\n`;
export function keptHere(file) {
  const found = [];
  for (let i = 0; i < localStorage.length; i++) {
    const name = localStorage.key(i);
    if (!name.startsWith(stored(file))) continue;
    try {
      found.push({ window: name.slice(stored(file).length), ...JSON.parse(localStorage.getItem(name)) });
    } catch { /* another program's */ }
  }
  return found;
}
export const forget = (file, window) => localStorage.removeItem(stored(file) + window);

// One open file.
//   text()      what the window holds
//   put(text)   has the window hold this, as one step of undo
//   says(words, state) tells how it stands: "typing", "saved", "held" (asked about, or not saved), "gone"
//   asks(what)  what the composer is to decide, null for nothing any more
//   shows(said) what the program says about the text that it was sent
export class Keeping {
  constructor(file, { text, put, line, says, asks, shows }) {
    Object.assign(this, { file, text, put, line, says, asks, shows });
    this.base = file.text; // null where there is no file yet
    this.saves = [];
    this.sending = this.again = false;
    this.asked = null;
    this.timers = {};
    this.requests = 0;
  }

  get unsaved() { return this.text() !== (this.base ?? ""); }

  later(what, ms, run) {
    clearTimeout(this.timers[what]);
    this.timers[what] = setTimeout(run, ms);
  }

  // The text was changed, here or by a suggestion.
  changed() {
    this.keepHere();
    if (!this.asked) this.says("typing …", "typing");
    this.later("save", SAVE_MS, () => this.save());
    return this.send();
  }

  keepHere() {
    try {
      if (this.unsaved) localStorage.setItem(stored(this.file) + ownWindow, JSON.stringify({ base: this.base, text: this.text() }));
      else forget(this.file, ownWindow);
    } catch { /* full, or forbidden: the journal is there */ }
  }

  // One request at a time; while it is on its way only the newest text counts.
  async send() {
    if (this.sending) { this.again = true; return; }
    this.sending = true;
    try {
      do {
        this.again = false;
        const text = this.text(), number = ++this.requests;
        const said = await json("text", { file: this.file.id, text, base: this.base, saves: this.saves, line: this.line() });
        this.answered = true;
        if (said.kept) this.says(`Not kept aside: ${said.kept}.`, "held");
        this.agreed(said, text);
        if (this.text() === text) this.shows(said, text, number);
      } while (this.again);
    } catch (error) {
      this.failed(error);
    } finally {
      this.sending = false;
    }
  }

  failed(error) {
    if (error instanceof Refused && error.status === 404) return this.says("This program was started for other files. What you type is kept in this browser.", "gone");
    if (error instanceof Refused && error.status !== 401) return this.says(`Not kept: ${error.message}.`, "held");
    this.says(error.status === 401 ? "The program was started anew. Open the page that it has opened: this one goes on by itself." : GONE, "gone");
  }

  // What an answer says about the file; `text` is what was sent. Whether it may be saved.
  agreed(said, text) {
    if (said.standing === "same") {
      if (said.base !== null) this.base = said.base;
      this.ask(null);
      return true;
    }
    if (said.standing === "joined") {
      this.ask(null);
      if (this.text() === text) { // else what has been typed since is joined with the next request
        this.base = said.base;
        this.saves = [];
        if (said.text !== text) {
          this.put(said.text);
          this.says("changes of another program taken over", "joined");
        }
      } else this.again = true;
      return false;
    }
    this.ask({ ...said });
    return false;
  }

  ask(what) {
    if (what === null && this.asked === null) return;
    const same = what && this.asked && what.standing === this.asked.standing && what.base === this.asked.base;
    this.asked = what;
    if (what) this.says("not saved: see above", "held");
    if (!same) this.asks(what);
  }

  // The composer has decided: to keep what is here, or to take what is in the file.
  decide(here) {
    const { standing, base } = this.asked;
    this.asked = null;
    this.asks(null);
    if (standing === "clash") {
      this.base = base;
      if (!here) this.put(base);
    }
    if (standing === "gone") this.base = null;
    return this.save(standing === "unreadable");
  }

  async save(over = false) {
    clearTimeout(this.timers.save);
    if (this.asked) return;
    const text = this.text();
    if (text === this.base && !over) {
      forget(this.file, ownWindow);
      return this.says("saved", "saved");
    }
    if (this.base === null && !text.trim()) return this.says("", "saved");
    if (this.saving) return this.later("save", SAVE_MS, () => this.save());
    this.saving = true;
    try {
      this.saves = [...this.saves, await fingerprint(text)].slice(-MOST_SAVES);
      const done = await json("save", { file: this.file.id, text, base: this.base, saves: this.saves, over });
      if (done.why) {
        this.says(`Not saved: ${done.why}. What you type is kept aside.`, "held");
        this.later("save", AGAIN_MS, () => this.save());
      } else if (done.standing) {
        this.agreed(done, text);
      } else {
        this.base = text;
        this.saves = [];
        this.keepHere();
        if (this.text() === text) this.says("saved", "saved");
      }
    } catch (error) {
      this.failed(error);
    } finally {
      this.saving = false;
    }
  }

  // Words that were typed once and never came into the file: taken up as they were typed.
  takeUp(entry) {
    this.base = entry.base;
    this.put(entry.text);
  }
}
