"""Several reports as one."""

from collections.abc import Sequence

from netcheck.core.report import Report

__all__ = ["joined", "of_one_set"]


def joined(reports: Sequence[Report], names: Sequence[str] = ()) -> Report:
    """The reports on several files as one; what two of them say of a shared file is said once.

    With ``names``, one for each report, the lines on what was looked at begin with its name.
    """
    if len(reports) == 1 and not names:
        return reports[0]
    said = zip(names or [""] * len(reports), reports, strict=True)
    closing = (f"{name}: {line}" if name else line for name, report in said for line in report.closing)
    owners = names or [report.files[0] for report in reports]
    return Report(
        reports[0].command,
        reports[0].title,
        tuple(dict.fromkeys(name for report in reports for name in report.files)),
        tuple(sorted(dict.fromkeys(d for report in reports for d in report.diagnostics), key=lambda d: d.order)),
        tuple(dict.fromkeys(accepted for report in reports for accepted in report.accepted)),
        tuple(dict.fromkeys(closing)),
        all(report.built for report in reports),
        cautions=_cautions(reports, owners),
    )


def _cautions(reports: Sequence[Report], owners: Sequence[str]) -> tuple[str, ...]:
    """The cautions of several sets: those that not all of them need are said with what needs them."""
    shared = set.intersection(*(set(report.cautions) for report in reports))
    own = (
        f"{owner}: {line}"
        for owner, report in zip(owners, reports, strict=True)
        for line in report.cautions
        if line not in shared
    )
    return (*own, *(line for line in reports[0].cautions if line in shared))


def of_one_set(reports: Sequence[Report], command: str) -> Report:
    """The reports on the states of one set, the last of which is on the latest; the general caution stays last."""
    whole = joined(reports, [""] * len(reports))
    last = reports[-1]
    cautions = dict.fromkeys(line for report in reports for line in report.cautions)
    general = last.cautions[-1:]
    return Report(
        command,
        last.title,
        whole.files,
        whole.diagnostics,
        whole.accepted,
        whole.closing,
        whole.built,
        tuple(dict.fromkeys(line for report in reports for line in report.unchecked)),
        (*(line for line in cautions if line not in general), *general),
    )
