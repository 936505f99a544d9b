//! Drawing scales.

/// A drawing scale, 1 : n.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Scale {
    /// How many units of the site one unit of paper stands for; greater than zero.
    pub denominator: f64,
}

/// Which scales a drawing may have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ScaleSeries {
    /// ISO 5455, reduction and full size.
    Iso5455,
    /// So many inches or parts of an inch to the foot, customary with feet and inches.
    InchesToTheFoot,
}

/// Denominators of ISO 5455, largest scale first.
const ISO_5455: [f64; 13] = [
    1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1_000.0, 2_000.0, 5_000.0, 10_000.0,
];

/// Denominators and names of the customary scales in inches to the foot, largest
/// scale first.
const INCHES_TO_THE_FOOT: [(f64, &str); 18] = [
    (1.0, "FULL SIZE"),
    (2.0, "6\" = 1'-0\""),
    (4.0, "3\" = 1'-0\""),
    (8.0, "1 1/2\" = 1'-0\""),
    (12.0, "1\" = 1'-0\""),
    (16.0, "3/4\" = 1'-0\""),
    (24.0, "1/2\" = 1'-0\""),
    (32.0, "3/8\" = 1'-0\""),
    (48.0, "1/4\" = 1'-0\""),
    (64.0, "3/16\" = 1'-0\""),
    (96.0, "1/8\" = 1'-0\""),
    (128.0, "3/32\" = 1'-0\""),
    (192.0, "1/16\" = 1'-0\""),
    (384.0, "1/32\" = 1'-0\""),
    (600.0, "1\" = 50'-0\""),
    (1_200.0, "1\" = 100'-0\""),
    (2_400.0, "1\" = 200'-0\""),
    (6_000.0, "1\" = 500'-0\""),
];

impl ScaleSeries {
    /// The series' scales, largest drawing first.
    #[must_use]
    pub fn scales(self) -> Vec<Scale> {
        match self {
            Self::Iso5455 => ISO_5455
                .iter()
                .map(|&denominator| Scale { denominator })
                .collect(),
            Self::InchesToTheFoot => INCHES_TO_THE_FOOT
                .iter()
                .map(|&(denominator, _)| Scale { denominator })
                .collect(),
        }
    }

    /// The largest scale of the series at which something of this size fits the room;
    /// the smallest scale where none does.
    #[must_use]
    pub fn fitting(
        self,
        width_m: f64,
        height_m: f64,
        room_width_mm: f64,
        room_height_mm: f64,
    ) -> Scale {
        let scales = self.scales();
        let fits = |scale: &&Scale| {
            scale.paper_mm(width_m) <= room_width_mm && scale.paper_mm(height_m) <= room_height_mm
        };
        let smallest = scales[scales.len() - 1];
        scales.iter().find(fits).copied().unwrap_or(smallest)
    }

    /// How a drawing states the scale in this series: `1 : 200`, or `1/16" = 1'-0"`.
    #[must_use]
    pub fn label(self, scale: Scale) -> String {
        let customary = INCHES_TO_THE_FOOT
            .iter()
            .find(|(denominator, _)| denominator.total_cmp(&scale.denominator).is_eq());
        match (self, customary) {
            (Self::InchesToTheFoot, Some((_, name))) => (*name).to_owned(),
            _ => format!("1 : {}", scale.denominator),
        }
    }
}

impl Scale {
    /// Length on paper, mm, of a length on site, m.
    #[must_use]
    pub fn paper_mm(self, site_m: f64) -> f64 {
        site_m * self.mm_per_metre()
    }

    /// Length on site, m, of a length on paper, mm.
    #[must_use]
    pub fn site_m(self, paper_mm: f64) -> f64 {
        paper_mm * self.denominator / 1000.0
    }

    /// Millimetres of paper per metre of site.
    #[must_use]
    pub fn mm_per_metre(self) -> f64 {
        1000.0 / self.denominator
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_are_the_largest_that_fit() {
        let metric = ScaleSeries::Iso5455;
        assert_eq!(
            metric.label(metric.fitting(72.0, 36.0, 360.0, 200.0)),
            "1 : 200"
        );
        assert_eq!(
            metric.label(metric.fitting(72.1, 36.0, 360.0, 200.0)),
            "1 : 500"
        );
        assert_eq!(
            metric.label(metric.fitting(1e9, 1e9, 360.0, 200.0)),
            "1 : 10000"
        );
        let feet = ScaleSeries::InchesToTheFoot;
        assert_eq!(
            feet.label(feet.fitting(60.0, 30.0, 800.0, 500.0)),
            "1/8\" = 1'-0\""
        );
    }

    #[test]
    fn series_run_from_large_to_small() {
        for series in [ScaleSeries::Iso5455, ScaleSeries::InchesToTheFoot] {
            assert!(series.scales().windows(2).all(|pair| pair[0] < pair[1]));
        }
    }
}
