//! How much of what is allowed a hanger carries.

use crate::geometry::tolerance;
use crate::hanging::{Capacity, Hanger};
use crate::study::Study;

/// The greatest part of what is allowed that a hanger's places carry, all runs counted;
/// none where nobody has said what is allowed.
pub(crate) fn part(study: &Study, hanger: &Hanger) -> Option<f64> {
    let of = |load_n: f64, allowed: Capacity| match allowed {
        Capacity::Unknown => None,
        Capacity::Known(allowed_n) if allowed_n > 0.0 => Some(load_n / allowed_n),
        Capacity::Known(_) => Some(if load_n > 0.0 { f64::INFINITY } else { 0.0 }),
    };
    let mut greatest = of(hanger.load.load_n, hanger.load.allowed)?;
    for hold in &hanger.load.holds {
        greatest = greatest.max(of(hold.load_n, hold.allowed_single)?);
        if let Some(place) = study.loads.get(&hold.place)
            && let Some(allowed) = place.allowed
        {
            greatest = greatest.max(of(place.sum_n, allowed)?);
        }
    }
    Some(greatest)
}

/// Whether that is more than all of it.
pub(crate) fn is_too_much(part: f64) -> bool {
    part > 1.0 + tolerance::LIMIT
}

/// Whole percent, up: rounding never makes too much look allowed.
pub(crate) fn percent(part: f64) -> String {
    if !part.is_finite() {
        return "none".to_owned();
    }
    let percent = part * 100.0;
    let shown = if is_too_much(part) {
        percent.ceil().max(101.0)
    } else {
        percent.ceil().min(100.0)
    };
    format!("{shown:.0} %")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounding_never_makes_too_much_look_allowed() {
        assert_eq!(percent(0.481), "49 %");
        assert_eq!(percent(1.0), "100 %");
        assert_eq!(percent(1.000_01), "101 %");
        assert_eq!(percent(2.34), "234 %");
        assert_eq!(percent(0.0), "0 %");
        assert_eq!(percent(f64::INFINITY), "none");
    }
}
