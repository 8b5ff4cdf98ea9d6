//! Fixed points x = g(x) that converge in few evaluations, by mixing the last ones.
//!
//! D. G. Anderson, "Iterative procedures for nonlinear integral equations", J. ACM 12 (1965) 547; in the
//! form of H. F. Walker and P. Ni, SIAM J. Numer. Anal. 49 (2011) 1715 (both from memory): the residual
//! f = g(x) − x is written as a combination of the last differences, and the same combination of the
//! differences of g is taken off.

/// Columns whose new part is smaller than this share of their length carry no information.
const DEPENDENT: f64 = 1e-7;

/// Memory of the last evaluations. The entries of x should be of like size.
#[derive(Clone, Debug)]
pub struct Anderson {
    depth: usize,
    last: Option<(Vec<f64>, Vec<f64>)>,
    residuals: Vec<Vec<f64>>,
    images: Vec<Vec<f64>>,
}

impl Anderson {
    /// Keeps at most `depth` differences.
    pub fn new(depth: usize) -> Self {
        Self { depth, last: None, residuals: Vec::new(), images: Vec::new() }
    }

    /// Forgets everything, for example after the map has changed.
    pub fn forget(&mut self) {
        *self = Self::new(self.depth);
    }

    /// Next x from the last one and its image.
    pub fn next(&mut self, x: &[f64], image: &[f64]) -> Vec<f64> {
        let residual = difference(image, x);
        if let Some((f, g)) = self.last.take() {
            self.residuals.push(difference(&residual, &f));
            self.images.push(difference(image, &g));
            if self.residuals.len() > self.depth {
                self.residuals.remove(0);
                self.images.remove(0);
            }
        }
        let weights = least_squares(&self.residuals, &residual);
        let mut next = image.to_vec();
        for (weight, column) in weights.iter().zip(&self.images) {
            next.iter_mut().zip(column).for_each(|(n, c)| *n -= weight * c);
        }
        self.last = Some((residual, image.to_vec()));
        next
    }
}

fn difference(a: &[f64], b: &[f64]) -> Vec<f64> {
    a.iter().zip(b).map(|(a, b)| a - b).collect()
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// Weights w that make |target − Σ w column| least, by Gram–Schmidt from the newest column on.
fn least_squares(columns: &[Vec<f64>], target: &[f64]) -> Vec<f64> {
    let n = columns.len();
    let mut basis: Vec<Option<Vec<f64>>> = vec![None; n];
    let mut upper = vec![vec![0.0; n]; n];
    let mut weights = vec![0.0; n];
    for j in (0..n).rev() {
        let mut v = columns[j].clone();
        let length = dot(&v, &v).sqrt();
        for i in (j + 1..n).rev() {
            let Some(q) = &basis[i] else { continue };
            upper[i][j] = dot(q, &v);
            v.iter_mut().zip(q).for_each(|(v, q)| *v -= upper[i][j] * q);
        }
        let rest = dot(&v, &v).sqrt();
        if rest > DEPENDENT * length && rest.is_finite() {
            upper[j][j] = rest;
            v.iter_mut().for_each(|v| *v /= rest);
            weights[j] = dot(&v, target);
            basis[j] = Some(v);
        }
    }
    // Rows from the oldest on: row i holds the columns j ≤ i.
    for i in 0..n {
        if basis[i].is_some() {
            let known: f64 = (0..i).map(|j| upper[i][j] * weights[j]).sum();
            weights[i] = (weights[i] - known) / upper[i][i];
        }
    }
    weights
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: the plane through (1, 0, 0) and (1, 1, 0) comes nearest to (3, 2, 7) at weights 1 and 2.
    #[test]
    fn weights_are_those_of_the_normal_equations() {
        let w = least_squares(&[vec![1.0, 0.0, 0.0], vec![1.0, 1.0, 0.0]], &[3.0, 2.0, 7.0]);
        assert!((w[0] - 1.0).abs() < 1e-14 && (w[1] - 2.0).abs() < 1e-14, "{w:?}");
        let w = least_squares(&[vec![1.0, 0.0], vec![1.0, 0.0]], &[3.0, 2.0]);
        assert_eq!(w, vec![0.0, 3.0], "a repeated column is left out");
    }

    /// On a linear map in n dimensions it ends after n + 1 evaluations or so (Walker and Ni: as GMRES).
    #[test]
    fn a_slow_linear_map_ends_after_as_many_steps_as_it_has_dimensions() {
        let rates = [0.999, 0.97, 0.5, -0.4];
        let map = |x: &[f64]| x.iter().zip(rates).map(|(x, r)| 1.0 + r * (x - 1.0)).collect::<Vec<_>>();
        let (mut x, mut mixer) = (vec![0.0, 3.0, -1.0, 2.0], Anderson::new(5));
        for _ in 0..7 {
            let image = map(&x);
            x = mixer.next(&x, &image);
        }
        assert!(x.iter().all(|x| (x - 1.0).abs() < 1e-8), "{x:?}");
    }
}
