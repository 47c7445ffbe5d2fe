// How are codes, numbers and bands said? Codes that are not known here are shown as they are, without underscores.

const NOT_KNOWN = "not known";

const VERDICTS = {
  fits: "fits",
  fits_with_loss: "fits, with loss",
  does_not_fit: "does not fit",
  not_known: NOT_KNOWN,
};

/** Moments for cautions and steps, in their order. */
const MOMENTS = [
  "before_buying", "at_the_door", "before_fitting", "fitting", "before_plugging_in", "first_sunny_day", "each_spring",
  "after_storm", "moving_out",
];

/** Ratings that decide about the fit, in the order of a label: [name in a reading, what it is called, unit]. */
const PANEL_RATINGS = [
  ["rated_power_w", "Rated power", "W"],
  ["open_circuit_voltage_v", "Open-circuit voltage (Voc)", "V"],
  ["short_circuit_current_a", "Short-circuit current (Isc)", "A"],
  ["voc_coefficient_pct_per_k", "Temperature coefficient of Voc", "%/K"],
];
const INVERTER_RATINGS = [
  ["ac_power_w", "A.c. output power", "W"],
  ["max_input_voltage_v", "Greatest d.c. voltage of an input", "V"],
  ["max_current_a", "Greatest working current of an input", "A"],
  ["max_short_circuit_current_a", "Greatest short-circuit current of an input", "A"],
];

const RANKED = {
  quick_payback: "the shortest cautious payback first",
  most_value: "the most value first",
  least_outlay_per_kwh: "the least outlay for each yearly kWh first",
};

/** Notes and reasons that the service words by parts of a question which no page of the extension has. */
const NOTES = {
  no_price_known: "No price per kWh is known for your place, so nothing is said of payback, value or what to offer.",
  currency_of_most: "All amounts are in one currency of these adverts, that of your brackets and leads, too.",
  currency_unlike_most: "Its price is in another currency than the amounts here: the two are not compared.",
  no_new_set: "The extension knows no price of a new set from a shop, which may cost far less. Look one up first.",
};

/** By what sets were put in their order. */
function rankedWords(code) {
  return RANKED[code] ?? `by ${plain(code)}`;
}

/** A note or a reason in words that hold on this page. */
function noteWords({ code, text }) {
  return NOTES[code] ?? spoken(text);
}

/** A text without the sentences that name parts of a question, which stand between backticks. */
function spoken(text) {
  return text.includes("`") ? text.split(/(?<=[.?!]) /).filter((one) => !one.includes("`")).join(" ") : text;
}

/** The same without telling the way, or what a kilometre costs, for which no page of the extension has a field. */
function withoutWay(text) {
  return spoken(text).replace("Tell the way to it, or ask", "Ask").replace(/ ?Tell the way to it[^.]*\./, "");
}

/** A code in words. */
function plain(code) {
  return String(code).replaceAll("_", " ");
}

/** With a capital letter in front. */
function capital(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A verdict in words. */
function verdictWords(verdict) {
  return VERDICTS[verdict] ?? plain(verdict);
}

/** The fit of a set; where it is not known, also a worse one that the worst values of such goods would give. */
function fitWords({ verdict, likely }) {
  const open = verdict === "not_known" && ["does_not_fit", "fits_with_loss"].includes(likely);
  return open ? `${NOT_KNOWN} (at worst: ${verdictWords(likely)})` : verdictWords(verdict);
}

/** A number with so many decimals, or that it is not known. */
function figure(value, decimals) {
  return Number.isFinite(value) ? value.toFixed(decimals) : NOT_KNOWN;
}

/** An amount with its currency. */
function amount(value, currency, decimals = 2) {
  return Number.isFinite(value) ? `${currency ?? ""} ${value.toFixed(decimals)}`.trim() : NOT_KNOWN;
}

/** An amount that is asked for, or that nothing is. */
function priceWords(value, currency, decimals = 2) {
  return value === 0 ? "given away" : amount(value, currency, decimals);
}

/** A band in years, the cautious end first; a member is null where it is never paid back. */
function yearsBand(band) {
  if (!band) {
    return NOT_KNOWN;
  }
  const said = (years) => (Number.isFinite(years) ? years.toFixed(1) : "never");
  return `cautious ${said(band.cautious)}, middle ${said(band.middle)}, hopeful ${said(band.hopeful)}`;
}
