"""Decision, steps and cautions come out of one call."""

from service.core.appraisal import appraise
from service.core.model.assumption import Assumptions
from service.data.cautions import load_cautions
from tests import builders
from tests.energy_years import energy_year
from tests.findings import OPEN, account, compatibility, finding
from tests.requests import FULL


def test_cautions_go_by_the_request_as_sent_and_by_the_findings():
    found = compatibility(finding("cold_voltage", "panel_side", OPEN))
    answer = appraise(
        given=FULL, setup=builders.setup(), assumptions=Assumptions({}), compatibility=found, energy=energy_year(),
        worth=account(344), cautions=load_cautions(),
    )  # fmt: skip
    chosen = {caution.code for caution in answer.cautions.shown}
    assert {"dc_over_voltage", "railing_strength", "no_island"} <= chosen
    assert answer.decision.verdict == "worth_it_if"
    assert answer.steps
