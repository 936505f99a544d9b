//! What the benches measure time with.

use std::time::Instant;

/// How long one call takes, milliseconds.
pub(crate) fn timed_ms(call: impl FnOnce()) -> f64 {
    let start = Instant::now();
    call();
    start.elapsed().as_secs_f64() * 1e3
}

/// Median of some samples, milliseconds: other work on the machine, which interrupts now
/// and then, does not count.
pub(crate) fn median(n: usize, sample: impl FnMut() -> f64) -> f64 {
    let mut times: Vec<f64> = std::iter::repeat_with(sample).take(n).collect();
    times.sort_by(f64::total_cmp);
    times[n / 2]
}

/// Median time of one call, milliseconds.
pub(crate) fn median_ms(n: usize, mut call: impl FnMut()) -> f64 {
    median(n, || timed_ms(&mut call))
}
