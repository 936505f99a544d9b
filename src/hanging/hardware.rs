//! Which size of chain, rod or rope bears a pull, and how it is cut to a length.

/// One size to choose from, by what decides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PieceStock {
    /// The greatest pull that it may bear, N.
    pub allowed_n: f64,
    /// How it is cut.
    pub cut: Cut,
    /// What its two end fittings take of the suspension, m.
    pub ends_m: f64,
    /// Least length that is cut, m.
    pub least_m: f64,
    /// Greatest length in one piece, m.
    pub greatest_m: f64,
}

/// How a piece is brought to its length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cut {
    /// To whole links.
    Links {
        /// What each link adds, m.
        link_m: f64,
    },
    /// To whole steps of a rule.
    Steps {
        /// The step, m.
        step_m: f64,
        /// What is cut beyond the length, for loops, m.
        more_m: f64,
    },
}

/// What lets a suspension be adjusted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AdjusterStock {
    /// The greatest pull that it may bear, N.
    pub allowed_n: f64,
    /// Its length wound in, m.
    pub shortest_m: f64,
    /// Its length wound out, m.
    pub longest_m: f64,
}

/// What a suspension must be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wanted {
    /// Its length from attach point to eye, m.
    pub length_m: f64,
    /// What its upper attachment takes of that, m.
    pub top_m: f64,
    /// The greatest pull in it, N.
    pub pull_n: f64,
    /// How far from its length it may be without an adjuster, m.
    pub exact_within_m: f64,
}

/// How a suspension is made up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MakeUp {
    /// What is cut, m; of a rope its loops included.
    pub cut_m: f64,
    /// How many links that is, of a chain.
    pub links: Option<u32>,
    /// The adjuster, by its place among those offered.
    pub adjuster: Option<usize>,
    /// The length at which the adjuster is set, m.
    pub adjuster_set_m: f64,
    /// The least and the greatest length that the suspension can be set to, m.
    pub range_m: (f64, f64),
}

/// Why a suspension can't be made up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NoMakeUp {
    /// Shorter than the shortest that can be made, m.
    TooShort(f64),
    /// Longer than the longest that can be made, m.
    TooLong(f64),
    /// No whole number of links comes near enough: the nearest that can be made, m.
    Between(f64),
}

/// The weakest of the sizes that bears a pull; of equal ones the first.
#[must_use]
pub fn weakest_that_bears(allowed_n: impl IntoIterator<Item = f64>, pull_n: f64) -> Option<usize> {
    let within = pull_n * (1.0 - crate::geometry::tolerance::LIMIT);
    allowed_n
        .into_iter()
        .enumerate()
        .filter(|&(_, allowed_n)| within <= allowed_n)
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(which, _)| which)
}

impl PieceStock {
    /// Makes up a suspension: with the first adjuster that bears the pull and leaves it
    /// at its length, cut so that the adjuster is as near the middle of its range as
    /// may be; else without one, if that comes near enough.
    ///
    /// # Errors
    /// Why it can't be made.
    pub fn make_up(
        &self,
        adjusters: &[AdjusterStock],
        wanted: &Wanted,
    ) -> Result<MakeUp, NoMakeUp> {
        let with = adjusters
            .iter()
            .enumerate()
            .filter(|(_, adjuster)| {
                weakest_that_bears([adjuster.allowed_n], wanted.pull_n).is_some()
            })
            .find_map(|(which, adjuster)| self.with(which, adjuster, wanted));
        with.map_or_else(|| self.alone(wanted), Ok)
    }

    /// What is left for piece and adjuster.
    fn left_m(&self, wanted: &Wanted) -> f64 {
        wanted.length_m - wanted.top_m - self.ends_m
    }

    fn with(&self, which: usize, adjuster: &AdjusterStock, wanted: &Wanted) -> Option<MakeUp> {
        let left_m = self.left_m(wanted);
        let middle_m = f64::midpoint(adjuster.shortest_m, adjuster.longest_m);
        // Longer pieces than the wanted one wind the adjuster in, shorter ones out.
        let piece = self.nearest(left_m - middle_m);
        let set_m = left_m - piece.length_m;
        let slack = crate::geometry::tolerance::LIMIT;
        let in_range = adjuster.shortest_m - slack <= set_m && set_m <= adjuster.longest_m + slack;
        in_range.then(|| {
            let fixed_m = wanted.length_m - set_m;
            MakeUp {
                cut_m: piece.cut_m,
                links: piece.links,
                adjuster: Some(which),
                adjuster_set_m: set_m,
                range_m: (fixed_m + adjuster.shortest_m, fixed_m + adjuster.longest_m),
            }
        })
    }

    fn alone(&self, wanted: &Wanted) -> Result<MakeUp, NoMakeUp> {
        let left_m = self.left_m(wanted);
        let piece = self.nearest(left_m);
        let length_m = wanted.length_m - left_m + piece.length_m;
        let off_m = piece.length_m - left_m;
        if off_m.abs() <= wanted.exact_within_m + crate::geometry::tolerance::LIMIT {
            return Ok(MakeUp {
                cut_m: piece.cut_m,
                links: piece.links,
                adjuster: None,
                adjuster_set_m: 0.0,
                range_m: (length_m, length_m),
            });
        }
        Err(if left_m < self.least_m {
            NoMakeUp::TooShort(length_m)
        } else if self.greatest_m < left_m {
            NoMakeUp::TooLong(length_m)
        } else {
            NoMakeUp::Between(length_m)
        })
    }

    /// The piece that is nearest to a length and may be cut.
    fn nearest(&self, length_m: f64) -> Piece {
        let step_m = match self.cut {
            Cut::Links { link_m } => link_m,
            Cut::Steps { step_m, .. } => step_m,
        };
        let slack = crate::geometry::tolerance::LIMIT;
        let least = ((self.least_m - slack) / step_m).ceil().max(1.0);
        let greatest = ((self.greatest_m + slack) / step_m).floor().max(least);
        let count = (length_m / step_m).round().clamp(least, greatest);
        let length_m = count * step_m;
        match self.cut {
            Cut::Links { .. } => {
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "a checked link is 5 mm or more and a piece 1 km or less; `as` saturates for others"
                )]
                let links = count as u32;
                Piece {
                    length_m,
                    cut_m: length_m,
                    links: Some(links),
                }
            }
            Cut::Steps { more_m, .. } => Piece {
                length_m,
                cut_m: length_m + more_m,
                links: None,
            },
        }
    }
}

/// A piece as it is cut.
struct Piece {
    /// What it adds to the suspension, m.
    length_m: f64,
    cut_m: f64,
    links: Option<u32>,
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

    use super::*;

    const CHAIN: PieceStock = PieceStock {
        allowed_n: 1_000.0,
        cut: Cut::Links { link_m: 0.025 },
        ends_m: 0.08,
        least_m: 0.025,
        greatest_m: 60.0,
    };
    const ROD: PieceStock = PieceStock {
        allowed_n: 3_000.0,
        cut: Cut::Steps {
            step_m: 0.005,
            more_m: 0.0,
        },
        ends_m: 0.1,
        least_m: 0.1,
        greatest_m: 3.0,
    };
    const TURNBUCKLES: [AdjusterStock; 2] = [
        AdjusterStock {
            allowed_n: 2_000.0,
            shortest_m: 0.2,
            longest_m: 0.3,
        },
        AdjusterStock {
            allowed_n: 2_000.0,
            shortest_m: 0.12,
            longest_m: 0.17,
        },
    ];

    fn wanted(length_m: f64) -> Wanted {
        Wanted {
            length_m,
            top_m: 0.0,
            pull_n: 500.0,
            exact_within_m: 0.005,
        }
    }

    #[test]
    fn a_chain_is_cut_to_whole_links_and_the_turnbuckle_makes_up_the_rest() {
        // 1.000 - 0.080 ends - 0.250 middle = 0.670: 26.8 links, so 27 of them, 0.675.
        let made = CHAIN.make_up(&TURNBUCKLES, &wanted(1.0)).unwrap();
        assert_eq!((made.links, made.adjuster), (Some(27), Some(0)));
        assert!((made.cut_m - 0.675).abs() < 1e-12);
        assert!((made.adjuster_set_m - 0.245).abs() < 1e-12);
        assert!((made.range_m.0 - 0.955).abs() < 1e-12);
        assert!((made.range_m.1 - 1.055).abs() < 1e-12);
    }

    #[test]
    fn what_is_too_short_for_one_adjuster_takes_the_next_or_none() {
        let made = CHAIN.make_up(&TURNBUCKLES, &wanted(0.30)).unwrap();
        assert_eq!(made.adjuster, Some(1));
        let alone = CHAIN.make_up(&TURNBUCKLES, &wanted(0.182)).unwrap();
        assert_eq!((alone.adjuster, alone.links), (None, Some(4)));
        assert!((alone.range_m.0 - 0.18).abs() < 1e-12);
        let between = CHAIN.make_up(&TURNBUCKLES, &wanted(0.192)).unwrap_err();
        let NoMakeUp::Between(nearest_m) = between else {
            panic!("{between:?}");
        };
        assert!((nearest_m - 0.18).abs() < 1e-12);
        assert!(matches!(
            ROD.make_up(&[], &wanted(0.15)),
            Err(NoMakeUp::TooShort(_))
        ));
        assert!(matches!(
            ROD.make_up(&[], &wanted(3.2)),
            Err(NoMakeUp::TooLong(_))
        ));
    }

    #[test]
    fn an_adjuster_that_does_not_bear_the_pull_is_passed_over() {
        let mut weak = TURNBUCKLES;
        weak[0].allowed_n = 400.0;
        let made = CHAIN.make_up(&weak, &wanted(0.30)).unwrap();
        assert_eq!(made.adjuster, Some(1));
    }

    /// Whatever is made up can be set to its length, and what is cut adds up to it.
    #[test]
    fn every_make_up_reaches_its_length() {
        let mut random = fastrand::Rng::with_seed(3);
        let rope = PieceStock {
            cut: Cut::Steps {
                step_m: 0.01,
                more_m: 0.5,
            },
            ends_m: 0.0,
            ..ROD
        };
        let mut made_up = 0;
        for _ in 0..5_000 {
            let wanted = Wanted {
                top_m: 0.05 * random.f64(),
                ..wanted(0.1 + 3.0 * random.f64())
            };
            for stock in [CHAIN, ROD, rope] {
                let Ok(made) = stock.make_up(&TURNBUCKLES, &wanted) else {
                    continue;
                };
                made_up += 1;
                let more_m = match stock.cut {
                    Cut::Links { .. } => 0.0,
                    Cut::Steps { more_m, .. } => more_m,
                };
                let adds_up =
                    wanted.top_m + stock.ends_m + made.cut_m - more_m + made.adjuster_set_m;
                let off_m = (adds_up - wanted.length_m).abs();
                let (least_m, greatest_m) = made.range_m;
                match made.adjuster {
                    Some(which) => {
                        let adjuster = TURNBUCKLES[which];
                        assert!(off_m < 1e-12);
                        assert!(least_m <= wanted.length_m + 1e-9);
                        assert!(wanted.length_m <= greatest_m + 1e-9);
                        let span_m = adjuster.longest_m - adjuster.shortest_m;
                        assert!((greatest_m - least_m - span_m).abs() < 1e-12);
                    }
                    None => assert!(off_m <= 0.005 + 1e-6),
                }
                if let Some(links) = made.links {
                    assert!((made.cut_m - 0.025 * f64::from(links)).abs() < 1e-12);
                }
            }
        }
        assert!(made_up > 12_000, "only {made_up} were made up");
    }

    #[test]
    fn the_weakest_that_bears_is_chosen() {
        let sizes = [3_000.0, 1_000.0, 2_000.0, 1_000.0];
        assert_eq!(weakest_that_bears(sizes, 900.0), Some(1));
        assert_eq!(weakest_that_bears(sizes, 1_000.0), Some(1), "equal passes");
        assert_eq!(weakest_that_bears(sizes, 1_001.0), Some(2));
        assert_eq!(weakest_that_bears(sizes, 3_001.0), None);
    }
}
