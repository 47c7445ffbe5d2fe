// How does a page of adverts become a request? In the names of the service's document, and nothing that was not set.

/** @typedef {{id: string, title: string, body: string, price_text: string}} Advert */

const RAIL = "railing";
const MOST_SETS = 60;

/** The body of /v1/adverts/reading. */
export function readingsOf(adverts) {
  return { adverts };
}

/**
 * The body of /v1/adverts/shortlist.
 * @param {Advert[]} adverts
 * @param {import("./settings.js").Settings} settings
 */
export function shortlistOf(adverts, settings) {
  const body = {
    site: { latitude_deg: settings.latitude_deg, longitude_deg: settings.longitude_deg },
    places: [railOf(settings.rail)],
    wish: "quick_payback",
    limit: MOST_SETS,
    adverts,
  };
  if (settings.inverter.ac_power_w) {
    body.at_hand = { inverter: settings.inverter };
  }
  if (settings.brackets_amount) {
    body.outlay = { items: [{ what: "brackets and leads", amount: settings.brackets_amount }] };
  }
  return body;
}

/** Panels hung upright on the railing; which way it faces is left open where nobody said. */
function railOf(rail) {
  const place = { name: RAIL, mount: "hung_on_rail", plane: { tilt_deg: 90 } };
  if (Number.isFinite(rail.azimuth_deg)) {
    place.plane.azimuth_deg = rail.azimuth_deg;
  }
  if (rail.count) {
    place.count = rail.count;
  }
  return place;
}

/** The body of /v1/appraisal: the request that the shortlist itself handed out for a set. */
export function appraisalOf(request) {
  return request;
}
