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
const PATIENCE_S = { least: 1, usual: 20, most: 25 };
const OF_RAIL = ["azimuth_deg", "count"];
const OF_INVERTER = ["ac_power_w", "input_count"];
const OF_INPUT = [
  "max_input_voltage_v", "tracking_min_v", "tracking_max_v", "start_voltage_v", "max_current_a", "max_short_circuit_current_a",
];

/** @returns {Promise<Settings>} */
export async function settingsKept() {
  return tidied((await chrome.storage.local.get(KEY))[KEY]);
}

/**
 * What is kept, as this version writes it: of what an older one wrote, or somebody by hand, what can still be meant.
 * @returns {Settings}
 */
function tidied(kept) {
  const { address, patience_s } = objectOf(kept);
  const patience = Number(patience_s);
  const input = numbersOf(objectOf(objectOf(kept).inverter).inputs?.[0], OF_INPUT);
  return {
    ...(isOrigin(address) ? { address } : {}),
    patience_s: patience >= PATIENCE_S.least && patience <= PATIENCE_S.most ? patience : PATIENCE_S.usual,
    ...numbersOf(kept, ["latitude_deg", "longitude_deg", "brackets_amount"]),
    rail: numbersOf(objectOf(kept).rail, OF_RAIL),
    inverter: {
      ...numbersOf(objectOf(kept).inverter, OF_INVERTER),
      ...(Object.keys(input).length ? { inputs: [input] } : {}),
    },
  };
}

function objectOf(value) {
  return value !== null && typeof value === "object" ? value : {};
}

/** Of these names those under which a number stands, be it written as text. */
function numbersOf(value, names) {
  const found = {};
  for (const name of names) {
    const one = objectOf(value)[name];
    const number = typeof one === "string" && one.trim() !== "" ? Number(one) : one;
    if (Number.isFinite(number)) {
      found[name] = number;
    }
  }
  return found;
}

function isOrigin(address) {
  try {
    return /^https?:/.test(address) && new URL(address).origin === address;
  } catch {
    return false;
  }
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
