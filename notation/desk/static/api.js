// Asking the desk's server. The address carries the token; a desk started again tells its new address to open pages.
const ADDRESS = "lodestep-desk-address";
let base = new URL(".", location.href).pathname;
localStorage.setItem(ADDRESS, base);
addEventListener("storage", (event) => { if (event.key === ADDRESS && event.newValue) base = event.newValue; });

export class Away extends Error {}
export class Told extends Error {
  constructor(status, said) { super(said.why || "the desk does not answer that"); this.status = status; this.said = said; }
}

export async function send(what, said, more = {}) {
  let answer;
  try {
    answer = await fetch(`${base}do/${what}`, { method: "POST", body: JSON.stringify(said), ...more });
  } catch (fault) {
    if (fault.name === "AbortError") throw fault;
    throw new Away("the desk is not running");
  }
  if (answer.status === 403 && !answer.headers.get("content-type").includes("json")) throw new Away("the desk was started anew");
  if (!answer.ok) throw new Told(answer.status, await answer.json().catch(() => ({})));
  return answer;
}

export const ask = async (what, said) => (await send(what, said)).json();

export async function* lines(what, said, signal) {
  const reader = (await send(what, said, { signal })).body.pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  for (;;) {
    const { value, done } = await reader.read();
    if (done) return;
    const parts = (rest + value).split("\n");
    rest = parts.pop();
    for (const part of parts) yield JSON.parse(part);
  }
}
