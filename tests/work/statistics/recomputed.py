"""The numbers of the first four questions, worked out anew from what ``export`` wrote, with other people's code.

Nothing of ours is asked but the CSV files and the answers as ``figures QUESTION --json`` prints them: which repair came
back is found in plain Python, shares are statsmodels' (Wilson, Newcombe, Holm) and scipy's (Fisher), curves and log-rank
tests are lifelines', Greenwood's error is statsmodels'. For the mean cumulative function, the trend tests and the p-chart
the textbook formula is written out here a second time, unit by unit and quarter by quarter.

By hand, on a book and the day it was asked:

    spindlebook export --book BOOK --to FOLDER
    for q in comeback-rate how-long keep-coming over-time; do
        spindlebook figures $q --book BOOK --json > FOLDER/$q.json; done
    python -m tests.work.statistics.recomputed FOLDER 2026-11-26
"""

from __future__ import annotations

import csv
import json
import math
import sys
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from itertools import combinations
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

ASKED = ("comeback-rate", "how-long", "keep-coming", "over-time")
WINDOW = 180
MENDED = {"mended", "mended with a modification"}
_READING = {"light", "focus", "radial", "spindle", "geometry", "signal", "board", "disc"}
_EVERY = _READING | {"power", "control", "loading", "sound"}
# Fault words at the counter and the groups that each may turn out to be: the shop's own list (trade reference, section 6).
MAY_BE = {
    "reads no disc": _READING,
    "shows an error": _READING,
    "skips": _READING,
    "stops when warm": _READING | {"power", "control"},
    "tray": {"loading", "control", "board"},
    "spins wrongly": {"spindle", "signal", "board"},
    "noise": {"loading", "radial", "spindle", "sound"},
    "no sound": {"sound", "signal", "board"},
    "one channel": {"sound", "signal", "board"},
    "no power": {"power", "control", "board"},
    "display": {"power", "control", "board"},
    "other": _EVERY,
}


@dataclass
class Compared:
    """What was compared: how many numbers of each kind, and the largest difference (of large ones relative)."""

    counts: defaultdict[str, int] = field(default_factory=lambda: defaultdict(int))
    worst: defaultdict[str, float] = field(default_factory=lambda: defaultdict(float))

    def same(self, what: str, ours: float, theirs: float) -> None:
        """Take one number."""
        apart = abs(ours - theirs) / max(1.0, abs(theirs))
        self.counts[what] += 1
        self.worst[what] = max(self.worst[what], math.inf if math.isnan(apart) else apart)

    def lines(self) -> Iterator[str]:
        """One line for each kind."""
        for what, count in self.counts.items():
            yield f"{what:52} {count:6}   {self.worst[what]:.1e}"


@dataclass
class Repair:
    """A job that was handed back: its days as whole numbers, ``back`` None where the same fault did not come again."""

    job: int
    unit: int
    kind: str
    mended: bool
    came: int
    left: int
    back: int | None


class Exported:
    """The visits of an exported book."""

    def __init__(self, folder: Path, zone: str) -> None:
        self._zone = ZoneInfo(zone)
        jobs = _rows(folder, "jobs")
        kinds = {row["id"]: row["name"] for row in _rows(folder, "transport_types")}
        types = {row["id"]: kinds[row["type_id"]] for row in _rows(folder, "transports")}
        inside = defaultdict(list)
        for row in _rows(folder, "fittings"):
            inside[row["unit_id"]].append(
                (row["fitted_at"], row["removed_at"] or "9999", types[row["transport_id"]])
            )
        words = defaultdict(set)
        for row in _rows(folder, "reported_faults"):
            words[row["job_id"]] |= MAY_BE[row["word"]]
        jobs.sort(key=lambda row: (row["taken_in_at"], int(row["id"])))
        self.visits: defaultdict[int, list[tuple[int, int]]] = defaultdict(list)  # by unit: day taken in, job
        of_unit = defaultdict(list)
        for row in jobs:
            of_unit[row["unit_id"]].append(row)
            self.visits[int(row["unit_id"])].append((self._day(row["taken_in_at"]), int(row["id"])))
        self.repairs = []
        for own in of_unit.values():
            for at, row in enumerate(own):
                out = row["handed_back_at"]
                if out:
                    kind = next(
                        (name for begun, end, name in inside[row["unit_id"]] if begun <= out < end), ""
                    )
                    returns = [
                        self._day(other["taken_in_at"])
                        for other in own[at + 1 :]
                        if _same(row, other, words[other["id"]])
                    ]
                    self.repairs.append(
                        Repair(
                            int(row["id"]),
                            int(row["unit_id"]),
                            kind or "not known",
                            row["outcome"] in MENDED,
                            self._day(row["taken_in_at"]),
                            self._day(out),
                            returns[0] if returns else None,
                        )
                    )

    def _day(self, instant: str) -> int:
        return datetime.fromisoformat(instant).astimezone(self._zone).toordinal()


def _rows(folder: Path, table: str) -> list[dict[str, str]]:
    with (folder / f"{table}.csv").open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def _same(repair: Mapping[str, str], other: Mapping[str, str], possible: set[str]) -> bool:
    denied = other["comeback"] == "denied" and other["comeback_of_id"] == repair["id"]
    group = other["fault_group"]
    return not denied and repair["fault_group"] in ({group} if group else possible) - {""}


def compare(folder: Path, answers: Mapping[str, Any], today: date, zone: str = "Europe/Berlin") -> Compared:
    """Every number of the four answers against what is worked out here."""
    book, compared, now = Exported(folder, zone), Compared(), today.toordinal()
    watched = [one for one in book.repairs if one.mended and now - one.left >= WINDOW]
    rates_again(watched, answers["comeback-rate"], compared)
    curves_again([one for one in book.repairs if one.mended], answers["how-long"], compared, now)
    visits_again(book, answers["keep-coming"], compared, now)
    trend_again(watched, answers["over-time"], compared)
    return compared


def _came_back(one: Repair) -> bool:
    return one.back is not None and one.back - one.left <= WINDOW


def rates_again(watched: Sequence[Repair], answer: Mapping[str, Any], compared: Compared) -> None:
    """Question 1: shares with intervals, each against the rest, and pairs."""
    from scipy.stats import fisher_exact
    from statsmodels.stats.multitest import multipletests
    from statsmodels.stats.proportion import confint_proportions_2indep, proportion_confint

    counts = {}
    for kind in {one.kind for one in watched}:
        own = [_came_back(one) for one in watched if one.kind == kind]
        counts[kind] = (sum(own), len(own))
    back, could = sum(_came_back(one) for one in watched), len(watched)
    rows = {row["label"]: row for row in answer["rows"] if row["could"]}
    assert rows.keys() == counts.keys()
    p_values = []
    for kind, row in rows.items():
        x, n = counts[kind]
        compared.same("comebacks, counted", row["came_back"], x)
        compared.same("repairs watched, counted", row["could"], n)
        for ours, theirs in zip(
            (row["low"], row["high"]), proportion_confint(x, n, 0.05, "wilson"), strict=True
        ):
            compared.same("Wilson limits (statsmodels)", ours, float(theirs))
        apart = confint_proportions_2indep(x, n, back - x, could - n, method="newcomb", compare="diff")
        for ours, theirs in zip((row["apart_low"], row["apart_high"]), apart, strict=True):
            compared.same("Newcombe's limits against the rest (statsmodels)", ours, float(theirs))
        p_values.append(float(fisher_exact([[x, n - x], [back - x, could - n - back + x]]).pvalue))
        compared.same("exact test against the rest (scipy)", row["p"], p_values[-1])
    for row, theirs in zip(rows.values(), multipletests(p_values, method="holm")[1], strict=True):
        compared.same("Holm's p (statsmodels)", row["adjusted"], float(theirs))
    for pair in answer["pairs"]:
        (x1, n1), (x2, n2) = counts[pair["first"]], counts[pair["second"]]
        limits = confint_proportions_2indep(x1, n1, x2, n2, method="newcomb", compare="diff")
        for ours, theirs in zip((pair["low"], pair["high"]), limits, strict=True):
            compared.same("Newcombe's limits of two groups (statsmodels)", ours, float(theirs))


def curves_again(mended: Sequence[Repair], answer: Mapping[str, Any], compared: Compared, now: int) -> None:
    """Question 2: survival with its band, Greenwood's error, the log-rank test and its pairs."""
    from lifelines import KaplanMeierFitter
    from lifelines.statistics import logrank_test, multivariate_logrank_test
    from statsmodels.duration.survfunc import SurvfuncRight
    from statsmodels.stats.multitest import multipletests

    lasted = {
        kind: (
            [(now if one.back is None else one.back) - one.left for one in own],
            [one.back is not None for one in own],
        )
        for kind in {one.kind for one in mended}
        for own in ([one for one in mended if one.kind == kind],)
    }
    assert {row["label"] for row in answer["rows"]} == lasted.keys()
    for row in answer["rows"]:
        days, seen = lasted[row["label"]]
        curve = row["curve"]
        compared.same("repairs and comebacks of curves, counted", row["n"], len(days))
        compared.same("repairs and comebacks of curves, counted", row["came_back"], sum(seen))
        if not sum(seen):
            continue
        fit = KaplanMeierFitter().fit(days, seen)
        held, band = fit.survival_function_, fit.confidence_interval_
        for at, day in enumerate(curve["times"]):
            compared.same("Kaplan-Meier (lifelines)", curve["share"][at], float(held.loc[day].iloc[0]))
            compared.same(
                "repairs at risk (lifelines)", curve["at_risk"][at], int(fit.event_table.at_risk[day])
            )
            if curve["share"][at] > 0:
                compared.same("log-log band (lifelines)", curve["low"][at], float(band.loc[day].iloc[0]))
                compared.same("log-log band (lifelines)", curve["high"][at], float(band.loc[day].iloc[1]))
        greenwood = SurvfuncRight(days, [int(one) for one in seen])
        for ours, theirs in zip(curve["error"], greenwood.surv_prob_se, strict=True):
            compared.same("Greenwood's error (statsmodels)", ours, float(theirs))
    enough = [row["label"] for row in answer["rows"] if not row["few"]]
    labels = [label for label in enough for _ in lasted[label][0]]
    days, seen = ([one for label in enough for one in lasted[label][part]] for part in (0, 1))
    test = multivariate_logrank_test(days, labels, seen)
    compared.same("log-rank, all groups (lifelines)", answer["test"]["chi2"], test.test_statistic)
    compared.same("log-rank, all groups (lifelines)", answer["test"]["p"], test.p_value)
    pairs = list(combinations(enough, 2))
    tests = [logrank_test(lasted[a][0], lasted[b][0], lasted[a][1], lasted[b][1]) for a, b in pairs]
    assert [(pair["first"], pair["second"]) for pair in answer["pairs"]] == pairs
    adjusted = multipletests([test.p_value for test in tests], method="holm")[1]
    for pair, test, p in zip(answer["pairs"], tests, adjusted, strict=True):
        compared.same("log-rank, pairs (lifelines)", pair["chi2"], test.test_statistic)
        compared.same("log-rank, pairs (lifelines)", pair["p"], test.p_value)
        compared.same("Holm's p over pairs (statsmodels)", pair["adjusted"], float(p))


def visits_again(book: Exported, answer: Mapping[str, Any], compared: Compared, now: int) -> None:
    """Question 3: the mean cumulative function, its robust error summed unit by unit (Lawless and Nadeau 1995)."""
    first: dict[int, Repair] = {}
    for one in sorted(book.repairs, key=lambda one: (one.came, one.job)):
        first.setdefault(one.unit, one)
    units = defaultdict(list)  # by type: end of the watch, days of later visits
    for unit, one in first.items():
        later = [
            day - one.left for day, job in book.visits[unit] if job != one.job and one.left <= day <= now
        ]
        units[one.kind].append((now - one.left, later))
    assert {row["label"] for row in answer["rows"]} == units.keys()
    for row in answer["rows"]:
        own, curve = units[row["label"]], row["curve"]
        compared.same("players and later visits, counted", row["units"], len(own))
        compared.same("players and later visits, counted", row["visits"], sum(len(later) for _, later in own))
        mean, score = 0.0, [0.0] * len(own)
        days = sorted({day for _, later in own for day in later})
        assert list(map(float, days)) == curve["times"]
        for at, day in enumerate(days):
            there = [place for place, (end, _) in enumerate(own) if end >= day]
            fell = {place: own[place][1].count(day) for place in there}
            step = sum(fell.values()) / len(there)
            mean += step
            for place in there:
                score[place] += (fell[place] - step) / len(there)
            error = math.sqrt(math.fsum(one * one for one in score))
            spread = math.exp(1.959963984540054 * error / mean)
            compared.same("mean cumulative function (unit by unit)", curve["mean"][at], mean)
            compared.same("its robust error (unit by unit)", curve["error"][at], error)
            if len(own) > 1:
                compared.same("its band (unit by unit)", curve["low"][at], mean / spread)
                compared.same("its band (unit by unit)", curve["high"][at], mean * spread)


def trend_again(watched: Sequence[Repair], answer: Mapping[str, Any], compared: Compared) -> None:
    """Question 4: the p-chart quarter by quarter, Laplace's test and that of MIL-HDBK-189."""
    from scipy.stats import chi2, norm
    from statsmodels.stats.multitest import multipletests

    ordered = sorted(watched, key=lambda one: (one.left, one.job))
    n = len(ordered)
    places = [at + 0.5 for at, one in enumerate(ordered) if _came_back(one)]
    r = len(places)
    u = (sum(places) - r * n / 2) / (n * math.sqrt(r / 12))  # NIST/SEMATECH e-Handbook 8.2.3.4
    compared.same("Laplace's test (formula)", answer["laplace"]["statistic"], u)
    p_laplace = 2 * float(norm.sf(abs(u)))
    compared.same("Laplace's test (formula)", answer["laplace"]["p"], p_laplace)
    statistic = 2 * sum(math.log(n) - math.log(place) for place in places)
    p_handbook = 2 * min(float(chi2.cdf(statistic, 2 * r)), float(chi2.sf(statistic, 2 * r)))
    compared.same("MIL-HDBK-189 (formula)", answer["military_handbook"]["statistic"], statistic)
    compared.same("MIL-HDBK-189 (formula)", answer["military_handbook"]["p"], p_handbook)
    both = multipletests([p_laplace, p_handbook], method="holm")[1]
    for ours, theirs in zip(answer["adjusted"], both, strict=True):
        compared.same("Holm's p of both (statsmodels)", ours, float(theirs))
    quarters: defaultdict[str, list[bool]] = defaultdict(list)
    for one in ordered:
        day = date.fromordinal(one.left)
        quarters[date(day.year, day.month - (day.month - 1) % 3, 1).isoformat()].append(_came_back(one))
    centre = r / n
    compared.same("centre of the p-chart (formula)", answer["centre"], centre)
    assert {row["first"] for row in answer["rows"] if row["could"]} == quarters.keys()
    for row in answer["rows"]:
        own = quarters[row["first"]]
        compared.same("quarters, counted", row["could"], len(own))
        compared.same("quarters, counted", row["came_back"], sum(own))
        if own:
            half = 3 * math.sqrt(centre * (1 - centre) / len(own))  # NIST/SEMATECH e-Handbook 6.3.3.2
            compared.same("limits of the p-chart (formula)", row["low"], max(0.0, centre - half))
            compared.same("limits of the p-chart (formula)", row["high"], min(1.0, centre + half))
            assert row["outside"] == (not centre - half <= sum(own) / len(own) <= centre + half)


if __name__ == "__main__":
    where = Path(sys.argv[1])
    told = {name: json.loads((where / f"{name}.json").read_text(encoding="utf-8")) for name in ASKED}
    for line in compare(where, told, date.fromisoformat(sys.argv[2])).lines():
        sys.stdout.write(f"{line}\n")
