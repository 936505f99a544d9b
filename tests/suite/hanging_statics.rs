//! A tube on hangers that can't push, by another road than the engine's: the energy of
//! bending written out as integrals of moments, and every choice of taut hangers tried
//! until one fits.

/// Integral of (x - a)+ (x - b)+ from the left to `end`: what two unit pulls at a and b
/// bend in common.
fn pair(a: f64, b: f64, end: f64) -> f64 {
    let (near, far) = (a.min(b), a.max(b));
    let reach = (end - far).max(0.0);
    reach * reach * reach / 3.0 + (far - near) * reach * reach / 2.0
}

/// Integral of (x - a)+ times the moment of an even load of 1 over 0..length, up to
/// `end` >= length.
fn pair_even(a: f64, length: f64, end: f64) -> f64 {
    // The moment is x2 / 2 on the tube, length (x - length / 2) beyond.
    let on_tube = |x: f64| x * x * x * x / 8.0 - a * x * x * x / 6.0;
    let beyond = |x: f64| {
        length * (x * x * x / 3.0 - (a + length / 2.0) * x * x / 2.0 + a * length / 2.0 * x)
    };
    let mut sum = 0.0;
    if a < length {
        sum += on_tube(length) - on_tube(a.max(0.0));
    }
    sum + beyond(end) - beyond(length.max(a))
}

/// The symmetric matrix of what pulls at `stations` bend in common, and what the loads
/// bend against each.
pub(crate) fn energy(
    even: (f64, f64),
    points: &[(f64, f64)],
    stations: &[f64],
) -> (Vec<Vec<f64>>, Vec<f64>) {
    let end = points
        .iter()
        .map(|&(at, _)| at)
        .chain(stations.iter().copied())
        .fold(even.0, f64::max);
    let matrix = stations
        .iter()
        .map(|&a| stations.iter().map(|&b| pair(a, b, end)).collect())
        .collect();
    let against = stations
        .iter()
        .map(|&a| {
            let of_points: f64 = points
                .iter()
                .map(|&(at, force)| force * pair(a, at, end))
                .sum();
            of_points + even.1 * pair_even(a, even.0, end)
        })
        .collect();
    (matrix, against)
}

/// Weight, and its moment about station 0.
pub(crate) fn resultant(even: (f64, f64), points: &[(f64, f64)]) -> (f64, f64) {
    points.iter().fold(
        (even.0 * even.1, even.0 * even.0 * even.1 / 2.0),
        |(weight, moment), &(at, force)| (weight + force, moment + force * at),
    )
}

/// The pulls of all hangers; none where the tube tips. `even` is (length, N/m).
pub(crate) fn pulls(even: (f64, f64), points: &[(f64, f64)], stations: &[f64]) -> Option<Vec<f64>> {
    let (weight, moment) = resultant(even, points);
    let centre = moment / weight;
    if centre < *stations.first()? || *stations.last()? < centre {
        return None;
    }
    if stations.len() == 1 {
        return Some(vec![weight]);
    }
    let (matrix, against) = energy(even, points, stations);
    let everything: usize = (1 << stations.len()) - 1;
    let mut choices: Vec<usize> = (1..=everything).filter(|it| it.count_ones() >= 2).collect();
    choices.sort_by_key(|it| std::cmp::Reverse(it.count_ones()));
    choices
        .into_iter()
        .find_map(|taut| balance(&matrix, &against, (weight, moment), stations, taut))
}

/// The pulls if just the hangers in `taut` (bits) are taut, if that is a balance: none
/// pushes, and no slack one is stretched.
fn balance(
    matrix: &[Vec<f64>],
    against: &[f64],
    resultant: (f64, f64),
    stations: &[f64],
    taut: usize,
) -> Option<Vec<f64>> {
    let which: Vec<usize> = (0..stations.len()).filter(|i| taut >> i & 1 == 1).collect();
    let n = which.len();
    // Unknown: the pulls, and the height and slope of the line (as multipliers).
    let mut rows = vec![vec![0.0; n + 3]; n + 2];
    for (r, &i) in which.iter().enumerate() {
        for (c, &j) in which.iter().enumerate() {
            rows[r][c] = matrix[i][j];
        }
        rows[r][n] = 1.0;
        rows[r][n + 1] = stations[i];
        rows[r][n + 2] = against[i];
        rows[n][r] = 1.0;
        rows[n + 1][r] = stations[i];
    }
    rows[n][n + 2] = resultant.0;
    rows[n + 1][n + 2] = resultant.1;
    let solution = eliminate(rows)?;
    let rounding = 1e-9 * resultant.0;
    if solution[..n].iter().any(|&pull| pull < -rounding) {
        return None;
    }
    let mut pulls = vec![0.0; stations.len()];
    for (&i, &pull) in which.iter().zip(&solution) {
        pulls[i] = pull.max(0.0);
    }
    let scale = resultant.0 * 1e-9 * stations.len() as f64;
    for i in (0..stations.len()).filter(|i| taut >> i & 1 == 0) {
        let bent: f64 = (0..stations.len()).map(|j| matrix[i][j] * pulls[j]).sum();
        let stretch = against[i] - bent - solution[n] - solution[n + 1] * stations[i];
        if stretch > scale {
            return None;
        }
    }
    Some(pulls)
}

/// Gauss with row exchange; the last column is the right-hand side.
pub(crate) fn eliminate(mut rows: Vec<Vec<f64>>) -> Option<Vec<f64>> {
    let n = rows.len();
    for column in 0..n {
        let pivot =
            (column..n).max_by(|&a, &b| rows[a][column].abs().total_cmp(&rows[b][column].abs()))?;
        rows.swap(column, pivot);
        if rows[column][column].abs() < 1e-300 {
            return None;
        }
        let pivot_row = rows[column].clone();
        for (at, row) in rows.iter_mut().enumerate() {
            if at != column {
                let factor = row[column] / pivot_row[column];
                for (value, above) in row.iter_mut().zip(&pivot_row) {
                    *value -= factor * above;
                }
            }
        }
    }
    Some((0..n).map(|i| rows[i][n] / rows[i][i]).collect())
}
