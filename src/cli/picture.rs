//! `picture`: draw the site in space.

use super::arguments::Picture;
use super::check::studied;
use super::section::{format_of, write_one};
use super::{Failure, Outcome, answer};
use crate::sheets::files::{SheetFormat, one_file};
use crate::sheets::pages::{PageInput, PictureOrder, metadata, picture};

pub(super) fn run(order: &Picture) -> Result<Outcome, Failure> {
    const OFFERED: &str = "png, pdf or svg";
    let format = format_of(&order.output, OFFERED)?;
    if format == SheetFormat::Dxf {
        return Err(Failure(format!(
            "a picture in space can't be written as DXF; take {OFFERED}"
        )));
    }
    let within = |name: &str, value: f64, low: f64, high: f64| {
        if low <= value && value <= high {
            Ok(value)
        } else {
            Err(Failure(format!(
                "--{name}: {value} is not in {low} to {high}"
            )))
        }
    };
    let wanted = PictureOrder {
        from_degrees: within("from", order.from, -360.0, 360.0)?.rem_euclid(360.0),
        tilt_degrees: within("tilt", order.tilt, 0.0, 90.0)?,
        width_mm: within("width", order.width, 50.0, 2_000.0)?,
        dots_per_inch: within("dpi", order.dpi, 30.0, 1_200.0)?,
        camera: None,
    };
    let studied = studied(&order.choice)?;
    let input = PageInput {
        site: &studied.site,
        catalogue: &studied.catalogue,
        study: &studied.study,
        findings: &studied.findings,
        date: None,
    };
    let sheet = picture(&input, &wanted).map_err(|error| Failure(error.to_string()))?;
    let units = studied.site.units;
    let bytes = one_file(&sheet, &metadata(&input), format, units, order.dpi)
        .map_err(|error| Failure(error.to_string()))?;
    write_one(&order.output, bytes)?;
    answer(&format!("{}\n", order.output.display()));
    Ok(Outcome::Clean)
}
