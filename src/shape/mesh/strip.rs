//! The plain wall: a cylinder or cone between two rings, filled without a search by going along both rings at once.

/// Ends of the rings agree to this in the plane of parameters.
const SAME: f64 = 1e-9;

/// Triangles between the two straight rows of a wire whose places in the plane are given, counter-clockwise as the wire, by
/// their numbers along it; `None` when it is no such wall.
pub(super) fn strip(places: &[[f64; 2]]) -> Option<Vec<[usize; 3]>> {
    let n = places.len();
    let heights = places.iter().map(|p| p[1]);
    let (low, high) =
        (heights.clone().fold(f64::INFINITY, f64::min), heights.fold(f64::NEG_INFINITY, f64::max));
    if n < 4 || high - low < SAME {
        return None;
    }
    let is_low = |i: usize| (places[i % n][1] - low).abs() < SAME;
    let is_high = |i: usize| (places[i % n][1] - high).abs() < SAME;
    if !(0..n).all(|i| is_low(i) || is_high(i)) {
        return None;
    }
    // one row begins where the wire comes down, the other where it goes up
    let begins = |row: &dyn Fn(usize) -> bool| {
        let mut found = (0..n).filter(|i| row(*i) && !row(i + n - 1));
        found.next().filter(|_| found.next().is_none())
    };
    let (lower, upper) = (begins(&is_low)?, begins(&is_high)?);
    let lows: Vec<usize> = (0..n).map(|k| (lower + k) % n).take_while(|i| is_low(*i)).collect();
    let mut highs: Vec<usize> = (0..n).map(|k| (upper + k) % n).take_while(|i| is_high(*i)).collect();
    highs.reverse();
    let x = |i: usize| places[i][0];
    // both rows run the same way round the axis, without a step back; a wire that runs clockwise goes the other way
    let way = x(*lows.last()?) - x(lows[0]);
    let sign = if way == 0.0 { x(*highs.last()?) - x(highs[0]) } else { way }.signum();
    let runs = |row: &[usize]| row.windows(2).all(|w| (x(w[1]) - x(w[0])) * sign > 0.0);
    let square =
        (x(lows[0]) - x(highs[0])).abs() < SAME && (x(*lows.last()?) - x(*highs.last()?)).abs() < SAME;
    if lows.len() + highs.len() != n || !square || !runs(&lows) || !runs(&highs) {
        return None;
    }
    let (mut i, mut j) = (0, 0);
    let mut triangles = Vec::with_capacity(n);
    while i + 1 < lows.len() || j + 1 < highs.len() {
        let ahead = |row: &[usize], k: usize| row.get(k + 1).map_or(f64::INFINITY, |p| x(*p) * sign);
        if ahead(&lows, i) <= ahead(&highs, j) {
            triangles.push([lows[i], lows[i + 1], highs[j]]);
            i += 1;
        } else {
            triangles.push([lows[i], highs[j + 1], highs[j]]);
            j += 1;
        }
    }
    // the lower row runs to the right where the wire is counter-clockwise
    if sign < 0.0 {
        triangles.iter_mut().for_each(|t| t.swap(1, 2));
    }
    Some(triangles)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area(places: &[[f64; 2]], [a, b, c]: [usize; 3]) -> f64 {
        let [a, b, c] = [a, b, c].map(|i| places[i]);
        0.5 * ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))
    }

    #[test]
    fn a_wall_of_unlike_rows_is_filled_once_whichever_way_its_wire_runs() {
        let mut places = vec![
            [1.0, 0.0],
            [2.0, 0.0],
            [3.0, 0.0],
            [3.0, 1.0],
            [2.6, 1.0],
            [1.7, 1.0],
            [1.2, 1.0],
            [1.0, 1.0],
        ];
        for turn in 0..16 {
            places.rotate_left(1);
            if turn == 8 {
                places.reverse();
            }
            let found = strip(&places).unwrap();
            assert_eq!(found.len(), places.len() - 2);
            assert!(found.iter().all(|t| area(&places, *t) > 0.0), "{found:?}");
            assert!((found.iter().map(|t| area(&places, *t)).sum::<f64>() - 2.0).abs() < 1e-12);
        }
    }

    #[test]
    fn what_is_no_wall_is_left_to_the_search() {
        let notched = [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.5, 0.7], [0.0, 1.0]];
        assert_eq!(strip(&notched), None);
        let slanted = [[0.0, 0.0], [1.0, 0.0], [1.5, 1.0], [0.5, 1.0]];
        assert_eq!(strip(&slanted), None);
    }
}
