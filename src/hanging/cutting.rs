//! Which piece of channel is cut from which stock length.

use super::piece::ChannelCutting;

/// One stock length and what is cut from it.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// The pieces, by their place in what was handed over, in the order of cutting.
    pub pieces: Vec<usize>,
    /// What the cuts take away, m.
    pub kerf_m: f64,
    /// What is left, m.
    pub offcut_m: f64,
}

/// All stock lengths.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CuttingPlan {
    /// Stock length, m.
    pub stock_m: f64,
    /// One for each stock length, longest pieces first.
    pub bars: Vec<Bar>,
    /// Pieces longer than a stock length.
    pub too_long: Vec<usize>,
}

/// Lengths are whole micrometres here: sums of them are exact.
const MICROMETRES: f64 = 1e6;

/// Cuts pieces from stock lengths: each piece, the longest first, from the first bar
/// that still has room for it. First-fit decreasing needs at most 11/9 of the fewest
/// bars and 6/9 of one (Dosa 2007); of some dozen pieces mostly just the fewest.
#[must_use]
pub fn cutting_plan(cutting: &ChannelCutting, lengths_m: &[f64]) -> CuttingPlan {
    let (stock, kerf) = (whole(cutting.stock_m), whole(cutting.kerf_m));
    let mut order: Vec<(u64, usize)> = lengths_m
        .iter()
        .enumerate()
        .map(|(which, &length_m)| (whole(length_m), which))
        .collect();
    order.sort_by(|one, other| other.0.cmp(&one.0).then(one.1.cmp(&other.1)));
    let mut plan = CuttingPlan {
        stock_m: cutting.stock_m,
        ..CuttingPlan::default()
    };
    // What is left of each bar once its pieces are off, their cuts between them.
    let mut left: Vec<u64> = Vec::new();
    for (length, which) in order {
        if length > stock {
            plan.too_long.push(which);
            continue;
        }
        match left.iter().position(|&rest| length + kerf <= rest) {
            Some(bar) => {
                left[bar] -= length + kerf;
                plan.bars[bar].pieces.push(which);
                plan.bars[bar].kerf_m += metres(kerf);
            }
            None => {
                left.push(stock - length);
                plan.bars.push(Bar {
                    pieces: vec![which],
                    kerf_m: 0.0,
                    offcut_m: 0.0,
                });
            }
        }
    }
    for (bar, rest) in plan.bars.iter_mut().zip(left) {
        // The last cut parts the last piece from the offcut; a rest thinner than the
        // disc goes with it.
        let cut = kerf.min(rest);
        bar.kerf_m += metres(cut);
        bar.offcut_m = metres(rest - cut);
    }
    plan
}

fn whole(length_m: f64) -> u64 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "lengths are positive and far below 2^53 micrometres; `as` saturates for others"
    )]
    let micrometres = (length_m * MICROMETRES).round() as u64;
    micrometres
}

fn metres(micrometres: u64) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "far below 2^53 micrometres")]
    let micrometres = micrometres as f64;
    micrometres / MICROMETRES
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cutting(stock_m: f64, kerf_m: f64) -> ChannelCutting {
        ChannelCutting {
            stock_m,
            overhang_m: 0.05,
            step_m: 0.01,
            kerf_m,
        }
    }

    /// The fewest bars, by trying every piece in every bar.
    fn fewest(stock: u64, kerf: u64, pieces: &[u64], left: &mut Vec<u64>, best: usize) -> usize {
        let Some((&piece, rest)) = pieces.split_first() else {
            return left.len();
        };
        let mut best = best;
        for bar in 0..left.len() {
            if piece + kerf <= left[bar] && !left[..bar].contains(&left[bar]) {
                left[bar] -= piece + kerf;
                best = best.min(fewest(stock, kerf, rest, left, best));
                left[bar] += piece + kerf;
            }
        }
        if left.len() + 1 < best {
            left.push(stock - piece);
            best = best.min(fewest(stock, kerf, rest, left, best));
            left.pop();
        }
        best
    }

    #[test]
    fn nothing_is_lost_between_bars_pieces_cuts_and_offcuts() {
        let mut random = fastrand::Rng::with_seed(3);
        for _ in 0..300 {
            let cutting = cutting(6.0, f64::from(random.u8(0..6)) / 1000.0);
            let lengths: Vec<f64> = (0..random.usize(0..60))
                .map(|_| f64::from(random.u16(20..605)) / 100.0)
                .collect();
            let plan = cutting_plan(&cutting, &lengths);
            let mut seen: Vec<usize> = plan.too_long.clone();
            for bar in &plan.bars {
                let pieces: f64 = bar.pieces.iter().map(|&which| lengths[which]).sum();
                let all = pieces + bar.kerf_m + bar.offcut_m;
                assert!((all - 6.0).abs() < 1e-9, "{all}");
                assert!(bar.offcut_m >= 0.0);
                seen.extend(&bar.pieces);
            }
            assert!(plan.too_long.iter().all(|&which| lengths[which] > 6.0));
            seen.sort_unstable();
            assert_eq!(seen, (0..lengths.len()).collect::<Vec<_>>());
        }
    }

    #[test]
    fn few_bars_more_than_the_fewest() {
        let mut random = fastrand::Rng::with_seed(7);
        let (mut n_equal, n_all) = (0, 400);
        for _ in 0..n_all {
            let cutting = cutting(6.0, 0.003);
            let lengths: Vec<f64> = (0..random.usize(1..9))
                .map(|_| f64::from(random.u16(60..320)) / 100.0)
                .collect();
            let found = cutting_plan(&cutting, &lengths).bars.len();
            let mut pieces: Vec<u64> = lengths.iter().map(|&length_m| whole(length_m)).collect();
            pieces.sort_unstable_by(|a, b| b.cmp(a));
            let n = pieces.len() + 1;
            let least = fewest(whole(6.0), whole(0.003), &pieces, &mut Vec::new(), n);
            assert!(least <= found && 9 * found <= 11 * least + 6, "{lengths:?}");
            n_equal += usize::from(found == least);
        }
        assert!(n_equal * 100 >= 95 * n_all, "{n_equal} of {n_all}");
    }

    #[test]
    fn a_last_sliver_goes_with_the_disc() {
        let cutting = cutting(6.0, 0.003);
        let of = |lengths: &[f64]| cutting_plan(&cutting, lengths).bars;
        assert_eq!(of(&[6.0])[0].kerf_m, 0.0);
        assert_eq!(of(&[5.999])[0].offcut_m, 0.0);
        assert_eq!(of(&[5.999])[0].kerf_m, 0.001);
        // Two halves of a bar leave no room for the cut between them.
        assert_eq!(of(&[3.0, 3.0]).len(), 2);
        assert_eq!(of(&[3.0, 2.997]).len(), 1);
    }
}
