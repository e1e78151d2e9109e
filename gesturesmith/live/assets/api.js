// The one way to the program. The key of the session comes in the address after "#", which no server and no log
// sees, and is taken out of it at once; a window without it asks the others.
const KEY = "gesturesmith key", WINDOW = "gesturesmith window";
const others = new BroadcastChannel("gesturesmith");
const waiting = new Set();

if (location.hash.length > 1) {
  sessionStorage.setItem(KEY, location.hash.slice(1));
  history.replaceState(null, "", location.pathname);
}
const key = () => sessionStorage.getItem(KEY) ?? "";
let good = false; // whether the program has taken the key

// A window keeps its name when it is loaded again, but not when it is duplicated.
const anew = () => Array.from(crypto.getRandomValues(new Uint8Array(8)), (byte) => byte.toString(16).padStart(2, "0")).join("");
export let ownWindow = sessionStorage.getItem(WINDOW) ?? anew();
const heldLock = (name) => new Promise((held) => {
  navigator.locks.request(`window ${name}`, { ifAvailable: true }, (lock) => {
    held(lock !== null);
    return lock === null ? undefined : new Promise(() => {}); // as long as the window is there
  });
});
export async function openWindow() {
  while (!(await heldLock(ownWindow))) ownWindow = anew();
  sessionStorage.setItem(WINDOW, ownWindow);
}
export async function windowsOpen() {
  const { held } = await navigator.locks.query();
  return new Set(held.map((lock) => lock.name.replace("window ", "")));
}

others.onmessage = ({ data }) => {
  if (data.wanted && good) others.postMessage({ key: key() });
  if (data.key && !good) {
    sessionStorage.setItem(KEY, data.key);
    for (const go of waiting) go();
  }
};

async function post(what, body, signal) {
  return fetch(`/api/${what}`, {
    method: "POST",
    headers: { "content-type": "application/json", "x-gesturesmith-key": key() },
    body: JSON.stringify({ window: ownWindow, ...body }),
    signal,
  });
}

export class Refused extends Error {
  constructor(status, why) {
    super(why);
    this.status = status;
  }
}

export async function ask(what, body = {}, signal = undefined) {
  const answer = await post(what, body, signal);
  if (answer.status === 401) good = false;
  if (!answer.ok) throw new Refused(answer.status, (await answer.json().catch(() => ({}))).error ?? answer.statusText);
  if (!good) {
    good = true;
    others.postMessage({ key: key() }); // windows that outlived the program before this one go on with it
  }
  return answer;
}
export const json = async (what, body, signal) => (await ask(what, body, signal)).json();

// Resolves when another window has told a key, or after a second.
export const otherKey = () => new Promise((go) => {
  const done = () => { waiting.delete(done); go(); };
  waiting.add(done);
  others.postMessage({ wanted: true });
  setTimeout(done, 1000);
});

// Events by fetch, since EventSource can send no key. Never ends.
export async function listen(told, connected) {
  for (;;) {
    try {
      const answer = await ask("events");
      connected(true);
      const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
      let rest = "";
      for (;;) {
        const { value, done } = await reader.read();
        if (done) break;
        const parts = (rest + value).split("\n\n");
        rest = parts.pop();
        for (const part of parts) if (part.startsWith("data: ")) told(JSON.parse(part.slice(6)));
      }
    } catch (error) {
      connected(false, error.status === 401);
      await otherKey();
      continue;
    }
    connected(false, false);
    await otherKey();
  }
}
