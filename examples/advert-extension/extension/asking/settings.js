// What has been set, and is it enough to ask with?

/**
 * @typedef {object} Settings
 * @property {string} [address] origin of the service, such as http://127.0.0.1:8080
 * @property {number} patience_s seconds after which a question is given up
 * @property {number} [latitude_deg]
 * @property {number} [longitude_deg]
 * @property {{azimuth_deg?: number, count?: number}} rail where the railing faces, and for how many panels it has room
 * @property {number} [brackets_amount] what brackets, leads and the like cost
 * @property {object} inverter my inverter in the names of a request; empty where none is at hand
 */

const KEY = "settings";

/** @returns {Promise<Settings>} */
export async function settingsKept() {
  const kept = (await chrome.storage.local.get(KEY))[KEY] ?? {};
  return { patience_s: 20, rail: {}, inverter: {}, ...kept };
}

/** @param {Settings} settings */
export async function keep(settings) {
  await chrome.storage.local.set({ [KEY]: settings });
}

/** Is the place known? Without it nothing can be said of yield and payback. */
export function hasHome(settings) {
  return Number.isFinite(settings.latitude_deg) && Number.isFinite(settings.longitude_deg);
}

/** The pattern by which the browser is asked for permission to call an address. */
export function patternOf(address) {
  return `${address}/*`;
}

/** @returns {Promise<boolean>} may the extension call this address? */
export async function mayAsk(address) {
  return chrome.permissions.contains({ origins: [patternOf(address)] });
}
