#!/usr/bin/env bash
# Ask a running service the questions of the three homes. Usage: examples/curls.sh [http://127.0.0.1:8080]
set -euo pipefail
service=${1:-http://127.0.0.1:8080}
here=$(cd "$(dirname "$0")" && pwd)

post() { # post PATH FILE [ACCEPT]
    curl --silent --show-error --fail-with-body \
        --header 'Content-Type: application/json' --header "Accept: ${3:-application/json}" \
        --data-binary "@$here/$2" "$service$1"
    echo
}

# Is the set worth buying? The report for people, then the same answer for programs.
post /v1/appraisal kranichwerft.json text/plain
post /v1/appraisal quinta_do_moinho.json
post /v1/appraisal juniper_bench.json
post /v1/appraisal four_panels_two_ways.json

# The smallest useful request: all else is filled in and reported under "assumptions".
post /v1/energy smallest.json

# A week of hours from a sensor of your own: what did the set yield in them?
post /v1/energy weather/a_week.json

# Does it fit? What is it worth?
post /v1/compatibility kranichwerft.json
post /v1/payback kranichwerft.json

# How should it stand, which way does the railing face, and what does the map of all planes look like?
post /v1/tilt kranichwerft_tilt.json
post /v1/tilt kranichwerft_tilt.json image/svg+xml

# Which panel is it? Of a used panel without papers, for people; and off a label.
post /v1/panel-identity panels/sixty_cells.json text/plain
post /v1/panel-identity panels/label.json

# What must the multimeter read at the seller's door, and what do three panels' readings say?
post /v1/pickup-check pickup/before_the_visit.json
post /v1/pickup-check pickup/three_panels.json

# Which of these adverts should be rung up first, and what may be bid?
post /v1/adverts/shortlist adverts/kranichwerft_shortlist.json
# Is the running set doing what it should? A counter with a neighbour beside it; and a table, for people.
post /v1/logbook/review logbook/kranichwerft_in_may.json
curl --silent --show-error --fail-with-body --header 'Content-Type: text/csv' --header 'Accept: text/plain' \
    --data-binary "@$here/logbook/quinta_in_june.csv" "$service/v1/logbook/review"
echo

# Three panels against two inverters: which pairs fit?
post /v1/compatibility/matrix matrix/panels_and_inverters.json

# A yield of one's own, and nothing else.
curl --silent --show-error --fail-with-body --header 'Content-Type: application/json' "$service/v1/payback" --data '{
  "energy": {"year_kwh": 640}, "use": {"self_used_share": 0.55},
  "tariff": {"currency": "EUR", "periods": [{"valid_from": "2026-01-01", "import_price_per_kwh": 0.34, "export": "unpaid"}]},
  "outlay": {"items": [{"what": "panels", "amount": 96}, {"what": "inverter", "amount": 149}]}}'
echo

# What weather does the answer rest on? What has been published for Portugal? What may I write?
curl --silent --show-error --fail-with-body "$service/v1/climate?latitude_deg=54.2&longitude_deg=12.3"
echo
curl --silent --show-error --fail-with-body "$service/v1/local-rules/PT"
echo
curl --silent --show-error --fail-with-body "$service/v1/vocabulary"
echo
