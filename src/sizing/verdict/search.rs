//! Roots and best places along one line.

/// Root between two ends of different sign (place, value) to a relative width, by the Illinois form of regula falsi
/// (M. Dowell and P. Jarratt, BIT 11 (1971) 168, from memory); `None` where the function has no value on the way.
pub fn root(ends: [(f64, f64); 2], width: f64, f: impl Fn(f64) -> Option<f64>) -> Option<f64> {
    let [(mut a, mut fa), (mut b, mut fb)] = ends;
    for _ in 0..100 {
        let c = if fb == fa { 0.5 * (a + b) } else { (a * fb - b * fa) / (fb - fa) };
        let fc = f(c)?;
        if (fc > 0.0) == (fb > 0.0) {
            fa *= 0.5;
        } else {
            (a, fa) = (b, fb);
        }
        if (c - b).abs() <= width * c.abs() || fc == 0.0 {
            return Some(c);
        }
        (b, fb) = (c, fc);
    }
    Some(b)
}

/// Best place between two bounds: a grid of `first` places, then golden section around the best of them. Places
/// without a value are passed over; `None` where there is none.
pub fn best(
    low: f64,
    high: f64,
    first: usize,
    width: f64,
    f: impl Fn(f64) -> Option<f64>,
) -> Option<(f64, f64)> {
    let step = (high - low) / (first.max(2) - 1) as f64;
    let grid = (0..first.max(2)).filter_map(|i| {
        let x = low + step * i as f64;
        Some((x, f(x)?))
    });
    let mut top = grid.max_by(|p, q| p.1.total_cmp(&q.1))?;
    let golden = 0.5 * (5.0_f64.sqrt() - 1.0);
    let (mut a, mut b) = ((top.0 - step).max(low), (top.0 + step).min(high));
    while b - a > width {
        let inner = [b - golden * (b - a), a + golden * (b - a)];
        let values = inner.map(|x| f(x).unwrap_or(f64::NEG_INFINITY));
        for (x, y) in inner.into_iter().zip(values) {
            if y > top.1 {
                top = (x, y);
            }
        }
        if values[0] > values[1] { b = inner[1] } else { a = inner[0] }
    }
    Some(top)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn root_of_a_cubic() {
        let f = |x: f64| Some(x.powi(3) - 2.0);
        let r = root([(0.0, -2.0), (4.0, 62.0)], 1e-10, f).unwrap();
        assert!((r - 2.0_f64.cbrt()).abs() < 1e-8, "{r}");
        assert_eq!(root([(0.0, -2.0), (4.0, 62.0)], 1e-10, |_| None), None);
    }

    #[test]
    fn best_of_two_hills_is_the_higher() {
        let f = |x: f64| (x != 5.0).then(|| (-(x - 2.0).powi(2)).exp() + 1.5 * (-(x - 8.0).powi(2)).exp());
        let (x, y) = best(0.0, 10.0, 11, 1e-6, f).unwrap();
        assert!((x - 8.0).abs() < 1e-5 && (y - 1.5).abs() < 1e-9);
        assert_eq!(best(0.0, 1.0, 3, 1e-3, |_| None), None);
    }
}
