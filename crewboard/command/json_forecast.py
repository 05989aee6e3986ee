"""The form of `--json` (see `json_form`) for the forecast."""

from __future__ import annotations

from crewboard.command.json_form import Form, form_of
from crewboard.order.forecast.figures import Figures
from crewboard.order.forecast.finish import Finish, Forecast


def forecast_form(forecast: Forecast, figures: Figures | None = None) -> Form:
    none = Finish(None, None, None)
    rough = bool(forecast.too_little)  # then no chance goes with any date
    return form_of(
        "forecast",
        at=forecast.at,
        seed=forecast.seed,
        runs=forecast.runs,
        asked=forecast.asked,
        soonest=forecast.soonest,
        finish=(none if rough else forecast.vehicle)._asdict(),
        as_planned=(none if rough else forecast.as_planned)._asdict(),
        growth=forecast.growth._asdict() if forecast.growth is not None else None,
        supposed=[each._asdict() for each in forecast.supposed],
        too_little=forecast.too_little,
        rough=forecast.rough._asdict() if forecast.rough is not None else None,
        components=[
            {"id": c, "finish": (none if rough else finish)._asdict()}
            for c, finish in forecast.components
        ],
        courses=[] if rough else forecast.courses,
        on_chain=[] if rough else [link._asdict() for link in forecast.on_chain],
        basis=forecast.basis._asdict(),
        figures=_figures_form(figures) if figures is not None else None,
        remarks=forecast.remarks,
        sooner=[
            {
                "says": change.says,
                "gain_days": change.gain.total_seconds() / 86400,
                "doubt_days": change.doubt.total_seconds() / 86400,
                "tells": change.tells,
            }
            for change in forecast.sooner
        ],
    )


def _figures_form(figures: Figures) -> Form:
    keys = figures._asdict()
    for name in ("left", "pace", "share"):
        keys[name] = keys[name]._asdict()
    keys["came"] = [each._asdict() for each in figures.came]
    keys["waited"] = figures.waited._asdict()
    keys["waited"]["longest"] = [each._asdict() for each in figures.waited.longest]
    return keys
