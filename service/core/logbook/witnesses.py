"""Which logs of a set are asked for causes, and what do they say together?

One decision is made. The log of the whole set is asked first, at the share of false alarms that its weights were
fitted to. The log of a single input is asked only for what it alone may have, by what it gives beside the others, and
has to be so much surer that more logs accuse no more sound sets. Where no time is known of the whole set, its inputs
decide.
"""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass

from service.core.logbook.diagnosis import BESIDE_ANOTHER, Diagnosis, SharedDays, Suspect, all_compared, may_have_alone
from service.core.logbook.diagnosis.diagnose import SOMETHING_WRONG
from service.core.logbook.series import LoggedSeries

# Of the causes that are weighed or seen by a comparison of their own; an input may have those of ``may_have_alone``.
CAUSES = frozenset(
    {
        "input_dead", "bypass_section_lost", "limit_lower_than_stated", "undeclared_shade", "plane_differs",
        "dirt_drift", "heat_derating", "grid_trips", "wet_trips", "clock_shift", "fast_ageing", "shade_grown",
        "low_voltage_off",
    }
)  # fmt: skip
Ask = Callable[[LoggedSeries, Collection[str], int], Diagnosis]


@dataclass(frozen=True, slots=True, kw_only=True)
class Witnesses:
    """What each log that was asked says; None is the whole set's."""

    found: Mapping[int | None, Diagnosis]

    @property
    def alarm(self) -> bool:
        """Does one of them say that something is wrong?"""
        return any(one.conclusion == SOMETHING_WRONG for one in self.found.values())

    def suspects(self) -> list[tuple[Suspect, int | None]]:
        """All, those of logs that raise the alarm first, then the surest."""
        each = [(one, number) for number, diagnosis in self.found.items() for one in diagnosis.suspects]
        calm = {number: one.conclusion != SOMETHING_WRONG for number, one in self.found.items()}
        return sorted(each, key=lambda pair: (calm[pair[1]], -pair[0].sureness_share))

    def wrong_share(self, code: str, number: int | None, sureness_share: float) -> float:
        """How sure the log that shows a suspect is that something is wrong; of one that is told otherwise: its own."""
        log = self.found.get(number)
        told = log is not None and any(one.code == code for one in log.suspects)
        return max(log.sureness_share, sureness_share) if log is not None and told else sureness_share


def witnesses(
    whole: LoggedSeries | None, inputs: Collection[LoggedSeries], days: SharedDays | None, ask: Ask
) -> Witnesses:  # fmt: skip
    """Ask the logs.

    Args:
        whole: the set's; None: no time of it is known.
        inputs: those of the inputs with panels that were logged apart.
        days: what the inputs gave beside each other; None: fewer than two were logged.
        ask: judges a log without some causes, as one of so many.
    """
    if whole is None:
        return Witnesses(found={one.input: ask(one, (), len(inputs)) for one in inputs})
    apart = days is not None and all_compared(days)
    found = {whole.input: ask(whole, BESIDE_ANOTHER if apart else (), 1)}
    for one in inputs:
        if days is None or one.input not in days.numbers:
            continue
        alone = may_have_alone(days, one.input)
        if alone:
            found[one.input] = ask(one, CAUSES - set(alone), 1 + len(inputs))
    return Witnesses(found=found)
