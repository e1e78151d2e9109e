// Files of the gesture at the cursor or of everything, and its sound.
import { $, button, make } from "./dom.js";
import { ask } from "./api.js";

let playing = null;

async function made(request) {
  const answer = await ask("export", request);
  return { blob: await answer.blob(), name: decodeURIComponent(answer.headers.get("x-name") ?? "gesture") };
}

// formats: what the program can make; asked(): the file's id and text; here(): the name of what is at the cursor
export function exporting(formats, asked, here, missing) {
  const said = make("p", { role: "status", className: "made" });
  const draft = make("input", { type: "checkbox", id: "draft" });
  const one = make("input", { type: "radio", name: "what", id: "what-one", checked: true });
  const all = make("input", { type: "radio", name: "what", id: "what-all" });
  let chosen = false; // by the composer: else what is at the cursor, if there is something
  for (const way of [one, all]) way.addEventListener("change", () => { chosen = true; });
  const oneLabel = make("label", { for: "what-one" }, "the gesture at the cursor");
  const make_ = async (format) => {
    said.textContent = "being made …";
    try {
      const { blob, name } = await made({ ...asked(), format, only: one.checked ? here() ?? "" : "", draft: draft.checked });
      const link = make("a", { href: URL.createObjectURL(blob), download: name });
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
      said.textContent = `${name} is in your downloads`;
    } catch (error) {
      said.textContent = `Nothing made: ${error.message}`;
    }
  };
  $("export").replaceChildren(
    make("fieldset", {}, make("legend", {}, "What"), one, oneLabel, all, make("label", { for: "what-all" }, "the whole file"), draft, make("label", { for: "draft" }, "also what is not playable as written, marked as a draft")),
    make("div", { className: "formats" }, ...formats.map((format) => button(format.key, () => make_(format.key), { className: "format", title: format.about, disabled: Boolean(format.engraved && missing), "aria-label": `${format.key}: ${format.about}` }))),
    said,
  );
  const shown = () => {
    const name = here();
    oneLabel.textContent = name ? `${name}, at the cursor` : "what is at the cursor";
    one.disabled = !name;
    if (!chosen || !name) (name ? one : all).checked = true;
  };
  return { shown };
}

export async function listen(request) {
  playing?.pause();
  const { blob } = await made({ ...request, format: "wav", draft: true });
  playing = new Audio(URL.createObjectURL(blob));
  playing.addEventListener("ended", () => URL.revokeObjectURL(playing.src));
  await playing.play();
}
export const hush = () => playing?.pause();
