// The settings page: what the extension has to know, and the browser's permission to call the service.

import { keep, patternOf, settingsKept } from "../asking/settings.js";
import { readAddress } from "./address.js";
import { fill, read, showMistakes } from "./form.js";

const form = document.querySelector("form");
const said = document.getElementById("said");

/** Hosts that the manifest lets the extension call, or ask the browser for. */
function patterns() {
  const { host_permissions = [], optional_host_permissions = [] } = chrome.runtime.getManifest();
  return [...host_permissions, ...optional_host_permissions];
}

/** What is wrong beyond single fields. */
function mistakesOf(settings, address) {
  const mistakes = {};
  if (settings.address && address.mistake) {
    mistakes.address = address.mistake;
  }
  if (Number.isFinite(settings.latitude_deg) !== Number.isFinite(settings.longitude_deg)) {
    const missing = Number.isFinite(settings.latitude_deg) ? "longitude_deg" : "latitude_deg";
    mistakes[missing] = "A place has both, latitude and longitude.";
  }
  if (Object.keys(settings.inverter).length && !settings.inverter.ac_power_w) {
    mistakes["inverter.ac_power_w"] = "The output of your inverter is needed before its other figures help.";
  }
  const { tracking_min_v: from, tracking_max_v: to, start_voltage_v: start, max_input_voltage_v: most } =
    settings.inverter.inputs?.[0] ?? {};
  if (from > to) {
    mistakes["inverter.tracking_min_v"] = "The range must not begin above its end.";
  }
  if (start > most) {
    mistakes["inverter.start_voltage_v"] = "That is more than the input stands.";
  }
  return mistakes;
}

let saves = 0;

async function save(event) {
  event.preventDefault();
  saves += 1;
  const mine = saves;
  said.textContent = "";
  const settings = read(form);
  const address = readAddress(settings.address ?? "", patterns());
  if (!showMistakes(form, mistakesOf(settings, address))) {
    said.textContent = "Nothing was saved: look at what is marked.";
    return;
  }
  settings.address = address.origin;
  // First of all, for the browser asks only while it remembers the press of the button.
  const granted = await chrome.permissions.request({ origins: [patternOf(address.origin)] });
  await giveBack(address.origin);
  await keep(settings);
  if (!granted) {
    say("Saved, but the browser gave no permission to call the service, so nothing can be asked. Save once more to be asked again.");
    return;
  }
  say("Saved. Asking the service ...");
  const found = await tried();
  if (mine === saves) {
    say(`Saved. ${found}`); // what a later press asked for counts
  }
}

/** Below the button, and brought into view: Enter saves from every field of a long page. */
function say(text) {
  said.textContent = text;
  said.scrollIntoView({ block: "nearest" });
}

/** Permission to call an address that is no longer set is given back. */
async function giveBack(origin) {
  const before = (await settingsKept()).address;
  if (before && before !== origin) {
    await chrome.permissions.remove({ origins: [patternOf(before)] }).catch(() => false);
  }
}

/** Does the service answer? */
async function tried() {
  const { answer, failure } = await chrome.runtime.sendMessage({ ask: "version" });
  return failure ? [failure.title, ...failure.todo].join(" ") : `Sunsill ${answer.service_version} answers there.`;
}

fill(form, await settingsKept());
form.addEventListener("submit", save);
