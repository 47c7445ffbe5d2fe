// What went wrong, in plain words, and what to do next?

/**
 * @typedef {object} Failure
 * @property {string} title what happened
 * @property {string[]} todo what to do, a sentence or two each
 * @property {boolean} [settings] would the settings page help?
 */

const MOST_MISTAKES = 5;

/** @returns {Failure} */
export function notSetUp() {
  return { title: "Sunsill does not know yet whom to ask.", todo: ["Save the address of your service in the settings."], settings: true };
}

/** @returns {Failure} */
export function homeMissing() {
  return {
    title: "Fit and payback need your place.",
    todo: ["Price per watt and doubts are shown. Save latitude, longitude and your inverter in the settings for the rest."],
    settings: true,
  };
}

/** @returns {Failure} */
export function noPermission(address) {
  return {
    title: `The browser does not let Sunsill ask ${address} yet.`,
    todo: ["Open the settings and save the address once more. The browser then asks you whether it may."],
    settings: true,
  };
}

/** @returns {Failure} */
export function unreachable(address) {
  return {
    title: `Nothing answers at ${address}.`,
    todo: ["Start the service there (python -m service serve) or change the address in the settings, then try again."],
    settings: true,
  };
}

/** @returns {Failure} */
export function tooSlow(address, seconds) {
  return {
    title: `No answer from ${address} within ${seconds} s.`,
    todo: ["Try again: a place that was asked for once is answered faster. The settings tell how long to wait."],
    settings: true,
  };
}

/** @returns {Failure} */
export function notSunsill(address) {
  return { title: `Something else than Sunsill answers at ${address}.`, todo: ["Change the address in the settings."], settings: true };
}

/**
 * A problem as RFC 9457 writes it, or whatever came instead of one.
 * @param {number} status
 * @param {any} problem the parsed body, null where it was none
 * @param {string | null} retryAfter seconds
 * @returns {Failure}
 */
export function refused(status, problem, retryAfter) {
  if (status === 429 || status === 503) {
    const pause = /^\d+$/.test(retryAfter ?? "") ? `in ${retryAfter} s` : "in a moment";
    return { title: "The service has too much to do just now.", todo: [`Try again ${pause}.`] };
  }
  if (status >= 500) {
    const trace = problem?.instance ? [`Its log tells more; look for ${problem.instance}.`] : [];
    return { title: `The service failed (${status}).`, todo: ["Try again.", ...trace] };
  }
  const mistakes = Array.isArray(problem?.errors) ? problem.errors.slice(0, MOST_MISTAKES) : [];
  return {
    title: `The service did not take the question (${status}).`,
    todo: [
      String(problem?.detail ?? "Look at the settings."),
      ...mistakes.map((one) => `${one.pointer || "The whole"} ${one.problem}; accepted: ${one.accepted}.`),
    ],
    settings: true,
  };
}
