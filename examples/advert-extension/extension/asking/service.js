// What does the service answer?

import { noPermission, notSetUp, notSunsill, refused, tooSlow, unreachable } from "./failures.js";
import { mayAsk } from "./settings.js";

/**
 * Ask one question, and turn whatever goes wrong into a failure that can be shown.
 * @param {import("./settings.js").Settings} settings
 * @param {string} path of the service
 * @param {object | null} body to be posted; null where the question has none
 * @param {string} member that an answer to this question always has
 * @returns {Promise<{answer: any} | {failure: import("./failures.js").Failure}>}
 */
export async function ask(settings, path, body, member) {
  const { address, patience_s } = settings;
  if (!address) {
    return { failure: notSetUp() };
  }
  if (!(await mayAsk(address))) {
    return { failure: noPermission(address) };
  }
  try {
    const response = await fetch(address + path, asked(body, patience_s));
    const answer = parsed(await response.text());
    if (!response.ok) {
      return { failure: refused(response.status, answer, response.headers.get("Retry-After")) };
    }
    return answer?.[member] === undefined ? { failure: notSunsill(address) } : { answer };
  } catch (error) {
    return { failure: error.name === "TimeoutError" ? tooSlow(address, patience_s) : unreachable(address) };
  }
}

/** No cookies, no cache, no referrer, and no following to another host. */
function asked(body, patience_s) {
  return {
    method: body ? "POST" : "GET",
    headers: { Accept: "application/json", ...(body ? { "Content-Type": "application/json" } : {}) },
    body: body ? JSON.stringify(body) : undefined,
    credentials: "omit",
    cache: "no-store",
    redirect: "error",
    referrerPolicy: "no-referrer",
    signal: AbortSignal.timeout(patience_s * 1000),
  };
}

function parsed(text) {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
